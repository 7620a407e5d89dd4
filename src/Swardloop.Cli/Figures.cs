using System.Globalization;

namespace Swardloop.Cli;

/// <summary>Numbers as a person reads them: few digits, unit behind.</summary>
internal static class Figures
{
    /// <summary>A number to so many significant digits, written out plainly; never in powers of ten.</summary>
    /// <param name="value">The number; what is not finite is said in words.</param>
    /// <param name="digits">Significant digits, 1 to 15.</param>
    public static string Plain(double value, int digits = 2)
    {
        if (!double.IsFinite(value))
        {
            return double.IsNaN(value) ? "unknown" : value > 0 ? "unlimited" : "none";
        }

        if (value == 0)
        {
            return "0";
        }

        int decimals = digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        double unit = Math.Pow(10, Math.Max(-decimals, 0));
        double rounded = decimals >= 0 ? Math.Round(value, Math.Min(decimals, 15)) : Math.Round(value / unit) * unit;
        return rounded.ToString(decimals > 0 ? "0." + new string('0', Math.Min(decimals, 15)) : "0", CultureInfo.InvariantCulture);
    }

    /// <summary>A number with its unit and what it may be out by, to the digits that matter: <c>118 Ω ± 40</c>.</summary>
    /// <param name="value">The number.</param>
    /// <param name="deviation">What it may be out by, above zero.</param>
    /// <param name="unit">Its unit.</param>
    public static string WithDeviation(double value, double deviation, string unit)
    {
        int decimals = deviation > 0 && double.IsFinite(deviation) ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(deviation)), 0, 6) : 0;
        string form = decimals > 0 ? "0." + new string('0', decimals) : "0";
        double step = deviation >= 100 ? 10 : 1;
        return $"{Shown(value)} {unit} ± {Shown(deviation)}";

        string Shown(double number) => (Math.Round(number / step, decimals) * step).ToString(form, CultureInfo.InvariantCulture);
    }
}
