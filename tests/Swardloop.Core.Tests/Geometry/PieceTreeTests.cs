using CsCheck;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Geometry;

public sealed class PieceTreeTests
{
    private static readonly Gen<PlanPoint> Point = Gen.Select(Gen.Int[0, 12], Gen.Int[0, 12], (x, y) => new PlanPoint(x, y));

    // The generator likes round and tiny numbers; spread, no three of its points lie on a line by accident.
    private static readonly Gen<PlanPoint> FinePoint = Gen.Select(Gen.Int[1, 1_000_000], Gen.Int[1, 1_000_000],
        (x, y) => new PlanPoint(12 * (x * 0.6180339887498949 % 1), 12 * (y * 0.7548776662466927 % 1)));

    [Fact]
    public void Distance_and_inside_equal_looking_at_every_piece() =>
        Gen.Select(Point.Array[3, 40], FinePoint).Where((ring, _) => ring.Distinct().Count() > 2).Sample((ring, at) =>
        {
            PieceTree tree = new(ring, closed: true);

            Assert.Equal(new WirePath(ring.Append(ring[0])).NearestTo(at).DistanceMetres, tree.DistanceTo(at), 1e-12);
            Assert.Equal(new Lawn([ring], []).Contains(at), tree.Holds(at));
            Assert.Equal(tree.DistanceTo(at) <= 0.5, tree.AnyNear(at, 0.5, _ => true));
        }, threads: 1);

    // On a path of many corners a tree is asked. Corners on a small lattice: ties between pieces are frequent, repeated corners too.
    [Fact]
    public void The_nearest_place_on_a_long_path_is_to_the_last_digit_the_first_that_looking_at_every_piece_finds() =>
        Gen.Select(Gen.OneOf(Point, FinePoint).Array[65, 400], Gen.OneOf(Point, FinePoint).Array[20]).Sample((corners, places) =>
        {
            WirePath path = new(corners);
            foreach (PlanPoint at in places)
            {
                double best = double.PositiveInfinity, bestAt = 0;
                for (int i = 0; i + 1 < corners.Length; i++)
                {
                    (double share, double square) = WirePath.NearestOnPiece(corners[i], corners[i + 1], at);
                    if (square < best)
                    {
                        (best, bestAt) = (square, path.CornerMetres[i] + (share * (path.CornerMetres[i + 1] - path.CornerMetres[i])));
                    }
                }

                Assert.Equal((bestAt, Math.Sqrt(best)), path.NearestTo(at));
            }
        }, iter: 300, threads: 1);

    [Fact]
    public void Every_pair_of_crossing_pieces_is_found_and_no_other() =>
        Gen.Select(FinePoint.Array[2, 40], Gen.Bool).Sample((line, closed) =>
        {
            PieceTree tree = new(line, closed);
            long effort = 1_000_000;
            var found = CrossingSearch.Itself(tree, int.MaxValue, ref effort).Select(c => (c.FirstCorner, c.SecondCorner)).Order();

            // Second route: every pair, by the crossing's shares of both pieces. Random points never meet a corner.
            List<(int, int)> expected = [];
            for (int i = 0; i < tree.Count; i++)
            {
                for (int j = i + 2; j < tree.Count; j++)
                {
                    PlanPoint a = tree.Point(i), b = tree.Point(i + 1), c = tree.Point(j), d = tree.Point(j + 1);
                    double ex = b.EastMetres - a.EastMetres, ey = b.NorthMetres - a.NorthMetres, fx = d.EastMetres - c.EastMetres, fy = d.NorthMetres - c.NorthMetres;
                    double det = (ex * fy) - (ey * fx);
                    double s = (((c.EastMetres - a.EastMetres) * fy) - ((c.NorthMetres - a.NorthMetres) * fx)) / det;
                    double t = (((c.EastMetres - a.EastMetres) * ey) - ((c.NorthMetres - a.NorthMetres) * ex)) / det;
                    bool runBack = ((ex * fx) + (ey * fy)) < 0 && Math.Abs(det) < 0.18 * a.DistanceTo(b) * c.DistanceTo(d);
                    if (!runBack && s is > 0 and < 1 && t is > 0 and < 1 && !(closed && i == 0 && j == tree.Count - 1))
                    {
                        expected.Add((i, j));
                    }
                }
            }

            Assert.Empty(expected.Except(found));
            Assert.All(found.Except(expected), pair => Assert.True(Math.Abs(pair.Item1 - pair.Item2) > 1)); // shallow opposite ones, left out above
        }, threads: 1);

    [Fact]
    public void Crossings_stay_when_the_line_is_walked_backwards_or_turned() =>
        Point.Array[4, 25].Sample(line =>
        {
            AssertSame(Places(line), Places([.. line.Reverse()]));
            AssertSame(Places(line), [.. Places([.. line.Select(p => new PlanPoint(-p.NorthMetres, p.EastMetres))]).Select(p => new PlanPoint(p.NorthMetres, -p.EastMetres))]);
        }, threads: 1);

    // Tolerance: rounding of some metres where pieces meet at a hundredth of a degree.
    private static void AssertSame(PlanPoint[] some, PlanPoint[] others)
    {
        Assert.All(some, place => Assert.Contains(others, other => other.DistanceTo(place) < 1e-6));
        Assert.All(others, place => Assert.Contains(some, other => other.DistanceTo(place) < 1e-6));
    }

    private static PlanPoint[] Places(PlanPoint[] line)
    {
        long effort = 1_000_000;
        return [.. CrossingSearch.Itself(new PieceTree(line, closed: false), int.MaxValue, ref effort).Select(c => c.At)];
    }
}
