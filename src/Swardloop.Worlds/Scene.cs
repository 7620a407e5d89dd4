using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>A simulated yard: what its file says and what is true.</summary>
internal sealed class Scene
{
    private Scene(World world, ulong seed, int index)
    {
        World = world;
        Index = index;
        Draw = new Draw(seed).For($"{world.Name}/{index}");
        Draw d = Draw.For("yard");
        HasFence = d.Chance("fence", 0.4);
        HasNeighbour = d.Chance("neighbour", 0.3);
        string cause = Cause(d, "first");

        // By the usual profile a wire 18 m apart is heard across with tens of ohms to spare; from 24 m on a sound one is not heard in the middle.
        Width = cause == "layout" ? d.Uniform("width", 24, 32) : d.Uniform("width", cause == "short" ? 13 : 8, 18);
        Height = Math.Max(Width, d.Uniform("height", 12, 60));
        List<(double, double)> path = [(Width / 2, 0), (Width, 0), (Width, Height), (0, Height), (0, 0), (Width / 2, 0)];
        if (cause == "short" || (Width > 14 && d.Chance("island", 0.4)))
        {
            double x = Width * 0.72, y = Height * 0.6, half = 1.2;
            IslandFrom = (Width / 2) + y;
            IslandRun = Width - x - half;
            path.InsertRange(2, [(Width, y), (x + half, y), (x + half, y + half), (x - half, y + half), (x - half, y - half), (x + half, y - half), (x + half, y), (Width, y)]);
        }

        Plan = new(path);
        double length = Plan.Length;
        if (world.Guides && (cause == "guide" || d.Chance("guide", 0.4)))
        {
            GuideJoins = (2 * IslandRun) + (IslandRun > 0 ? 9.6 : 0) + Width + Height;
        }

        AreaMm2 = d.Pick("area", [(0.75, 2.0), (1.0, 2.0), (1.5, 3.0), (2.5, 1.0)]);

        // Annealed copper, references A3; the soil's temperature is not the filed one.
        double filed = 0.017241 / AreaMm2 * (1 + (0.00393 * (d.Uniform("celsius", 4, 22) - 20))) * (1 + (0.02 * d.Normal("drawing of the wire")));
        double other = world.WireWrong ? d.Pick("other wire", [(1.05, 1.0), (1.6, 1.0), (0.6, 1.0), (2.1, 1.0)]) : 1;
        OhmsPerMetre = filed * other * (1 + (0.01 * d.Normal("length")));
        ConductorFiled = !(world.WireWrong && d.Chance("conductor absent", 0.3));
        Joints = [.. Enumerable.Range(0, (int)d.Uniform("joints", 0, 5)).Select(i => Math.Round(d.Uniform($"joint {i}", 4, length - 4), 1)).Order()];
        FileScale = world.Undrawn ? d.Uniform("file's length", 0.92, 1.08) : 1;
        FiledJoints = !world.JointsWrong ? Joints : [.. Joints.Where(at => d.Chance($"known {at}", 0.5)).Concat(d.Chance("invented", 0.4) ? [Math.Round(d.Uniform("invented at", 5, length - 5), 1)] : []).Order()];
        FiledJoints = [.. FiledJoints.Select(at => Math.Round(at * FileScale, 1)).Distinct()];
        SourceOhms = 107 * Math.Exp(world.ProfileOff * Math.Clamp(d.Normal("source"), -2, 2));
        ReachOhmMetres = 4581 * Math.Exp(world.ProfileOff * Math.Clamp(d.Normal("reach"), -2, 2));
        EarthOhms = d.LogUniform("insulation", 1e6, 3e7) * 100 / length;
        RiskFrom = Math.Round(d.Uniform("risk", 0, 0.8) * length, 1);
        RiskTo = Math.Round(RiskFrom + ((world.Paved ? 0.2 : 0.15) * length), 1);
        Owner = d.Chance("owner", 0.85);
        OwnerMeter = Owner && d.Chance("owner's meter", world.OwnersPoor ? 0.5 : 0.4);
        Labour = world.MoneyVaries ? Math.Round(d.Uniform("labour", 30, 90)) : 60;
        Travel = world.MoneyVaries ? Math.Round(d.Uniform("travel", 0, 120)) : 45;
        Troubles = [.. Draws(d, cause)];
    }

    public World World { get; }

    public int Index { get; }

    public Draw Draw { get; }

    public double Width { get; }

    public double Height { get; }

    public Plan Plan { get; }

    public double AreaMm2 { get; }

    public double OhmsPerMetre { get; }

    /// <summary>Where the double run to the island leaves the border (m), and its length; 0 without an island.</summary>
    public double IslandFrom { get; }

    public double IslandRun { get; }

    /// <summary>Where the guide wire meets the loop (m); null without one. It is as long as the lawn.</summary>
    public double? GuideJoins { get; }

    public bool ConductorFiled { get; }

    public IReadOnlyList<double> Joints { get; }

    public IReadOnlyList<double> FiledJoints { get; }

    /// <summary>Metres of the file for a metre of wire.</summary>
    public double FileScale { get; }

    /// <summary>The wire's length by the file (m).</summary>
    public double FiledLength => Plan.Length * FileScale;

    public double SourceOhms { get; }

    public double ReachOhmMetres { get; }

    public double EarthOhms { get; }

    public bool HasFence { get; }

    public bool HasNeighbour { get; }

    public double RiskFrom { get; }

    public double RiskTo { get; }

    public bool Owner { get; }

    public bool OwnerMeter { get; }

    public double Labour { get; }

    public double Travel { get; }

    /// <summary>Money per hour of the owner's patience.</summary>
    public const double Patience = 15;

    public IReadOnlyList<Trouble> Troubles { get; }

    /// <summary>The yard of a seed, a world and a number.</summary>
    public static Scene Of(World world, ulong seed, int index) => new(world, seed, index);

    /// <summary>What the drawn wire would read by its file (Ω).</summary>
    public double FiledOhms => FiledLength * 0.017241 / AreaMm2;

    /// <summary>Field for 1 A in the lawn's weakest place that matters here: its middle, at sensor height over the wire (A/m per A).</summary>
    public double MiddleField => Math.Abs(Plan.FieldPerAmpere(Width * 0.4, Height / 2, 0.12));

    /// <summary>The loop's reactance at the signal's frequency (Ω): 2 µH per metre, the order of a loop on the ground (references B4).</summary>
    public double SignalOhms => 2 * Math.PI * 10000 * 2e-6 * Plan.Length;

    /// <summary>The true T (Ω·m): of a lawn that a sound loop covers at least what that needs, with a quarter to spare, for its mower did run;
    /// of one that it does not cover, too little.</summary>
    public double Reach(bool covers)
    {
        double needed = Math.Sqrt(((SourceOhms + FiledOhms) * (SourceOhms + FiledOhms)) + (SignalOhms * SignalOhms)) / MiddleField;
        return covers ? Math.Max(ReachOhmMetres, 1.25 * needed) : Math.Min(ReachOhmMetres, 0.9 * needed);
    }

    /// <summary>The case as it opens, before any observation.</summary>
    public JsonObject OpeningCase()
    {
        double r = Draw.Uniform("instruments", 0, 1);
        List<string> kit = ["multimeter", "capacitance-meter", "battery", "tone-sender"];
        if (r < 0.15)
        {
            kit.Add("reflectometer");
        }

        JsonObject can = new() { ["technician"] = true, ["owner"] = Owner };
        if (World.InstrumentMissing)
        {
            kit.RemoveAt(1 + (int)Draw.Uniform("missing", 0, 3));
            can["without"] = new JsonArray(Draw.Pick("without", [("substitute-mower", 1.0), ("substitute-loop", 1.0), ("split-resistance", 1.0)]));
        }

        can["instruments"] = List(kit);
        can["ownerInstruments"] = OwnerMeter ? new JsonArray("multimeter") : [];
        return new()
        {
            ["format"] = "swardloop-case/1",
            ["yard"] = Yard(),
            ["complaint"] = Complaints.Say(this),
            ["rates"] = new JsonObject { ["labourPerHour"] = Labour, ["travelPerVisit"] = Travel, ["ownerPatiencePerHour"] = Patience, ["currency"] = "EUR" },
            ["onSite"] = false,
            ["can"] = can,
            ["observations"] = new JsonArray(),
        };
    }

    private JsonObject Yard()
    {
        JsonObject loop = new()
        {
            ["path"] = Path(World.Undrawn ? Crude() : Plan.Points),
            ["lengthToleranceM"] = Math.Round((World.Undrawn ? 0.1 : 0.01) * Plan.Length, 1),
            ["joints"] = new JsonArray([.. FiledJoints.Select(at => (JsonNode)new JsonObject { ["atM"] = at, ["style"] = "unknown" })]),
            ["capacitancePFPerM"] = 250,
        };
        if (ConductorFiled)
        {
            loop["conductor"] = new JsonObject { ["material"] = "copper", ["areaMm2"] = AreaMm2 };
        }

        JsonObject yard = new()
        {
            ["format"] = "swardloop-yard/1",
            ["name"] = $"{World.Name} {Index}",
            ["lawn"] = new JsonArray(Path([(0, 0), (Width, 0), (Width, Height), (0, Height)])),
            ["loop"] = loop,
            ["station"] = new JsonObject { ["sourceOhms"] = 107, ["frequencyHz"] = 10000, ["lampAlarmOhms"] = 20000, ["hasContinuityLamp"] = true },
            ["mower"] = new JsonObject { ["reachConstantOhmM"] = 4581, ["sensorHeightM"] = 0.07 },
            ["riskSpots"] = new JsonArray(new JsonObject { ["fromM"] = Math.Round(RiskFrom * FileScale, 1), ["toM"] = Math.Round(RiskTo * FileScale, 1), ["kind"] = World.Paved ? "drive" : "edging", ["weight"] = 4 }),
        };
        if (GuideJoins is { } joins)
        {
            yard["guides"] = new JsonArray(new JsonObject { ["name"] = "G1", ["joinsAtM"] = Math.Round(joins, 2), ["path"] = Path([(Width / 2, 0), (Width / 2, Height)]) });
        }

        if (World.Undrawn)
        {
            yard.Remove("lawn");
            return yard;
        }

        if (HasFence)
        {
            yard["metal"] = new JsonArray(new JsonObject { ["kind"] = "fence", ["path"] = Path([(Width + 0.5, 2), (Width + 0.5, Height * 0.45)]), ["earthOhms"] = 40 });
        }

        if (HasNeighbour)
        {
            yard["neighbours"] = new JsonArray(new JsonObject { ["path"] = Path([(-3, 0), (-15, 0), (-15, 20), (-3, 20), (-3, 0)]), ["sameCoding"] = true, ["ohms"] = 3 });
        }

        return yard;
    }

    /// <summary>A square as long as the wire is believed to be.</summary>
    private IEnumerable<(double, double)> Crude()
    {
        double side = FiledLength / 4;
        return [(side / 2, 0), (side, 0), (side, side), (0, side), (0, 0), (side / 2, 0)];
    }

    private static JsonArray List(IEnumerable<string> words) => new([.. words.Select(word => (JsonNode)word)]);

    private static JsonArray Path(IEnumerable<(double X, double Y)> points) =>
        new([.. points.Select(point => (JsonNode)new JsonArray(Math.Round(point.X, 2), Math.Round(point.Y, 2)))]);

    private IEnumerable<Trouble> Draws(Draw d, string cause)
    {
        Trouble first = One(d, "first", cause);
        yield return first;
        if (d.Chance("second", World.SecondShare) && One(d, "other", Cause(d, "other")) is var second && second.Cause != first.Cause && second.Cause is not ("unmodelled" or "layout"))
        {
            yield return second;
        }

        if (Joints.Count > 0 && d.Chance("harmless", World.HarmlessShare) && first.At != Joints[0])
        {
            // Resistance that the current hardly minds beside the station's own hundred ohms.
            yield return new("series-resistance") { At = Joints[0], Ohms = d.Uniform("harmless ohms", 10, 15), AtJoint = true, Harmful = false };
        }
    }

    private string Cause(Draw yard, string which) =>
        yard.For(which).Pick("cause", [.. World.Odds.Where(odd => odd.Cause switch { "leak-pair" => HasFence, "crosstalk" => HasNeighbour, "short" or "guide" => which == "first", _ => true })]);

    private Trouble One(Draw yard, string which, string cause)
    {
        Draw d = yard.For(which);
        bool atJoint = d.Chance("at joint", cause == "open" ? 0.35 : 0.65);
        double length = Plan.Length;
        double at = atJoint
            ? d.Pick("joint", [.. Joints.Select(joint => (joint, 1.0)), (0.0, 0.5), (length, 0.5)])
            : d.Chance("in risk", 0.4) ? d.Uniform("place", RiskFrom, RiskTo) : d.Uniform("place", 1, length - 1);
        Trouble wire = new(cause) { At = at, AtJoint = atJoint, Shows = d.Chance("shows", 0.4) && !(World.Paved && at >= RiskFrom && at <= RiskTo) };
        return cause switch
        {
            // Just what silences the lawn's middle, and up to eight times as much.
            "series-resistance" => wire with { Ohms = Math.Max(25, (Reach(true) * MiddleField) - SourceOhms) * d.LogUniform("ohms", 1.15, 8) },
            "open" => wire with { Ohms = d.Chance("wet", 0.3) ? d.LogUniform("wet ohms", 3e4, 3e6) : 1e12 },
            "leak-pair" => wire with
            {
                At = (Width / 2) + d.Uniform("one", 2, Height * 0.2),
                Second = (Width / 2) + d.Uniform("two", Height * 0.25, Height * 0.45),
                AtJoint = false,
                Ohms = d.LogUniform("leak", 300, 8000),
            },
            "unsteady" => wire with
            {
                At = atJoint ? at : d.Pick("loose end", [(0.0, 1.0), (length, 1.0)]),
                AtJoint = true,
                Ohms = d.LogUniform("loose", 2e3, 1e8),
                OpensWet = d.Chance("wet opens", 0.5),
            },

            // The two runs lie side by side: so far out on the one is as far from the border on the other. An island's ring is 9.6 m.
            "short" when d.Uniform("short", 0.1, 0.9) * IslandRun is var along => wire with
            {
                At = IslandFrom + along,
                Second = IslandFrom + (2 * IslandRun) + 9.6 - along,
                Ohms = d.LogUniform("short ohms", 0.05, 20),
                AtJoint = false,
            },
            "guide" => wire with
            {
                At = d.Chance("guide's joint", 0.4) ? Height : d.Uniform("guide place", 0.5, Height - 0.5),
                Ohms = d.Chance("guide open", 0.7) ? 1e12 : d.LogUniform("guide ohms", 200, 5e4),
                AtJoint = false,
            },
            "charging" => new(cause) { Battery = d.Chance("battery", 0.35), Way = d.Pick("way", [("locked", 6.0), ("stops", 4.0)]) },
            "unmodelled" => new(cause) { Way = d.Pick("way", [("locked", 4.0), ("stops", 4.0), ("silent", 2.0)]) },
            _ => new(cause),
        };
    }
}
