using CsCheck;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Words;

namespace Swardloop.Model.Tests.Words;

public sealed class PlaceWordsTests
{
    private static Yard YardOf(params (double East, double North)[] path) => new()
    {
        Name = "Test",
        Lawn = new Lawn([[new(0, 0), new(1, 0), new(1, 1)]], []),
        Loop = new Loop { Path = new(path.Select(p => new PlanPoint(p.East, p.North))), Conductor = new Conductor { AreaSquareMetres = 1e-6 } },
    };

    // Station in the middle of the south side; counter-clockwise.
    private static readonly Yard Rectangle = YardOf((10, 0), (20, 0), (20, 70), (0, 70), (0, 0), (10, 0));

    private static Yard With(Yard yard, params double[] joints) =>
        yard with { Loop = yard.Loop with { Joints = [.. joints.Select(at => new Joint(at))] } };

    // An L with an island: out over a link from the west side, round, and back.
    private static readonly Yard Ell = With(
        YardOf((2, 0), (30, 0), (30, 12), (14, 12), (14, 25), (0, 25), (0, 8), (5, 8), (5, 6), (9, 6), (9, 10), (5, 10), (5, 8.05), (0, 8.05), (0, 0), (2, 0)),
        20, 60);

    [Theory]
    [InlineData(0, "terminal A, at the station")]
    [InlineData(160 + 20, "terminal B, at the station")]
    [InlineData(4, "4 m east of the station")]
    [InlineData(10.1, "at the south-east corner")]
    [InlineData(22.35, "12.4 m north of the south-east corner")]
    [InlineData(70, "10 m south of the north-east corner")]
    [InlineData(85, "5 m west of the north-east corner")]
    [InlineData(105, "5 m south of the north-west corner")]
    [InlineData(177.5, "2.5 m west of the station")]
    public void A_place_is_told_from_the_nearest_thing_on_its_side(double atMetres, string words) =>
        Assert.Equal(words, PlaceWords.Describe(Rectangle, atMetres));

    [Theory]
    [InlineData(42, "joint 1, 32 m north of the south-east corner")]
    [InlineData(44.4, "34.4 m north of the south-east corner, 2.4 m beyond joint 1")]
    [InlineData(45.4, "34.6 m south of the north-east corner, 3.4 m short of joint 1")]
    [InlineData(38.6, "28.6 m north of the south-east corner, 3.4 m short of joint 1")]
    [InlineData(79.9, "at the north-east corner")]
    [InlineData(82, "joint 2, 2 m west of the north-east corner")]
    public void A_joint_in_reach_is_named(double atMetres, string words) =>
        Assert.Equal(words, PlaceWords.Describe(With(Rectangle, 42, 82), atMetres));

    [Theory]
    [InlineData(38, "2 m south of the north-east corner (first from A)")]
    [InlineData(52, "4 m east of the inner corner")]
    [InlineData(74, "5 m west of the north-east corner (second from A)")]
    [InlineData(98, "2 m north of the turn-off to the island")]
    [InlineData(103, "3 m out on the double wire to the island (the wire coming from A)")]
    [InlineData(109, "2 m east of the south-west corner of the island")]
    [InlineData(124, "2 m out on the double wire to the island (the wire going on to B)")]
    [InlineData(129, "3 m south of the turn-off to the island")]
    public void An_L_with_an_island_is_told_by_its_corners_and_its_island(double atMetres, string words) =>
        Assert.Equal(words, PlaceWords.Describe(Ell, atMetres));

    [Fact]
    public void A_tracked_path_with_rounded_corners_has_four_corners()
    {
        // Quarter circles of 1.5 m radius, a point every half metre or so: what a tracker leaves behind.
        List<(double, double)> path = [(10, 0)];
        foreach ((double East, double North, double Start) corner in new[] { (18.5, 1.5, -90.0), (18.5, 68.5, 0.0), (1.5, 68.5, 90.0), (1.5, 1.5, 180.0) })
        {
            path.AddRange(Enumerable.Range(0, 6).Select(i => (corner.Start + (18 * i)) * Math.PI / 180)
                .Select(angle => (corner.East + (1.5 * Math.Cos(angle)), corner.North + (1.5 * Math.Sin(angle)))));
        }

        Yard yard = YardOf([.. path, (10, 0)]);

        // The corner is the arc's point nearest its middle: at 9.9 m along the wire.
        Assert.Equal("10.6 m north of the south-east corner", PlaceWords.Describe(yard, 20.5));
        Assert.Equal("6.2 m west of the north-east corner", PlaceWords.Describe(yard, 85));
    }

    [Fact]
    public void A_round_lawn_is_told_along_the_wire()
    {
        (double, double)[] circle = [.. Enumerable.Range(0, 73).Select(i => 5 * i * Math.PI / 180).Select(a => (12 * Math.Cos(a), 12 * Math.Sin(a)))];

        Assert.Equal("20 m along the wire, counter-clockwise from the station", PlaceWords.Describe(YardOf(circle), 20));
        Assert.Equal("15.4 m along the wire, clockwise from the station", PlaceWords.Describe(YardOf(circle), 60));
    }

    [Fact]
    public void The_compass_follows_the_bearing_of_the_plan() =>
        Assert.Equal(
            "12.4 m east of the south-west corner",
            PlaceWords.Describe(Rectangle with { Datum = new Datum(52, 5, 90) }, 22.35));

    [Fact]
    public void Ends_apart_are_called_by_their_terminals()
    {
        Yard open = YardOf((0, 0), (20, 0), (20, 20), (0, 20), (0, 3));

        Assert.Equal("terminal A", PlaceWords.Describe(open, 0.2));
        Assert.Equal("3 m north of terminal B", PlaceWords.Describe(open, 74));
    }

    [Fact]
    public void Things_beside_the_wire_are_named_on_one_short_line()
    {
        Yard yard = Rectangle with
        {
            Metal = [new("fence", new WirePath([new(21, 20), new(21, 60)]), 40)],
            RiskSpots = [new(90, 100, "tree\nroots " + new string('x', 100), 5)],
        };

        Assert.Equal("20 m north of the south-east corner, by the fence", PlaceWords.Describe(yard, 30));
        Assert.Equal("5 m north of the south-east corner", PlaceWords.Describe(yard, 15));
        Assert.Equal(
            "5 m west of the north-east corner, by the edging",
            PlaceWords.Describe(yard with { RiskSpots = [new(80, 89, "edging", 5)] }, 85));
        Assert.Equal(
            $"5 m east of the north-west corner, by the tree roots {new string('x', 28)}…", PlaceWords.Describe(yard, 95));
    }

    [Theory]
    [InlineData(61, 63, "17 to 19 m south of the north-east corner")]
    [InlineData(9, 11, "from 1 m west of the south-east corner to 1 m north of the south-east corner")]
    [InlineData(10, 14.5, "0 to 4.5 m north of the south-east corner")]
    public void A_stretch_is_told_from_one_thing_where_it_can(double from, double to, string words) =>
        Assert.Equal(words, PlaceWords.DescribeStretch(Rectangle, from, to));

    [Fact]
    public void The_wire_walked_from_B_is_told_alike_away_from_joints_and_terminals()
    {
        Yard plain = With(Ell), reversed = plain with { Loop = plain.Loop with { Path = plain.Loop.Path.Reversed() } };
        string Alike(string words) => words.Replace("(first from A)", "(second from A)", StringComparison.Ordinal)
            .Replace("coming from A", "going on to B", StringComparison.Ordinal);

        Gen.Double[0.4, plain.Loop.LengthMetres - 0.4].Sample(at =>
        {
            // Half-way between two things, and where a printed decimal is rounded, either way is right.
            string here = Alike(PlaceWords.Describe(plain, at)), there = Alike(PlaceWords.Describe(reversed, plain.Loop.LengthMetres - at));
            return here == there || Alike(PlaceWords.Describe(plain, at + 1e-6)) == there || Alike(PlaceWords.Describe(plain, at - 1e-6)) == there;
        }, iter: 2000);
    }

    [Fact]
    public void Any_wire_is_told_in_one_line_that_fits_two_rows_of_a_phone() =>
        Gen.Select(Gen.Select(Gen.Double[-50, 50], Gen.Double[-50, 50]).Array[2, 12], Gen.Double[-1, 2], Gen.Double[0, 1]).Sample((path, share, where) =>
        {
            Yard yard = With(YardOf(path), 3, 10, 50);
            string words = PlaceWords.Describe(yard, share * yard.Loop.LengthMetres);
            string stretch = PlaceWords.DescribeStretch(yard, where * yard.Loop.LengthMetres, (where + 0.1) * yard.Loop.LengthMetres);
            return words.Length is > 5 and <= 120 && stretch.Length <= 240 && !words.Contains("NaN", StringComparison.Ordinal) && !words.Contains('\n', StringComparison.Ordinal);
        }, iter: 2000);

    [Fact]
    public void A_place_that_is_no_number_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PlaceWords.Describe(Rectangle, double.NaN));
}
