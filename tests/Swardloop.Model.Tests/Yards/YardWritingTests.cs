using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

public sealed class YardWritingTests
{
    private static string Text(YardFile file) => Encoding.UTF8.GetString(file.ToUtf8());

    private static YardFile Read(string text) => YardReadingTests.Read(text).Value!;

    [Fact]
    public void A_file_that_was_not_changed_is_written_byte_for_byte()
    {
        foreach (string path in Examples.YardPaths)
        {
            Assert.Equal(File.ReadAllBytes(path), YardFile.Read(File.ReadAllBytes(path), path).Value!.ToUtf8());
        }
    }

    [Fact]
    public void A_changed_value_is_replaced_where_it_stands_and_all_else_stays()
    {
        YardFile file = Read("""
            { "x-first": 1.50, "name": "Old", "format": "swardloop-yard/1",
              "loop": { "conductor": { "awg": 18, "x-drum": "D7", "material": "copper" }, "joints": [ { "atM": 30, "x-photo": "b.jpg" }, { "x-photo": "a.jpg", "atM": 10.00 } ],
                        "path": [[0,0],[10,0],[10,10],[0,10],[0,0]] }, "x-last": { "deep": [1e3, { "n": null }] } }
            """);

        Yard yard = file.Yard;
        YardFile changed = file.With(yard with { Name = "New", Loop = yard.Loop with { Joints = [yard.Loop.Joints[0], yard.Loop.Joints[1] with { AtMetres = 31 }] } });

        Assert.Equal("""
            {
              "x-first": 1.50,
              "name": "New",
              "format": "swardloop-yard/1",
              "loop": {
                "conductor": { "awg": 18, "x-drum": "D7", "material": "copper" },
                "joints": [{ "x-photo": "a.jpg", "atM": 10.00 }, { "atM": 31, "x-photo": "b.jpg" }],
                "path": [[0, 0], [10, 0], [10, 10], [0, 10], [0, 0]]
              },
              "x-last": { "deep": [1e3, { "n": null }] }
            }

            """.ReplaceLineEndings("\n"), Text(changed));
    }

    [Fact]
    public void A_removed_item_takes_only_its_own_extras_along()
    {
        YardFile file = Read(YardReadingTests.Full
            .Replace("\"style\": \"twisted\"", "\"style\": \"twisted\", \"x\": 1", StringComparison.Ordinal)
            .Replace("\"style\": \"gel\"", "\"style\": \"gel\", \"x\": 2", StringComparison.Ordinal));

        YardFile changed = file.With(file.Yard with { Loop = file.Yard.Loop with { Joints = [file.Yard.Loop.Joints[1]] }, Datum = null, Metal = [] });

        JsonNode tree = JsonNode.Parse(Text(changed))!;
        Assert.Equal("""[{"atM":118.5,"style":"twisted","x":1}]""", tree["loop"]!["joints"]!.ToJsonString());
        Assert.Null(tree["datum"]);
        Assert.Empty(tree["metal"]!.AsArray());
        Assert.Equal(Text(changed), Text(Read(Text(changed))));
    }

    [Fact]
    public void Properties_nobody_knows_survive_a_change_anywhere_in_the_tree() =>
        Gen.Select(Gen.Int[0, 10_000].Array[1, 12], Gen.Int[0, 5]).Sample((places, change) =>
        {
            JsonObject tree = JsonNode.Parse(YardReadingTests.Full)!.AsObject();
            JsonObject[] objects = [.. Objects(tree)];
            for (int i = 0; i < places.Length; i++)
            {
                JsonObject target = objects[places[i] % objects.Length];
                target.Insert(places[i] / objects.Length % (target.Count + 1), $"x-{i}", JsonNode.Parse($$"""{ "n": 1.{{i}}0, "list": [null, "Ω"] }"""));
            }

            YardFile file = Read(tree.ToJsonString());
            Yard yard = file.Yard;
            Yard other = change switch
            {
                0 => yard with { Name = "Other" },
                1 => yard with { Loop = yard.Loop with { DepthMetres = 0.1 } },
                2 => yard with { Station = yard.Station with { SourceOhms = 90 } },
                3 => yard with { Soil = new Soil { TemperatureCelsius = 3 } },
                4 => yard with { Datum = new Datum(50, 4, 10) },
                _ => yard with { Metal = [yard.Metal[0] with { EarthOhms = 12 }] },
            };
            string written = Text(file.With(other));
            JsonObject[] after = [.. Objects(JsonNode.Parse(written)!)];

            Assert.NotEqual(Text(file), written);
            Assert.Equal(Objects(tree).Select(Names), after.Select(Names)); // the same names in the same order in every object
            for (int i = 0; i < places.Length; i++)
            {
                Assert.Contains($$"""{ "n": 1.{{i}}0, "list": [null, "Ω"] }""", written, StringComparison.Ordinal);
            }

            Assert.Equal(written, Text(Read(written)));

            // and back again, nothing but the layout differs from what was read
            Assert.True(JsonNode.DeepEquals(tree, JsonNode.Parse(Text(Read(written).With(yard)))));
        }, iter: 300, threads: 1);

    [Fact]
    public void What_is_made_from_a_yard_reads_as_that_yard()
    {
        foreach (string text in Examples.YardPaths.Select(File.ReadAllText).Append(YardReadingTests.Full))
        {
            Yard yard = Read(text).Yard;
            YardFile made = YardFile.Create(yard);
            Yard again = Read(Text(made)).Yard;

            Assert.True(JsonNode.DeepEquals(YardTree.Full(yard), YardTree.Full(again)));
            Assert.Equal(yard.Loop.Conductor, again.Loop.Conductor);
            Assert.True(Text(made).Length < text.Length + 400);
        }
    }

    [Fact]
    public void What_equals_a_default_is_left_unsaid()
    {
        Yard yard = Read("""
            { "format": "swardloop-yard/1", "name": "Plain",
              "loop": { "path": [[0,0],[10,0],[10,10],[0,10],[0,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
            """).Yard;

        Assert.Equal("""
            {
              "format": "swardloop-yard/1",
              "name": "Plain",
              "loop": {
                "path": [[0, 0], [10, 0], [10, 10], [0, 10], [0, 0]],
                "conductor": { "material": "copper", "areaMm2": 0.75 }
              }
            }

            """.ReplaceLineEndings("\n"), Text(YardFile.Create(yard)));
        Assert.Contains("\"lawn\"", Text(YardFile.Create(yard with
        {
            Lawn = new Lawn([[new(0, 0), new(11, 0), new(11, 11)]], []),
        })), StringComparison.Ordinal);
    }

    private static string Names(JsonObject node) => string.Join(",", node.Select(property => property.Key));

    private static IEnumerable<JsonObject> Objects(JsonNode? node) => node switch
    {
        JsonObject o => o.Select(property => property.Value).SelectMany(Objects).Prepend(o),
        JsonArray a => a.SelectMany(Objects),
        _ => [],
    };
}
