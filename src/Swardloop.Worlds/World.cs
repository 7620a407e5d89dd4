namespace Swardloop.Worlds;

/// <summary>A way the simulated world may be. Every figure is the judge's own guess: common practice, no source.</summary>
/// <param name="Name">On the command line.</param>
/// <param name="Why">Which assumption it may make false.</param>
internal sealed record World(string Name, string Why)
{
    /// <summary>Weights of the causes.</summary>
    public IReadOnlyList<(string Cause, double Weight)> Odds { get; init; } = Usual;

    /// <summary>Share of yards with a second fault that harms too.</summary>
    public double SecondShare { get; init; } = 0.04;

    /// <summary>Share of yards with a harmless resistance of 10–15 Ω in a joint beside the true fault.</summary>
    public double HarmlessShare { get; init; } = 0.03;

    /// <summary>Share of an owner's, and of a technician's, steps that cannot be done.</summary>
    public (double Owner, double Technician) NotDone { get; init; } = (0.01, 0.003);

    /// <summary>Share of odd answers of owners and technicians to what is not measured.</summary>
    public (double Owner, double Technician) Odd { get; init; } = (0.06, 0.02);

    /// <summary>Whether the file's joints are missing or invented.</summary>
    public bool JointsWrong { get; init; }

    /// <summary>Whether the wire is not the filed one.</summary>
    public bool WireWrong { get; init; }

    /// <summary>Standard deviation of station and mower from the file, as a share.</summary>
    public double ProfileOff { get; init; } = 0.06;

    /// <summary>Leakage of the sound wire: spread evenly, in ten uneven patches, or mostly in joints and ends.</summary>
    public string Leakage { get; init; } = "even";

    /// <summary>Whether owners have no meter, bad leads, or mix units.</summary>
    public bool OwnersPoor { get; init; }

    /// <summary>Whether travel and labour differ from yard to yard.</summary>
    public bool MoneyVaries { get; init; }

    /// <summary>Whether one instrument is missing and one step is not done here.</summary>
    public bool InstrumentMissing { get; init; }

    /// <summary>Share of dead stations whose lamp is lit.</summary>
    public double LitDead { get; init; } = 0.1;

    /// <summary>Whether yards have guide wires, in half of them.</summary>
    public bool Guides { get; init; }

    /// <summary>Whether observations carry the weather.</summary>
    public bool Weather { get; init; }

    /// <summary>Whether the file knows little more than a length, and that to a tenth.</summary>
    public bool Undrawn { get; init; }

    /// <summary>Whether much of the wire lies under paving, where nothing shows.</summary>
    public bool Paved { get; init; }

    private static IReadOnlyList<(string, double)> Usual { get; } =
    [
        ("series-resistance", 32), ("open", 24), ("leak-pair", 7), ("no-mains", 5), ("supply", 5), ("station", 4), ("ends-swapped", 3.5),
        ("layout", 4), ("crosstalk", 4), ("receiver", 3), ("drive", 4), ("charging", 2.5), ("unmodelled", 2), ("unsteady", 3), ("short", 1.5),
    ];

    /// <summary>One fault, every step possible, no odd answers: where people begin to practise. Not among the worlds that judge the advice.</summary>
    public static World Steady { get; } = new("steady", "nothing: for practice") { SecondShare = 0, HarmlessShare = 0, NotDone = (0, 0), Odd = (0, 0), ProfileOff = 0.02 };

    /// <summary>All, in the order in which they are told.</summary>
    public static IReadOnlyList<World> All { get; } =
    [
        new("plain", "nothing but persistence of odd answers"),
        new("odds", "causes as often as elsewhere")
        {
            Odds = [("series-resistance", 8), ("open", 8), ("leak-pair", 4), ("no-mains", 10), ("supply", 12), ("station", 12), ("ends-swapped", 8), ("layout", 10), ("crosstalk", 10), ("receiver", 8), ("drive", 8), ("charging", 6), ("unmodelled", 4)],
        },
        new("joints-unknown", "joints are where the file says") { JointsWrong = true },
        new("wire-other", "the wire is the filed one") { WireWrong = true },
        new("profile-off", "station and mower are as filed") { ProfileOff = 0.15 },
        new("patches", "leakage is even") { Leakage = "patches" },
        new("joint-leakage", "leakage is in the wire") { Leakage = "joints" },
        new("owners-poor", "owners measure well") { OwnersPoor = true, Odd = (0.2, 0.03) },
        new("money", "usual rates") { MoneyVaries = true },
        new("instruments", "every instrument is there") { InstrumentMissing = true },
        new("second-faults", "one fault at a time") { SecondShare = 0.35 },
        new("not-done", "what is asked is done") { NotDone = (0.22, 0.06) },
        new("outside-the-book", "the fault is in the catalogue") { Odds = [("unmodelled", 1)], SecondShare = 0 },
        new("harmless", "resistance that is found is the fault") { HarmlessShare = 0.7 },
        new("hard-ground", "what lies near the surface shows") { Paved = true },
        new("undrawn", "the drawing is the wire") { Undrawn = true },
        new("guides", "the loop is all the wire there is") { Guides = true, Odds = [("guide", 5), ("series-resistance", 3), ("open", 3), ("drive", 1), ("receiver", 1)] },
        new("comes-and-goes", "what is there stays there") { Weather = true, Odds = [("unsteady", 6), ("charging", 4), ("series-resistance", 2), ("open", 1), ("unmodelled", 1)] },
        new("shorts", "the current goes round every island") { Odds = [("short", 6), ("series-resistance", 2), ("open", 1), ("leak-pair", 1), ("drive", 1)] },
        new("lit-dead-station", "a lit lamp is a live station") { LitDead = 0.8, Odds = [("station", 2), ("supply", 1), ("series-resistance", 1), ("receiver", 1)] },
    ];

    /// <summary>The world of that name; null when there is none.</summary>
    public static World? Find(string name) => name == Steady.Name ? Steady : All.FirstOrDefault(world => world.Name == name);
}
