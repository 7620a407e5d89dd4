using System.Globalization;

namespace Swardloop.Model.Advising;

/// <summary>How numbers of an advice are written: few enough digits to be the same on every machine, and honest.</summary>
internal static class Rounding
{
    /// <summary>A probability: nine decimals, and six significant digits below 0.001. Order is kept, nothing possible is
    /// written as 0, and written probabilities of n outcomes add up to 1 within n · 5e-10.</summary>
    public static double Probability(double value) => value >= 1e-3 ? Decimals(value, 9) : Significant(value, 6);

    /// <summary>So many decimals, halves away from zero; never a negative zero.</summary>
    public static double Decimals(double value, int decimals) => Math.Round(value, decimals, MidpointRounding.AwayFromZero) + 0.0;

    /// <summary>So many significant digits.</summary>
    public static double Significant(double value, int digits) =>
        double.Parse(value.ToString("E" + (digits - 1).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
