using System.Collections.Frozen;
using System.Globalization;

namespace Swardloop.Workshop.Owners;

/// <summary>A number as people type it on a telephone: <c>5,6</c>, <c>5.6</c>, <c>5,6 Ohm</c>, <c>1 200</c>, <c>1.2 kΩ</c>.</summary>
public static class OwnerNumber
{
    private const int MostCharacters = 30;

    /// <summary>What may stand behind a resistance. No meter shows thousandths of an ohm with an m, so m is mega there, however it was typed.</summary>
    private static readonly FrozenDictionary<string, double> OhmUnits = new Dictionary<string, double>
    {
        [""] = 1,
        ["ω"] = 1,
        ["ohm"] = 1,
        ["ohms"] = 1,
        ["k"] = 1e3,
        ["kω"] = 1e3,
        ["kohm"] = 1e3,
        ["m"] = 1e6,
        ["mω"] = 1e6,
        ["mohm"] = 1e6,
    }.ToFrozenDictionary();

    /// <summary>What may stand behind anything else: metres or volts.</summary>
    private static readonly FrozenDictionary<string, double> OtherUnits = new Dictionary<string, double>
    {
        [""] = 1,
        ["m"] = 1,
        ["meter"] = 1,
        ["metre"] = 1,
        ["metres"] = 1,
        ["meters"] = 1,
        ["v"] = 1,
        ["volt"] = 1,
        ["volts"] = 1,
    }.ToFrozenDictionary();

    /// <summary>Reads it. With a comma and a point in one number, or two of either, nobody can know what was meant: that is refused.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="unit">Unit of the field: Ω, m or V.</param>
    /// <param name="number">The number, in the unit without a prefix.</param>
    public static bool TryRead(string text, string? unit, out double number)
    {
        number = 0;
        string typed = Plain(text);
        int end = 0;
        while (end < typed.Length && (char.IsAsciiDigit(typed[end]) || typed[end] is '.' or ','))
        {
            end++;
        }

        string digits = typed[..end];
        if (typed.Length > MostCharacters || digits.Count(c => c is '.' or ',') > 1
            || !(unit == "Ω" ? OhmUnits : OtherUnits).TryGetValue(typed[end..], out double factor)
            || !double.TryParse(digits.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value))
        {
            return false;
        }

        number = value * factor;
        return true;
    }

    /// <summary>Whether somebody typed what a meter shows when a resistance is too much for it, in letters: <c>OL</c>, <c>0.L</c>.</summary>
    public static bool IsOverRange(string text) => Plain(text).Replace(".", "", StringComparison.Ordinal) is "ol" or "0l" or "ofl" or "over" or "over-range";

    /// <summary>Whether a 1 stands alone, without a point: many meters show that when a resistance is too much for them.</summary>
    public static bool IsLoneOne(string text) => Plain(text).TrimEnd('.') is "1" or "1ω" or "1ohm";

    /// <summary>Whether it begins with a minus.</summary>
    public static bool IsNegative(string text) => Plain(text) is ['-' or '\u2212' or '\u2013', ..];

    private static string Plain(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c))).Replace('\u2126', 'Ω').ToLowerInvariant();
}
