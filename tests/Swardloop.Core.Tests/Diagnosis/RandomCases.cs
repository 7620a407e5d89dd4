using CsCheck;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Small random yards with random observations, sensible or not.</summary>
internal static class RandomCases
{
    private static readonly Gen<double> Ohms = Gen.Double[-1, 7].Select(decades => Math.Round(Math.Pow(10, decades), 2));

    private static readonly Gen<double?> ReadOhms = Gen.Select(Ohms, Gen.Int[0, 4], (ohms, over) => over == 0 ? (double?)null : ohms);

    private static readonly Gen<Yard> Yards =
        from east in Gen.Int[14, 24]
        from north in Gen.Int[14, 24]
        from places in Gen.Double[0.05, 0.95].Array[0, 4]
        from styles in Gen.Enum<JointStyle>().Array[4]
        from metal in Gen.Bool
        from risk in Gen.Bool
        from neighbour in Gen.Int[0, 3]
        let yard = DiagnosisScene.Rectangle(
            east, north, [.. places.Select((place, i) => new Joint(Math.Round(place * 2 * (east + north), 1), styles[i])).DistinctBy(joint => joint.AtMetres).OrderBy(joint => joint.AtMetres)])
        select yard with
        {
            Metal = metal ? [new("fence", new([new(east + 1, 2), new(east + 1, north - 2)]), 40)] : [],
            RiskSpots = risk ? [new(5, 12, "edging", 5)] : [],
            Neighbours = neighbour == 0 ? [new(new([new(east + 3, 0), new(east + 20, 0), new(east + 20, 15), new(east + 3, 15), new(east + 3, 0)]), true, 5)] : [],
        };

    /// <summary>Any observation, at any place of a wire but no round one: whether the middle of a cell lies left or right of a cut made
    /// just there is rounding's to say.</summary>
    private static Gen<Observation> AnyObservation(double length) =>
        from a in Gen.Double[0, length - 0.1].Select(x => Math.Round(x, 1) + 0.0137)
        from b in Gen.Double[0, length - 0.1].Select(x => Math.Round(x, 1) + 0.0137)
        from first in ReadOhms
        from second in ReadOhms
        from choice in Gen.Int[0, 3]
        from yes in Gen.Bool
        from end in Gen.Enum<WireEnd>()
        from owner in Gen.Bool
        from seen in OneOf<Observation>(
            new Observation.OutletCheck(yes),
            new Observation.SupplyVoltage(yes ? 21 : 0.1, 20),
            new Observation.StationLamp((LampState)choice),
            new Observation.MowerStart(yes ? StartPlace.AtWire : StartPlace.MidLawn, (StartOutcome)(choice % 3)),
            new Observation.MowerReach(a / 12, yes),
            new Observation.FollowWire((FollowOutcome)(choice % 3)),
            new Observation.WireCrossing(yes, a, choice == 0),
            new Observation.LoopResistance(first, 0.3, MeterAccuracy.Plain),
            new Observation.LoopResistance(first, 0.3, MeterAccuracy.Plain),
            new Observation.EarthResistance(first),
            new Observation.Insulation(250, (first ?? 1e7) / 1e6),
            new Observation.EarthRatio(a / 10, b / 10),
            new Observation.EndCapacitance(a * 250e-12, b * 250e-12),
            new Observation.SplitResistance(a, first, second, 0.4),
            new Observation.SplitResistance(a, 0.8, second, 0.4),
            new Observation.Bypass(Math.Min(a, b), Math.Max(a, b), first),
            new Observation.ToneTrace(a, end, (ToneStrength)(choice % 3)),
            new Observation.Reflection(end, choice == 0 ? null : a * 1.1e-8, choice == 0 ? EchoKind.None : EchoKind.Open),
            new Observation.Look(Math.Min(a, b), Math.Max(a, b), yes),
            new Observation.SubstituteLoop(yes),
            new Observation.SubstituteMower(yes),
            new Observation.NeighbourOff(yes),
            new Observation.RepairDone(StepKind.MendSpan, null, Math.Min(a, b), Math.Min(a, b) + 2, null),
            new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, null))
        select seen with { By = owner && StepCatalogue.Of(seen.Step).OwnerMay ? Person.Owner : Person.Technician };

    private static readonly Gen<Capabilities> AnyCapabilities =
        from technician in Gen.Int[0, 9]
        from owner in Gen.Int[0, 3]
        from tools in Gen.Int[0, 63]
        from ownTools in Gen.Int[0, 63]
        select new Capabilities
        {
            Technician = technician > 0,
            Owner = owner > 0,
            TechnicianInstruments = (Instruments)tools,
            OwnerInstruments = (Instruments)ownTools,
        };

    /// <summary>A yard and up to so many observations, everybody at hand.</summary>
    public static Gen<ServiceCase> With(int observations) =>
        from yard in Yards
        from seen in AnyObservation(yard.Loop.LengthMetres).Array[1, observations]
        select new ServiceCase { Yard = yard, Observations = seen, Can = new() { TechnicianInstruments = DiagnosisScene.EveryInstrument } };

    /// <summary>The same with any people, instruments and rates.</summary>
    public static Gen<ServiceCase> Any { get; } =
        from some in With(4)
        from can in AnyCapabilities
        from onSite in Gen.Bool
        from labour in Gen.Double[5, 150]
        from travel in Gen.Double[0, 150]
        from patience in Gen.Double[0, 60]
        select some with
        {
            Can = can,
            OnSite = onSite,
            Rates = new() { LabourPerHour = labour, TravelPerVisit = travel, OwnerPatiencePerHour = patience },
        };

    /// <summary>The same case with the terminals' names exchanged.</summary>
    public static ServiceCase Mirrored(ServiceCase serviceCase)
    {
        Yard yard = serviceCase.Yard;
        double length = yard.Loop.LengthMetres;
        return serviceCase with
        {
            Yard = yard with
            {
                Loop = yard.Loop with
                {
                    Path = yard.Loop.Path.Reversed(),
                    Joints = [.. yard.Loop.Joints.Reverse().Select(joint => joint with { AtMetres = length - joint.AtMetres })],
                },
                RiskSpots = [.. yard.RiskSpots.Select(spot => spot with { FromMetres = length - spot.ToMetres, ToMetres = length - spot.FromMetres })],
            },
            Observations = [.. serviceCase.Observations.Select(seen => Mirrored(seen, length))],
        };
    }

    private static Observation Mirrored(Observation seen, double length) => seen switch
    {
        Observation.WireCrossing o => o with { AtMetres = length - o.AtMetres },
        Observation.EarthRatio o => o with { VoltsA = o.VoltsB, VoltsB = o.VoltsA },
        Observation.EndCapacitance o => o with { FaradA = o.FaradB, FaradB = o.FaradA },
        Observation.SplitResistance o => o with { AtMetres = length - o.AtMetres, OhmsA = o.OhmsB, OhmsB = o.OhmsA },
        Observation.Bypass o => o with { FromMetres = length - o.ToMetres, ToMetres = length - o.FromMetres },
        Observation.ToneTrace o => o with { AtMetres = length - o.AtMetres, From = Other(o.From) },
        Observation.Reflection o => o with { From = Other(o.From) },
        Observation.Look o => o with { FromMetres = length - o.ToMetres, ToMetres = length - o.FromMetres },
        Observation.RepairDone o => o with { AtMetres = length - o.AtMetres, FromMetres = length - o.ToMetres, ToMetres = length - o.FromMetres },
        _ => seen,
    };

    /// <summary>One of the given values.</summary>
    public static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(index => values[index]);

    private static WireEnd Other(WireEnd end) => end == WireEnd.A ? WireEnd.B : WireEnd.A;
}
