using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Advising;

/// <summary>A workshop's own closed cases, counted per cause: <c>swardloop-priors/1</c>. Each case is known by the digest of its
/// content, so that it counts once however often it is handed in. What else a program keeps in the file survives. Immutable.</summary>
public sealed class PriorsFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-priors/1";

    private const int MostCases = 500_000;
    private const string CountsAllowed = "a cause's name, or two joined by +";

    private readonly JsonElement _document;
    private readonly SortedDictionary<string, double> _counts;
    private readonly HashSet<string> _cases;

    private PriorsFile(JsonElement document, SortedDictionary<string, double> counts, HashSet<string> cases) =>
        (_document, _counts, _cases) = (document, counts, cases);

    /// <summary>A file without a case.</summary>
    public static PriorsFile Empty { get; } = new(JsonDocument.Parse("{}").RootElement.Clone(), new(StringComparer.Ordinal), []);

    /// <summary>Closed cases per cause's name, in order of the names.</summary>
    public IReadOnlyDictionary<string, double> Counts => _counts;

    /// <summary>The stated defaults with these cases added.</summary>
    public CausePriors Priors => _counts.Aggregate(CausePriors.Default, (priors, count) =>
        WireName.TryReadCause(count.Key, out Cause cause) ? priors.WithClosedCases(cause, count.Value) : priors);

    /// <summary>Reads a file.</summary>
    /// <param name="utf8">Its bytes.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    public static Checked<PriorsFile> Read(ReadOnlyMemory<byte> utf8, string sourceName)
    {
        ProblemList problems = new(sourceName);
        using JsonDocument? document = JsonText.Parse(utf8, problems);
        if (document is null || JsonFields.Of(document.RootElement, "", problems) is not { } fields)
        {
            return Checked<PriorsFile>.Bad(problems);
        }

        fields.Word<bool>("format", [new(Format, true)], required: true);
        SortedDictionary<string, double> counts = new(StringComparer.Ordinal);
        if (fields.Nested("counts", required: true) is { } given)
        {
            foreach (JsonProperty count in document.RootElement.GetProperty("counts").EnumerateObject())
            {
                if (!WireName.TryReadCause(count.Name, out Cause cause))
                {
                    problems.Add(given.PlaceOf(count.Name), "unknown cause", CountsAllowed);
                }
                else if (given.Number(count.Name, new(0, 1e6, "cases")) is { } cases)
                {
                    counts[WireName.Of(cause)] = counts.GetValueOrDefault(WireName.Of(cause)) + cases;
                }
            }
        }

        HashSet<string> known = new(StringComparer.Ordinal);
        foreach ((JsonElement element, string place) in fields.Items("cases", 0, MostCases, required: true))
        {
            if (element.ValueKind == JsonValueKind.String)
            {
                known.Add(element.GetString()!);
            }
            else
            {
                problems.Add(place, $"got {JsonFields.Shown(element)}", "the digest of a case, as text");
            }
        }

        return problems.Any
            ? Checked<PriorsFile>.Bad(problems)
            : Checked<PriorsFile>.Good(new(document.RootElement.Clone(), counts, known));
    }

    /// <summary>Whether a case was counted before.</summary>
    /// <param name="digest">Its <see cref="CaseFile.Digest"/>.</param>
    public bool Knows(string digest) => _cases.Contains(digest);

    /// <summary>The same file with a case counted; the same again when it knows the case.</summary>
    /// <param name="digest">The case's <see cref="CaseFile.Digest"/>.</param>
    /// <param name="cause">What it was.</param>
    public PriorsFile With(string digest, Cause cause)
    {
        if (Knows(digest))
        {
            return this;
        }

        SortedDictionary<string, double> counts = new(_counts, StringComparer.Ordinal);
        counts[WireName.Of(cause)] = counts.GetValueOrDefault(WireName.Of(cause)) + 1;
        return new(_document, counts, new(_cases, StringComparer.Ordinal) { digest });
    }

    /// <summary>A file of many cases at once; what is counted twice by its digest counts as it first came.</summary>
    /// <param name="cases">Each case's <see cref="CaseFile.Digest"/> and what it was.</param>
    public static PriorsFile Of(IEnumerable<(string Digest, Cause Cause)> cases)
    {
        SortedDictionary<string, double> counts = new(StringComparer.Ordinal);
        HashSet<string> known = new(StringComparer.Ordinal);
        foreach ((string digest, Cause cause) in cases)
        {
            if (known.Add(digest))
            {
                counts[WireName.Of(cause)] = counts.GetValueOrDefault(WireName.Of(cause)) + 1;
            }
        }

        return new(Empty._document, counts, known);
    }

    /// <summary>The file's bytes: UTF-8, indented, the same for the same cases in whatever order they came.</summary>
    public byte[] ToUtf8()
    {
        JsonObject json = JsonObject.Create(_document)!;
        json["format"] = Format;
        json["counts"] = new JsonObject(_counts.Select(count => KeyValuePair.Create(count.Key, (JsonNode?)count.Value)));
        json["cases"] = new JsonArray([.. _cases.Order(StringComparer.Ordinal).Select(digest => JsonValue.Create(digest))]);
        ArrayBufferWriter<byte> bytes = new();
        using (Utf8JsonWriter writer = new(
            bytes, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            json.WriteTo(writer);
        }

        bytes.Write("\n"u8);
        return bytes.WrittenSpan.ToArray();
    }
}
