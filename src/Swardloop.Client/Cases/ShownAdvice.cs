using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

namespace Swardloop.Client.Cases;

/// <summary>An advice as a page shows it, read from the bytes that the engine gave: the same as the command line's.</summary>
/// <param name="Causes">Likeliest first.</param>
/// <param name="ExcessOhms">Ohms above a healthy loop, by the newest reading; null without one.</param>
/// <param name="Location">Where the fault lies, when one is believed.</param>
/// <param name="Density">Probability of the place along the wire.</param>
/// <param name="Evidence">What each observation said.</param>
/// <param name="ComplaintBits">What the complaint said; empty when its words fit nothing.</param>
/// <param name="Next">Steps, best first.</param>
/// <param name="Disagreement">The reading that contradicts the others; null for none.</param>
/// <param name="Finished">Whether nothing is left to do.</param>
public sealed record ShownAdvice(
    IReadOnlyList<CauseProbability> Causes, Interval? ExcessOhms, FaultLocation? Location, IReadOnlyList<DensityBin> Density,
    IReadOnlyList<EvidenceWeight> Evidence, IReadOnlyList<CauseBits> ComplaintBits, IReadOnlyList<ShownStep> Next, Disagreement? Disagreement, bool Finished)
{
    /// <summary>Reads an advice, <c>swardloop-advice/1</c>.</summary>
    /// <exception cref="JsonException">No JSON, or no advice.</exception>
    public static ShownAdvice Read(ReadOnlyMemory<byte> utf8)
    {
        using JsonDocument document = JsonDocument.Parse(utf8);
        JsonElement advice = document.RootElement;
        return new(
            [.. advice.GetProperty("causes").EnumerateArray().Select(each => new CauseProbability(CauseNamed(each.GetProperty("cause").GetString()!), Number(each, "probability")))],
            Object(advice, "excessOhms") is { } excess ? new(Number(excess, "low"), Number(excess, "median"), Number(excess, "high")) : null,
            Object(advice, "location") is { } location
                ? new(CauseNamed(location.GetProperty("cause").GetString()!), Number(location, "atM"), Number(location, "lowM"), Number(location, "highM"), Number(location, "credibility"))
                : null,
            [.. advice.GetProperty("density").EnumerateArray().Select(bin => new DensityBin(Number(bin, "fromM"), Number(bin, "toM"), Number(bin, "probability")))],
            [.. advice.GetProperty("evidence").EnumerateArray().Select(weight => new EvidenceWeight(weight.GetProperty("observation").GetInt32(), Bits(weight)))],
            advice.TryGetProperty("complaint", out JsonElement complaint) ? Bits(complaint) : [],
            [.. advice.GetProperty("next").EnumerateArray().Select(step => new ShownStep(
                StepOf(step), Number(step, "minutes"), Number(step, "costNow"), Number(step, "expectedCostToFinish"), step.GetProperty("why").GetString()!))],
            Object(advice, "disagreement") is { } odd ? new(odd.GetProperty("observation").GetInt32(), StepOf(odd.GetProperty("repeat"))) : null,
            advice.GetProperty("finished").GetBoolean());
    }

    private static List<CauseBits> Bits(JsonElement weight) =>
        [.. weight.GetProperty("bits").EnumerateObject().Select(bits => new CauseBits(CauseNamed(bits.Name), bits.Value.GetDouble()))];

    private static Step StepOf(JsonElement step) => new(Word<StepKind>(step.GetProperty("step").GetString()!))
    {
        AtMetres = OptionalNumber(step, "atM"),
        FromMetres = OptionalNumber(step, "fromM"),
        ToMetres = OptionalNumber(step, "toM"),
        From = OptionalWord<WireEnd>(step, "from"),
        Place = OptionalWord<StartPlace>(step, "place"),
        NearMetal = step.TryGetProperty("nearMetal", out JsonElement near) ? near.GetBoolean() : null,
        TestVolts = OptionalNumber(step, "testVolts"),
        Wire = OptionalText(step, "wire"),
        Guide = OptionalText(step, "guide"),
        Loaded = step.TryGetProperty("loaded", out JsonElement loaded) ? loaded.GetBoolean() : null,
        SpacingMetres = OptionalNumber(step, "spacingM"),
        By = OptionalWord<Person>(step, "by") ?? Person.Technician,
    };

    private static Cause CauseNamed(string name) => WireName.TryReadCause(name, out Cause cause) ? cause : throw new JsonException($"No cause is called {name}.");

    private static T Word<T>(string name)
        where T : struct, Enum =>
        WireName.Words<T>().FirstOrDefault(word => word.Key == name) is { Key: not null } found ? found.Value : throw new JsonException($"{name} is not known.");

    private static T? OptionalWord<T>(JsonElement of, string name)
        where T : struct, Enum =>
        of.TryGetProperty(name, out JsonElement value) ? Word<T>(value.GetString()!) : null;

    private static JsonElement? Object(JsonElement of, string name) => of.GetProperty(name) is { ValueKind: JsonValueKind.Object } there ? there : null;

    private static string? OptionalText(JsonElement of, string name) => of.TryGetProperty(name, out JsonElement value) ? value.GetString() : null;

    private static double? OptionalNumber(JsonElement of, string name) => of.TryGetProperty(name, out JsonElement value) ? value.GetDouble() : null;

    private static double Number(JsonElement of, string name) => of.GetProperty(name).GetDouble();
}
