using Swardloop.Core.Geometry;

namespace Swardloop.Model.Yards;

/// <summary>Where a wire probably lies, from places where a tone was heard: a proposal for a person to confirm.</summary>
/// <remarks>
/// The way leads from the station through every place and back. The order in which they were heard is kept while the way does not cross itself, as
/// somebody who follows a wire goes along it; else the places were heard here and there, and the way is a short round tour: the best of nearest-neighbour
/// tours from up to 24 places, shortened by turning stretches round and moving single places until nothing shortens it. Both are heuristics, no source.
/// Corners between two places are cut: where a bend of 90° lies anywhere between places a gap g apart (along the wire), the straight way is short by 0.19·g in
/// the mean (∫1 − √(u² + (1 − u)²) du); a wire that comes back to its station turns by four of them at least, and by as many as the way proposed turns, left and right alike. Places that
/// are known badly make a straight wire zigzag: those that lie beside the way of the others by less than their accuracy make no corner; of n legs between places with a standard deviation σ
/// across, n·σ²/g of excess length, some remains. What all that leaves open is stated as two standard deviations; its factors are no theory but were fitted to simulated rectangles,
/// some with a bay. On 200 each of other rectangles, of horseshoes with eight corners and of round lawns with bulges (heard every 3 to 10 m, to 0.6 to 3 m), not fitted on: 95 % or more of the
/// wires have a length within what is stated (mostly all: it is rather too wide where places are near to each other), and 90 % to 99.9 % of the wire lies within the stated distance,
/// least where places are 10 m apart. On real gardens it has not been tried.
/// </remarks>
public sealed record HeardCourse
{
    /// <summary>Fewest places, the station included, that make a way.</summary>
    public const int FewestPlaces = 4;

    /// <summary>Most places: far more than anybody hears in an afternoon.</summary>
    public const int MostPlaces = 200;

    private const int MostStarts = 24;

    private const double CornerShare = 0.19, CornersOfARound = 4, BesideShareOfGap = 0.26, ZigzagShare = 0.7, DrawnShare = 0.02;

    private HeardCourse(PlanPoint[] round, bool isInOrder, double accuracyMetres)
    {
        (Round, IsInOrder) = (round, isInOrder);
        Corners = TrackSimplifier.Simplified(round, accuracyMetres);
        LengthMetres = new WirePath(Corners).LengthMetres;
        WidestGapMetres = round.Zip(round.Skip(1), (a, b) => a.DistanceTo(b)).Max();

        // The mean gap says how much lies between places.
        double legs = round.Length - 1, gap = LengthMetres / legs, across = accuracyMetres / 2;
        ToleranceMetres = Tenths(Math.Sqrt((accuracyMetres * accuracyMetres) + Math.Pow(BesideShareOfGap * gap, 2)));
        LengthToleranceMetres = Tenths((2 * CornerShare * Math.Max(CornersOfARound, RightAngles(Corners)) * gap) + (ZigzagShare * legs * across * across / gap) + (DrawnShare * LengthMetres));

        static double Tenths(double metres) => Math.Ceiling(metres * 10) / 10;
    }

    /// <summary>From the station through all places and back to it.</summary>
    public IReadOnlyList<PlanPoint> Round { get; }

    /// <summary>The way proposed: the round without places that lie on the way of the others as well as they are known.</summary>
    public IReadOnlyList<PlanPoint> Corners { get; }

    /// <summary>Whether the places are joined in the order in which they were heard.</summary>
    public bool IsInOrder { get; }

    /// <summary>Length of the way (m).</summary>
    public double LengthMetres { get; }

    /// <summary>How far the wire's length may differ (m, two standard deviations).</summary>
    public double LengthToleranceMetres { get; }

    /// <summary>How far beside the way the wire may lie (m, two standard deviations).</summary>
    public double ToleranceMetres { get; }

    /// <summary>The longest leg (m): a place heard in it would tell most.</summary>
    public double WidestGapMetres { get; }

    /// <summary>Proposes a way.</summary>
    /// <param name="heard">Places in the order in which they were heard; the first is the station. Places nearer than 1 cm to each other count once.</param>
    /// <returns>Null while there are fewer than <see cref="FewestPlaces"/>, or all of them lie in one place or on one line as well as they are known.</returns>
    /// <exception cref="ArgumentException">More than <see cref="MostPlaces"/> places.</exception>
    public static HeardCourse? Of(IReadOnlyList<HeardPlace> heard)
    {
        if (heard.Count > MostPlaces)
        {
            throw new ArgumentException($"At most {MostPlaces} places; got {heard.Count}.", nameof(heard));
        }

        List<HeardPlace> places = [];
        foreach (HeardPlace place in heard)
        {
            if (!places.Exists(known => known.At.DistanceTo(place.At) < 0.01))
            {
                places.Add(place);
            }
        }

        if (places.Count < FewestPlaces)
        {
            return null;
        }

        PlanPoint[] at = [.. places.Select(place => place.At)];
        long effort = long.MaxValue;
        bool inOrder = CrossingSearch.Itself(new(at, closed: true), 1, ref effort).Count == 0;
        int[] order = inOrder ? [.. Enumerable.Range(0, at.Length)] : ShortTour(at);

        // Accuracies are averaged as variances.
        double accuracy = Math.Sqrt(places.Skip(1).Average(place => place.AccuracyMetres * place.AccuracyMetres));
        HeardCourse way = new([.. order.Select(i => at[i]), at[order[0]]], inOrder, accuracy);
        return way.Corners.Count > 3 ? way : null;
    }

    // All turns of a closed way, left and right alike, in right angles: four where it is convex.
    private static double RightAngles(IReadOnlyList<PlanPoint> way)
    {
        double turned = 0;
        for (int i = 1; i < way.Count; i++)
        {
            PlanPoint before = way[i - 1], at = way[i], after = way[i + 1 < way.Count ? i + 1 : 1];
            double turn = Math.Atan2(after.NorthMetres - at.NorthMetres, after.EastMetres - at.EastMetres) - Math.Atan2(at.NorthMetres - before.NorthMetres, at.EastMetres - before.EastMetres);
            turned += Math.Abs(Math.IEEERemainder(turn, 2 * Math.PI));
        }

        return turned / (Math.PI / 2);
    }

    private static double Length(int[] order, PlanPoint[] at)
    {
        double length = 0;
        for (int i = 0; i < order.Length; i++)
        {
            length += at[order[i]].DistanceTo(at[order[(i + 1) % order.Length]]);
        }

        return length;
    }

    private static int[] ShortTour(PlanPoint[] at)
    {
        int[] best = [];
        double shortest = double.PositiveInfinity;
        int starts = Math.Min(at.Length, MostStarts);
        for (int start = 0; start < starts; start++)
        {
            int[] tour = NearestNext(start * at.Length / starts, at);
            while (TurnRound(tour, at) || MoveOne(tour, at))
            {
            }

            double length = Length(tour, at);
            if (length < shortest - 1e-9)
            {
                (best, shortest) = (tour, length);
            }
        }

        // From the station, and round the way in which the second place was heard before the last.
        int station = Array.IndexOf(best, 0);
        int[] fromStation = [.. best[station..], .. best[..station]];
        return fromStation[1] <= fromStation[^1] ? fromStation : [fromStation[0], .. fromStation[1..].Reverse()];
    }

    private static int[] NearestNext(int start, PlanPoint[] at)
    {
        List<int> left = [.. Enumerable.Range(0, at.Length)];
        _ = left.Remove(start);
        List<int> tour = [start];
        while (left.Count > 0)
        {
            int next = left.MinBy(i => at[i].DistanceTo(at[tour[^1]]));
            _ = left.Remove(next);
            tour.Add(next);
        }

        return [.. tour];
    }

    // Each change shortens the tour by more than rounding, so that it ends.
    private static bool TurnRound(int[] tour, PlanPoint[] at)
    {
        bool changed = false;
        int count = tour.Length;
        for (int i = 0; i < count - 1; i++)
        {
            for (int j = i + 2; j < count; j++)
            {
                PlanPoint a = at[tour[i]], b = at[tour[i + 1]], c = at[tour[j]], d = at[tour[(j + 1) % count]];
                if (a.DistanceTo(c) + b.DistanceTo(d) < a.DistanceTo(b) + c.DistanceTo(d) - 1e-9)
                {
                    Array.Reverse(tour, i + 1, j - i);
                    changed = true;
                }
            }
        }

        return changed;
    }

    private static bool MoveOne(int[] tour, PlanPoint[] at)
    {
        int count = tour.Length;
        for (int i = 0; i < count; i++)
        {
            PlanPoint before = at[tour[(i + count - 1) % count]], here = at[tour[i]], after = at[tour[(i + 1) % count]];
            double saved = before.DistanceTo(here) + here.DistanceTo(after) - before.DistanceTo(after);
            for (int j = 0; j < count; j++)
            {
                if (j == i || (j + 1) % count == i)
                {
                    continue;
                }

                PlanPoint from = at[tour[j]], to = at[tour[(j + 1) % count]];
                if (from.DistanceTo(here) + here.DistanceTo(to) - from.DistanceTo(to) < saved - 1e-9)
                {
                    List<int> moved = [.. tour];
                    int place = moved[i], behind = moved[j];
                    moved.RemoveAt(i);
                    moved.Insert(moved.IndexOf(behind) + 1, place);
                    moved.CopyTo(tour);
                    return true;
                }
            }
        }

        return false;
    }
}
