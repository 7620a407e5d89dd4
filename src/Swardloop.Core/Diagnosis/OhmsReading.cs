using Swardloop.Core.Diagnosis.Tests;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>One resistance reading of the wire or of part of it: value = factor × nominal + what faults in its path add + error.</summary>
internal readonly record struct OhmsReading
{
    /// <summary>A test lead's resistance, when the case gives it, is known to about this (Ω). Common practice, no source.</summary>
    private const double LeadDeviationOhms = 0.1;

    /// <summary>Clips and a surface wire of 0.75 mm² (Ω, Ω/m), when the case says nothing of them. Common practice, no source.</summary>
    private const double ClipOhms = 0.5, SurfaceWireOhmsPerMetre = 0.03;

    /// <summary>What a needle through the insulation adds, one standard deviation (Ω). Common practice, no source.</summary>
    public const double NeedleOhms = 0.3;

    private const double JointReachMetres = Loop.JointReachMetres;

    /// <summary>What a bypass adds that nobody wrote down: clips through insulation, a reel of whatever wire was at hand (Ω).</summary>
    private const double BypassDeviationOhms = 1.2;

    /// <summary>A bad joint or a wet break is no resistor: what it adds wanders by such a share from reading to reading, more when it is
    /// hardly a contact at all. Common practice, no source.</summary>
    private const double WanderShare = 0.03, HardlyAContactOhms = 10_000, HardlyAContactShare = 0.12;

    /// <summary>Index of the observation in the case.</summary>
    public required int Index { get; init; }

    /// <summary>How many changes of the yard came before it.</summary>
    public required int Epoch { get; init; }

    /// <summary>Exponent of its likelihood.</summary>
    public required double Weight { get; init; }

    /// <summary>Reading less leads (Ω); null: over-range.</summary>
    public required double? Ohms { get; init; }

    /// <summary>One standard deviation of its error (Ω).</summary>
    public required double DeviationOhms { get; init; }

    /// <summary>Healthy resistance of its path (Ω).</summary>
    public required double NominalOhms { get; init; }

    /// <summary>Its path along the wire (m).</summary>
    public required double FromMetres { get; init; }

    /// <summary>End of the path (m).</summary>
    public required double ToMetres { get; init; }

    /// <summary>Whether the path begins where someone set a probe on plain wire, rather than at a joint or terminal.</summary>
    public bool FromIsProbe { get; init; }

    /// <summary>Whether it ends at such a place.</summary>
    public bool ToIsProbe { get; init; }

    /// <summary>The path is what lies outside the stretch: a bypass.</summary>
    public bool Outside { get; init; }

    /// <summary>Number of the guide wire that is in the path too, from 1; 0: none is.</summary>
    public int Guide { get; init; }

    /// <summary>The part of that guide that is in the path (m from the station).</summary>
    public double GuideFromMetres { get; init; }

    /// <summary>End of that part (m).</summary>
    public double GuideToMetres { get; init; }

    /// <summary>Probability that the reading is simply wrong: wrong range, a loose clip, a slip of the pen.</summary>
    public required double WrongProbability { get; init; }

    /// <summary>A needle through the insulation: the rest of the loop is still joined to the path's end.</summary>
    public bool IsNeedle { get; init; }

    /// <summary>Who met what ground.</summary>
    public UnsteadyContact.Ground Ground { get; init; }

    /// <summary>Whether a fault at a place is in the reading's path.</summary>
    public bool Includes(double atMetres)
    {
        bool within = atMetres >= FromMetres && atMetres <= ToMetres;
        return Outside ? !within : within;
    }

    /// <summary>Whether a fault at a place on a guide wire is in the reading's path.</summary>
    public bool IncludesOnGuide(Place place) => Guide == place.Guide && place.AtMetres >= GuideFromMetres && place.AtMetres <= GuideToMetres;

    /// <summary>The readings an observation holds: none, one, or two (a split has two sides).</summary>
    public static List<OhmsReading> From(Observation seen, int index, int epoch, double weight, YardPhysics physics)
    {
        double length = physics.LengthMetres, perMetre = physics.OhmsPerMetre;
        if (seen.Wire is not null || seen is Observation.GuideResistance)
        {
            return GuideResistanceTest.Readings(seen, physics, Make);
        }

        switch (seen)
        {
            case Observation.LoopResistance o:
                return [Make(o.Ohms, o.LeadOhms, o.Meter, 0, length, length * perMetre, 0)];

            case Observation.SplitResistance o:
                double at = Math.Clamp(o.AtMetres, 0, length);
                Joint? joint = physics.Yard.Loop.JointNear(at);
                at = joint?.AtMetres ?? at;
                double placeError = joint is null ? perMetre * 0.2 : 0;
                return [
                    Make(o.OhmsA, o.LeadOhms, MeterAccuracy.Plain, 0, at, at * perMetre, placeError) with { ToIsProbe = joint is null },
                    Make(o.OhmsB, o.LeadOhms, MeterAccuracy.Plain, at, length, (length - at) * perMetre, placeError) with { FromIsProbe = joint is null },
                ];

            case Observation.Bypass o:
                double from = Math.Min(o.FromMetres, o.ToMetres), to = Math.Max(o.FromMetres, o.ToMetres);
                double surface = ClipOhms + (SurfaceWireOhmsPerMetre * physics.Chord(from, to));
                double covered = (to - from) * perMetre;

                // A sound stretch shares the current with the surface wire; a faulty one leaves it all to the wire. The difference is the spread.
                double across = covered * surface / (covered + surface);
                OhmsReading reading = Make(o.Ohms, ClipOhms, MeterAccuracy.Plain, from, to, ((length - (to - from)) * perMetre) + across, surface - across + (0.7 * surface) + BypassDeviationOhms);
                return [reading with { Outside = true, FromIsProbe = from > 0, ToIsProbe = to < length }];

            case Observation.PinProbe o:
                // A needle makes a little worse a contact than a clip.
                double pin = Math.Clamp(o.AtMetres, 0, length);
                return [
                    Make(o.OhmsA, o.LeadOhms, MeterAccuracy.Plain, 0, pin, pin * perMetre, (perMetre * 0.2) + NeedleOhms) with { ToIsProbe = true, IsNeedle = true },
                    Make(o.OhmsB, o.LeadOhms, MeterAccuracy.Plain, pin, length, (length - pin) * perMetre, (perMetre * 0.2) + NeedleOhms) with { FromIsProbe = true, IsNeedle = true },
                ];

            case Observation.JointDrop { Amperes: > 0 } o:
                double middle = physics.Yard.Loop.JointNear(o.AtMetres)?.AtMetres ?? o.AtMetres;
                OhmsReading drop = Make(o.Volts / o.Amperes, 0, MeterAccuracy.Plain, middle - JointReachMetres, middle + JointReachMetres, 2 * JointReachMetres * perMetre, 0.02);
                return [drop with { DeviationOhms = 0.02 + (0.03 * drop.Ohms!.Value) }];

            default:
                return [];
        }

        OhmsReading Make(double? shown, double lead, MeterAccuracy meter, double from, double to, double nominal, double otherDeviation)
        {
            double wrong = seen.By == Person.Owner ? StatedProbabilities.OwnerReadingWrong : StatedProbabilities.TechnicianReadingWrong;
            double? ohms = shown - lead;
            double limit = meter.LimitOhms(shown ?? 0) / Math.Sqrt(3);
            double unsteady = Math.Max(0, (ohms ?? 0) - (1.2 * nominal)) * (ohms > HardlyAContactOhms ? HardlyAContactShare : WanderShare);
            double deviation = Math.Sqrt((limit * limit) + (LeadDeviationOhms * LeadDeviationOhms) + (unsteady * unsteady) + (otherDeviation * otherDeviation));
            return new()
            {
                Index = index,
                Epoch = epoch,
                Weight = weight,
                Ohms = ohms,
                DeviationOhms = seen.By == Person.Owner ? 1.5 * deviation : deviation,
                NominalOhms = nominal,
                FromMetres = from,
                ToMetres = to,
                WrongProbability = wrong,
                Ground = UnsteadyContact.GroundOf(seen),
            };
        }
    }
}
