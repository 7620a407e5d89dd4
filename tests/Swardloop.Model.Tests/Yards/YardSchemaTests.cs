using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Json.Schema;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

/// <summary>The published schema takes what the reader takes, and refuses what it refuses, as far as a schema can see.</summary>
public sealed class YardSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Examples.Repository, "docs", "schemas", "yard.schema.json")));

    /// <summary>Values to put anywhere; what is a good number in one place is a wrong one in another. None beyond 1e28, where the schema
    /// library's own arithmetic ends.</summary>
    private static readonly string[] Values =
    [
        "null", "true", "false", "\"\"", "\"x\"", "\"a\\u0001\"", "\"copper\"", "\"aluminium\"", "\"copper-clad-steel\"", "\"gel\"", "\"swardloop-yard/1\"", "[]", "{}", "[[0,0],[1,1]]", "[{}]",
        "-1", "0", "-0.001", "0.001", "0.01", "0.5", "1", "2", "3", "5", "18", "18.5", "40", "41", "60", "61", "90", "91", "100", "101", "180", "180.5", "200", "201", "360", "361",
        "1000", "1001", "100000", "100001", "1000000", "1000001", "1e9", "1.1e9", "1e12", "-40", "-41", "-90", "-91", "-360", "-361",
    ];

    /// <summary>Places in the sample whose numbers have to fit the shapes, which a schema cannot see: only wrong values go there.</summary>
    private static bool IsShape(string path) => path.EndsWith("atM", StringComparison.Ordinal) || path.EndsWith("fromM", StringComparison.Ordinal)
        || path.EndsWith("toM", StringComparison.Ordinal) || path.Contains("path", StringComparison.Ordinal) || path.Contains("lawn", StringComparison.Ordinal)
        || path.Contains("holes", StringComparison.Ordinal);

    private static bool IsTaken(JsonNode tree)
    {
        using JsonDocument document = JsonDocument.Parse(tree.ToJsonString());
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    [Fact]
    public void The_schema_takes_the_examples_and_the_full_sample()
    {
        Assert.All(Examples.YardPaths, path => Assert.True(IsTaken(JsonNode.Parse(File.ReadAllText(path))!)));
        Assert.True(IsTaken(JsonNode.Parse(YardReadingTests.Full)!));
    }

    [Fact]
    public void Schema_and_reader_agree_on_generated_files()
    {
        int taken = 0, refused = 0;
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[0, Values.Length - 1], Gen.Int[0, 3]).Array[1, 2].Sample(changes =>
        {
            JsonNode tree = JsonNode.Parse(YardReadingTests.Full)!;
            foreach ((int place, int value, int kind) in changes)
            {
                (JsonObject parent, string name, string path)[] places = [.. Places(tree, "")];
                (JsonObject parent, string name, string path) = places[place % places.Length];
                JsonNode? replacement = JsonNode.Parse(Values[value]);
                if (kind == 0)
                {
                    _ = parent.Remove(name);
                }
                else if (kind == 1)
                {
                    parent["x-" + name] = replacement;
                }
                else if (!(IsShape(path) && replacement is JsonValue number && number.GetValueKind() == JsonValueKind.Number) && !(path is "holes" or "lawn" or "loop.path"))
                {
                    parent[name] = replacement;
                }
            }

            Checked<YardFile> read = YardReadingTests.Read(tree.ToJsonString());
            bool isTaken = IsTaken(tree);
            _ = isTaken ? taken++ : refused++;
            Assert.True(read.IsGood == isTaken, $"schema: {isTaken}\n{string.Join("\n", read.Lines())}\n{tree.ToJsonString()}");
        }, iter: 1_500, threads: 1);

        Assert.True(taken > 150 && refused > 150, $"{taken} taken, {refused} refused: too few to say anything.");
    }

    [Fact]
    public void Schema_and_reader_agree_on_every_form_of_conductor()
    {
        string[] materials = ["", "\"material\":\"copper\"", "\"material\":\"aluminium\"", "\"material\":\"copper-clad-steel\"", "\"material\":\"copper-clad-aluminium\""];
        string[] sizes = ["", "\"areaMm2\":1.5", "\"awg\":16", "\"ohmsPerKmAt20C\":12", "\"areaMm2\":1.5,\"awg\":16"];
        string[] iacs = ["", "\"conductivityPercentIacs\":40"];
        string[] classes = ["", "\"class\":1", "\"class\":2", "\"class\":3", "\"class\":5"];
        string[] coated = ["", "\"coated\":true", "\"coated\":false"];
        int good = 0;
        foreach (string conductor in from m in materials
                                     from s in sizes
                                     from i in iacs
                                     from c in classes
                                     from k in coated
                                     select string.Join(",", new[] { m, s, i, c, k }.Where(part => part.Length > 0)))
        {
            string text = """{"format":"swardloop-yard/1","name":"Wire","loop":{"path":[[0,0],[9,0],[9,9]],"conductor":{ @ }}}""".Replace("@", conductor, StringComparison.Ordinal);
            Checked<YardFile> read = YardReadingTests.Read(text);
            Assert.True(read.IsGood == IsTaken(JsonNode.Parse(text)!), $"{conductor}\n{string.Join("\n", read.Lines())}");
            good += read.IsGood ? 1 : 0;
        }

        Assert.True(good > 20);
    }

    [Fact]
    public void Lengths_of_lists_agree()
    {
        foreach ((string name, int most, string item) in new[]
        {
            ("metal", YardLimits.MetalObjects, """{"path":[[0,0],[1,1]]}"""),
            ("neighbours", YardLimits.Neighbours, """{"path":[[0,0],[1,1]]}"""),
            ("riskSpots", YardLimits.RiskSpots, """{"fromM":1,"toM":2}"""),
        })
        {
            foreach (int count in new[] { 0, most, most + 1 })
            {
                JsonNode tree = JsonNode.Parse(YardReadingTests.Full)!;
                tree[name] = JsonNode.Parse($"[{string.Join(",", Enumerable.Repeat(item, count))}]");
                Assert.Equal(count <= most, IsTaken(tree));
                Assert.Equal(count <= most, YardReadingTests.Read(tree.ToJsonString()).IsGood);
            }
        }
    }

    private static IEnumerable<(JsonObject Parent, string Name, string Path)> Places(JsonNode? node, string path) => node switch
    {
        JsonObject o => o.SelectMany(property => Places(property.Value, $"{path}.{property.Key}".TrimStart('.')).Prepend((o, property.Key, $"{path}.{property.Key}".TrimStart('.')))),
        JsonArray a => a.SelectMany(item => Places(item, path + "[]")),
        _ => [],
    };
}
