using System.Globalization;

namespace Swardloop.Model.Checks;

/// <summary>Which numbers are allowed in a place, in the file's own unit.</summary>
/// <param name="Least">Least value.</param>
/// <param name="Most">Greatest value, itself allowed.</param>
/// <param name="Unit">Unit as people write it; empty for a bare number.</param>
/// <param name="LeastItselfAllowed">Whether <paramref name="Least"/> may stand there too.</param>
public sealed record NumberRange(double Least, double Most, string Unit, bool LeastItselfAllowed = true)
{
    // As people write large numbers in every language: in threes, apart by a space at which no line breaks. Four digits are read without.
    private static readonly NumberFormatInfo InThrees = new() { NumberGroupSeparator = "\u00a0" };

    /// <summary>More than zero, up to <paramref name="most"/>.</summary>
    public static NumberRange AboveZero(double most, string unit) => new(0, most, unit, LeastItselfAllowed: false);

    /// <summary>Whether a number is in the range; NaN and infinities are not.</summary>
    public bool Holds(double value) => (LeastItselfAllowed ? value >= Least : value > Least) && value <= Most;

    /// <summary><c>a number from 0 to 100 000 m</c>.</summary>
    public override string ToString() =>
        $"a number {(LeastItselfAllowed ? "from" : "above")} {Digits(Least)} {(LeastItselfAllowed ? "to" : "and up to")} {Digits(Most)}{(Unit.Length > 0 ? " " : "")}{Unit}";

    private static string Digits(double bound) => Math.Abs(bound) is >= 1e4 and < 1e15
        ? bound.ToString("#,0.###", InThrees)
        : bound.ToString(CultureInfo.InvariantCulture);
}
