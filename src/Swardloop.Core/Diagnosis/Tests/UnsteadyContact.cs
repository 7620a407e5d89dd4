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

    /// <summary>Probability that an open contact's resistance is so low that at 1 kHz the wire beyond still counts.</summary>
    /// <param name="readings">All readings: those that met it open say it.</param>
    public static double Conducts(IEnumerable<OhmsReading> readings)
    {
        // Half of the resistances lie below the impedance of some tens of nanofarads, about 10 kΩ.
        const double HalfOhms = 10e3, NotRead = 0.5, AsGoodAsBroken = 0.05;
        return readings.Where(reading => !(reading.Ohms < (3 * reading.NominalOhms) + 20))
            .Select(reading => reading.Ohms is { } ohms ? Math.Max(AsGoodAsBroken, 1 / (1 + (ohms / HalfOhms))) : AsGoodAsBroken).DefaultIfEmpty(NotRead).Average();
    }

    /// <summary>A contact that goes with the weather is for a moment what it is not otherwise.</summary>
    public const double ForAMoment = 0.08;

    private const double OpenWhenWet = 0.6, OpenInFrost = 0.6, OpenWhenDry = 0.35, OpenAnyhow = 0.45;

    /// <summary>Probability that a contact that goes with the weather is open on some ground: most are bad when wet or in frost, some when dry.</summary>
    public static double OpenShare(Ground ground) =>
        ground.Weather.HasFlag(Conditions.Frost) ? OpenInFrost : ground.Weather.HasFlag(Conditions.Wet) ? OpenWhenWet : ground.Weather.HasFlag(Conditions.Dry) ? OpenWhenDry : OpenAnyhow;

    /// <summary>The ground that an observation was made on.</summary>
    public static Ground GroundOf(Observation seen) => new(seen.By, seen.Conditions & (Conditions.Wet | Conditions.Dry | Conditions.Frost), seen.Conditions.HasFlag(Conditions.Moved) || seen is Observation.Wiggle);

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
