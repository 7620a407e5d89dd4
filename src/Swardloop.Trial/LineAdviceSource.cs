using System.Text;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Yards;

namespace Swardloop.Trial;

/// <summary>An adviser met as the contract says: one case per line in, one advice per line out. Of the answer only what the contract
/// promises is read, by names written here again, so that a slip in the product's own names shows.</summary>
/// <param name="answer">Gives the advice's line for a case's line. May be called from several threads at once.</param>
public sealed class LineAdviceSource(Func<string, string> answer) : IAdviceSource
{
    /// <inheritdoc/>
    public TrialAdvice Advise(ServiceCase serviceCase) => Read(answer(Line(serviceCase)));

    /// <summary>A case as one line, its yard inside.</summary>
    public static string Line(ServiceCase serviceCase)
    {
        byte[] file = CaseFile.Create(serviceCase, YardFile.Create(serviceCase.Yard)).ToUtf8();
        using JsonDocument document = JsonDocument.Parse(file);
        using MemoryStream line = new();
        using (Utf8JsonWriter writer = new(line))
        {
            document.WriteTo(writer);
        }

        return Encoding.UTF8.GetString(line.ToArray());
    }

    /// <summary>What an advice's line says.</summary>
    /// <exception cref="FormatException">It is an error, or no advice as promised.</exception>
    public static TrialAdvice Read(string line)
    {
        using JsonDocument document = JsonDocument.Parse(line);
        JsonElement advice = document.RootElement;
        if (advice.TryGetProperty("error", out JsonElement error))
        {
            throw new FormatException($"Answered with an error: {error}");
        }

        if (advice.GetProperty("format").GetString() != "swardloop-advice/1")
        {
            throw new FormatException($"No advice of format 1: {advice.GetProperty("format")}");
        }

        JsonElement next = advice.GetProperty("next"), location = advice.GetProperty("location");
        return new(
            advice.GetProperty("finished").GetBoolean(),
            next.GetArrayLength() > 0 ? ReadStep(next[0]) : null,
            [.. advice.GetProperty("causes").EnumerateArray().Select(cause =>
                new CauseProbability(ReadCause(cause.GetProperty("cause").GetString()!), cause.GetProperty("probability").GetDouble()))],
            location.ValueKind == JsonValueKind.Null ? null : new(
                ReadCause(location.GetProperty("cause").GetString()!),
                location.GetProperty("atM").GetDouble(),
                location.GetProperty("lowM").GetDouble(),
                location.GetProperty("highM").GetDouble(),
                location.GetProperty("credibility").GetDouble()));
    }

    private static Step ReadStep(JsonElement step) => new(Word<StepKind>(step.GetProperty("step").GetString()!))
    {
        AtMetres = Number(step, "atM"),
        FromMetres = Number(step, "fromM"),
        ToMetres = Number(step, "toM"),
        TestVolts = Number(step, "testVolts"),
        Wire = step.TryGetProperty("wire", out JsonElement wire) ? wire.GetString() : null,
        Guide = step.TryGetProperty("guide", out JsonElement guide) ? guide.GetString() : null,
        Loaded = step.TryGetProperty("loaded", out JsonElement loaded) ? loaded.GetBoolean() : null,
        SpacingMetres = Number(step, "spacingM"),
        From = step.TryGetProperty("from", out JsonElement from) ? Word<WireEnd>(from.GetString()!) : null,
        Place = step.TryGetProperty("place", out JsonElement place) ? Word<StartPlace>(place.GetString()!) : null,
        NearMetal = step.TryGetProperty("nearMetal", out JsonElement near) ? near.GetBoolean() : null,
        By = Word<Person>(step.GetProperty("by").GetString()!),
    };

    private static Cause ReadCause(string name)
    {
        CauseKind[] kinds = [.. name.Split('+').Select(Word<CauseKind>)];
        return kinds.Length <= 2 ? new(kinds[0], kinds.Length > 1 ? kinds[1] : null) : throw new FormatException($"No cause: {name}");
    }

    private static T Word<T>(string name)
        where T : struct, Enum =>
        Enum.TryParse(name.Replace("-", "", StringComparison.Ordinal), ignoreCase: true, out T value) && !char.IsAsciiDigit(name[0])
            ? value
            : throw new FormatException($"No {typeof(T).Name}: {name}");

    private static double? Number(JsonElement element, string property) =>
        element.TryGetProperty(property, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
