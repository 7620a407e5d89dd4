using System.Security.Cryptography;

namespace Swardloop.Server.Accounts;

/// <summary>The code on the server's console with which the first account is made.</summary>
internal static class FirstAccountCode
{
    // No letters that look alike.
    private const string Letters = "abcdefghjkmnpqrstuvwxyz23456789";

    /// <summary>A new code: 12 letters and digits in three groups, 59 bits.</summary>
    public static string New() => string.Join('-', Enumerable.Range(0, 3).Select(_ => RandomNumberGenerator.GetString(Letters, 4)));

    /// <summary>Whether a person typed the code; blanks, hyphens and capitals do not matter. Takes the same time whatever was typed.</summary>
    public static bool IsSame(string code, string typed) => CryptographicOperations.FixedTimeEquals(Bytes(code), Bytes(typed));

    private static byte[] Bytes(string code) =>
        System.Text.Encoding.UTF8.GetBytes(string.Concat(code.Where(char.IsLetterOrDigit).Select(char.ToLowerInvariant)));
}
