namespace Swardloop.Workshop.Owners;

/// <summary>A drawing for an owner.</summary>
/// <param name="Svg">The drawing; its title says the same as the words.</param>
/// <param name="Words">What it shows, to stand under it.</param>
public sealed record OwnerPicture(string Svg, string Words);
