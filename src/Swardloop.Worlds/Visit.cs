using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>Work in one yard: performs steps, says what is seen, keeps the account.</summary>
internal sealed class Visit
{
    private static readonly string[] Places = ["atM", "fromM", "toM", "wire"];
    private static readonly string[] Parameters = ["atM", "fromM", "toM", "place", "from", "nearMetal", "loaded", "hertz", "spacingM", "testVolts", "guide", "wire"];
    private static readonly string[] Metres = ["atM", "fromM", "toM"];
    private static readonly string[] Keys = ["step", "by", .. Parameters];
    private readonly List<Entry> _log = [];
    private readonly List<Trouble> _left;
    private readonly Dictionary<string, int> _asked = [];
    private readonly HashSet<string> _sinceRepair = [];
    private readonly Answers _answers;

    /// <summary>Opens a yard.</summary>
    public Visit(Scene scene)
    {
        Scene = scene;
        _left = [.. scene.Troubles];
        Case = scene.OpeningCase();
        _answers = new(scene, _left);

        // What owners have looked at before they call: none to four things.
        if (scene.Owner)
        {
            string[] first = ["station-lamp", "mower-start", "mower-reach", "outlet-check"];
            foreach (string name in first.Take((int)scene.Draw.Uniform("story", 0, 5)))
            {
                JsonObject step = new() { ["step"] = name, ["by"] = "owner" };
                if (name == "mower-start")
                {
                    step["place"] = "mid-lawn";
                }

                Note(step, Answer(step));
            }
        }
    }

    /// <summary>The yard.</summary>
    public Scene Scene { get; }

    /// <summary>The case as an adviser sees it.</summary>
    public JsonObject Case { get; }

    /// <summary>Money so far.</summary>
    public double Cost { get; private set; }

    /// <summary>Steps so far.</summary>
    public int Steps { get; private set; }

    /// <summary>Questions asked again of the same person with nothing changed in between.</summary>
    public int Repeats { get; private set; }

    /// <summary>Repairs that ended nothing.</summary>
    public int WrongRepairs { get; private set; }

    /// <summary>Parts above 50 in money bought without need.</summary>
    public int DearPartsForNothing { get; private set; }

    /// <summary>Money by step.</summary>
    public SortedDictionary<string, double> Money { get; } = new(StringComparer.Ordinal);

    /// <summary>What was done, in order.</summary>
    public IReadOnlyList<Entry> Log => _log;

    /// <summary>What is still wrong.</summary>
    public IReadOnlyList<Trouble> Left => _left;

    /// <summary>Whether the mower does its work.</summary>
    public bool Runs => !_left.Exists(trouble => trouble.Harmful);

    /// <summary>Whether a technician has come.</summary>
    public bool OnSite => (bool)Case["onSite"]!;

    /// <summary>Does a step, and returns the observation that went into the case.</summary>
    public JsonObject Do(JsonObject step)
    {
        string name = Tariff.Name(step);
        double work = Tariff.Price(Scene, step), travel = 0;
        if (!Tariff.Owners(step) && !OnSite)
        {
            travel = Scene.Travel;
            Case["onSite"] = true;
        }

        double cost = work + travel;
        Cost += cost;
        Money[name] = Money.GetValueOrDefault(name) + cost;
        Steps++;
        JsonObject seen;
        if (Tariff.IsRepair(name))
        {
            seen = Repair(step);
            _sinceRepair.Clear();
        }
        else
        {
            Repeats += _sinceRepair.Add(Key(step)) ? 0 : 1;
            seen = Answer(step);
        }

        Note(step, seen);
        double minutes = (Tariff.Of(Scene, step)?.Minutes ?? 5) * (Tariff.Owners(step) ? 2 : 1);
        _log.Add(new((JsonObject)step.DeepClone(), (JsonObject)seen.DeepClone(), work, travel, minutes, [.. _left]));
        return seen;
    }

    private JsonObject Note(JsonObject step, JsonObject seen)
    {
        if (step["by"] is { } by)
        {
            seen["by"] = by.DeepClone();
        }

        ((JsonArray)Case["observations"]!).Add(seen);
        return seen;
    }

    private JsonObject Answer(JsonObject step)
    {
        string name = Tariff.Name(step), by = Tariff.Owners(step) ? "owner" : "technician", key = Key(step);
        _asked[key] = _asked.GetValueOrDefault(key) + 1;
        JsonObject seen = new() { ["test"] = name };
        foreach (string parameter in Parameters)
        {
            if (step[parameter] is { } value)
            {
                seen[parameter] = value.DeepClone();
            }
        }

        if (Scene.World.Weather)
        {
            seen["conditions"] = name == "wiggle" ? new JsonArray("moved") : new JsonArray(_answers.Wet(by) ? "wet" : "dry");
        }

        // Asked and could not be done: of that person never.
        double share = by == "owner" ? Scene.World.NotDone.Owner : Scene.World.NotDone.Technician;
        if ((name != "mower-check" && Scene.Draw.Chance($"not done {name} {by}", share)) || !_answers.Give(InWire(step), by, _asked[key], seen))
        {
            seen["value"] = "not-done";
        }

        return seen;
    }

    /// <summary>A step's places as metres of wire instead of metres of the file; a guide wire's are the same.</summary>
    private JsonObject InWire(JsonObject step)
    {
        if (Scene.FileScale == 1 || step["wire"] is not null)
        {
            return step;
        }

        JsonObject meant = (JsonObject)step.DeepClone();
        foreach (string place in Metres)
        {
            if (Tariff.Number(step, place) is { } metres)
            {
                meant[place] = metres / Scene.FileScale;
            }
        }

        return meant;
    }

    private JsonObject Repair(JsonObject asked)
    {
        JsonObject step = InWire(asked);
        string name = Tariff.Name(step);
        double length = Scene.Plan.Length, from = Tariff.Number(step, "fromM") ?? 0, to = Tariff.Number(step, "toM") ?? length, at = Tariff.Number(step, "atM") ?? -1;
        bool onGuide = step["wire"] is not null;
        bool Terminal(double? place) => place <= 0.3 || place >= length - 0.3;
        Trouble[] ended = [.. _left.Where(trouble => name switch
        {
            "restore-mains" => trouble.Cause == "no-mains",
            "replace-supply" => trouble.Cause == "supply",
            "replace-station" => trouble.Cause == "station",
            "swap-ends" => trouble.Cause == "ends-swapped",
            "clean-contacts" => trouble is { Cause: "charging", Battery: false },
            "replace-battery" => trouble is { Cause: "charging", Battery: true },
            "ask-maker" => trouble.Cause == "unmodelled",
            "remake-terminals" => trouble.Cause == "ends-swapped" || (trouble.Series && Terminal(trouble.At)),
            "remake-joint" when trouble.Cause == "guide" => onGuide ? Math.Abs(trouble.At!.Value - at) <= 0.3 : trouble.At >= Scene.Height - 0.3 && Math.Abs(Scene.GuideJoins!.Value - at) <= 0.3,
            "remake-joint" => !onGuide && trouble.AtJoint && Math.Abs(trouble.At!.Value - at) <= 0.3,
            "mend-span" when (trouble.Cause == "guide") != (step["wire"] is not null) => false,
            "mend-span" => (trouble.At >= from && trouble.At <= to) || (trouble.Second >= from && trouble.Second <= to),
            "renew-loop" => trouble.At is not null || trouble.Cause == "ends-swapped",
            "relay-layout" => trouble.Cause == "layout" || trouble.At is not null,
            "recode-station" => trouble.Cause == "crosstalk",
            "service-receiver" => trouble.Cause == "receiver",
            "service-drive" => trouble.Cause == "drive",
            _ => false,
        })];
        _left.RemoveAll(trouble => ended.Contains(trouble));
        WrongRepairs += ended.Length == 0 ? 1 : 0;
        DearPartsForNothing += ended.Length == 0 && (Tariff.Of(Scene, step)?.Parts ?? 0) > 50 && name != "ask-maker" ? 1 : 0;
        JsonObject seen = new() { ["repair"] = name };
        foreach (string parameter in Places)
        {
            if (asked[parameter] is { } value)
            {
                seen[parameter] = value.DeepClone();
            }
        }

        if (name is "mend-span" or "remake-joint" or "remake-terminals")
        {
            seen["found"] = ended.Any(trouble => trouble.Cause != "ends-swapped") ? "damaged" : "nothing";
        }

        return seen;
    }

    private static string Key(JsonObject step) =>
        string.Join('|', Keys.Select(parameter => step[parameter]?.ToJsonString() ?? ""));

    /// <summary>One step done.</summary>
    /// <param name="Step">As asked for.</param>
    /// <param name="Seen">What came of it.</param>
    /// <param name="Money">Its minutes and parts in money, travel apart.</param>
    /// <param name="Travel">Money for the way there, once.</param>
    /// <param name="Minutes">Of whoever does it.</param>
    /// <param name="Left">What is wrong after it.</param>
    internal sealed record Entry(JsonObject Step, JsonObject Seen, double Money, double Travel, double Minutes, IReadOnlyList<Trouble> Left);
}
