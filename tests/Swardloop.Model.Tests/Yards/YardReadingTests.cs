using System.Text;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

public sealed class YardReadingTests
{
    /// <summary>The sample of the contract, with the optional properties accepted beyond it.</summary>
    internal const string Full = """
        { "format": "swardloop-yard/1",
          "name": "Quince Cottage",
          "datum": { "latitude": 52.1, "longitude": 5.3, "bearingDeg": 0 },
          "lawn": [ [[0,0],[20,0],[20,70],[0,70]] ],
          "holes": [ [[8,30],[12,30],[12,34],[8,34]] ],
          "loop": {
            "path": [[10,0],[20,0],[20,70],[0,70],[0,0],[10,0]],
            "conductor": { "material": "copper", "areaMm2": 0.75, "class": 5, "coated": true },
            "depthM": 0.05,
            "lengthToleranceM": 2,
            "joints": [ { "atM": 118.5, "style": "twisted" }, { "atM": 42.0, "style": "gel" } ],
            "capacitancePFPerM": 250 },
          "station": { "sourceOhms": 107, "sourceUncertaintyPercent": 20, "frequencyHz": 10000, "lampAlarmOhms": 20000, "hasContinuityLamp": true },
          "mower": { "reachConstantOhmM": 4581, "reachUncertaintyPercent": 12, "sensorHeightM": 0.07 },
          "soil": { "resistivityOhmM": 100, "temperatureC": 12 },
          "metal": [ { "kind": "fence", "path": [[21,10],[21,60]], "earthOhms": 40 } ],
          "neighbours": [ { "path": [[23,0],[40,0],[40,30],[23,30],[23,0]], "sameCoding": true, "ohms": 5 } ],
          "riskSpots": [ { "fromM": 30, "toM": 48, "kind": "edging", "weight": 5 } ] }
        """;

    private const string Minimal = """
        { "format": "swardloop-yard/1", "name": "Plain",
          "loop": { "path": [[0,0],[10,0],[10,10],[0,10],[0,0]], "conductor": { "ohmsPerKmAt20C": 24.5 } } }
        """;

    internal static Checked<YardFile> Read(string text) => YardFile.Read(Encoding.UTF8.GetBytes(text), "test.yard.json");

    [Fact]
    public void Every_property_arrives_in_SI()
    {
        Checked<YardFile> read = Read(Full);

        Assert.Empty(read.Lines());
        Yard yard = read.Value!.Yard;
        Assert.Equal("Quince Cottage", yard.Name);
        Assert.Equal(new Datum(52.1, 5.3, 0), yard.Datum);
        Assert.Equal(1384, yard.Lawn.AreaSquareMetres);
        Assert.Equal(180, yard.Loop.LengthMetres);
        Assert.Equal(new Conductor { AreaSquareMetres = 0.75 / 1e6, ConductorClass = 5, Coated = true }, yard.Loop.Conductor);
        Assert.Equal([new Joint(42, JointStyle.Gel), new Joint(118.5, JointStyle.Twisted)], yard.Loop.Joints);
        Assert.Equal(250e-12, yard.Loop.CapacitanceFaradPerMetre, 1e-24);
        Assert.Equal(new Station { SourceRelativeDeviation = 0.2 }, yard.Station);
        Assert.Equal(new Mower { ReachRelativeDeviation = 0.12 }, yard.Mower);
        Assert.Equal(new Soil(), yard.Soil);
        Assert.Equal(("fence", 40.0, 50.0), (yard.Metal[0].Kind, yard.Metal[0].EarthOhms, yard.Metal[0].Path.LengthMetres));
        Assert.Equal((true, 5.0, 94.0), (yard.Neighbours[0].SameCoding, yard.Neighbours[0].Ohms, yard.Neighbours[0].Path.LengthMetres));
        Assert.Equal([new RiskSpot(30, 48, "edging", 5)], yard.RiskSpots);
    }

    [Fact]
    public void What_the_file_does_not_say_takes_the_defaults_of_the_core()
    {
        Yard yard = Read(Minimal).Value!.Yard;

        Loop bare = new() { Path = yard.Loop.Path, Conductor = yard.Loop.Conductor };
        Assert.Equal(bare.DepthMetres, yard.Loop.DepthMetres);
        Assert.Equal(bare.LengthToleranceMetres, yard.Loop.LengthToleranceMetres);
        Assert.Equal(bare.CapacitanceFaradPerMetre, yard.Loop.CapacitanceFaradPerMetre);
        Assert.Equal(new Station(), yard.Station);
        Assert.Equal(new Mower(), yard.Mower);
        Assert.Equal(new Soil(), yard.Soil);
        Assert.Equal(new Conductor { OhmsPerMetreAt20C = 0.0245 }, yard.Loop.Conductor);
        Assert.Equal(100, yard.Lawn.AreaSquareMetres);
        Assert.Null(yard.Datum);
    }

    [Fact]
    public void All_problems_come_at_once_each_with_its_place()
    {
        Checked<YardFile> read = Read("""
            { "format": "swardloop-yard/1", "name": "",
              "loop": { "path": [[0,0],[10,"east"],[1e308,10],[0,10]],
                        "conductor": { "material": "silver", "areaMm2": 0.75, "awg": 18 },
                        "depthM": -1,
                        "joints": [ { "atM": 3 }, { "atM": null, "style": "glued" } ] },
              "station": [] }
            """);

        Assert.Null(read.Value);
        Assert.Equal(
        [
            "test.yard.json: name: got 0 characters; allowed: text of 1 to 200 characters",
            "test.yard.json: loop.path[1]: got [10, \"east\"]; allowed: [x, y], each a number from -10\u00a0000 to 10\u00a0000 m",
            "test.yard.json: loop.path[2]: got [1e308, 10]; allowed: [x, y], each a number from -10\u00a0000 to 10\u00a0000 m",
            "test.yard.json: loop.conductor.material: got \"silver\"; allowed: copper, aluminium, copper-clad-steel, copper-clad-aluminium",
            "test.yard.json: loop.conductor: got areaMm2 and awg; allowed: exactly one of areaMm2, awg, ohmsPerKmAt20C",
            "test.yard.json: loop.depthM: got -1; allowed: a number from 0 to 1 m",
            "test.yard.json: loop.joints[1].atM: got null; allowed: a number from 0 to 100\u00a0000 m",
            "test.yard.json: loop.joints[1].style: got \"glued\"; allowed: gel, crimped, soldered, twisted, clamp, unknown",
            "test.yard.json: station: got an array of 0; allowed: an object { … }",
        ],
            read.Lines());
    }

    [Theory]
    [InlineData("swardloop-case/1", "test.yard.json: format: not a yard file: got \"swardloop-case/1\"; allowed: \"swardloop-yard/1\"")]
    [InlineData("swardloop-yard/2", "test.yard.json: format: another version of a yard file: got \"swardloop-yard/2\"; allowed: \"swardloop-yard/1\"")]
    public void A_format_that_is_not_ours_is_refused_by_name_and_nothing_else_is_said(string format, string expected) =>
        Assert.Equal([expected], Read($$"""{ "format": "{{format}}", "name": 7 }""").Lines());

    [Fact]
    public void A_syntax_error_tells_line_and_column() =>
        Assert.StartsWith("test.yard.json: line 2, column 11: ", Read("{\n  \"näme\": ; }").Lines().Single());

    [Fact]
    public void A_run_out_and_back_to_an_island_makes_a_hole_in_the_default_lawn()
    {
        Lawn lawn = Read(Minimal.Replace("[10,0],", "[5,0],[5,4],[4,4],[4,6],[6,6],[6,4],[5,4],[5,0],[10,0],")).Value!.Yard.Lawn;

        Assert.Equal(96, lawn.AreaSquareMetres);
        Assert.False(lawn.Contains(new PlanPoint(5, 5)));
        Assert.True(lawn.Contains(new PlanPoint(5.1, 2)));
    }
}
