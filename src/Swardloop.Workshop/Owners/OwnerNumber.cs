using System.Collections.Frozen;
using System.Globalization;

namespace Swardloop.Workshop.Owners;

/// <summary>A number as people type it on a telephone: <c>5,6</c>, <c>5.6</c>, <c>5,6 Ohm</c>, <c>1 200</c>, <c>1.2 kΩ</c>.</summary>
public static class OwnerNumber
{
    private const int MostCharacters = 30;

    /// <summary>What may stand behind the number. "m" is metres; mega is believed only before a unit of resistance.</summary>
    private static readonly FrozenDictionary<string, double> Units = new Dictionary<string, double>
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
        ["ω"] = 1,
        ["ohm"] = 1,
        ["ohms"] = 1,
        ["k"] = 1e3,
        ["kω"] = 1e3,
        ["kohm"] = 1e3,
        ["mω"] = 1e6,
        ["mohm"] = 1e6,
    }.ToFrozenDictionary();

    /// <summary>Reads it. With a comma and a point in one number, or two of either, nobody can know what was meant: that is refused.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="number">The number, in the unit without a prefix.</param>
    public static bool TryRead(string text, out double number)
    {
        number = 0;
        string typed = string.Concat(text.Where(c => !char.IsWhiteSpace(c))).Replace('\u2126', 'Ω').ToLowerInvariant();
        int end = 0;
        while (end < typed.Length && (char.IsAsciiDigit(typed[end]) || typed[end] is '.' or ','))
        {
            end++;
        }

        string digits = typed[..end];
        if (typed.Length > MostCharacters || digits.Count(c => c is '.' or ',') > 1
            || !Units.TryGetValue(typed[end..], out double factor)
            || !double.TryParse(digits.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value))
        {
            return false;
        }

        number = value * factor;
        return true;
    }
}
