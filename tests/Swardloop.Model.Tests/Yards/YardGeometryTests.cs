using Swardloop.Core.Geometry;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

public sealed class YardGeometryTests
{
    private const string Square = "[[0,0],[20,0],[20,20],[0,20],[0,0]]";

    private static string[] Problems(string path, string? lawn = null, string? holes = null, string joints = "") =>
        [.. YardReadingTests.Read($$"""
            { "format": "swardloop-yard/1", "name": "Shape", {{(lawn is null ? "" : $"\"lawn\": {lawn},")}} {{(holes is null ? "" : $"\"holes\": {holes},")}}
              "loop": { "path": {{path}}, "conductor": { "material": "copper", "awg": 18 }, "joints": [{{joints}}] } }
            """).Problems.Select(problem => $"{problem.Place}: {problem.Message}")];

    [Fact]
    public void The_examples_are_good_and_worth_no_note()
    {
        Assert.Equal(3, Examples.YardPaths.Count());
        foreach (string path in Examples.YardPaths)
        {
            var read = YardFile.Read(File.ReadAllBytes(path), path);
            Assert.Empty(read.Lines());
            Assert.Empty(read.Value!.Notes);
            Assert.All(read.Value.Yard.Loop.Path.Points, corner => Assert.True(read.Value.Yard.Lawn.Contains(corner)));
        }
    }

    [Theory]
    [InlineData("[[0,0],[20,0],[20,20],[10,-5],[0,20],[0,0]]", "loop.path: the wire crosses itself at (12.00, 0.00): the pieces after corner 0 and after corner 2")]
    // The same bow through a corner that both strands have: no two pieces cross inside.
    [InlineData("[[0,0],[10,10],[20,20],[20,0],[10,10],[0,20]]", "loop.path: the wire crosses itself at (10.00, 10.00): the pieces after corner 1 and after corner 4")]
    // A corner of one strand exactly on a piece of the other.
    [InlineData("[[0,0],[20,20],[20,0],[10,10],[0,20]]", "loop.path: the wire crosses itself at (10.00, 10.00): the pieces after corner 0 and after corner 3")]
    public void A_wire_that_crosses_itself_is_told_with_place_and_pieces(string path, string expected) =>
        Assert.Equal(expected, Problems(path)[0]);

    [Theory]
    [InlineData("[[0,0],[5,0],[5,5],[4,5],[4,7],[6,7],[6,5],[5,5],[5,0],[20,0],[20,20],[0,20],[0,0]]")] // out and back to an island
    [InlineData("[[0,0],[5,0],[5,2.5],[5.01,5],[4,5],[4,7],[6,7],[6,5],[5.01,5],[5,0],[20,0],[20,20],[0,20],[0,0]]")] // the way back lacks a corner
    [InlineData("[[0,0],[5,0],[4.99,5],[4,5],[4,7],[6,7],[6,5],[5,5],[4.99,0],[20,0],[20,20],[0,20],[0,0]]")] // drawn to the centimetre
    [InlineData("[[10,-4],[10,0],[20,0],[20,20],[0,20],[0,0],[10,0],[10,-4]]")] // both leads together to a station outside
    [InlineData("[[0,0],[20,0],[20,20],[10,0],[0,20],[0,0]]")] // touches itself at a corner
    [InlineData("[[0,0],[20,0],[20,20],[0,20]]")] // ends apart
    public void Runs_out_and_back_touching_and_ends_together_are_no_crossings(string path) =>
        Assert.Empty(Problems(path));

    [Theory]
    [InlineData(Square, "[[[0,0],[20,0],[20,20],[0,20]]]")]
    [InlineData("[[0,-1],[20,-1],[20,20],[0,20],[0,-1]]", "[[[0,0],[20,0],[20,20],[0,20]]]")] // a little beside it
    [InlineData("[[10,-9],[10,0],[20,0],[20,20],[0,20],[0,0],[10,0],[10,-9]]", "[[[0,0],[20,0],[20,20],[0,20]]]")] // a run to a shed
    [InlineData("[[0,0],[20,0],[20,10],[30,10],[30,0],[50,0],[50,20],[30,20],[30,10],[20,10],[20,20],[0,20],[0,0]]", "[[[0,0],[20,0],[20,20],[0,20]],[[30,0],[50,0],[50,20],[30,20]]]")] // a run between two lawns
    public void A_wire_on_the_lawn_beside_it_or_running_out_and_back_is_good(string path, string lawn) =>
        Assert.Empty(Problems(path, lawn));

    [Fact]
    public void A_wire_off_the_lawn_is_told_with_the_stretch() =>
        Assert.Equal(
            ["loop.path[1]: the wire is off the lawn from 12.0 m to 59.0 m along it, from (12.00, 0.00) after corner 1"],
            Problems("[[0,0],[10,0],[30,0],[30,10],[10,10],[0,10],[0,0]]", "[[[0,0],[10,0],[10,10],[0,10]]]"));

    [Theory]
    [InlineData("[[[0,0],[20,0],[0,20],[20,20]]]", null, "lawn[0]: the ring crosses itself at (10.00, 10.00): the pieces after corner 1 and after corner 3")]
    [InlineData("[[[0,0],[10,0],[20,0]]]", null, "lawn[0]: encloses 0 m²")]
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]]]", "[[[30,5],[34,5],[34,9]]]", "holes[0]: the hole at (30.00, 5.00) lies outside the lawn")]
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]]]", "[[[18,5],[34,5],[34,9]]]", "holes[0]: the hole crosses the lawn's edge at (20.00, 5.00): the pieces after corner 0 and after corner 1")]
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]]]", "[[[5,5],[9,5],[9,9],[5,9]],[[6,6],[8,6],[8,8]]]", "holes[1]: one of this and holes[0] lies in the other")]
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]]]", "[[[5,5],[9,5],[9,9],[5,9]],[[8,6],[12,6],[12,8],[8,8]]]", "holes[1]: crosses holes[0] at (9.00, 6.00): the pieces after corner 0 and after corner 1")]
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]],[[10,10],[30,10],[30,30]]]", null, "lawn[1]: crosses lawn[0] at (20.00, 10.00): the pieces after corner 0 and after corner 1")]
    [InlineData("[[[0,0],[20,0],[20,20],[0,2500]]]", null, "lawn: the lawn is 2500 m across")]
    public void A_lawn_that_cannot_be_is_told_with_its_ring(string lawn, string? holes, string expected) =>
        Assert.Equal(expected, Problems(Square, lawn, holes)[0]);

    [Theory]
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]]]", "[[[0,5],[4,5],[4,9],[0,9]]]")] // a bed along the edge
    [InlineData("[[[0,0],[20,0],[20,20],[0,20]]]", "[[[5,5],[9,5],[9,9],[5,9]],[[9,5],[12,5],[12,9],[9,9]]]")] // two beds side by side
    [InlineData("[[[0,0],[20,0],[20,20],[0,20],[0,0]]]", "[[[5,5],[9,5],[9,9],[5,5]]]")] // closed in the way of GeoJSON
    public void Rings_that_touch_are_good(string lawn, string holes) =>
        Assert.Empty(Problems(Square, lawn, holes));

    [Theory]
    [InlineData("[[0,0],[0.3,0],[0.3,0.1],[0,0.1]]", "loop.path: the wire is 0.7 m long")]
    [InlineData("[[0,0],[9000,0],[9000,9000]]", "loop.path: the wire is 18000 m long")]
    [InlineData("[[0,0],[20,0],[0,0]]", "loop.path: encloses no area, and there is no 'lawn'")]
    public void A_wire_without_use_is_told(string path, string expected) => Assert.Equal([expected], Problems(path));

    [Fact]
    public void Joints_beyond_the_end_and_joints_written_twice_are_told() =>
        Assert.Equal(
            ["loop.joints[1].atM: 80.5 m lies beyond the end of the wire", "loop.joints[2].atM: 12.001 m is the place of loop.joints[0] already"],
            Problems(Square, joints: """{"atM":12},{"atM":80.5},{"atM":12.001}"""));

    [Fact]
    public void Joints_closer_than_a_reading_can_tell_apart_are_worth_a_note_not_a_refusal()
    {
        var read = YardReadingTests.Read(YardReadingTests.Full.Replace("118.5", "42.2", StringComparison.Ordinal));

        Assert.Equal(["test.yard.json: loop.joints: the joint at 42 m and the joint at 42.2 m lie within 0.3 m of each other: readings can hardly tell them apart"],
            read.Value!.Notes.Select(note => note.ToString()));
    }

    [Theory]
    [InlineData("[4,5],[4,7],[6,7],[6,5]", 0)] // clockwise in a wire that runs counter-clockwise
    [InlineData("[6,5],[6,7],[4,7],[4,5]", 1)]
    public void An_island_wound_like_the_lawn_is_worth_a_note(string island, int notes)
    {
        var read = YardReadingTests.Read($$"""
            { "format": "swardloop-yard/1", "name": "Island",
              "loop": { "path": [[0,0],[5,0],[5,5],{{island}},[5,5],[5,0],[20,0],[20,20],[0,20],[0,0]], "conductor": { "material": "copper", "awg": 18 } } }
            """);

        Assert.Empty(read.Lines());
        Assert.Equal(notes, read.Value!.Notes.Count);
    }

    // Another turn in the same slit lies on the lawn's own edge all along, begun at any corner.
    [Theory]
    [InlineData("[0,0],[20,0],[20,20],[0,20],[0,0],[20,0],[20,20],[0,20],[0,0]")]
    [InlineData("[0,0],[0,20],[20,20],[20,0],[0,0],[0,20],[20,20],[20,0],[0,0]")]
    [InlineData("[20,0],[20,20],[0,20],[0,0],[20,0],[20,20],[0,20],[0,0],[20,0]")]
    [InlineData("[20,20],[0,20],[0,0],[20,0],[20,20],[0,20],[0,0],[20,0],[20,20]")]
    public void A_second_turn_is_no_island(string path)
    {
        var read = YardReadingTests.Read($$"""{ "format": "swardloop-yard/1", "name": "Turns", "loop": { "path": [{{path}}], "conductor": { "material": "copper", "awg": 18 } } }""");

        Assert.Empty(read.Lines());
        Assert.Empty(read.Value!.Notes);
    }

    [Fact]
    public void Two_thousand_corners_that_wind_and_lie_on_each_other_are_answered_with_little_work()
    {
        // Worst for a search by boxes: all pieces along one line, each overlapping each. It gives up by its own count, not by the clock.
        string line = $"[{string.Join(",", Enumerable.Range(0, 2_000 - 2).Select(i => i % 2 == 0 ? "[0,0]" : "[0.4,0.0001]"))},[2,2],[0,2]]";
        Assert.Contains("lies over itself or others so often that it cannot be checked", string.Join("\n", Problems(line)), StringComparison.Ordinal);

        // A round wire of 20,000 corners needs a small part of what is granted.
        PieceTree round = new([.. Enumerable.Range(0, 20_000).Select(i => new PlanPoint(50 * Math.Cos(i * Math.PI / 10_000), 50 * Math.Sin(i * Math.PI / 10_000)))], closed: true);
        long effort = 20_000_000;
        Assert.Empty(CrossingSearch.Itself(round, 5, ref effort));
        Assert.InRange(20_000_000 - effort, 200_000, 1_000_000);
    }
}
