namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>A contact that comes and goes: at each moment the wire is sound or as good as broken. Shares are judgement, no source.</summary>
internal static class UnsteadyContact
{
    /// <summary>Share of the moments at which the contact is made.</summary>
    public const double MadeShare = 0.55;

    /// <summary>Of the readings over an open contact, the share that is out of range; the rest is any resistance, even in the logarithm over eight decades.</summary>
    private const double OutOfRangeShare = 0.6, LogRange = 18.42;

    /// <summary>Of the contacts that are open for as long as the weather lasts, the share that is a clean break; the rest is a resistance of any size.</summary>
    public const double BrokenShare = 0.4;

    private const double OpenWhenWet = 0.6, OpenInFrost = 0.6, OpenWhenDry = 0.35, OpenAnyhow = 0.45, OpenInAcRatio = 0.3;

    /// <summary>Probability that a contact that goes with the weather is open on some ground: most are bad when wet or in frost, some when dry.</summary>
    public static double OpenShare(Ground ground) =>
        ground.Weather.HasFlag(Conditions.Frost) ? OpenInFrost : ground.Weather.HasFlag(Conditions.Wet) ? OpenWhenWet : ground.Weather.HasFlag(Conditions.Dry) ? OpenWhenDry : OpenAnyhow;

    /// <summary>The ground that an observation was made on.</summary>
    public static Ground GroundOf(Observation seen) => new(seen.By, seen.Conditions & (Conditions.Wet | Conditions.Dry | Conditions.Frost), seen.Conditions.HasFlag(Conditions.Moved) || seen is Observation.Wiggle);

    /// <summary>Density of an AC ratio's share across such a contact: as on a sound wire, or as over a fault at its place.</summary>
    /// <param name="seen">The reading.</param>
    /// <param name="soundShare">Share that a sound wire shows.</param>
    /// <param name="openShare">Share that a break at its place shows.</param>
    public static double AcRatio(Observation.AcRatio seen, double soundShare, double openShare) =>
        ((1 - OpenInAcRatio) * AcRatioTest.Density(AcRatioTest.ShareOf(seen), soundShare, 0.004)) + (OpenInAcRatio * AcRatioTest.Density(AcRatioTest.ShareOf(seen), openShare, 0.03));

    /// <summary>Who met the wire in what weather: for so long a contact that goes with the weather stays as it is.</summary>
    /// <param name="By">Who.</param>
    /// <param name="Weather">Wet, dry, frost or none noted.</param>
    /// <param name="IsMoment">The wire was moved: another moment each time.</param>
    public readonly record struct Ground(Person By, Conditions Weather, bool IsMoment);

    /// <summary>Likelihood of one reading.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="inPath">Whether the contact is in its path.</param>
    /// <param name="factorDeviation">Deviation of the wire's factor.</param>
    public static double Likelihood(in OhmsReading reading, bool inPath, double factorDeviation)
    {
        double wire = factorDeviation * reading.NominalOhms, deviation = Math.Sqrt((reading.DeviationOhms * reading.DeviationOhms) + (wire * wire));
        double sound, broken;
        if (reading.Ohms is { } ohms)
        {
            double z = (ohms - reading.NominalOhms) / deviation;
            sound = Math.Exp(-z * z / 2) / (deviation * Math.Sqrt(2 * Math.PI));
            broken = (1 - OutOfRangeShare) / (LogRange * Math.Max(Math.Abs(ohms), reading.DeviationOhms));
        }
        else
        {
            (sound, broken) = (OverRange.Probability(reading.NominalOhms), OutOfRangeShare);
        }

        double right = inPath ? (MadeShare * sound) + ((1 - MadeShare) * broken) : sound;
        return ((1 - reading.WrongProbability) * right) + (reading.WrongProbability * broken);
    }
}
