namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>Ohmmeter from each end of the loop to a guide wire, everything unplugged: the guide is a tap in the loop's middle that nobody has to dig for.</summary>
/// <remarks>
/// The chain with a branch: A to guide is the loop from A to the joint where the guide meets it, and the guide; B to guide the rest of the loop, and the
/// guide. No current flows in the third wire. A fault in series before the joint shows from A alone, one behind it from B alone, one in the guide
/// from both while the loop itself reads well. Source: network theory; a wire divided on the guide is read from either side of the cut.
/// </remarks>
internal static class GuideResistanceTest
{
    /// <summary>Makes one reading: what the meter showed, leads, limits, path along the loop from and to (m), healthy resistance, other spread (Ω).</summary>
    public delegate OhmsReading Maker(double? shown, double lead, MeterAccuracy meter, double from, double to, double nominal, double otherDeviation);

    /// <summary>The readings that an observation of a guide wire holds; none when it is no reading or the guide is not known.</summary>
    public static List<OhmsReading> Readings(Observation seen, YardPhysics physics, Maker make)
    {
        const double Nowhere = -1;
        double perMetre = physics.OhmsPerMetre;
        switch (seen)
        {
            case Observation.GuideResistance o when physics.GuideOf(o) is { } guide:
                double at = guide.JoinsAtMetres;
                return [
                    Along(make(o.OhmsA, o.LeadOhms, o.Meter, 0, at, (at * perMetre) + guide.Ohms, 0.05), guide, 0, guide.LengthMetres),
                    Along(make(o.OhmsB, o.LeadOhms, o.Meter, at, physics.LengthMetres, ((physics.LengthMetres - at) * perMetre) + guide.Ohms, 0.05), guide, 0, guide.LengthMetres),
                ];

            case Observation.SplitResistance o when physics.GuideOn(o) is { } guide:
                double cut = Math.Clamp(guide.JointNear(o.AtMetres)?.AtMetres ?? o.AtMetres, 0, guide.LengthMetres), each = guide.Ohms / guide.LengthMetres;

                // Nobody writes down from which of the loop's ends the far side was read.
                double toA = guide.JoinsAtMetres * perMetre, toB = (physics.LengthMetres - guide.JoinsAtMetres) * perMetre;
                return [
                    Along(make(o.OhmsA, o.LeadOhms, MeterAccuracy.Plain, Nowhere, Nowhere, cut * each, 0.1), guide, 0, cut),
                    Along(make(o.OhmsB, o.LeadOhms, MeterAccuracy.Plain, Nowhere, Nowhere, ((guide.LengthMetres - cut) * each) + ((toA + toB) / 2), 0.3 + (Math.Abs(toA - toB) / 2)), guide, cut, guide.LengthMetres),
                ];

            case Observation.PinProbe o when physics.GuideOn(o) is { } guide:
                // The needle in the guide, the other tip on either end of the loop: the guide from there to its joint, and the loop from there on.
                double pin = Math.Clamp(o.AtMetres, 0, guide.LengthMetres), beyond = (guide.LengthMetres - pin) * guide.Ohms / guide.LengthMetres, joins = guide.JoinsAtMetres;
                return [
                    Along(make(o.OhmsA, o.LeadOhms, MeterAccuracy.Plain, 0, joins, (joins * perMetre) + beyond, OhmsReading.NeedleOhms), guide, pin, guide.LengthMetres),
                    Along(make(o.OhmsB, o.LeadOhms, MeterAccuracy.Plain, joins, physics.LengthMetres, ((physics.LengthMetres - joins) * perMetre) + beyond, OhmsReading.NeedleOhms), guide, pin, guide.LengthMetres),
                ];

            case Observation.JointDrop { Amperes: > 0 } o when physics.GuideOn(o) is { } guide:
                double reach = Yards.Loop.JointReachMetres, over = o.Volts / o.Amperes;
                return [Along(make(over, 0, MeterAccuracy.Plain, Nowhere, Nowhere, 2 * reach * perMetre, 0.02) with { DeviationOhms = 0.02 + (0.03 * over) }, guide, o.AtMetres - reach, o.AtMetres + reach)];

            default:
                return [];
        }
    }

    private static OhmsReading Along(OhmsReading reading, GuidePhysics guide, double from, double to) => reading with { Guide = guide.Number, GuideFromMetres = from, GuideToMetres = to };
}
