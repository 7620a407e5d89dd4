using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Workshop.Records;

/// <summary>Case files that travel by mail or on a stick: taken in like any other changes, so that the same file twice, or a later one that
/// holds more, adds each observation once.</summary>
/// <remarks>A file that a workshop wrote carries the ids of its records, as properties that other programs keep and pass over. A file from
/// elsewhere gets ids made of its content.</remarks>
public static class CaseExchange
{
    private const string RecordProperty = "record";
    private const string IdProperty = "id";

    /// <summary>The case as a file for another workshop or device, yard inside, with the ids of its records.</summary>
    /// <param name="case">The case.</param>
    /// <param name="yard">Its yard.</param>
    /// <param name="observations">All observations of the case, in any order; those that count are written.</param>
    /// <param name="rates">The workshop's rates; null for the stated defaults.</param>
    public static byte[] Export(RecordState @case, RecordState yard, IEnumerable<RecordState> observations, RecordState? rates)
    {
        IReadOnlyList<RecordState> counting = ObservationOrder.ThatCount(observations);
        JsonObject tree = CaseAssembly.Tree(@case, yard, counting, rates);
        tree[RecordProperty] = new JsonObject { ["case"] = @case.Id.ToString(), ["yard"] = yard.Id.ToString() };
        JsonArray written = tree["observations"]!.AsArray();
        for (int i = 0; i < counting.Count; i++)
        {
            written[i]![IdProperty] = counting[i].Id.ToString();
        }

        return JsonLayout.ToUtf8(tree);
    }

    /// <summary>What a case file brings, beside what of it the workshop has otherwise.</summary>
    /// <param name="utf8">The file's bytes; its yard must stand in it.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <param name="known">The workshop's record of an id; null when it has none.</param>
    /// <param name="now">The time, for what the file does not date.</param>
    public static Checked<CaseFileNews> News(ReadOnlyMemory<byte> utf8, string sourceName, Func<Guid, RecordState?> known, DateTimeOffset now)
    {
        // First as if nothing were known: then each change says what the file says of its record.
        Checked<IReadOnlyList<Change>> all = Import(utf8, sourceName, _ => false, now);
        if (!all.IsGood)
        {
            ProblemList problems = new(sourceName);
            foreach (Problem problem in all.Problems)
            {
                problems.Add(problem.Place, problem.Message, problem.Allowed);
            }

            return Checked<CaseFileNews>.Bad(problems);
        }

        List<(RecordKind, string)> differing = [];
        foreach (Change change in all.Value)
        {
            if (known(change.Record) is { } record)
            {
                differing.AddRange(change.Set.Where(set => set.Key is not ("name" or "after") && Differs(set.Value, record.Value(set.Key))).Select(set => (change.Kind, set.Key)));
            }
        }

        return Checked<CaseFileNews>.Good(new(
            all.Value.Single(change => change.Kind == RecordKind.Case).Record,
            all.Value.Single(change => change.Kind == RecordKind.Yard).Set["name"].GetString() ?? "",
            all.Value.Count(change => change.Kind == RecordKind.Observation),
            [.. all.Value.Where(change => known(change.Record) is null)],
            [.. differing.Distinct()]));

        static bool Differs(JsonElement here, JsonElement? there) => there is { } value
            ? !JsonElement.DeepEquals(here, value)
            : here.ValueKind is not (JsonValueKind.Null or JsonValueKind.False) && !(here.ValueKind == JsonValueKind.String && here.ValueEquals(""));
    }

    /// <summary>The changes that bring a case file into the workshop.</summary>
    /// <param name="utf8">The file's bytes; its yard must stand in it.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <param name="isKnown">Whether the workshop has a record already.</param>
    /// <param name="now">The time, for what the file does not date.</param>
    /// <returns>The changes, none when everything is known already; or what is wrong with the file. A yard and a case that are known stay
    /// as they are: only observations are added.</returns>
    public static Checked<IReadOnlyList<Change>> Import(
        ReadOnlyMemory<byte> utf8, string sourceName, Func<Guid, bool> isKnown, DateTimeOffset now)
    {
        Checked<CaseFile> read = CaseFile.Read(utf8, sourceName, _ => null);
        if (!read.IsGood)
        {
            ProblemList problems = new(sourceName);
            foreach (Problem problem in read.Problems)
            {
                problems.Add(problem.Place, problem.Message, problem.Allowed);
            }

            return Checked<IReadOnlyList<Change>>.Bad(problems);
        }

        using JsonDocument document = JsonDocument.Parse(utf8);
        JsonElement file = document.RootElement;
        JsonElement yardFile = file.GetProperty("yard");
        Guid yard = IdIn(file, RecordProperty, "yard") ?? MadeOf("yard", Canonical(yardFile));
        Guid @case = IdIn(file, RecordProperty, "case") ?? MadeOf("case", yard.ToString(), read.Value.Case.Complaint);
        List<Change> changes = [];
        if (!isKnown(yard))
        {
            Add(RecordKind.Yard, yard, new() { ["name"] = Text(read.Value.Case.Yard.Name), ["file"] = yardFile.Clone() });
        }

        if (!isKnown(@case))
        {
            Dictionary<string, JsonElement> set = new() { ["yard"] = Text(yard.ToString()), ["complaint"] = Text(read.Value.Case.Complaint) };
            foreach (string name in (string[])["onSite", "can"])
            {
                if (file.TryGetProperty(name, out JsonElement value) && value.ValueKind != JsonValueKind.Null)
                {
                    set[name] = value.Clone();
                }
            }

            Add(RecordKind.Case, @case, set);
        }

        Guid? after = null;
        Dictionary<string, int> sameBefore = [];
        foreach (JsonElement observation in file.TryGetProperty("observations", out JsonElement all) && all.ValueKind == JsonValueKind.Array
            ? all.EnumerateArray().ToArray() : [])
        {
            JsonObject reading = JsonObject.Create(observation.Clone())!;
            Guid id = IdIn(observation, IdProperty) ?? MadeOf("observation", @case.ToString(), Nth(Canonical(observation)));
            reading.Remove(IdProperty);
            if (!isKnown(id))
            {
                Dictionary<string, JsonElement> set = new()
                {
                    ["yard"] = Text(yard.ToString()),
                    ["case"] = Text(@case.ToString()),
                    ["reading"] = JsonSerializer.SerializeToElement(reading, WorkshopJson.Default.JsonObject),
                };
                if (after is { } previous)
                {
                    set["after"] = Text(previous.ToString());
                }

                Add(RecordKind.Observation, id, set);
            }

            after = id;
        }

        return Checked<IReadOnlyList<Change>>.Good(changes);

        // The same reading made three times is three observations.
        string Nth(string content) => $"{sameBefore[content] = sameBefore.GetValueOrDefault(content) + 1} {content}";

        void Add(RecordKind kind, Guid record, Dictionary<string, JsonElement> set) => changes.Add(new(
            MadeOf("change", record.ToString()), kind, record, set, new Dictionary<string, IReadOnlyList<Guid>>(), now));
    }

    private static Guid? IdIn(JsonElement element, params string[] path)
    {
        foreach (string name in path)
        {
            if (element.ValueKind != JsonValueKind.Object || !element.TryGetProperty(name, out element))
            {
                return null;
            }
        }

        return element.ValueKind == JsonValueKind.String && element.TryGetGuid(out Guid id) && id.Version == 7 && Ids.KindReservedFor(id) is null ? id : null;
    }

    /// <summary>An id that the same content always gets: a UUID of version 7 whose time is the epoch, its random part a digest.</summary>
    private static Guid MadeOf(params string[] content)
    {
        Span<byte> bytes = stackalloc byte[16];
        SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', content))).AsSpan(0, 16).CopyTo(bytes);
        bytes[..6].Clear();
        bytes[6] = (byte)((bytes[6] & 0x0f) | 0x70);
        bytes[8] = (byte)((bytes[8] & 0x3f) | 0x80);
        return new(bytes, bigEndian: true);
    }

    /// <summary>The same text however a file is laid out.</summary>
    private static string Canonical(JsonElement element) => JsonNode.Parse(element.GetRawText())!.ToJsonString();

    private static JsonElement Text(string text) => JsonSerializer.SerializeToElement(text, WorkshopJson.Default.String);
}
