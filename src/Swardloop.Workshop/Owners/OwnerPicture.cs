namespace Swardloop.Workshop.Owners;

/// <summary>A drawing for an owner.</summary>
/// <param name="Svg">The drawing; its title says the same as the words.</param>
/// <param name="Words">What it shows, to stand under it.</param>
public sealed record OwnerPicture(string Svg, string Words)
{
    /// <summary>The line of the owner's instructions that it belongs to, counted from 0; null where it belongs to all of them.</summary>
    public int? Line { get; init; }
}
