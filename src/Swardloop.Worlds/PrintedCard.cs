using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>A careful person with a printed card, who knows only the file and what is seen: lamp, outlet, supply, ohms, halve at joints, look, trace,
/// dig, then the mower and the station by substitution. Never reckons with probabilities. Common practice, no source.</summary>
internal sealed class PrintedCard
{
    private const int MostSteps = 80;
    private readonly Visit _visit;
    private readonly Scene _scene;
    private readonly double _length;
    private readonly double[] _joints;
    private readonly HashSet<string> _kit;
    private bool _done;

    private PrintedCard(Scene scene)
    {
        _visit = new(scene);
        _scene = scene;
        _length = scene.FiledLength;
        _joints = [.. scene.FiledJoints];
        JsonObject can = (JsonObject)_visit.Case["can"]!;
        _kit = [.. ((JsonArray)can["instruments"]!).Select(item => (string)item!)];
        foreach (JsonNode? without in can["without"] as JsonArray ?? [])
        {
            _kit.Add("no " + (string)without!);
        }
    }

    /// <summary>Works through the card.</summary>
    public static Visit Play(Scene scene)
    {
        PrintedCard card = new(scene);
        card.Work();
        return card._visit;
    }

    private string Whoever => _visit.OnSite || !_scene.Owner ? "technician" : "owner";

    private void Work()
    {
        if ((Noted("station-lamp") ?? Ask("station-lamp", Whoever)) == "off" && Dark())
        {
            return;
        }

        // A mower that does not charge needs no wire yet.
        if (Ask("charge-check", Whoever) == "does-not" && (Mend("clean-contacts", Whoever) || Mend("replace-battery")))
        {
            return;
        }

        string? start = Noted("mower-start") ?? Ask("mower-start", Whoever, ("place", "mid-lawn"));
        bool ownerMeasures = !_visit.OnSite && _scene.OwnerMeter;
        bool bad = Measure(ownerMeasures ? "owner" : "technician", out bool broken);
        if (bad && ownerMeasures)
        {
            bad = Measure("technician", out broken);
        }

        for (int round = 0; round < 4 && bad && !_done; round++)
        {
            InWire(broken);
            bad = !_done && Measure("technician", out broken);
        }

        if (!_done && bad)
        {
            Mend("renew-loop");
        }

        if (!_done && !(start == "outside" && Mend("swap-ends", Whoever)))
        {
            SoundOhms();
        }
    }

    private bool Dark()
    {
        if (Ask("outlet-check", Whoever) == "dead" && Mend("restore-mains", Whoever))
        {
            return true;
        }

        JsonObject supply = Do("supply-voltage", null, ("loaded", true));
        if (supply["volts"] is { } volts && (double)volts < 0.8 * (double)supply["nominalVolts"]!)
        {
            return Mend("replace-supply");
        }

        return Ask("station-lamp") == "off" && Mend("replace-station");
    }

    private void InWire(bool broken)
    {
        (double low, double high) = (0, _length);
        if (broken && _kit.Contains("capacitance-meter"))
        {
            JsonObject seen = Do("end-capacitance");
            if (seen["nanofaradA"] is { } nearA && seen["nanofaradB"] is { } nearB && (double)nearA + (double)nearB is > 0 and var both && both < 1.5 * _length * 0.25)
            {
                double at = _length * (double)nearA / both, unsure = Math.Max(2, 0.025 * _length);
                (low, high) = (Math.Max(0, at - unsure), Math.Min(_length, at + unsure));
                foreach (double joint in _joints.Where(joint => joint > low && joint < high))
                {
                    if (Fixed("remake-joint", ("atM", joint)))
                    {
                        return;
                    }
                }
            }
        }

        while (_joints.Where(joint => joint > low + 0.01 && joint < high - 0.01).ToArray() is { Length: > 0 } inside && !_kit.Contains("no split-resistance"))
        {
            double at = inside[inside.Length / 2];
            int side = Halve(at);
            if (side == 0)
            {
                Check();
                return;
            }

            (low, high) = side < 0 ? (low, at) : (at, high);
        }

        if ((low == 0 || high == _length) && Fixed("remake-terminals"))
        {
            return;
        }

        (double from, double to) = (low, high);
        if (Looks(from, to))
        {
            while (to - from > 4)
            {
                double middle = (from + to) / 2;
                (from, to) = Looks(from, middle) ? (from, middle) : (middle, to);
            }

            if (Dig(from - 0.5, to + 0.5))
            {
                return;
            }

            (from, to) = (low, high);
        }

        if (broken && to - from > 5 && _kit.Contains("tone-sender"))
        {
            while (to - from > 4)
            {
                double middle = (from + to) / 2;
                (from, to) = Ask("tone-trace", null, ("atM", middle), ("from", "A")) == "strong" ? (middle, to) : (from, middle);
            }

            if (Dig(from - 1, to + 1))
            {
                return;
            }

            (from, to) = (low, high);
        }

        while (to - from > 10 && !_done && !_kit.Contains("no split-resistance") && _visit.Steps < MostSteps)
        {
            double middle = (from + to) / 2;
            int side = Halve(middle);
            if (side == 0)
            {
                Check();
                return;
            }

            (from, to) = side < 0 ? (from, middle) : (middle, to);
        }

        Dig(from - 0.5, to + 0.5);
    }

    private void SoundOhms()
    {
        bool crossed = (Noted("wire-crossing") ?? Ask("wire-crossing", Whoever, ("nearMetal", _scene.HasFence))) == "crossed";
        if (crossed && (Mend("swap-ends") || Fence()))
        {
            return;
        }

        if (_scene.GuideJoins is not null && Guide())
        {
            return;
        }

        if (_scene.HasNeighbour && Ask("neighbour-off", Whoever) == "cured" && Mend("recode-station"))
        {
            return;
        }

        // Another mower runs: it is this mower; first what is outside the card is asked of its maker.
        bool otherRuns = !_kit.Contains("no substitute-mower") && Ask("substitute-mower") == "runs";
        if (otherRuns && (Mend("service-receiver") || Mend("service-drive") || Mend("ask-maker")))
        {
            return;
        }

        if (!_kit.Contains("no substitute-loop") && Ask("substitute-loop") != "runs" && Dark())
        {
            return;
        }

        if (!otherRuns && !_done && (Mend("remake-terminals") || (!crossed && Fence())))
        {
            return;
        }

        string[] last = ["recode-station", "ask-maker", "relay-layout", "replace-station", "replace-supply", "service-drive", "service-receiver", "renew-loop", "replace-battery", "restore-mains"];
        _ = !_done && Array.Exists(last, repair => Mend(repair));
    }

    /// <summary>Both halves from the station through the guide read far too much: the guide is halved by cuts, and what is left of it is dug.</summary>
    private bool Guide()
    {
        JsonObject seen = Do("guide-resistance", null, ("guide", "G1"));
        double limit = (3 * _scene.FiledOhms) + 5;
        if ((string?)seen["value"] == "not-done" || (double?)seen["ohmsA"] < limit)
        {
            return false;
        }

        (double from, double to) = (0, _scene.Height);
        while (to - from > 10 && !_kit.Contains("no split-resistance") && _visit.Steps < MostSteps)
        {
            double middle = (from + to) / 2;
            JsonObject split = Do("split-resistance", null, ("wire", "G1"), ("atM", middle));
            (from, to) = (double?)split["ohmsA"] < limit ? (middle, to) : (from, middle);
        }

        Do("mend-span", null, ("wire", "G1"), ("fromM", from), ("toM", to));
        return Check();
    }

    /// <summary>Two damaged places beside metal: an earth reading far below a sound wire's, then the stretch beside the fence is looked at and dug.</summary>
    private bool Fence()
    {
        JsonObject seen = Do("earth-resistance");
        if (!_scene.HasFence || !(seen["ohms"] is { } ohms && (double)ohms < 50_000))
        {
            return false;
        }

        (double from, double to) = (_scene.Width / 2, (_scene.Width / 2) + (_scene.Height * 0.45));
        if (Looks(from, to))
        {
            while (to - from > 4)
            {
                double middle = (from + to) / 2;
                (from, to) = Looks(from, middle) ? (from, middle) : (middle, to);
            }
        }

        Do("mend-span", null, ("fromM", Math.Max(0, from - 0.5)), ("toM", to + 0.5));
        return Check();
    }

    /// <summary>−1 towards A, 1 towards B, 0 neither.</summary>
    private int Halve(double at)
    {
        JsonObject seen = Do("split-resistance", null, ("atM", at));
        double leads = (double?)seen["leadOhms"] ?? 0;
        bool Bad(string side, double metres) => !((double?)seen[side] - leads < (1.5 * _scene.FiledOhms * metres / _length) + 3);
        return (string?)seen["value"] == "not-done" ? 1 : Bad("ohmsA", at) ? -1 : Bad("ohmsB", _length - at) ? 1 : 0;
    }

    private bool Measure(string by, out bool broken)
    {
        JsonObject seen = Do("loop-resistance", by);
        double? ohms = (double?)seen["ohms"] - ((double?)seen["leadOhms"] ?? 0);
        broken = !(ohms < 15_000) && (string?)seen["value"] != "not-done";
        return (string?)seen["value"] != "not-done" ? !(ohms < (1.5 * _scene.FiledOhms) + 3) : by == "owner";
    }

    private bool Looks(double from, double to) => Ask("look", null, ("fromM", from), ("toM", to)) == "damage";

    private bool Dig(double from, double to) => Fixed("mend-span", ("fromM", Math.Max(0, from)), ("toM", Math.Min(_length, to)));

    private bool Fixed(string repair, params (string, JsonNode)[] parameters)
    {
        Do(repair, null, parameters);
        return !Measure("technician", out _) && Check();
    }

    private bool Mend(string repair, string? by = null)
    {
        Do(repair, by);
        return Check();
    }

    private bool Check()
    {
        _done = Ask("mower-check", Whoever) == "runs";
        return _done;
    }

    private string? Noted(string test) =>
        ((JsonArray)_visit.Case["observations"]!).OfType<JsonObject>().Where(seen => (string?)seen["test"] == test).Select(seen => (string?)seen["value"]).FirstOrDefault(value => value is not "not-done");

    private string? Ask(string test, string? by = null, params (string, JsonNode)[] parameters) => (string?)Do(test, by, parameters)["value"];

    private JsonObject Do(string name, string? by = null, params (string Name, JsonNode Value)[] parameters)
    {
        JsonObject step = new() { ["step"] = name, ["by"] = by ?? "technician" };
        foreach ((string parameter, JsonNode value) in parameters)
        {
            step[parameter] = value.DeepClone();
        }

        return _visit.Do(step);
    }
}
