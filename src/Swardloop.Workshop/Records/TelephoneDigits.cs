namespace Swardloop.Workshop.Records;

/// <summary>Telephone numbers compared by their digits, however they are written: with blanks, dashes and brackets, with a country's code or with the
/// nought that stands for it.</summary>
/// <remarks>A country's code has one to three digits (ITU-T E.164, 6.2.1). Which, no table here says: all three are tried.</remarks>
public static class TelephoneDigits
{
    /// <summary>Fewer digits than these are a house's number, or a year's.</summary>
    public const int Fewest = 4;

    /// <summary>What is left of a number without its country's code has at least so many digits.</summary>
    private const int FewestNational = 6;

    /// <summary>Whether a text may be a telephone number, or part of one.</summary>
    public static bool MayBe(string typed) =>
        typed.All(c => char.IsAsciiDigit(c) || c is ' ' or '\u00a0' or '+' or '-' or '/' or '(' or ')' or '.') && typed.Count(char.IsAsciiDigit) >= Fewest;

    /// <summary>Whether what was typed is a number, or part of it.</summary>
    /// <param name="typed">A number or some digits of it, as <see cref="MayBe"/> allows.</param>
    /// <param name="number">The number as it is kept.</param>
    public static bool Match(string typed, string? number)
    {
        if (number is null || !MayBe(typed))
        {
            return false;
        }

        string[] kept = [.. Forms(number)];
        return Forms(typed).Any(digits => kept.Any(whole => whole.Contains(digits, StringComparison.Ordinal)));
    }

    private static IEnumerable<string> Forms(string written)
    {
        string digits = string.Concat(written.Where(char.IsAsciiDigit));
        if (digits.Length >= Fewest)
        {
            yield return digits;
        }

        bool isInternational = written.TrimStart().StartsWith('+') || digits.StartsWith("00", StringComparison.Ordinal);
        string national = digits.TrimStart('0');
        if (national.Length < digits.Length && national.Length >= Fewest)
        {
            yield return national;
        }

        for (int code = 1; isInternational && code <= 3; code++)
        {
            // The nought in brackets of "+44 (0)20 …" is not dialled with the code.
            if (national.Length > code && national[code..].TrimStart('0') is { Length: >= FewestNational } rest)
            {
                yield return rest;
            }
        }
    }
}
