namespace Swardloop.Core.Forecasting;

/// <summary>A straight line through points by weighted least squares, with what is uncertain about it.</summary>
/// <remarks>Solved about the weighted means, so that an offset of either axis costs no digits. Source: any textbook of regression; checked against NIST
/// StRD Norris and NoInt1 (relative error below 1e-10).</remarks>
public sealed record StraightLine
{
    private readonly double _meanX, _spreadX, _weight;

    private StraightLine(double slope, double meanX, double meanY, double spreadX, double weight, double residualSquares, int degrees)
    {
        (Slope, Intercept, DegreesOfFreedom) = (slope, meanY - (slope * meanX), degrees);
        (_meanX, _spreadX, _weight) = (meanX, spreadX, weight);
        ResidualDeviation = degrees > 0 ? Math.Sqrt(residualSquares / degrees) : null;
    }

    /// <summary>Change of y by one unit of x.</summary>
    public double Slope { get; }

    /// <summary>y at x = 0.</summary>
    public double Intercept { get; }

    /// <summary>Points beyond those that fix the line.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>Standard deviation of a point of weight 1 about the line, estimated from the residuals; null when no point is left over to tell.</summary>
    public double? ResidualDeviation { get; }

    /// <summary>Standard error of <see cref="Slope"/>; null without residuals.</summary>
    public double? SlopeError => ResidualDeviation / Math.Sqrt(_spreadX);

    /// <summary>Standard error of <see cref="Intercept"/>; null without residuals, 0 for a line made to pass through the origin.</summary>
    public double? InterceptError => _weight == 0 ? 0 : ResidualDeviation * Math.Sqrt((1 / _weight) + (_meanX * _meanX / _spreadX));

    /// <summary>Fits slope and intercept.</summary>
    /// <param name="x">Abscissae, not all alike.</param>
    /// <param name="y">Ordinates, as many.</param>
    /// <param name="weights">Weights above zero, as many: 1/variance up to a factor. Empty: all alike.</param>
    /// <exception cref="ArgumentException">Lengths differ, fewer than two points, or all at one x.</exception>
    public static StraightLine Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> weights = default)
    {
        Check(x, y, weights, 2);
        double weight = 0, meanX = 0, meanY = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double w = weights.IsEmpty ? 1 : weights[i];
            weight += w;
            meanX += w * (x[i] - meanX) / weight;
            meanY += w * (y[i] - meanY) / weight;
        }

        double spread = 0, common = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double w = weights.IsEmpty ? 1 : weights[i];
            spread += w * (x[i] - meanX) * (x[i] - meanX);
            common += w * (x[i] - meanX) * (y[i] - meanY);
        }

        if (!(spread > 0))
        {
            throw new ArgumentException("All points stand at one x: no line is told.", nameof(x));
        }

        double slope = common / spread, squares = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double off = y[i] - meanY - (slope * (x[i] - meanX));
            squares += (weights.IsEmpty ? 1 : weights[i]) * off * off;
        }

        return new(slope, meanX, meanY, spread, weight, squares, x.Length - 2);
    }

    /// <summary>Fits a slope to a line through the origin.</summary>
    /// <inheritdoc cref="Fit" path="/param"/>
    /// <exception cref="ArgumentException">Lengths differ, no point, or all at x = 0.</exception>
    public static StraightLine FitThroughOrigin(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> weights = default)
    {
        Check(x, y, weights, 1);
        double spread = 0, common = 0, squares = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double w = weights.IsEmpty ? 1 : weights[i];
            spread += w * x[i] * x[i];
            common += w * x[i] * y[i];
        }

        if (!(spread > 0))
        {
            throw new ArgumentException("All points stand at the origin: no slope is told.", nameof(x));
        }

        for (int i = 0; i < x.Length; i++)
        {
            double off = y[i] - (common / spread * x[i]);
            squares += (weights.IsEmpty ? 1 : weights[i]) * off * off;
        }

        return new(common / spread, 0, 0, spread, 0, squares, x.Length - 1);
    }

    /// <summary>The line's height.</summary>
    public double At(double x) => Intercept + (Slope * x);

    /// <summary>Standard error of the line itself at x; null without residuals.</summary>
    public double? MeanError(double x) =>
        ResidualDeviation * Math.Sqrt((_weight == 0 ? 0 : 1 / _weight) + ((x - _meanX) * (x - _meanX) / _spreadX));

    /// <summary>Standard deviation of a new point of weight 1 about the fitted line at x; null without residuals. A band at a level is this many times Student's
    /// quantile with <see cref="DegreesOfFreedom"/>.</summary>
    public double? PredictionError(double x) => MeanError(x) is { } mean && ResidualDeviation is { } one ? Math.Sqrt((mean * mean) + (one * one)) : null;

    private static void Check(ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> weights, int least)
    {
        if (x.Length != y.Length || (!weights.IsEmpty && weights.Length != x.Length) || x.Length < least)
        {
            throw new ArgumentException($"Needs {least} points or more, and as many ordinates and weights as abscissae.", nameof(x));
        }
    }
}
