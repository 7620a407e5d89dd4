namespace Swardloop.Workshop.Api;

/// <summary>What a password must be; the page says it and the server asks for it.</summary>
public static class PasswordRule
{
    /// <summary>Fewest characters. Length counts; there is no rule about kinds of characters.</summary>
    public const int FewestCharacters = 10;
}
