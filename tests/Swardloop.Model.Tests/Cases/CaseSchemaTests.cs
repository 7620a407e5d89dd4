using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Json.Schema;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Tests.Yards;

namespace Swardloop.Model.Tests.Cases;

public sealed class CaseSchemaTests
{
    private static readonly JsonSchema Schema =
        JsonSchema.FromText(File.ReadAllText(Path.Combine(Examples.Repository, "docs/schemas/case.schema.json")));

    private static readonly string[] Values =
    [
        "null", "true", "0", "-1", "3.5", "1e7", "\"\"", "\"live\"", "\"over-range\"", "\"A\"", "[]", "{}", "[\"multimeter\"]", "\"owner\"",
    ];

    private static readonly string[] Splices =
    [
        "1e308", "-1e308", "1e-400", "null", "[[[[[[", "{\"a\":", "\"over-range\"", "\\ud800", "\0", "999999999999999999999999", "\uFEFF",
        "\"test\":", "\"repair\":\"mend-span\"", ",,", "0.1e1e1", "\"0001-01-01T00:00:00+14:00\"", "\"9999-12-31T23:59:59-14:00\"",
    ];

    public static TheoryData<string> ExampleCases =>
        [.. Directory.EnumerateFiles(Path.Combine(Examples.Repository, "examples"), "*.case.json").Select(path => Path.GetFileName(path)!)];

    private static bool SchemaTakes(string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    [Theory]
    [MemberData(nameof(ExampleCases))]
    public void An_example_is_taken_by_the_schema_and_by_the_reader(string name)
    {
        string folder = Path.Combine(Examples.Repository, "examples");
        byte[] bytes = File.ReadAllBytes(Path.Combine(folder, name));

        Assert.True(SchemaTakes(Encoding.UTF8.GetString(bytes)));
        Assert.Empty(CaseFile.Read(bytes, name, path => File.ReadAllBytes(Path.Combine(folder, path))).Lines());
    }

    [Fact]
    public void Every_observation_of_the_contract_is_taken_by_the_schema() => Assert.True(SchemaTakes(CaseReadingTests.Full));

    [Theory]
    [InlineData("""{ "test": "loop-resistance", "ohms": -1 }""")]
    [InlineData("""{ "test": "loop-resistance" }""")]
    [InlineData("""{ "test": "split-resistance", "atM": 42, "ohmsA": 3 }""")]
    [InlineData("""{ "test": "reflection", "from": "A", "kind": "open" }""")]
    [InlineData("""{ "repair": "station-lamp" }""")]
    [InlineData("""{ "test": "look", "repair": "renew-loop", "fromM": 1, "toM": 2, "value": "damage" }""")]
    [InlineData("""{ "test": "station-lamp", "value": "off", "at": "yesterday" }""")]
    [InlineData("""{ "test": "joint-drop", "atM": 42, "milliamps": 0, "millivolts": 3 }""")]
    [InlineData("""{ "test": "pin-probe", "atM": 42, "ohmsA": 3 }""")]
    [InlineData("""{ "test": "look", "fromM": 40, "value": "not-done" }""")]
    [InlineData("""{ "test": "station-lamp", "value": "off", "conditions": ["windy"] }""")]
    public void What_the_reader_refuses_the_schema_refuses_too(string observation)
    {
        string text = $$"""{ "format": "swardloop-case/1", "yard": "quince.yard.json", "observations": [ {{observation}} ] }""";

        Assert.False(SchemaTakes(text));
        Assert.NotEmpty(CaseReadingTests.Read(text).Problems);
    }

    [Fact]
    public void What_the_schema_takes_the_reader_takes()
    {
        // One value of the full case replaced by another kind of value: whatever still meets the schema must still be read.
        // Left to the reader alone: places on the wire, from below to, the calendar, and which yards there are.
        List<string> places = [];
        Walk(JsonNode.Parse(CaseReadingTests.Full)!, places);
        int taken = 0;
        foreach (string place in places.Where(place => !place.EndsWith("yard", StringComparison.Ordinal)))
        {
            foreach (JsonNode? value in Values.Select(text => JsonNode.Parse(text)))
            {
                JsonNode changed = JsonNode.Parse(CaseReadingTests.Full)!;
                Replace(changed, place, value?.DeepClone());
                string text = changed.ToJsonString();
                if (SchemaTakes(text))
                {
                    taken++;
                    Checked<CaseFile> read = CaseReadingTests.Read(text);
                    Assert.True(
                        read.IsGood || read.Problems.All(problem => problem.Place.EndsWith("toM", StringComparison.Ordinal) || problem.Place.EndsWith("fromM", StringComparison.Ordinal) || problem.Place.EndsWith("atM", StringComparison.Ordinal)),
                        $"{place} = {value?.ToJsonString() ?? "null"}: {string.Join(" | ", read.Lines())}");
                }
            }
        }

        Assert.InRange(taken, 100, int.MaxValue);
    }

    [Fact]
    public void Twenty_thousand_mutated_cases_are_read_or_refused()
    {
        byte[] full = Encoding.UTF8.GetBytes(CaseReadingTests.Full.Replace("\"quince.yard.json\"", CaseReadingTests.Yard, StringComparison.Ordinal));
        byte[][] splices = [.. Splices.Select(Encoding.UTF8.GetBytes)];
        int good = 0;
        Gen.Select(Gen.Int[0, full.Length - 1], Gen.Int[0, 12], Gen.Int[0, splices.Length], Gen.Byte, Gen.Int[0, full.Length - 1]).Array[1, 3]
            .Sample(changes =>
            {
                List<byte> bytes = [.. full];
                foreach ((int at, int remove, int splice, byte single, int from) in changes)
                {
                    int place = Math.Min(at, bytes.Count);
                    bytes.RemoveRange(place, Math.Min(remove, bytes.Count - place));
                    bytes.InsertRange(place, splice < splices.Length ? splices[splice] : single < 128 ? [single] : full.AsSpan(from, Math.Min(20, full.Length - from)));
                }

                Checked<CaseFile> read = CaseFile.Read(bytes.ToArray(), "mutated", _ => null);
                if (read.IsGood)
                {
                    Interlocked.Increment(ref good);
                    return CaseFile.Read(read.Value.ToUtf8(), "again", _ => null).Value!.Case.Observations.SequenceEqual(read.Value.Case.Observations);
                }

                return read.Problems.Count > 0 && read.Lines().All(line => line.Length > 9 && !line.Contains('\n', StringComparison.Ordinal));
            }, iter: 20_000);

        // Both ends of the mutations are met: some cases still read, most do not.
        Assert.InRange(good, 100, 15_000);
    }

    private static void Walk(JsonNode node, List<string> places)
    {
        IEnumerable<JsonNode?> children = node switch
        {
            JsonObject json => json.Select(property => property.Value),
            JsonArray array => array,
            _ => [],
        };
        foreach (JsonNode child in children.OfType<JsonNode>())
        {
            places.Add(child.GetPath());
            Walk(child, places);
        }
    }

    private static void Replace(JsonNode root, string path, JsonNode? value)
    {
        string[] steps = path[1..].Split(['.', '[', ']'], StringSplitOptions.RemoveEmptyEntries);
        JsonNode parent = steps[..^1].Aggregate(root, (node, step) => node is JsonArray array ? array[int.Parse(step, null)]! : node[step]!);
        if (parent is JsonArray list)
        {
            list[int.Parse(steps[^1], null)] = value;
        }
        else
        {
            parent[steps[^1]] = value;
        }
    }
}
