using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Client.Garden;

/// <summary>Cautions that hold for a whole visit and were ticked in it: thunder, services located, mower isolated, station unplugged. They are ticked once, stay in
/// sight, and are asked for again when the visit is over, another person goes on, or a step has undone them.</summary>
public sealed class VisitTicks
{
    // A working day; the next day's visit is another.
    private static readonly TimeSpan VisitLasts = TimeSpan.FromHours(10);

    private readonly Dictionary<Caution, CautionTick> _ticks = [];

    /// <summary>The tick under which a caution holds; null when it has to be ticked.</summary>
    public CautionTick? Holding(Caution caution, DateTimeOffset now, string by) =>
        StepCautions.HoldsForVisit(caution) && _ticks.TryGetValue(caution, out CautionTick? tick) && tick.By == by && (now - tick.At).Duration() < VisitLasts ? tick : null;

    /// <summary>Whether the visit has still to be begun by this person: nothing of what opens a visit holds.</summary>
    public bool IsUnopened(DateTimeOffset now, string by) => Opening.All(caution => Holding(caution, now, by) is null);

    /// <summary>What is agreed to when a visit begins, gravest first.</summary>
    public static IReadOnlyList<Caution> Opening { get; } = [.. Enum.GetValues<Caution>().Where(StepCautions.OpensVisit)];

    /// <summary>Takes back what was ticked by mistake.</summary>
    public void Drop(Caution caution) => _ = _ticks.Remove(caution);

    private (double Ohms, DateTimeOffset At, string By)? _leads;

    /// <summary>Resistance of the meter's leads (Ω), measured in this visit by this person; null when it was not.</summary>
    public double? LeadOhms(DateTimeOffset now, string by) => _leads is { } leads && leads.By == by && (now - leads.At).Duration() < VisitLasts ? leads.Ohms : null;

    /// <summary>Keeps the leads' resistance (Ω) for the visit.</summary>
    public void TakeLeads(double ohms, DateTimeOffset at, string by) => _leads = (ohms, at, by);

    /// <summary>Takes over what holds for the visit.</summary>
    public void Take(IEnumerable<CautionTick> ticks)
    {
        foreach (CautionTick tick in ticks.Where(tick => StepCautions.HoldsForVisit(tick.Caution)))
        {
            _ticks[tick.Caution] = tick;
        }
    }

    /// <summary>A step was done, or begun and left: what it has undone is asked for again.</summary>
    public void After(StepKind done)
    {
        foreach (Caution caution in _ticks.Keys.Where(caution => StepCautions.Ends(done, caution)).ToArray())
        {
            _ = _ticks.Remove(caution);
        }
    }

    /// <summary>Asks for everything again.</summary>
    public void Clear()
    {
        _ticks.Clear();
        _leads = null;
    }

    /// <summary>As a text to keep.</summary>
    public string ToText()
    {
        JsonArray ticks = new([.. _ticks.Values.Select(tick => tick.ToJson())]);
        return _leads is { } leads
            ? new JsonObject { ["ticks"] = ticks, ["leads"] = new JsonArray(leads.Ohms, leads.At.ToString("O", CultureInfo.InvariantCulture), leads.By) }.ToJsonString()
            : ticks.ToJsonString();
    }

    /// <summary>What was kept; none when there is nothing, or nothing that can be read.</summary>
    public static VisitTicks Read(string? text)
    {
        VisitTicks visit = new();
        try
        {
            JsonNode? kept = text is null ? null : JsonNode.Parse(text);
            visit.Take(CautionTick.Read(kept is JsonObject ? kept["ticks"] : kept)); // the ticks stand alone until the leads are measured
            if (kept is JsonObject && kept["leads"] is JsonArray leads)
            {
                visit.TakeLeads((double)leads[0]!, DateTimeOffset.Parse((string)leads[1]!, CultureInfo.InvariantCulture), (string)leads[2]!);
            }
        }
        catch (Exception wrong) when (wrong is JsonException or FormatException or InvalidOperationException)
        {
            visit.Clear(); // kept by another build
        }

        return visit;
    }
}
