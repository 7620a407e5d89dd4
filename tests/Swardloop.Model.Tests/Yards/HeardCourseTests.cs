using CsCheck;
using Swardloop.Core.Geometry;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

/// <summary>Ways through heard places, held against simulated wires.</summary>
public sealed class HeardCourseTests
{
    private static HeardPlace Touched(double east, double north) => new(new(east, north), HeardPlace.TouchedMetres);

    /// <summary>Round lawns as they are: rectangles, some with a bay cut out of a corner, in metres from the station on the south side.</summary>
    private static WirePath Round(Random random)
    {
        double east = 10 + (30 * random.NextDouble()), north = 10 + (30 * random.NextDouble()), middle = east * (0.2 + (0.6 * random.NextDouble()));
        PlanPoint start = new(middle, 0);
        return random.Next(2) == 0
            ? new([start, new(east, 0), new(east, north), new(0, north), new(0, 0), start])
            : new([start, new(east, 0), new(east, 0.6 * north), new(0.55 * east, 0.6 * north), new(0.55 * east, north), new(0, north), new(0, 0), start]);
    }

    /// <summary>Places heard along a wire, each a little beside it; the station is known.</summary>
    private static List<HeardPlace> Hear(WirePath wire, Random random, double spacing, double accuracy)
    {
        List<HeardPlace> places = [new(wire.Points[0], 0.3)];
        double at = 0;
        while (true)
        {
            at += spacing * (0.6 + (0.8 * random.NextDouble()));
            if (at > wire.LengthMetres - (0.5 * spacing))
            {
                return places;
            }

            PlanPoint there = wire.PointAt(at);
            places.Add(new(new(there.EastMetres + (accuracy / 2 * Gauss(random)), there.NorthMetres + (accuracy / 2 * Gauss(random))), accuracy));
        }
    }

    private static double Gauss(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    // Stated as two standard deviations: 19 of 20. Of 200 yards at least nine tenths keep to it, and it is no wider than needed by much.
    [Theory]
    [InlineData(3, 0.6)]
    [InlineData(5, 0.6)]
    [InlineData(10, 0.6)]
    [InlineData(4, 1.5)]
    [InlineData(4, 3)]
    [InlineData(3, 3)]
    public void Length_and_place_are_as_uncertain_as_stated(double spacing, double accuracy)
    {
        (double lengths, double places, double widest) = Kept(Round, 90, spacing, accuracy);

        Assert.True(lengths >= 0.9, $"length: {lengths:P1} of the yards");
        Assert.InRange(places, 0.9, 0.999);
        Assert.InRange(widest, 0.02, 0.6);
    }

    /// <summary>Lawns of other shapes: round ones with bulges, without any corner.</summary>
    private static WirePath Curved(Random random)
    {
        double east = 9 + (12 * random.NextDouble()), north = 9 + (12 * random.NextDouble()), turn = 2 * Math.PI * random.NextDouble(), bulge = 0.25 * random.NextDouble();
        PlanPoint[] ring = [.. Enumerable.Range(0, 120).Select(i => 2 * Math.PI * i / 120).Select(angle => (Angle: angle, Size: 1 + (bulge * Math.Sin((3 * angle) + turn))))
            .Select(at => new PlanPoint(east * at.Size * Math.Cos(at.Angle), north * at.Size * Math.Sin(at.Angle)))];
        return new([.. ring, ring[0]]);
    }

    /// <summary>Lawns round three sides of a house: eight corners.</summary>
    private static WirePath Horseshoe(Random random)
    {
        double east = 18 + (22 * random.NextDouble()), north = 14 + (20 * random.NextDouble()), west = east * (0.25 + (0.1 * random.NextDouble())), inner = east * (0.65 + (0.1 * random.NextDouble())),
            sill = north * (0.3 + (0.2 * random.NextDouble()));
        PlanPoint start = new(east * (0.2 + (0.6 * random.NextDouble())), 0);
        return new([start, new(east, 0), new(east, north), new(inner, north), new(inner, sill), new(west, sill), new(west, north), new(0, north), new(0, 0), start]);
    }

    // What was fitted on the yards above, seed 90, on yards that it was not fitted on. With four corners taken for granted 48 % of horseshoes heard every 10 m kept to it.
    [Theory]
    [InlineData("rectangles", 2026, 3, 0.6)]
    [InlineData("rectangles", 2026, 5, 0.6)]
    [InlineData("rectangles", 2026, 10, 0.6)]
    [InlineData("rectangles", 2026, 4, 1.5)]
    [InlineData("rectangles", 2026, 4, 3)]
    [InlineData("rectangles", 2026, 3, 3)]
    [InlineData("curved", 7, 3, 0.6)]
    [InlineData("curved", 7, 5, 0.6)]
    [InlineData("curved", 7, 10, 0.6)]
    [InlineData("curved", 7, 4, 1.5)]
    [InlineData("curved", 7, 4, 3)]
    [InlineData("curved", 7, 3, 3)]
    [InlineData("horseshoes", 11, 3, 0.6)]
    [InlineData("horseshoes", 11, 5, 0.6)]
    [InlineData("horseshoes", 11, 10, 0.6)]
    [InlineData("horseshoes", 11, 4, 1.5)]
    [InlineData("horseshoes", 11, 4, 3)]
    [InlineData("horseshoes", 11, 3, 3)]
    public void On_other_yards_it_holds_as_far_as_is_said(string shape, int seed, double spacing, double accuracy)
    {
        (double lengths, double places, double widest) = Kept(shape switch { "curved" => Curved, "horseshoes" => Horseshoe, _ => Round }, seed, spacing, accuracy);

        Assert.True(lengths >= 0.94 && places >= 0.9 && widest < 0.6, $"{shape} {spacing} m ± {accuracy}: lengths {lengths:P1}, places {places:P1}, widest {widest:F2}");
    }

    // Share of 200 yards whose length is within the stated tolerance, share of their wire within the stated distance, and the widest tolerance as a share of a wire.
    private static (double Lengths, double Places, double Widest) Kept(Func<Random, WirePath> yard, int seed, double spacing, double accuracy)
    {
        Random random = new(seed);
        int lengths = 0, places = 0, all = 0, yards = 200;
        double widest = 0;
        for (int i = 0; i < yards; i++)
        {
            WirePath wire = yard(random);
            HeardCourse way = HeardCourse.Of(Hear(wire, random, spacing, accuracy))!;
            WirePath path = new(way.Corners);
            lengths += Math.Abs(way.LengthMetres - wire.LengthMetres) <= way.LengthToleranceMetres ? 1 : 0;
            for (double at = 0; at < wire.LengthMetres; at += 0.5)
            {
                all++;
                places += path.NearestTo(wire.PointAt(at)).DistanceMetres <= way.ToleranceMetres ? 1 : 0;
            }

            widest = Math.Max(widest, way.LengthToleranceMetres / wire.LengthMetres);
        }

        return ((double)lengths / yards, (double)places / all, widest);
    }

    // Whoever walks here and there hears the same wire: the short round tour goes along it.
    [Fact]
    public void Places_heard_in_any_order_become_a_round_that_does_not_cross_itself()
    {
        Random random = new(4);
        int alike = 0;
        for (int i = 0; i < 40; i++)
        {
            WirePath wire = Round(random);
            List<HeardPlace> walked = Hear(wire, random, 3, 0.6);
            HeardPlace[] mixed = [walked[0], .. walked.Skip(1).OrderBy(_ => random.Next())];
            HeardCourse way = HeardCourse.Of(mixed)!, inOrder = HeardCourse.Of(walked)!;

            Assert.Equal(walked.Count + 1, way.Round.Count);
            Assert.Equal(mixed[0].At, way.Corners[0]);
            Assert.Equal(mixed[0].At, way.Corners[^1]);
            WirePath path = new(way.Corners);
            Assert.All(mixed, place => Assert.InRange(path.NearestTo(place.At).DistanceMetres, 0, place.AccuracyMetres));
            Assert.Equal(walked.Select(place => place.At).OrderBy(point => (point.EastMetres, point.NorthMetres)), way.Round.SkipLast(1).OrderBy(point => (point.EastMetres, point.NorthMetres)));
            Assert.True(way.LengthMetres <= inOrder.LengthMetres * 1.05, $"{way.LengthMetres} m against {inOrder.LengthMetres} m");
            alike += Math.Abs(way.LengthMetres - inOrder.LengthMetres) < 0.01 * inOrder.LengthMetres ? 1 : 0;
        }

        Assert.True(alike >= 32, $"{alike} of 40");
    }

    // Second route: every order of few places, tried.
    [Fact]
    public void A_mixed_round_of_few_places_is_the_shortest_there_is() => Gen.Double[0, 30].Array[16].Sample(
        numbers =>
        {
            PlanPoint[] at = [.. Enumerable.Range(0, 8).Select(i => new PlanPoint(Math.Round(numbers[2 * i], 2), Math.Round(numbers[(2 * i) + 1], 2)))];
            if (at.Distinct().Count() == at.Length && HeardCourse.Of([.. at.Select(point => new HeardPlace(point, 0.6))]) is { IsInOrder: false } way)
            {
                Assert.InRange(new WirePath(way.Round).LengthMetres, 0, 1.03 * Shortest(at[0], at[0], [.. at.Skip(1)]));
            }
        },
        iter: 20, threads: 1);

    private static double Shortest(PlanPoint start, PlanPoint from, PlanPoint[] left) => left.Length == 0
        ? from.DistanceTo(start)
        : left.Min(next => from.DistanceTo(next) + Shortest(start, next, [.. left.Where(other => other != next)]));

    [Fact]
    public void An_order_that_does_not_cross_itself_is_kept()
    {
        // A comb: the shortest round would jump over its slot.
        HeardPlace[] comb = [Touched(0, 0), Touched(10, 0), Touched(10, 8), Touched(5.4, 8), Touched(5.4, 2), Touched(4.6, 2), Touched(4.6, 8), Touched(0, 8)];

        HeardCourse way = HeardCourse.Of(comb)!;

        Assert.True(way.IsInOrder);
        Assert.Equal([.. comb.Select(place => place.At), comb[0].At], way.Round);
        Assert.Equal(10, way.WidestGapMetres, 1e-9);
    }

    [Fact]
    public void Too_few_places_propose_nothing_and_doubled_ones_count_once()
    {
        Assert.Null(HeardCourse.Of([Touched(0, 0), Touched(5, 0), Touched(5, 5)]));
        Assert.Null(HeardCourse.Of([Touched(0, 0), Touched(5, 0), Touched(5, 5), Touched(5, 5.001)]));
        Assert.Null(HeardCourse.Of([Touched(0, 0), Touched(0.1, 0), Touched(0, 0.1), Touched(0.1, 0.1)]));
        Assert.Throws<ArgumentException>(() => HeardCourse.Of([.. Enumerable.Range(0, 201).Select(i => Touched(i, 0))]));
    }
}
