using System.Text;
using System.Text.Json;
using Json.Schema;
using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Tests.Cases;
using Swardloop.Model.Words;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

/// <summary>Guide wires, places on them, and a conductor that nobody wrote down.</summary>
public sealed class YardGuideTests
{
    private const string Text = """
        { "format": "swardloop-yard/1", "name": "Quince Cottage",
          "loop": { "path": [[9,0],[18,0],[18,42],[0,42],[0,0],[9,0]],
                    "joints": [ { "atM": 12.5, "wire": "G1", "label": "by the pond" }, { "atM": 60, "style": "gel", "mark": 7 }, { "atM": 31, "wire": null } ] },
          "guides": [ { "name": "G1", "joinsAtM": 60, "path": [[9,0],[9,42]], "conductor": { "material": "copper", "areaMm2": 1.5 }, "colour": "green" } ] }
        """;

    private static readonly JsonSchema Schema = JsonSchema.FromText(
        File.ReadAllText(Path.Combine(Examples.Repository, "docs/schemas/yard.schema.json")), new BuildOptions { SchemaRegistry = new() });

    private static Checked<YardFile> Read(string text) => YardFile.Read(Encoding.UTF8.GetBytes(text), "test.yard.json");

    private static string Without(string text, string part) => text.Replace(part, "", StringComparison.Ordinal);

    private static bool SchemaTakes(string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    // A null in a yard file is a slip; the wire of a joint on the loop is left out.
    private static readonly string Good = Without(Text, """, "wire": null""");

    [Fact]
    public void Guide_wire_and_its_joints_arrive()
    {
        Checked<YardFile> read = Read(Good);

        Assert.Empty(read.Lines());
        Assert.True(SchemaTakes(Good));
        Yard yard = read.Value!.Yard;
        GuideWire guide = Assert.Single(yard.Guides);
        Assert.Equal(("G1", 60.0, 42.0), (guide.Name, guide.JoinsAtMetres, guide.LengthMetres));
        Assert.Equal(1.5e-6, guide.Conductor!.AreaSquareMetres!.Value, 1e-12);
        Assert.Equal([new Joint(12.5)], guide.Joints);
        Assert.Equal([new Joint(31), new Joint(60, JointStyle.Gel)], yard.Loop.Joints);
        Assert.Equal((42.0, null), (yard.WireMetres("G1"), yard.WireMetres("G2")));
    }

    [Fact]
    public void Reading_and_writing_gives_the_same_bytes() => Assert.Equal(Good + "\n", Encoding.UTF8.GetString(Read(Good).Value!.ToUtf8()));

    [Fact]
    public void Change_of_one_joint_keeps_what_others_keep_in_the_file()
    {
        YardFile file = Read(Good).Value!;
        Loop loop = file.Yard.Loop;
        YardFile changed = file.With(file.Yard with { Loop = loop with { Joints = [loop.Joints[0], loop.Joints[1] with { AtMetres = 61 }] } });

        string text = Encoding.UTF8.GetString(changed.ToUtf8());
        Checked<YardFile> again = Read(text);
        Assert.Empty(again.Lines());
        Assert.Equal([31, 61], again.Value!.Yard.Loop.Joints.Select(joint => joint.AtMetres));
        Assert.Equal([12.5], again.Value.Yard.Guides[0].Joints.Select(joint => joint.AtMetres));
        using JsonDocument document = JsonDocument.Parse(text);
        JsonElement[] joints = [.. document.RootElement.GetProperty("loop").GetProperty("joints").EnumerateArray()];
        Assert.Equal(7, joints.Single(joint => joint.GetProperty("atM").GetDouble() == 61).GetProperty("mark").GetInt32());
        Assert.Equal("by the pond", joints.Single(joint => joint.TryGetProperty("wire", out _)).GetProperty("label").GetString());
        Assert.Equal("green", document.RootElement.GetProperty("guides")[0].GetProperty("colour").GetString());
        Assert.False(document.RootElement.GetProperty("loop").TryGetProperty("conductor", out _));
    }

    [Fact]
    public void New_file_of_the_yard_reads_back_as_it()
    {
        Yard yard = Read(Good).Value!.Yard, again = Read(Encoding.UTF8.GetString(YardFile.Create(yard).ToUtf8())).Value!.Yard;

        Assert.Equal(yard.Guides[0].Path.Points, again.Guides[0].Path.Points);
        Assert.Equal((yard.Guides[0].Name, yard.Guides[0].JoinsAtMetres, yard.Guides[0].Conductor), (again.Guides[0].Name, again.Guides[0].JoinsAtMetres, again.Guides[0].Conductor));
        Assert.Equal(yard.Guides[0].Joints, again.Guides[0].Joints);
        Assert.False(again.Loop.ConductorIsKnown);
    }

    [Theory]
    [InlineData("\"wire\": \"G1\"", "\"wire\": \"G7\"", "loop.joints[0].wire")]
    [InlineData("\"atM\": 12.5", "\"atM\": 43", "loop.joints[0].atM")]
    [InlineData("\"joinsAtM\": 60", "\"joinsAtM\": 121", "guides")]
    [InlineData("\"name\": \"G1\", ", "", "guides[0].name")]
    [InlineData("[[9,0],[9,42]]", "[[9,0],[9,0]]", "guides[0].path")]
    [InlineData("[[9,0],[9,42]]", "[[9,0]]", "guides[0].path")]
    [InlineData("\"areaMm2\": 1.5", "\"areaMm2\": 0", "guides[0].conductor.areaMm2")]
    public void What_is_wrong_is_told_at_its_place(string was, string becomes, string place)
    {
        Checked<YardFile> read = Read(Good.Replace(was, becomes, StringComparison.Ordinal));

        Assert.Null(read.Value);
        Assert.Contains(place, read.Problems.Select(problem => problem.Place));
    }

    [Fact]
    public void Two_guide_wires_of_one_name_are_refused()
    {
        Checked<YardFile> read = Read(Good.Replace("\"colour\": \"green\" }", "\"colour\": \"green\" }, { \"name\": \"G1\", \"joinsAtM\": 60, \"path\": [[9,0],[8,42]] }", StringComparison.Ordinal));

        Assert.Equal("guides[1].name", Assert.Single(read.Problems).Place);
    }

    [Fact]
    public void Guide_wire_that_ends_beside_its_joint_is_noted()
    {
        Assert.Single(Read(Good).Value!.Notes, note => note.Place == "loop.conductor");
        Assert.DoesNotContain(Read(Good).Value!.Notes, note => note.Place == "guides");
        Assert.Contains(Read(Good.Replace("[9,42]]", "[9,30]]", StringComparison.Ordinal)).Value!.Notes, note => note.Place == "guides");
    }

    [Fact]
    public void Conductor_not_given_is_a_stated_one_and_said_to_be_unknown()
    {
        Loop loop = Read(Good).Value!.Yard.Loop;

        Assert.False(loop.ConductorIsKnown);
        Assert.Equal(UnknownConductor.StandIn, loop.Conductor);
        YardFile named = Read(Good).Value!;
        named = named.With(named.Yard with { Loop = loop with { ConductorIsKnown = true } });
        Assert.True(Read(Encoding.UTF8.GetString(named.ToUtf8())).Value!.Yard.Loop.ConductorIsKnown);
    }

    [Fact]
    public void Place_on_a_guide_wire_is_kept_and_told_as_such()
    {
        string text = $$"""
            { "format": "swardloop-case/1", "yard": {{Good}},
              "observations": [ { "test": "joint-drop", "atM": 12.5, "wire": "G1", "milliamps": 100, "millivolts": 4 },
                                { "test": "look", "fromM": 3, "toM": 42, "wire": "G1", "value": "nothing" },
                                { "test": "tone-trace", "atM": 30, "wire": "G1", "from": "A", "value": "not-done" } ] }
            """;
        Checked<CaseFile> read = CaseReadingTests.Read(text);

        Assert.Empty(read.Lines());
        IReadOnlyList<Observation> seen = read.Value!.Case.Observations;
        Assert.All(seen, one => Assert.Equal("G1", one.Wire));
        Yard yard = read.Value.Case.Yard;
        Assert.Equal("joint drops 4 mV at 100 mA, 0.04 Ω; 12.5 m from the station on guide wire G1", ObservationWords.Describe(seen[0], yard));
        Assert.Equal("nachgesehen: nichts zu sehen; 3 bis 42 m von der Station am Leitdraht G1", ObservationWords.Describe(seen[1], yard, Phrasebook.German));
        Assert.EndsWith("30 m from the station on guide wire G1", ObservationWords.Describe(seen[2], yard), StringComparison.Ordinal);
        foreach (Observation one in seen)
        {
            using JsonDocument document = JsonDocument.Parse(ObservationJson.ToJson(one).ToJsonString());
            Assert.Equal(one, ObservationJson.Read(document.RootElement, "", yard.Loop.LengthMetres, new("again"), yard.Guides));
        }
    }

    [Theory]
    [InlineData("\"atM\": 43, \"wire\": \"G1\"", "observations[0].atM")]
    [InlineData("\"atM\": 3, \"wire\": \"G2\"", "observations[0].wire")]
    public void Place_that_is_on_no_guide_wire_is_refused(string place, string told)
    {
        Checked<CaseFile> read = CaseReadingTests.Read(
            $$"""{ "format": "swardloop-case/1", "yard": {{Good}}, "observations": [ { "test": "wiggle", {{place}}, "value": "jumps" } ] }""");

        Assert.Equal(told, Assert.Single(read.Problems).Place);
    }
}
