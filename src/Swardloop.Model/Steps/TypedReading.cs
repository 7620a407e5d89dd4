using System.Collections.Frozen;
using System.Globalization;

namespace Swardloop.Model.Steps;

/// <summary>A reading as people say it and meters show it: <c>5,6</c>, <c>5.6 Ohm</c>, <c>96k</c>, <c>0,096 k</c>, <c>1.5M</c>, <c>1 200</c>. The one reader for
/// the desk, the garden and the owner's page.</summary>
public static class TypedReading
{
    private const int MostCharacters = 30;

    /// <summary>What may stand behind a number, by the unit of the field. No meter shows thousandths of an ohm with an m, so m is mega there,
    /// however it was typed.</summary>
    private static readonly FrozenDictionary<string, FrozenDictionary<string, double>> Units = new Dictionary<string, FrozenDictionary<string, double>>
    {
        ["Ω"] = Of(1, ("", 1), ("ω", 1), ("ohm", 1), ("ohms", 1), ("k", 1e3), ("kω", 1e3), ("kohm", 1e3), ("kohms", 1e3), ("kiloohm", 1e3), ("kiloohms", 1e3), ("m", 1e6),
            ("mω", 1e6), ("mohm", 1e6), ("mohms", 1e6), ("meg", 1e6), ("megohm", 1e6), ("megohms", 1e6), ("megaohm", 1e6)),
        ["MΩ"] = Of(1e6, ("", 1e6), ("m", 1e6), ("mω", 1e6), ("mohm", 1e6), ("meg", 1e6), ("megohm", 1e6), ("megohms", 1e6), ("megaohm", 1e6), ("g", 1e9), ("gω", 1e9),
            ("gohm", 1e9), ("k", 1e3), ("kω", 1e3), ("kohm", 1e3)),
        ["V"] = Of(1, ("", 1), ("v", 1), ("volt", 1), ("volts", 1), ("mv", 1e-3)),
        ["nF"] = Of(1, ("", 1), ("n", 1), ("nf", 1), ("µ", 1e3), ("µf", 1e3), ("u", 1e3), ("uf", 1e3), ("p", 1e-3), ("pf", 1e-3)),
        ["ns"] = Of(1, ("", 1), ("ns", 1), ("µs", 1e3), ("us", 1e3)),
        ["m"] = Of(1, ("", 1), ("m", 1), ("meter", 1), ("metre", 1), ("metres", 1), ("meters", 1), ("cm", 0.01)),
        ["ft"] = Of(1, ("", 1), ("ft", 1), ("feet", 1), ("foot", 1), ("'", 1)),
    }.ToFrozenDictionary();

    /// <summary>Reads it. With a comma and a point in one number, or two of either, nobody can know what was meant: that is refused.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="unit">Unit of the field: Ω, MΩ, V, nF, ns, m or ft; null or another for a bare number.</param>
    /// <param name="number">The number, in the field's unit.</param>
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
        if (typed.Length > MostCharacters || digits.Count(c => c is '.' or ',') > 1 || !TryFactor(typed[end..], unit, out double factor)
            || !decimal.TryParse(digits.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal value))
        {
            return false;
        }

        // In decimal digits, as it was typed: 0,096 k is 96 Ω and not 96.00000000000001 Ω.
        number = factor >= 1 && value < 1e15m ? (double)(value * (decimal)factor) : (double)value * factor;
        return true;
    }

    /// <summary>Whether a unit or a prefix stands behind the number, so that what was understood is worth saying.</summary>
    public static bool HasUnit(string text) => Plain(text) is [.., var last] && !char.IsAsciiDigit(last) && last is not ('.' or ',');

    /// <summary>Whether somebody typed what a meter shows when a resistance is too much for it, in letters: <c>OL</c>, <c>0.L</c>.</summary>
    public static bool IsOverRange(string text) => Plain(text).Replace(".", "", StringComparison.Ordinal) is "ol" or "0l" or "ofl" or "over" or "over-range";

    /// <summary>Whether a 1 stands alone, without a point: many meters show that when a resistance is too much for them.</summary>
    public static bool IsLoneOne(string text) => Plain(text).TrimEnd('.') is "1" or "1ω" or "1ohm";

    /// <summary>Whether it begins with a minus.</summary>
    public static bool IsNegative(string text) => Plain(text) is ['-' or '\u2212' or '\u2013', ..];

    private static bool TryFactor(string suffix, string? unit, out double factor)
    {
        if (Units.TryGetValue(unit ?? "", out FrozenDictionary<string, double>? known))
        {
            return known.TryGetValue(suffix, out factor);
        }

        factor = 1;
        return suffix.Length == 0 || suffix == unit?.ToLowerInvariant();
    }

    private static FrozenDictionary<string, double> Of(double own, params (string Suffix, double Factor)[] suffixes) =>
        suffixes.ToFrozenDictionary(each => each.Suffix, each => each.Factor / own);

    private static string Plain(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c))).Replace('\u2126', 'Ω').Replace('\u03bc', 'µ').ToLowerInvariant();
}
