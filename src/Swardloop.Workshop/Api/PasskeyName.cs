namespace Swardloop.Workshop.Api;

/// <summary>A passkey's name.</summary>
/// <param name="Name">1 to <see cref="MostCharacters"/> characters.</param>
public sealed record PasskeyName(string Name)
{
    /// <summary>Longest name.</summary>
    public const int MostCharacters = 60;
}
