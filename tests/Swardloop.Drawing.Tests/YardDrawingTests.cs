using CsCheck;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing.Tests;

public class YardDrawingTests
{
    private static readonly DrawnPart Wire = new(DrawnKind.Wire);

    private static YardDrawing Sorrel => Of("sorrel-corner");

    [Theory]
    [InlineData("marram-reach")]
    [InlineData("sorrel-corner")]
    [InlineData("thimble-court")]
    public void A_yard_comes_back_from_its_drawing(string name)
    {
        YardFile file = Examples.Yard(name);
        Yard back = YardDrawing.Of(file.Yard, file.DrawsLawn).On(file.Yard)!;
        Assert.Equal(file.With(file.Yard).ToUtf8(), file.With(back).ToUtf8());
    }

    [Fact]
    public void Both_ends_at_the_station_move_together()
    {
        YardDrawing moved = Sorrel.WithCorner(Wire, 0, new(11, 0.5));
        Assert.Equal(new PlanPoint(11, 0.5), moved.Wire[0]);
        Assert.Equal(moved.Wire[0], moved.Wire[^1]);
    }

    [Fact]
    public void The_mouth_of_a_run_moves_with_the_run()
    {
        // Corners 6 and 13 are where the run to the island leaves and comes back.
        YardDrawing moved = Sorrel.WithCorner(Wire, 6, new(0.3, 11));
        Assert.Equal(new PlanPoint(0.3, 11), moved.Wire[13]);
    }

    [Fact]
    public void Joints_keep_their_share_of_their_leg()
    {
        YardDrawing square = new YardDrawing { Wire = [new(0, 0), new(10, 0), new(10, 10), new(0, 10), new(0, 0)] }.WithJointAt(5).WithJointAt(15).WithJointAt(38);
        YardDrawing longer = square.WithCorner(Wire, 1, new(20, 0)).WithCorner(Wire, 2, new(20, 10));
        Assert.Equal([10, 25, 58], longer.Joints.Select(joint => joint.AtMetres));
    }

    private static YardDrawing Guided => new YardDrawing { Wire = [new(0, 0), new(10, 0), new(10, 10), new(0, 10), new(0, 0)] }
        .WithPart(DrawnKind.Guide, [new(10, 5), new(5, 5), new(0, 0)]);

    [Fact]
    public void A_guide_wire_drawn_towards_the_station_is_kept_from_it() =>
        Assert.Equal((new(0, 0), new(10, 5), 15.0), (Guided.Guides[0].Points[0], Guided.Guides[0].Points[^1], Guided.Guides[0].JoinsAtMetres));

    [Fact]
    public void A_guide_wire_follows_the_loop_and_its_joint()
    {
        YardDrawing longer = Guided.WithGuideJointAt(0, 7).WithCorner(Wire, 1, new(20, 0)).WithCorner(Wire, 2, new(20, 10));
        Assert.Equal((25.0, new(20, 5), 25.0), (longer.Guides[0].JoinsAtMetres, longer.Guides[0].Points[^1], longer.Joints.Single().AtMetres));
        Assert.True(longer.Guides[0].Joints.Single().AtMetres < new WirePath(longer.Guides[0].Points).LengthMetres);

        YardDrawing moved = longer.WithJoint(0, new(22, JointStyle.Gel));
        Assert.Equal((22.0, new(20, 2)), (moved.Guides[0].JoinsAtMetres, moved.Guides[0].Points[^1]));

        YardDrawing dragged = moved.WithCorner(new(DrawnKind.Guide), 2, new(20, 6));
        Assert.Equal((26.0, new Joint(26, JointStyle.Gel)), (dragged.Guides[0].JoinsAtMetres, dragged.Joints.Single()));

        // What more than its place is known of stays.
        Assert.Single(dragged.WithoutPart(new(DrawnKind.Guide)).Joints);
        Assert.Equal(60 - 26, dragged.WithEndsSwapped().Guides[0].JoinsAtMetres);
    }

    [Fact]
    public void Station_and_islands_move_the_place_where_a_guide_wire_joins()
    {
        Assert.Equal(5, Guided.WithStationAt(10).Guides[0].JoinsAtMetres);
        YardDrawing round = (Guided with { Lawn = [[new(0, 0), new(10, 0), new(10, 10), new(0, 10)]], Islands = [[new(4, 1), new(5, 1), new(5, 2), new(4, 2)]] }).WithWireRound(0);
        Assert.Equal(15 + new WirePath(round.Wire).LengthMetres - 40, round.Guides[0].JoinsAtMetres, 0.02);
    }

    [Fact]
    public void A_corner_put_into_a_leg_moves_no_joint_and_taken_away_again_neither() => Gen.Select(Gen.Int[0, 14], Gen.Double[0.1, 0.9]).Sample((leg, share) =>
    {
        YardDrawing more = Sorrel.WithCornerIn(Wire, leg, Sorrel.Wire[leg].Towards(Sorrel.Wire[leg + 1], share));
        Assert.Equal(Sorrel.Wire.Count + 1, more.Wire.Count);
        Assert.All(more.Joints.Zip(Sorrel.Joints), pair => Assert.Equal(pair.Second.AtMetres, pair.First.AtMetres, 0.011));
        YardDrawing back = more.WithoutCorner(Wire, leg + 1);
        Assert.Equal(Sorrel.Wire, back.Wire);
        Assert.All(back.Joints.Zip(Sorrel.Joints), pair => Assert.Equal(pair.Second.AtMetres, pair.First.AtMetres, 0.021));
    });

    [Fact]
    public void No_move_puts_a_joint_beyond_the_end() => Gen.Select(Gen.Int[0, 15], Gen.Double[-40, 40], Gen.Double[-40, 40]).Sample((corner, east, north) =>
    {
        YardDrawing moved = Sorrel.WithCorner(Wire, corner, new(east, north));
        Assert.All(moved.Joints, joint => Assert.InRange(joint.AtMetres, 0, moved.WirePath!.LengthMetres + 0.01));
        Assert.Equal(moved.Joints.OrderBy(joint => joint.AtMetres), moved.Joints);
    });

    [Fact]
    public void A_leg_by_tape_keeps_a_rectangle_one()
    {
        YardDrawing court = Of("thimble-court").WithLeg(Wire, 1, 10);
        Assert.Equal([new(6, 0.3), new(11.7, 0.3), new(11.7, 10.3), new(0.3, 10.3), new(0.3, 0.3), new(6, 0.3)], court.Wire);
    }

    [Fact]
    public void A_leg_by_tape_has_that_length() => Gen.Select(Gen.Int[0, 14], Gen.Double[0.5, 50]).Sample((leg, length) =>
        Assert.Equal(length, Sorrel.WithLeg(Wire, leg, length) is var drawn ? drawn.Wire[leg].DistanceTo(drawn.Wire[leg + 1]) : 0, 0.011));

    [Fact]
    public void Swapping_the_ends_twice_is_nothing()
    {
        YardDrawing once = Sorrel.WithEndsSwapped(), twice = once.WithEndsSwapped();
        Assert.Equal(Sorrel.WirePath!.LengthMetres - Sorrel.Joints[0].AtMetres, once.Joints[^1].AtMetres, 0.01);
        Assert.Equal(Sorrel.Wire, twice.Wire);
        Assert.All(twice.Joints.Zip(Sorrel.Joints), pair => Assert.Equal(pair.Second.AtMetres, pair.First.AtMetres, 0.011));
    }

    [Fact]
    public void The_station_moved_round_the_loop_leaves_every_joint_where_it_lies() => Gen.Double[0.5, 100].Sample(at =>
    {
        YardDrawing turned = Sorrel.WithStationAt(at);
        Assert.Equal(Sorrel.WirePath!.LengthMetres, turned.WirePath!.LengthMetres, 0.001);
        Assert.True(turned.Wire[0].DistanceTo(Sorrel.WirePath.PointAt(at)) <= 0.011); // a corner within a centimetre takes it
        Assert.Equal(Places(Sorrel), Places(turned), (a, b) => a.DistanceTo(b) < 0.02);

        static IEnumerable<PlanPoint> Places(YardDrawing drawing) =>
            drawing.Joints.OrderBy(joint => joint.Style).Select(joint => drawing.WirePath!.PointAt(joint.AtMetres));
    });

    [Fact]
    public void The_station_put_beside_a_corner_goes_onto_it_and_loses_no_wire()
    {
        YardDrawing turned = Sorrel.WithStationAt(81.108); // the corner is at 81.1 m

        Assert.Equal(Sorrel.WirePath!.LengthMetres, turned.WirePath!.LengthMetres, 1e-9);
        Assert.Equal(new PlanPoint(0.3, 10.5), turned.Wire[0]);
    }

    [Fact]
    public void A_wire_laid_round_an_island_turns_against_the_loop_and_makes_a_sound_yard()
    {
        YardFile court = Examples.Yard("thimble-court");
        YardDrawing island = YardDrawing.Of(court.Yard, drawsLawn: true).WithJointAt(20).WithPart(DrawnKind.Island, [new(5, 5), new(7, 5), new(7, 7), new(5, 7)]);
        YardDrawing laid = island.WithWireRound(0);
        PlanPoint joint = island.WirePath!.PointAt(20);
        Assert.True(laid.WirePath!.PointAt(laid.Joints[0].AtMetres).DistanceTo(joint) < 0.02);
        Yard yard = laid.On(court.Yard)!;
        Assert.True(YardFile.Read(court.With(yard).ToUtf8(), "court").IsGood);
        Assert.DoesNotContain(court.With(yard).Notes, note => note.Place == "loop.path");
    }

    [Fact]
    public void Too_few_corners_make_no_part()
    {
        Assert.Throws<ArgumentException>(() => new YardDrawing().WithPart(DrawnKind.Lawn, [new(0, 0), new(1, 0)]));
        YardDrawing triangle = new YardDrawing().WithPart(DrawnKind.Lawn, [new(0, 0), new(1, 0), new(0, 1)]);
        Assert.Same(triangle, triangle.WithoutCorner(new(DrawnKind.Lawn), 1));
    }

    private static YardDrawing Of(string name)
    {
        YardFile file = Examples.Yard(name);
        return YardDrawing.Of(file.Yard, file.DrawsLawn);
    }
}
