namespace Swardloop.Core.Forecasting;

/// <summary>Readings as the trend sees them: years from the first, ohms at 20 °C, and how far each may be out.</summary>
internal sealed class Series
{
    /// <summary>A bad contact is no resistor: what it adds wanders by such a share from reading to reading. Common practice, no source.</summary>
    public const double WanderShare = 0.03;

    /// <summary>The noise may be so many times what meter, leads, temperature and wandering explain: nodes and their prior weights.</summary>
    public static readonly (double Scale, double Weight)[] NoiseScales = [(0.6, 0.3), (0.9, 0.46), (1.3, 0.17), (2.2, 0.06), (4, 0.01)];

    private readonly double _oddDensity, _soundShare;

    public Series(double[] years, double[] ohms, double[] deviations, double soundOhms, double oddProbability)
    {
        (Years, Ohms, Deviations, SoundOhms) = (years, ohms, deviations, soundOhms);

        // A wrong reading may be anything within a range that no sound one leaves.
        OddSpanOhms = Math.Max(20, 2 * ohms.Max());
        _oddDensity = oddProbability / OddSpanOhms;
        _soundShare = (1 - oddProbability) / Math.Sqrt(2 * Math.PI);
    }

    public double[] Years { get; }

    public double[] Ohms { get; }

    public double[] Deviations { get; }

    /// <summary>What the loop measures with nothing wrong (Ω, 20 °C): only what exceeds it wanders.</summary>
    public double SoundOhms { get; }

    public double OddSpanOhms { get; }

    public int Count => Years.Length;

    /// <summary>One standard deviation of reading i when the loop truly has so many ohms.</summary>
    public double DeviationAt(int i, double level, double scale)
    {
        double wander = WanderShare * Math.Max(0, level - SoundOhms);
        return scale * Math.Sqrt((Deviations[i] * Deviations[i]) + (wander * wander));
    }

    /// <summary>Density (1/Ω) of reading i at a level: a normal about it, or anything.</summary>
    public double Density(int i, double level, double scale)
    {
        double deviation = DeviationAt(i, level, scale), z = (Ohms[i] - level) / deviation;
        return _oddDensity + (_soundShare / deviation * Math.Exp(-0.5 * z * z));
    }

    /// <summary>Probability that reading i is the odd sort, were the loop at a level.</summary>
    public double OddShare(int i, double level, double scale) => _oddDensity / Density(i, level, scale);
}
