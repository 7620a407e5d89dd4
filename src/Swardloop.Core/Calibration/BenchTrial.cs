namespace Swardloop.Core.Calibration;

/// <summary>One resistor in the loop and what the mower then did.</summary>
/// <param name="Site">Where.</param>
/// <param name="LoopOhms">Resistance of the whole loop, wire and resistor (Ω), 0 or more. Its own uncertainty is not counted: resistors
/// are known better than distances are seen.</param>
public abstract record BenchTrial(BenchSite Site, double LoopOhms)
{
    // How sharply "heard" turns into "not heard" from run to run, as a share of the field: about 5 %, one standard deviation.
    // Common practice, no source.
    private protected const double HearingDeviation = 0.05;

    /// <summary>Logarithm of how likely the trial is, up to a constant of its own.</summary>
    /// <param name="reachConstantOhmMetres">T (Ω·m), above 0.</param>
    /// <param name="sourceOhms">R0 (Ω), above 0.</param>
    public abstract double LogLikelihood(double reachConstantOhmMetres, double sourceOhms);

    /// <summary>The field per ampere (1/m) that the mower needs in this trial: |Z| / T.</summary>
    internal double NeededField(double reachConstantOhmMetres, double sourceOhms)
    {
        double resistance = sourceOhms + LoopOhms;
        return Math.Sqrt((resistance * resistance) + (Site.ReactanceOhms * Site.ReactanceOhms)) / reachConstantOhmMetres;
    }

    /// <summary>Logarithm of how probable it is that the mower covers everything, or that it does not.</summary>
    private protected double LogCovers(double reachConstantOhmMetres, double sourceOhms, bool covers)
    {
        double spare = Math.Log(Site.WeakestFieldPerAmpere / NeededField(reachConstantOhmMetres, sourceOhms));
        return LogLogistic(covers ? spare : -spare);
    }

    private protected static double HalfSquare(double deviations) => -deviations * deviations / 2;

    /// <summary>Logarithm of the logistic function, whose standard deviation is <see cref="HearingDeviation"/>.</summary>
    private static double LogLogistic(double logField)
    {
        const double Scale = HearingDeviation * 0.551328895421792; // √3 / π
        double x = logField / Scale;
        return x > 0 ? -Math.Log(1 + Math.Exp(-x)) : x - Math.Log(1 + Math.Exp(x));
    }
}

/// <summary>The mower ran up to a distance from the nearest wire and turned back or stopped there.</summary>
/// <param name="Site">Where.</param>
/// <param name="LoopOhms">Resistance of the whole loop (Ω).</param>
/// <param name="DistanceMetres">How far from the nearest wire (m), at the least favourable spot.</param>
/// <param name="DeviationMetres">One standard deviation of that distance (m), above 0.</param>
public sealed record ReachTrial(BenchSite Site, double LoopOhms, double DistanceMetres, double DeviationMetres) : BenchTrial(Site, LoopOhms)
{
    /// <inheritdoc/>
    public override double LogLikelihood(double reachConstantOhmMetres, double sourceOhms) =>
        // That it turned back says, beside the distance, that it did not cover everything; a distance alone would be content with
        // any signal strong enough to cover a small lawn.
        HalfSquare((Site.Profile.At(NeededField(reachConstantOhmMetres, sourceOhms)).Metres - DistanceMetres) / DeviationMetres)
        + LogCovers(reachConstantOhmMetres, sourceOhms, covers: false);
}

/// <summary>The resistance was found at which the weakest place, the middle as a rule, just falls silent.</summary>
/// <param name="Site">Where.</param>
/// <param name="LoopOhms">Resistance of the whole loop at that limit (Ω).</param>
/// <param name="DeviationOhms">One standard deviation of the limit (Ω), above 0.</param>
public sealed record LimitTrial(BenchSite Site, double LoopOhms, double DeviationOhms) : BenchTrial(Site, LoopOhms)
{
    /// <inheritdoc/>
    public override double LogLikelihood(double reachConstantOhmMetres, double sourceOhms)
    {
        // Compared as |Z|, so that a source too large for any limit still counts by how far off it is.
        double impedance = NeededField(reachConstantOhmMetres, sourceOhms) * reachConstantOhmMetres;
        double share = (sourceOhms + LoopOhms) / impedance;
        return HalfSquare(((reachConstantOhmMetres * Site.WeakestFieldPerAmpere) - impedance) / (DeviationOhms * share));
    }
}

/// <summary>The mower was heard to cover the whole lawn, or to be silent in the middle: no distance, one bit.</summary>
/// <param name="Site">Where.</param>
/// <param name="LoopOhms">Resistance of the whole loop (Ω).</param>
/// <param name="CoversEverything">Whether it covered everything; if not, the weakest place was silent.</param>
public sealed record CoverTrial(BenchSite Site, double LoopOhms, bool CoversEverything) : BenchTrial(Site, LoopOhms)
{
    /// <inheritdoc/>
    public override double LogLikelihood(double reachConstantOhmMetres, double sourceOhms) =>
        LogCovers(reachConstantOhmMetres, sourceOhms, CoversEverything);
}
