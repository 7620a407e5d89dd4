using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Trial;

/// <summary>Makes yards with hidden faults.</summary>
public static class TrialYards
{
    private const int MostAttempts = 2000;
    private const double BesideMetalMetres = 1.5;

    /// <summary>One yard. The same seed, index and style give the same yard, whatever else is asked for.</summary>
    /// <param name="seed">The trial's seed.</param>
    /// <param name="index">The yard's number, from 0.</param>
    /// <param name="style">The world it lies in; null deals the styles out in turn.</param>
    public static TrialYard Generate(ulong seed, int index, WorldStyle? style = null)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        WorldStyle world = style ?? WorldStyle.All[index % WorldStyle.All.Count];
        Chance whole = new Chance(seed).For($"yard {index}");
        CauseKind[] kinds = Kinds(world, whole);
        for (int attempt = 0; attempt < MostAttempts; attempt++)
        {
            if (TryGenerate(index, world, kinds, whole.For($"attempt {attempt}")) is { } yard)
            {
                return yard;
            }
        }

        throw new InvalidOperationException($"No yard of style '{world.Name}' shows {string.Join(" + ", kinds)} after {MostAttempts} attempts.");
    }

    private static CauseKind[] Kinds(WorldStyle world, Chance chance)
    {
        if (!chance.Happens("pair", world.PairShare))
        {
            return [chance.Pick("cause", [.. world.CauseWeights.OrderBy(entry => entry.Key).Select(entry => (entry.Key, entry.Value))])];
        }

        return chance.Pick<CauseKind[]>("pair of causes",
        [
            ([CauseKind.SeriesResistance, CauseKind.SeriesResistance], 4),
            ([CauseKind.SeriesResistance, CauseKind.Open], 3),
            ([CauseKind.SeriesResistance, CauseKind.Leak], 2),
            ([CauseKind.Open, CauseKind.Leak], 1),
            ([CauseKind.Supply, CauseKind.SeriesResistance], 1),
            ([CauseKind.SeriesResistance, CauseKind.LeakPair], 1),
            ([CauseKind.Open, CauseKind.Open], 1),
            ([CauseKind.Open, CauseKind.Receiver], 0.5),
        ]);
    }

    private static TrialYard? TryGenerate(int index, WorldStyle world, CauseKind[] kinds, Chance chance)
    {
        bool metal = kinds.Contains(CauseKind.LeakPair) || chance.Happens("metal", world.MetalShare);
        bool neighbour = kinds.Contains(CauseKind.Crosstalk) ? chance.Happens("neighbour noted", 0.9) : chance.Happens("neighbour", world.NeighbourShare);
        bool crosstalk = kinds.Contains(CauseKind.Crosstalk);
        if (Yard(index, world, kinds.Contains(CauseKind.Layout), metal, neighbour, crosstalk, chance.For("yard")) is not { } yard)
        {
            return null;
        }

        WorldHabits habits = WorldHabits.Draw(world, yard, chance.For("habits"));
        YardPhysics physics = new(yard);
        List<Fault> faults = [];
        for (int i = 0; i < kinds.Length; i++)
        {
            if (FaultOf(kinds[i], kinds.Length == 1, yard, world, habits, chance.For($"fault {i}")) is not { } fault)
            {
                return null;
            }

            faults.Add(fault);
        }

        ServiceCase serviceCase = Case(yard, world, chance.For("case"));
        TrialYard trial = new(index, world, serviceCase, faults, habits, physics, chance.For("world"));
        return Credible(trial) ? WithComplaint(trial, chance.For("complaint")) : null;
    }

    /// <summary>A yard is used when sound it would run with a little to spare (unless its layout is the fault), and as it is it does not run.</summary>
    private static bool Credible(TrialYard trial)
    {
        TrialWorld world = new(trial);
        bool layout = trial.Truth.Includes(CauseKind.Layout);
        if (world.SoundHeardShare(spare: 1.08) < TrialWorld.EnoughHeard != layout || (layout && world.SoundHeardShare(spare: 1) > 0.95))
        {
            return false;
        }

        // Each resistive fault of a pair is to matter by itself, or the pair would be one in name only.
        return !world.MowerRuns
            && trial.Faults.Where(fault => fault.Kind == CauseKind.SeriesResistance)
                .All(fault => new TrialWorld(trial, onlyFault: fault) is { MowerRuns: false });
    }

    private static Yard? Yard(int index, WorldStyle world, bool tooWide, bool metal, bool neighbour, bool crosstalk, Chance chance)
    {
        double perimeter = chance.LogUniform("perimeter", world.LoopMetres.Low, world.LoopMetres.High);
        if (tooWide)
        {
            perimeter = chance.Uniform("perimeter", 110, 300);
        }

        double narrow = tooWide
            ? chance.Uniform("width", 24, Math.Min(50, perimeter / 3.5))
            : chance.Uniform("width", 5, Math.Min(24, perimeter / 4));
        double far = (perimeter / 2) - narrow;
        (double width, double height) = chance.Happens("turned", 0.5) ? (narrow, far) : (far, narrow);
        width = Math.Round(width, 1);
        height = Math.Round(height, 1);

        // Outer ring, counter-clockwise; an L loses its north-east corner.
        List<PlanPoint> ring = [new(0, 0), new(width, 0), new(width, height), new(0, height)];
        if (chance.Happens("L", 0.35))
        {
            double east = Math.Round(width * chance.Uniform("notch east", 0.4, 0.7), 1), north = Math.Round(height * chance.Uniform("notch north", 0.4, 0.7), 1);
            ring = [new(0, 0), new(width, 0), new(width, north), new(east, north), new(east, height), new(0, height)];
        }

        (List<PlanPoint> path, List<List<PlanPoint>> holes) = Wire(ring, width, height, chance);
        if (chance.Happens("clockwise", 0.5))
        {
            path.Reverse();
        }

        WirePath wire = new(path);
        if (!(wire.LengthMetres >= 55 && wire.LengthMetres <= 420))
        {
            return null;
        }

        return new()
        {
            Name = $"Trial yard {index}",
            Lawn = new([ring], holes),
            Loop = new()
            {
                Path = wire,
                Conductor = new() { AreaSquareMetres = chance.Pick("wire", world.Wires) * 1e-6 },
                LengthToleranceMetres = Math.Round(wire.LengthMetres * chance.Uniform("tolerance", 0.005, 0.02), 1),
                DepthMetres = Math.Round(chance.Uniform("depth", 0.02, 0.1), 2),
                CapacitanceFaradPerMetre = Math.Round(chance.Uniform("capacitance", 150, 300)) * 1e-12,
                Joints = Joints(wire.LengthMetres, chance.For("joints")),
            },
            Station = new()
            {
                SourceOhms = Math.Round(107 * chance.Pick("source", [(1.0, 3), (0.8, 1), (1.3, 1)])),
                FrequencyHertz = chance.Pick("frequency", [(10_000.0, 3), (5_000.0, 1), (7_500.0, 1)]),
                LampAlarmOhms = chance.Pick("alarm", [(20_000.0, 3), (15_000.0, 1), (30_000.0, 1)]),
                HasContinuityLamp = chance.Happens("lamp", 0.9),
            },
            Mower = new()
            {
                ReachConstantOhmMetres = Math.Round(4581 * chance.Pick("reach", [(1.0, 3), (0.85, 1), (1.3, 1)])),
                SensorHeightMetres = Math.Round(chance.Uniform("height", 0.05, 0.12), 2),
            },
            Soil = new()
            {
                ResistivityOhmMetres = Math.Round(chance.LogUniform("soil", 20, 500)),
                TemperatureCelsius = Math.Round(chance.Uniform("temperature", 6, 22)),
            },
            Metal = metal ? [Fence(ring, chance.For("fence"))] : [],
            Neighbours = neighbour ? [Neighbour(width, crosstalk, chance.For("neighbour"))] : [],
            RiskSpots = RiskSpots(wire.LengthMetres, chance.For("risk")),
        };
    }

    private static (List<PlanPoint> Path, List<List<PlanPoint>> Holes) Wire(List<PlanPoint> ring, double width, double height, Chance chance)
    {
        // The station stands on a side; the wire runs counter-clockwise and comes back to it.
        int side = chance.Whole("station side", 0, ring.Count - 1);
        PlanPoint station = ring[side].Towards(ring[(side + 1) % ring.Count], Math.Round(chance.Uniform("station", 0.1, 0.9), 2));
        List<PlanPoint> path = [station, .. Enumerable.Range(1, ring.Count).Select(i => ring[(side + i) % ring.Count]), station];
        if (!chance.Happens("island", 0.3) || width < 8 || height < 8)
        {
            return (path, []);
        }

        // An island north of the south side: out, round it the other way about, and back along the same run.
        double across = Math.Round(chance.Uniform("island width", 1.5, Math.Min(4, width / 5)), 1);
        double along = Math.Round(chance.Uniform("island height", 1.5, Math.Min(4, height / 5)), 1);
        double east = Math.Round(width * chance.Uniform("island east", 0.15, 0.3), 1);
        double north = Math.Round(height * chance.Uniform("island north", 0.12, 0.28), 1);
        double middle = east + (across / 2);
        for (int i = 0; i + 1 < path.Count; i++)
        {
            if (path[i].NorthMetres == 0 && path[i + 1].NorthMetres == 0 && path[i].EastMetres < middle - 0.5 && path[i + 1].EastMetres > middle + 0.5)
            {
                PlanPoint foot = new(middle, 0), near = new(middle, north);
                path.InsertRange(i + 1,
                    [foot, near, new(east, north), new(east, north + along), new(east + across, north + along), new(east + across, north), near, foot]);
                return (path, [[new(east, north), new(east + across, north), new(east + across, north + along), new(east, north + along)]]);
            }
        }

        return (path, []);
    }

    private static List<Joint> Joints(double lengthMetres, Chance chance)
    {
        int wanted = chance.Pick("count", [(0, 1), (1, 1.5), (2, 2), (3, 2), (4, 2), (5, 1), (6, 1), (7, 0.5), (8, 0.5)]);
        List<Joint> joints = [];
        for (int i = 0; i < 4 * wanted && joints.Count < wanted; i++)
        {
            double at = Math.Round(chance.Uniform($"at {i}", 1.5, lengthMetres - 1.5), 1);
            JointStyle style = chance.Pick($"style {i}",
                [(JointStyle.Gel, 4), (JointStyle.Twisted, 2), (JointStyle.Crimped, 1.5), (JointStyle.Clamp, 1), (JointStyle.Soldered, 0.5), (JointStyle.Unknown, 1)]);
            if (joints.TrueForAll(joint => Math.Abs(joint.AtMetres - at) >= 1.5))
            {
                joints.Add(new(at, style));
            }
        }

        return [.. joints.OrderBy(joint => joint.AtMetres)];
    }

    private static List<RiskSpot> RiskSpots(double lengthMetres, Chance chance)
    {
        List<RiskSpot> spots = [];
        for (int i = 0; i < chance.Whole("count", 0, 4); i++)
        {
            double from = Math.Round(chance.Uniform($"from {i}", 0, lengthMetres - 5), 1);
            double to = Math.Min(lengthMetres, Math.Round(from + chance.Uniform($"long {i}", 2, 20), 1));
            string kind = chance.Pick($"kind {i}", [("edging", 1.0), ("drive", 1), ("tree", 1), ("digging", 1)]);
            spots.Add(new(from, to, kind, Math.Round(chance.Uniform($"weight {i}", 2, 8), 1)));
        }

        return spots;
    }

    private static MetalObject Fence(List<PlanPoint> ring, Chance chance)
    {
        int side = chance.Whole("side", 0, ring.Count - 1);
        PlanPoint start = ring[side], end = ring[(side + 1) % ring.Count];
        double length = start.DistanceTo(end), off = chance.Uniform("off", 0.3, 1);

        // Outside of a counter-clockwise ring is to the right of each side.
        double east = (end.NorthMetres - start.NorthMetres) / length * off, north = -(end.EastMetres - start.EastMetres) / length * off;
        PlanPoint from = start.Towards(end, chance.Uniform("from", 0, 0.3)), to = start.Towards(end, chance.Uniform("to", 0.6, 1));
        return new(
            chance.Pick("kind", [("fence", 3.0), ("shed", 1), ("edging", 1)]),
            new([new(Math.Round(from.EastMetres + east, 2), Math.Round(from.NorthMetres + north, 2)), new(Math.Round(to.EastMetres + east, 2), Math.Round(to.NorthMetres + north, 2))]),
            Math.Round(chance.LogUniform("earth", 10, 200)));
    }

    private static NeighbourLoop Neighbour(double width, bool crosstalk, Chance chance)
    {
        double gap = chance.Uniform("gap", 0.5, crosstalk ? 2 : 5), side = chance.Uniform("side", 10, 25), depth = chance.Uniform("depth", 8, 20);
        (double east, double north) = chance.Happens("east", 0.5) ? (width + gap, 0.0) : (0.0, -gap - depth);
        List<PlanPoint> ring = [new(east, north), new(east + side, north), new(east + side, north + depth), new(east, north + depth), new(east, north)];
        return new(
            new(ring.Select(point => new PlanPoint(Math.Round(point.EastMetres, 1), Math.Round(point.NorthMetres, 1)))),
            chance.Happens("coding", crosstalk ? 0.8 : 0.3),
            Math.Round(chance.Uniform("ohms", 1, 6), 1));
    }

    private static Fault? FaultOf(CauseKind kind, bool alone, Yard yard, WorldStyle world, WorldHabits habits, Chance chance)
    {
        double jointShare = chance.Uniform("joint share", world.JointFaultShare);
        switch (kind)
        {
            case CauseKind.SeriesResistance:
                (double at, bool joint) = Place(yard, jointShare, world, chance);
                return new(kind)
                {
                    AtMetres = at,
                    AtJoint = joint,
                    Ohms = chance.LogUniform("ohms", 10, 8000),
                    Shows = chance.Happens("shows", habits.FaultShows),
                    SideLeakOhms = chance.Happens("wet", 0.1) ? chance.LogUniform("side leak", 5e3, 2e5) : double.PositiveInfinity,
                };
            case CauseKind.Open:
                (at, joint) = Place(yard, jointShare / 2, world, chance);
                return new(kind)
                {
                    AtMetres = at,
                    AtJoint = joint,
                    Shows = chance.Happens("shows", habits.FaultShows),
                    Ohms = chance.Happens("wet", chance.Uniform("wet share", world.WetBreakShare)) ? chance.LogUniform("ohms", 2e4, 5e6) : double.PositiveInfinity,
                    SideLeakOhms = chance.Happens("leaks", chance.Uniform("leak share", world.BreakLeaksShare)) ? chance.LogUniform("side leak", 1e3, 2e5) : double.PositiveInfinity,
                };
            case CauseKind.Leak:
                (at, _) = Place(yard, 0, world, chance);
                return new(kind)
                {
                    AtMetres = at,
                    Ohms = chance.LogUniform("ohms", 50, alone ? 3e3 : 3e4),
                    Shows = chance.Happens("shows", habits.FaultShows),
                    Harmful = alone,
                };
            case CauseKind.LeakPair:
                if (PairBesideMetal(yard, chance) is not { } pair)
                {
                    return null;
                }

                return new(kind)
                {
                    AtMetres = pair.First,
                    SecondAtMetres = pair.Second,
                    Shows = chance.Happens("shows", habits.FaultShows),
                    Ohms = chance.LogUniform("ohms", 30, 3e3),
                    SecondOhms = chance.LogUniform("second ohms", 30, 3e3),
                };
            default:
                return new(kind);
        }
    }

    private static (double AtMetres, bool AtJoint) Place(Yard yard, double jointShare, WorldStyle world, Chance chance)
    {
        double length = yard.Loop.LengthMetres;
        (double At, double Weight)[] joints =
        [
            (0, 1), (length, 1),
            .. yard.Loop.Joints.Select(joint => (joint.AtMetres, joint.Style switch
            {
                JointStyle.Twisted => 4.0,
                JointStyle.Clamp => 2.5,
                JointStyle.Crimped or JointStyle.Unknown => 1.8,
                _ => 1,
            })),
        ];

        // Where there are hardly any joints, hardly any fault is in one.
        if (chance.Happens("in a joint", jointShare * Math.Min(1, joints.Length / 5.0)))
        {
            return (chance.Pick("joint", joints), true);
        }

        double truth = chance.Uniform("risk truth", world.RiskTruth);
        double Weight(double at) => Math.Pow(yard.RiskSpots.Where(spot => at >= spot.FromMetres && at <= spot.ToMetres).Select(spot => spot.Weight).DefaultIfEmpty(1).Max(), truth);
        (double, double)[] cells = [.. Enumerable.Range(0, (int)(length / 0.5)).Select(i => (0.5 * i, Weight((0.5 * i) + 0.25)))];
        double place = chance.Pick("cell", cells) + (0.5 * chance.Uniform("in cell"));

        // Within reach of a joint it would be the joint's fault: step aside.
        double[] known = [.. joints.Select(joint => joint.At)];
        for (int i = 0; i < 20 && known.Any(joint => Math.Abs(joint - place) < 0.6); i++)
        {
            place = chance.Uniform($"aside {i}", 0.6, length - 0.6);
        }

        return (place, false);
    }

    private static (double First, double Second)? PairBesideMetal(Yard yard, Chance chance)
    {
        double[] beside = [.. Enumerable.Range(1, (int)(2 * yard.Loop.LengthMetres) - 1).Select(i => 0.5 * i)
            .Where(at => yard.Metal.Any(metal => metal.Path.NearestTo(yard.Loop.Path.PointAt(at)).DistanceMetres <= BesideMetalMetres))];
        if (beside.Length < 6)
        {
            return null;
        }

        double first = beside[chance.Whole("first", 0, beside.Length - 1)] + chance.Uniform("first inch", -0.2, 0.2);
        double second = beside[chance.Whole("second", 0, beside.Length - 1)] + chance.Uniform("second inch", -0.2, 0.2);
        return Math.Abs(first - second) < 2 ? null : (Math.Min(first, second), Math.Max(first, second));
    }

    private static ServiceCase Case(Yard yard, WorldStyle world, Chance chance)
    {
        Instruments technician = Instruments.Multimeter;
        foreach ((Instruments instrument, double share) in new[]
        {
            (Instruments.CapacitanceMeter, 0.8), (Instruments.Battery, 0.85), (Instruments.ToneSender, 0.75),
            (Instruments.InsulationTester, world.RareInstrumentShare + 0.1), (Instruments.Reflectometer, world.RareInstrumentShare),
        })
        {
            technician |= chance.Happens($"has {instrument}", share) ? instrument : Instruments.None;
        }

        bool owner = chance.Happens("owner", 0.8);
        return new()
        {
            Yard = yard,
            Rates = new()
            {
                LabourPerHour = Math.Round(chance.Uniform("labour", 50, 75)),
                TravelPerVisit = Math.Round(chance.Uniform("travel", 30, 60)),
                OwnerPatiencePerHour = Math.Round(chance.Uniform("patience", 10, 20)),
            },
            OnSite = chance.Happens("on site", 0.15),
            Can = new()
            {
                Owner = owner,
                TechnicianInstruments = technician,
                OwnerInstruments = owner && chance.Happens("owner's meter", 0.4) ? Instruments.Multimeter : Instruments.None,
            },
        };
    }

    /// <summary>Adds the owner's words and up to three things the owner noted before calling, at no one's cost.</summary>
    private static TrialYard WithComplaint(TrialYard trial, Chance chance)
    {
        TrialWorld world = new(trial);
        List<Step> noted = [];
        foreach ((Step step, double share) in new (Step, double)[]
        {
            (new(StepKind.StationLamp), 0.55),
            (new(StepKind.MowerStart) { Place = StartPlace.MidLawn }, 0.3),
            (new(StepKind.MowerStart) { Place = StartPlace.AtWire }, 0.15),
            (new(StepKind.FollowWire), 0.1),
            (new(StepKind.MowerReach), 0.1),
            (new(StepKind.WireCrossing) { NearMetal = trial.Case.Yard.Metal.Count > 0 }, 0.2),
        })
        {
            if (chance.Happens($"noted {step}", share) && noted.Count < 3)
            {
                noted.Add(step with { By = Person.Owner });
            }
        }

        return new(trial.Index, trial.Style, trial.Case with
        {
            Complaint = world.Complaint(chance),
            Observations = [.. noted.Select(world.Observe)],
        }, trial.Faults, trial.Habits, trial.Physics, trial.Chance);
    }
}
