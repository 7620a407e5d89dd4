using System.Text;
using System.Text.Json;
using Json.Schema;
using Swardloop.Model.Checks;
using Swardloop.Model.Lawns;
using Swardloop.Model.Tests.Yards;

namespace Swardloop.Model.Tests.Lawns;

public sealed class LawnFileTests
{
    private const string Good = """
        {"format":"swardloop-lawn/1","name":"Alder Bank","lawn":[[[0,0],[18,0],[18,42],[0,42]]],"holes":[[[7,18],[11,18],[11,22],[7,22]]],
        "edges":[{"ring":0,"fromCorner":3,"toCorner":1,"kind":"wall"},{"ring":1,"fromCorner":0,"toCorner":0,"kind":"water"}],
        "crossings":[{"path":[[0,20],[18,20]],"kind":"paved","costPerM":30}],
        "stationPlaces":[[9,0]],"conductor":{"material":"copper","areaMm2":1.5},"station":{},"mower":{},"neighbours":[]}
        """;

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Examples.Repository, "docs", "schemas", "lawn.schema.json")));

    [Fact]
    public void Edges_run_along_the_ring_and_round_its_start()
    {
        LawnFile file = Read(Good).Value!;
        Assert.Equal([EdgeKind.Wall, EdgeKind.Open, EdgeKind.Open, EdgeKind.Wall], file.Edges[0]);
        Assert.All(file.Edges[1], kind => Assert.Equal(EdgeKind.Water, kind));
        Assert.Equal((30.0, 3.0), (file.Crossings[0].CostPerMetre, file.Crossings[0].WidthMetres));
        Assert.True(IsTaken(Good));
    }

    [Fact]
    public void A_lawn_with_little_else_has_defaults()
    {
        LawnFile file = Read("""{"format":"swardloop-lawn/1","name":"l","lawn":[[[0,0],[8,0],[8,9]]],"insetsM":{"open":0.4}}""").Value!;
        Assert.Equal((0.4, 0.35), (file.Rules.InsetMetres[(int)EdgeKind.Open], file.Rules.InsetMetres[(int)EdgeKind.Wall]));
        Assert.Empty(file.StationPlaces);
        Assert.Null(file.Conductor);
    }

    [Theory]
    [InlineData("\"kind\":\"wall\"", "\"kind\":\"hedgehog\"", "edges[0].kind: got \"hedgehog\"; allowed: open, wall, bed, water, drop, paved")]
    [InlineData("\"costPerM\":30", "\"costPerM\":-1", "crossings[0].costPerM: got -1")]
    [InlineData("[[9,0]]", "[[9]]", "stationPlaces[0]: got [9]")]
    [InlineData("\"areaMm2\":1.5", "\"areaMm2\":0", "conductor.areaMm2: got 0")]
    [InlineData("swardloop-lawn/1", "swardloop-yard/1", "format: not a lawn file")]
    [InlineData("\"name\":\"Alder Bank\",", "", "name: missing")]
    public void What_schema_and_reader_both_refuse_is_told_with_its_place(string from, string to, string told)
    {
        string text = Good.Replace(from, to, StringComparison.Ordinal);
        Assert.Contains(told, Assert.Single(Read(text).Lines()), StringComparison.Ordinal);
        Assert.False(IsTaken(text));
    }

    [Theory]
    [InlineData("\"ring\":1", "\"ring\":2", "edges[1].ring: got 2; allowed: a whole number from 0 to 1")]
    [InlineData("\"toCorner\":1", "\"toCorner\":4", "edges[0].toCorner: got 4; allowed: a whole number from 0 to 3")]
    [InlineData("[[7,18],[11,18],[11,22],[7,22]]", "[[27,18],[31,18],[31,22],[27,22]]", "holes[0]: the hole at (27.00, 18.00) lies outside the lawn")]
    public void What_a_schema_cannot_see_is_told_too(string from, string to, string told) =>
        Assert.Contains(told, Assert.Single(Read(Good.Replace(from, to, StringComparison.Ordinal)).Lines()), StringComparison.Ordinal);

    [Fact]
    public void The_schema_takes_the_example() =>
        Assert.True(IsTaken(File.ReadAllText(Path.Combine(Examples.Repository, "examples", "alder-bank.lawn.json"))));

    private static bool IsTaken(string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static Checked<LawnFile> Read(string text) => LawnFile.Read(Encoding.UTF8.GetBytes(text), "t.lawn.json");
}
