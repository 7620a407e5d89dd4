using System.Numerics;
using System.Text.Json.Nodes;

namespace Swardloop.Worlds;

/// <summary>What a test shows in a yard, by physics; what physics does not say, by draws that persist: of every oddness 0.4 belongs to the yard,
/// 0.3 to the person, 0.3 to the moment (common practice, no source).</summary>
/// <param name="scene">The yard.</param>
/// <param name="left">What is still wrong; changes as repairs are done.</param>
/// <param name="oddness">How much of the world's oddness there is, 0 to 1.</param>
internal sealed class Answers(Scene scene, List<Trouble> left, double oddness = 1)
{
    private const double SensorHeight = 0.12;
    private readonly Draw _draw = scene.Draw.For("answers");
    private string _key = "";
    private string _by = "";
    private int _time;
    private Trouble[] _now = [];

    /// <summary>Whether it is wet when the owner looks, or on the day of the visit.</summary>
    public bool Wet(string by) => _draw.Chance("wet/" + by, 0.5);

    /// <summary>Writes the answer; false where it cannot be given.</summary>
    /// <param name="step">The question.</param>
    /// <param name="by">Who is asked.</param>
    /// <param name="time">How often they have been asked this.</param>
    /// <param name="seen">Written to.</param>
    public bool Give(JsonObject step, string by, int time, JsonObject seen)
    {
        string name = Tariff.Name(step);
        double length = scene.Plan.Length, at = Math.Clamp(Tariff.Number(step, "atM") ?? 0, 0, length);
        (_key, _by, _time) = ($"{name}/{at:F1}/{(string?)step["place"]}", by, time);

        // A contact that comes and goes is open in its weather nine times of ten, and one time of ten in the other.
        _now = [.. left.Where(trouble => trouble.Cause != "unsteady" || (trouble.OpensWet == Wet(by)) != _draw.Chance($"fit/{_key}/{by}/{time}", 0.1))];
        double odd = oddness * (by == "owner" ? scene.World.Odd.Owner : scene.World.Odd.Technician);
        bool Either(bool truth, double share) => truth != Odd("odd", share);
        switch (name)
        {
            case "outlet-check": return Say(seen, Either(!Has("no-mains"), odd / 3) ? "live" : "dead");
            case "supply-voltage":
                double nominal = _draw.Chance("28 V", 0.4) ? 28 : 24;
                seen["nominalVolts"] = nominal;

                // Three dead supplies in ten hold their voltage until they are loaded.
                bool sags = Has("supply") && ((bool?)step["loaded"] == true || !_draw.Chance("sags only", 0.3));
                seen["volts"] = Math.Round(Has("no-mains") ? 0 : sags ? nominal * _draw.Uniform("sag", 0, 0.4) : nominal * (1 + (0.02 * _draw.Normal("volts"))), 1);
                return true;
            case "station-lamp": return Say(seen, Odd("odd", odd) ? "normal" : Lamp());
            case "mower-start" when Way("locked"): return false;
            case "mower-start":
                bool middle = (string?)step["place"] != "at-wire";
                return Say(seen, Odd("odd", odd) ? (Odd("which", 0.5) ? "runs" : "no-signal") : Start(middle));
            case "mower-reach": return Reach(seen);
            case "follow-wire" when Way("locked"): return false;
            case "follow-wire": return Say(seen, !Hears(0.3) || Way("silent") || Has("guide") ? "lost" : Either(Has("drive") || Way("stops") || !Hears(1.5), odd) ? "wavering" : "steady");
            case "wire-crossing" when Way("locked"): return false;
            case "wire-crossing" when Has("short"):
                bool near = step["atM"] is null || (at > scene.IslandFrom && at < scene.IslandFrom + (2 * scene.IslandRun) + 9.6);
                return Say(seen, Odd("crossed", near ? 0.85 : 0.02) ? "crossed" : "respected");
            case "wire-crossing":
                return Say(seen, Odd("crossed", Has("leak-pair") ? 0.8 : Has("ends-swapped") ? 0.9 : 0.02) ? "crossed" : "respected");
            case "charge-check": return Say(seen, Either(!Has("charging") && Powered, odd / 2) ? "charges" : "does-not");
            case "terminal-look":
                Trouble? bad = left.Find(trouble => trouble.Series && (trouble.At <= 0.3 || trouble.At >= length - 0.3));
                return Say(seen, Odd("odd", bad is null ? 0.05 : 0.2) != (bad is null) ? (bad is null ? "sound" : bad.Cause == "open" ? "loose" : "corroded") : (bad is null ? "corroded" : "sound"));
            case "wiggle" when left.Exists(t => t.Cause == "unsteady" && Math.Abs(t.At!.Value - at) <= 0.3): return Say(seen, Odd("steady", 0.12) ? "steady" : "jumps");
            case "wiggle": return Say(seen, Odd("jumps", left.Exists(t => t.Series && t.AtJoint && Math.Abs(t.At!.Value - at) <= 0.3) ? 0.3 : 0.02) ? "jumps" : "steady");
            case "substitute-loop" when Way("locked"): return false;
            case "substitute-loop": return Say(seen, Either(Powered && !Has("receiver") && !Has("drive") && !Way("silent"), odd / 2) ? "runs" : "no-signal");
            case "substitute-mower":
                string[] mowers = ["receiver", "drive", "unmodelled", "charging"];
                return Say(seen, Either(!_now.Any(trouble => trouble.Harmful && !mowers.Contains(trouble.Cause)), odd / 2) ? "runs" : "no-signal");
            case "neighbour-off": return scene.HasNeighbour && Say(seen, Either(left.Exists(t => t.Cause == "crosstalk") && left.Count(t => t.Harmful) == 1, odd / 2) ? "cured" : "same");
            case "mower-check" when left.Count(trouble => trouble.Harmful) == 1 && Has("unsteady"):
                // Half an hour's mowing does not bring out everything that comes and goes.
                return Say(seen, _now.Length < left.Count && _draw.Chance($"holds/{_time}", 0.3) ? "runs" : "same");
            case "mower-check": return Say(seen, left.Exists(trouble => trouble.Harmful) ? "same" : "runs");
            case "look": return Look(step, seen);
            case "tone-trace" when step["wire"] is not null:
                bool beyond = left.Exists(t => t.Cause == "guide" && t.Ohms > 1e6 && t.At < at);
                return Say(seen, Either(beyond, 0.08) ? (beyond ? "none" : "weak") : "strong");
            case "tone-trace":
                bool past = _now.Any(t => t.Series && t.Ohms > 1e6 && ((string?)step["from"] == "B" ? t.At > at : t.At < at));
                return Say(seen, Either(past, 0.08) ? (past ? "none" : "weak") : "strong");
            default: return Measure(name, step, at, seen);
        }
    }

    private bool Powered => !Has("no-mains") && !Has("supply") && !Has("station");

    private bool Has(string cause) => left.Exists(trouble => trouble.Cause == cause);

    private bool Way(string way) => left.Exists(trouble => trouble.Way == way);

    private bool Odd(string what, double share) =>
        _draw.Chance($"{what}/yard/{_key}", 0.4 * share) || _draw.Chance($"{what}/person/{_key}/{_by}", 0.3 * share) || _draw.Chance($"{what}/moment/{_key}/{_by}/{_time}", 0.3 * share);

    private double Noise(string what, double deviation) =>
        deviation * ((0.6 * _draw.Normal($"{what}/{_key}")) + (0.8 * _draw.Normal($"{what}/{_key}/{_by}/{_time}")));

    private static bool Say(JsonObject seen, string value)
    {
        seen["value"] = value;
        return true;
    }

    // ---- What the mower hears and the lamp shows ----

    private double LoopOhms => new Wire(scene, _now, []) is var wire ? wire.OhmsBetween(wire.A, wire.B) : 0;

    private string Lamp()
    {
        if (Has("no-mains") || Has("supply") || (Has("station") && !_draw.Chance("lit", scene.World.LitDead)))
        {
            return "off";
        }

        double ohms = LoopOhms;
        return ohms > 20000 * Math.Exp(0.2 * _draw.Normal("alarm")) ? "alarm" : ohms > _draw.LogUniform("flicker", 500, 8000) && _draw.Chance("flickers", 0.6) ? "flicker" : "normal";
    }

    /// <summary>Whether the mower hears the wire so many metres inside the western edge: T·|g| ≥ |Z| (model 3).</summary>
    private bool Hears(double metres)
    {
        if (!Powered || Has("receiver"))
        {
            return false;
        }

        double impedance = new Complex(scene.SourceOhms + LoopOhms, scene.SignalOhms).Magnitude;
        return scene.Reach(!Has("layout")) * Math.Abs(scene.Plan.FieldPerAmpere(metres, scene.Height / 2, SensorHeight)) >= impedance;
    }

    private string Start(bool middle) =>
        Way("silent") || !Hears(middle ? scene.Width * 0.4 : 0.3) ? "no-signal" : Has("ends-swapped") ? "outside" : "runs";

    private bool Reach(JsonObject seen)
    {
        double half = scene.Width * 0.4, metres = 0.3;
        while (metres < half && Hears(metres))
        {
            metres += 0.1;
        }

        if (Way("locked") || Way("silent"))
        {
            return false;
        }

        bool all = metres >= half;
        seen["distanceM"] = Math.Round(all ? half : Math.Max(0, metres + Noise("reach", 0.2)), 1);
        seen["bound"] = all ? "at-least" : "exact";
        return true;
    }

    private bool Look(JsonObject step, JsonObject seen)
    {
        double from = Tariff.Number(step, "fromM") ?? 0, to = Tariff.Number(step, "toM") ?? scene.Plan.Length;
        bool shows = left.Exists(t => t.Shows && (t.Cause == "guide") == (step["wire"] is not null) && ((t.At >= from && t.At <= to) || (t.Second >= from && t.Second <= to)));

        // A sound ten metres look damaged once in a hundred: a trait of the place.
        bool alarm = Enumerable.Range((int)(from / 10), (int)((to - from) / 10) + 1).Any(tenth => _draw.Chance($"false alarm {tenth}", 0.01));
        _key = $"look/{(int)(from / 5)}/{(int)(to / 5)}";
        return Say(seen, (shows && !Odd("missed", 0.1)) || alarm ? "damage" : "nothing");
    }

    // ---- Meters ----

    private bool Measure(string name, JsonObject step, double at, JsonObject seen)
    {
        bool poor = scene.World.OwnersPoor && _by == "owner";
        double leads = Leads, hidden = poor && _draw.Chance("bad leads", 0.4) ? 3 : 0;
        double slip = poor && _draw.Chance("mixes units", 0.15) ? 1e-3 : 1;
        double length = scene.Plan.Length, stake = _draw.LogUniform("stake", 50, 400);
        double from = Tariff.Number(step, "fromM") ?? 0, to = Tariff.Number(step, "toM") ?? length;
        double? Shown(double ohms) => ohms > 2e7 ? null : Math.Round(slip * ((ohms * (1 + Noise("meter", 0.004))) + leads + hidden), ohms < 600 ? 1 : ohms < 6000 ? 0 : 0);
        if (step["wire"] is not null || name == "guide-resistance")
        {
            return Guide(name, at, seen, Shown);
        }

        Wire wire = new(scene, _now, [at, from, to], name is "ac-ratio" or "end-capacitance" ? 1000 : 0, name == "split-resistance" ? at : null);
        (int a, int b) = wire.NodesAt(at);
        void Ohms(double ohms)
        {
            if (Shown(ohms) is { } shown)
            {
                seen["ohms"] = shown;
            }
            else
            {
                seen["value"] = "over-range";
            }

            seen["leadOhms"] = leads;
            if (name is "loop-resistance")
            {
                seen["meter"] = new JsonObject { ["percent"] = 0.8, ["digits"] = 3, ["resolutionOhms"] = ohms < 600 ? 0.1 : 1 };
            }
        }

        switch (name)
        {
            case "loop-resistance":
                Ohms(wire.OhmsBetween(wire.A, wire.B));
                return true;
            case "earth-resistance":
                Ohms(wire.OhmsBetween(wire.A, -1) + stake);
                return true;
            case "insulation":
                seen["megohms"] = Math.Round(wire.OhmsBetween(wire.A, -1) / 1e6, 3);
                return true;
            case "bypass":
                wire.Net.Join(wire.NodesAt(from).ASide, wire.NodesAt(to).BSide, 1 / (0.02 * (5 + Plan.Apart(scene.Plan.At(from), scene.Plan.At(to)))));
                Ohms(wire.OhmsBetween(wire.A, wire.B));
                return true;
            case "split-resistance":
                seen["leadOhms"] = leads;
                left.RemoveAll(trouble => trouble.AtJoint && Math.Abs(trouble.At!.Value - at) <= 0.3);
                Wire parted = new(scene, [.. _now.Where(left.Contains)], [], 0, at);
                (int near, int far) = parted.NodesAt(at);
                seen["ohmsA"] = Shown(parted.OhmsBetween(parted.A, near));
                seen["ohmsB"] = Shown(parted.OhmsBetween(far, parted.B));
                return true;
            case "pin-probe":
                seen["ohmsA"] = Shown(wire.OhmsBetween(a, wire.A));
                seen["ohmsB"] = Shown(wire.OhmsBetween(b, wire.B));
                return true;
            case "joint-drop":
                wire.Net.Source(wire.B, wire.A, 9, 5);
                Complex[] drop = wire.Net.Solve();
                double ampere = (9 - (drop[wire.A] - drop[wire.B]).Real) / 5;
                seen["milliamps"] = Math.Round(1000 * ampere, 1);
                seen["millivolts"] = Math.Round(Math.Abs(1000 * (((drop[a] - drop[b]).Real) + (0.01 * ampere)) + Noise("drop", 0.2)), 1);
                return true;
            case "earth-ratio":
            case "ac-ratio":
                return Ratio(wire, name == "ac-ratio", seen);
            case "end-capacitance":
                seen["nanofaradA"] = Nanofarad(wire, wire.A);
                seen["nanofaradB"] = Nanofarad(new(scene, _now, [], 1000), -2);
                return true;
            case "reflection":
                Trouble? parting = left.Find(trouble => trouble.Cause == "open");
                seen["kind"] = parting is null ? "none" : "open";
                if (parting is not null)
                {
                    double metres = (string?)step["from"] == "B" ? length - parting.At!.Value : parting.At!.Value;
                    seen["delayNs"] = Math.Round((2e9 * metres / (3e8 * _draw.Uniform("velocity", 0.54, 0.66))) + Noise("delay", 3), 1);
                }

                return true;
            case "earth-gradient": return Gradient(at, Tariff.Number(step, "spacingM") ?? 1, seen);
            default: return false;
        }
    }

    /// <summary>Ohms of the branch: the guide has its own length and fault, then the loop's part to either terminal. Leakage is far above all of it.</summary>
    private bool Guide(string name, double at, JsonObject seen, Func<double, double?> shown)
    {
        if (scene.GuideJoins is not { } joins)
        {
            return false;
        }

        Trouble? fault = left.Find(trouble => trouble.Cause == "guide");
        at = Math.Min(at, scene.Height);
        double Along(double from, double to) => (scene.OhmsPerMetre * (to - from)) + (fault is not null && fault.At > from && fault.At <= to ? fault.Ohms : 0);
        double Loop(double from, double to) => (scene.OhmsPerMetre * (to - from)) + _now.Where(t => t.Series && t.At >= from && t.At <= to).Sum(t => t.Ohms);
        switch (name)
        {
            case "guide-resistance":
                seen["ohmsA"] = shown(Along(0, scene.Height) + Loop(0, joins));
                seen["ohmsB"] = shown(Along(0, scene.Height) + Loop(joins, scene.Plan.Length));
                seen["leadOhms"] = Leads;
                return true;
            case "split-resistance":
                seen["ohmsA"] = shown(Along(0, at));
                seen["ohmsB"] = shown(Along(at, scene.Height) + Loop(joins, scene.Plan.Length));
                seen["leadOhms"] = Leads;
                return true;
            default: return false;
        }
    }

    private double Leads => Math.Round(_draw.Uniform("leads " + _by, 0.2, 0.5), 1);

    private double Nanofarad(Wire wire, int node)
    {
        int end = node == -2 ? wire.B : node;
        wire.Net.Drive(-1, end, 1e-6);
        Complex volts = wire.Net.Solve()[end];
        return Math.Round(Math.Max(0, (1e-6 / volts).Imaginary / (2 * Math.PI * 1000) * 1e9 * (1 + Noise("capacitance", 0.012))), 2);
    }

    private bool Ratio(Wire wire, bool alternating, JsonObject seen)
    {
        wire.Net.Source(wire.B, wire.A, alternating ? 2 : 9, 10);

        // One meter of 10 MΩ, first at one end, then at the other.
        double Volts(int end)
        {
            wire.Net.Join(end, -1, 1e-7);
            double volts = wire.Net.Solve()[end].Magnitude;
            wire.Net.Join(end, -1, -1e-7);
            return volts;
        }

        seen["voltsA"] = Math.Round(Math.Abs(Volts(wire.A) + Noise("ratio A", 0.002)), 3);
        seen["voltsB"] = Math.Round(Math.Abs(Volts(wire.B) + Noise("ratio B", 0.002)), 3);
        return true;
    }

    /// <summary>Potential of point sources in soil (references C3), 5 cm deep, 9 V behind each leak, 20 µV of noise, of 100 Ω·m.</summary>
    private bool Gradient(double at, double spacing, JsonObject seen)
    {
        double Potential(double place) => left.Where(t => t.Cause is "leak-pair" or "leak").Sum(t => Source(t.At!.Value, t.Ohms, place) + (t.Second is { } other ? Source(other, 1.4 * t.Ohms, place) : 0));
        double microvolts = (1e6 * (Potential(at + (spacing / 2)) - Potential(at - (spacing / 2)))) + Noise("gradient", 20);
        double curve = 1e6 * ((2 * Potential(at)) - Potential(at + (spacing / 2)) - Potential(at - (spacing / 2)));
        seen["spacingM"] = spacing;
        return Say(seen, Math.Abs(microvolts) < 60 ? (curve > 500 ? "here" : "nothing") : microvolts > 0 ? "ahead" : "behind");

        double Source(double leak, double ohms, double place)
        {
            double apart = Plan.Apart(scene.Plan.At(leak), scene.Plan.At(Math.Clamp(place, 0, scene.Plan.Length)));
            return 100 * (9 / (ohms + 100)) / (2 * Math.PI * Math.Sqrt((apart * apart) + 0.0025));
        }
    }
}
