namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>Two stakes in line with the wire, the loop driven against a far stake: which way the current that leaks out has its source.</summary>
/// <remarks>Point source in soil: between stakes at distances d and d + a the ground shows ρI/(2π)·(1/d − 1/(d + a)) (references C3). How small a
/// voltage can be told from the ground's own, and how often the polarity is read the wrong way, is judgement, no source.</remarks>
internal static class EarthGradientTest
{
    /// <summary>Volts between the stakes that are told from the ground's own half of the time (V), and how sharply (natural logarithm).</summary>
    private const double TellableVolts = 1e-3, Sharpness = 0.7;

    private const double BatteryVolts = 9, TypicalLeakOhms = 800, WrongWay = 0.04, SeenWhereNothingIs = 0.05;

    /// <summary>Probability of an outcome over one leak; no place: nothing leaks.</summary>
    public static double Probability(Observation.EarthGradient seen, Place? leak, YardPhysics physics)
    {
        if (leak is not { } place)
        {
            return seen.Outcome == GradientOutcome.Nothing ? 1 - SeenWhereNothingIs : SeenWhereNothingIs / 3;
        }

        // The place is the middle of the two stakes: half the spacing nearer and half the spacing farther.
        double along = place.AtMetres - seen.AtMetres, away = Math.Max(0.1, Math.Min(Math.Abs(along), physics.Chord(place.AtMetres, seen.AtMetres)) - (seen.SpacingMetres / 2));
        double volts = physics.Yard.Soil.ResistivityOhmMetres * BatteryVolts / TypicalLeakOhms / (2 * Math.PI) * ((1 / away) - (1 / (away + seen.SpacingMetres)));
        double told = 1 / (1 + Math.Exp(-Math.Log(volts / TellableVolts) / Sharpness));

        // Between the stakes the poles are of one sign: the reading is small and turns over.
        double here = Math.Exp(-Math.Pow(along / Math.Max(0.5 * seen.SpacingMetres, 0.3), 4)) * 0.9;
        double ahead = 1 / (1 + Math.Exp(-along / 0.3)), right = (0.98 - (2 * WrongWay)) * told * (1 - here);
        return seen.Outcome switch
        {
            GradientOutcome.Here => (told * here) + (0.02 * told * (1 - here)),
            GradientOutcome.Ahead => (right * ahead) + (WrongWay * told * (1 - here)),
            GradientOutcome.Behind => (right * (1 - ahead)) + (WrongWay * told * (1 - here)),
            _ => 1 - told,
        };
    }
}
