using System.Numerics;

namespace Swardloop.Core.Circuits;

/// <summary>A uniform piece of line as the π of one series impedance and two equal shunts that equals it exactly at its ends.</summary>
/// <param name="SeriesOhms">z·sinh(x)/x (Ω), where z and y are the piece's whole series impedance and shunt admittance and x² = z·y.</param>
/// <param name="EndSiemens">Each end's shunt, (y/2)·tanh(x/2)/(x/2) (S).</param>
/// <remarks>Source: equivalent π of a long line, textbooks on power lines (from memory).</remarks>
internal readonly record struct LinePi(Complex SeriesOhms, Complex EndSiemens)
{
    // Below this |x²| the series, to its last kept term, is right to every digit; above it, the functions themselves are.
    private const double SeriesBelow = 1e-3;

    // Each coefficient of a series in x² over the one before it: sinh(x)/x to x⁸, and
    // tanh(x)/x to x¹⁰: 1 − x²/3 + 2x⁴/15 − 17x⁶/315 + 62x⁸/2835 − 1382x¹⁰/155925.
    private static readonly double[] SinhRatios = [1.0 / 6, 1.0 / 20, 1.0 / 42, 1.0 / 72];

    private static readonly double[] TanhRatios = [-1.0 / 3, -2.0 / 5, -17.0 / 42, -62.0 / 153, -1382.0 / 3410];

    public static LinePi Of(Complex ohms, Complex siemens)
    {
        Complex square = ohms * siemens;
        if (square.Magnitude < SeriesBelow)
        {
            return new(ohms * Series(square, SinhRatios), siemens / 2 * Series(square / 4, TanhRatios));
        }

        Complex x = Complex.Sqrt(square);
        return new(ohms * Complex.Sinh(x) / x, siemens * Complex.Tanh(x / 2) / x);
    }

    /// <summary>The same with real numbers, for DC.</summary>
    public static (double SeriesOhms, double EndSiemens) Of(double ohms, double siemens)
    {
        double square = ohms * siemens;
        if (square < SeriesBelow)
        {
            return (ohms * Series(square, SinhRatios), siemens / 2 * Series(square / 4, TanhRatios));
        }

        double x = Math.Sqrt(square);
        return (ohms * Math.Sinh(x) / x, siemens * Math.Tanh(x / 2) / x);
    }

    private static double Series(double square, double[] ratios)
    {
        double sum = 1;
        for (int i = ratios.Length - 1; i >= 0; i--)
        {
            sum = 1 + (square * ratios[i] * sum);
        }

        return sum;
    }

    private static Complex Series(Complex square, double[] ratios)
    {
        Complex sum = Complex.One;
        for (int i = ratios.Length - 1; i >= 0; i--)
        {
            sum = 1 + (square * ratios[i] * sum);
        }

        return sum;
    }
}
