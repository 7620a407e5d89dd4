namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>A contact that comes and goes: at each moment the wire is sound or as good as broken. Shares are judgement, no source.</summary>
internal static class UnsteadyContact
{
    /// <summary>Share of the moments at which the contact is made.</summary>
    public const double MadeShare = 0.55;

    /// <summary>Of the readings over an open contact, the share that is out of range; the rest is any resistance, even in the logarithm over eight decades.</summary>
    private const double OutOfRangeShare = 0.6, LogRange = 18.42;

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
