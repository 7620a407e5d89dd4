using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>The places of one loop, in order from A to B, with the prior probability of each kind of wire fault at each. Not safe for use
/// by two threads at once.</summary>
internal sealed class PlaceGrid
{
    /// <summary>Metal this near counts as beside the wire (m). Common practice, no source.</summary>
    private const double MetalReachMetres = 2.5;

    /// <summary>Metal this near is beside the wire without doubt (m).</summary>
    private const double MetalCloseMetres = 1.5;

    /// <summary>Most cells that the wire beside metal is cut into for pairs of leaks.</summary>
    private const int MostMetalCells = 22;

    // What coarser places cover, by place: asked for the same few again and again.
    private readonly Dictionary<Place, (int Index, double Share)[]> _within = [];

    private PlaceGrid(Place[] places, Yard yard)
    {
        Places = places;
        NearMetal = [.. places.Select(place => IsNearMetal(yard, place.AtMetres))];
        // Joints fail by themselves and not by the metre, yet a long loop has had more done to it: a bit of both.
        double spans = places.Where(place => !place.IsPoint).Sum(place => RiskMetres(yard, place));
        double joint = StatedProbabilities.SeriesJointMetres + (StatedProbabilities.SeriesJointShareOfSpans * spans);
        SeriesPrior = Normalised(yard, place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.SeriesTerminalFactor * joint,
            PlaceKind.Joint => joint * StyleFactor(yard, place.AtMetres),
            _ => RiskMetres(yard, place),
        });
        OpenPrior = Normalised(yard, place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.OpenTerminalMetres,
            PlaceKind.Joint => StatedProbabilities.OpenJointMetres * StyleFactor(yard, place.AtMetres),
            _ => RiskMetres(yard, place),
        });
        LeakPrior = Normalised(yard, place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.LeakTerminalMetres,
            PlaceKind.Joint => StatedProbabilities.LeakJointMetres * StyleFactor(yard, place.AtMetres),
            _ => RiskMetres(yard, place),
        });
        UnsteadyPrior = Normalised(yard, place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.SeriesTerminalFactor * joint,
            PlaceKind.Joint => joint * StyleFactor(yard, place.AtMetres),
            _ => StatedProbabilities.UnsteadySpanFactor * RiskMetres(yard, place),
        });
        double[] metal = [.. places.Select(place => ClosenessToMetal(yard, place.AtMetres))];
        double[] metres = [.. places.Select(place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.LeakTerminalMetres,
            PlaceKind.Joint => StatedProbabilities.LeakPairJointMetres * StyleFactor(yard, place.AtMetres),
            _ => RiskMetres(yard, place),
        })];
        double beside = 0, elsewhere = 0;
        for (int i = 0; i < places.Length; i++)
        {
            beside += metal[i] * metres[i];
            elsewhere += (1 - metal[i]) * metres[i];
        }

        // A metre or two of metal is hardly what two places lie beside.
        double besideShare = elsewhere > 0 ? StatedProbabilities.LeakPairBesideMetal * beside / (beside + 2) : 1;
        LeakPairPrior = [.. places.Select((_, i) =>
            (beside > 0 ? besideShare * metal[i] * metres[i] / beside : 0) + (elsewhere > 0 ? (1 - besideShare) * (1 - metal[i]) * metres[i] / elsewhere : 0))];
    }

    public Place[] Places { get; }

    public bool[] NearMetal { get; }

    public double[] SeriesPrior { get; }

    public double[] OpenPrior { get; }

    public double[] UnsteadyPrior { get; }

    public double[] LeakPrior { get; }

    public double[] LeakPairPrior { get; }

    /// <summary>Prior of a wire fault's place.</summary>
    public double[] PriorOf(CauseKind kind) => kind switch
    {
        CauseKind.SeriesResistance => SeriesPrior,
        CauseKind.Unsteady => UnsteadyPrior,
        CauseKind.Open => OpenPrior,
        CauseKind.Leak => LeakPrior,
        CauseKind.LeakPair => LeakPairPrior,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Needs a fault of the wire."),
    };

    /// <summary>Cells of about one length, cut at joints; each joint and terminal is a place of its own.</summary>
    public static PlaceGrid Even(Yard yard, double cellMetres) => Cut(yard, [], cellMetres);

    /// <summary>Cells cut at joints and at the given places too, none longer than <paramref name="longestMetres"/>.</summary>
    public static PlaceGrid Cut(Yard yard, IEnumerable<double> cuts, double longestMetres)
    {
        double length = yard.Loop.LengthMetres;
        double[] joints = [.. yard.Loop.Joints.Select(joint => joint.AtMetres).Where(at => at > 0 && at < length).Distinct().Order()];
        double[] edges = [.. joints.Concat(cuts.Where(cut => cut > 0.05 && cut < length - 0.05)).Append(0).Append(length).Distinct().Order()];
        List<Place> places = [new(PlaceKind.Terminal, 0, 0)];
        for (int i = 0; i + 1 < edges.Length; i++)
        {
            if (i > 0 && Array.BinarySearch(joints, edges[i]) >= 0)
            {
                places.Add(new(PlaceKind.Joint, edges[i], edges[i]));
            }

            double piece = edges[i + 1] - edges[i];
            int cells = Math.Max(1, (int)Math.Ceiling((piece / longestMetres) - 1e-9));
            for (int cell = 0; cell < cells; cell++)
            {
                places.Add(new(PlaceKind.Span, edges[i] + (piece * cell / cells), edges[i] + (piece * (cell + 1) / cells)));
            }
        }

        places.Add(new(PlaceKind.Terminal, length, length));
        return new([.. places], yard);
    }

    /// <summary>Fine where the wire runs beside metal and coarse elsewhere: for pairs of leaks.</summary>
    public static PlaceGrid AlongMetal(Yard yard, IEnumerable<double> cuts, double longestMetres)
    {
        // Even paces from end to end, so that the mirrored wire is cut at the mirrored places.
        double length = yard.Loop.LengthMetres;
        int paces = Math.Max(1, (int)Math.Ceiling(2 * length));
        double pace = length / paces;
        bool[] near = [.. Enumerable.Range(0, paces + 1).Select(i => IsNearMetal(yard, i * pace))];
        double cell = Math.Max(1.5, near.Count(metal => metal) * pace / MostMetalCells);
        List<double> all = [.. cuts];
        for (int from = 0; from <= paces; from++)
        {
            if (!near[from] || (from > 0 && near[from - 1]))
            {
                continue;
            }

            int to = from;
            while (to < paces && near[to + 1])
            {
                to++;
            }

            int cells = Math.Max(1, (int)Math.Round((to - from) * pace / cell));
            for (int c = 0; c <= cells; c++)
            {
                all.Add((from + ((double)(to - from) * c / cells)) * pace);
            }
        }

        return Cut(yard, all.Distinct(), longestMetres);
    }

    /// <summary>Index of the place that holds a point, spans preferred; joints only when hit exactly.</summary>
    public int IndexAt(double atMetres)
    {
        int index = FirstEndingAtOrAfter(atMetres);
        while (index < Places.Length && Places[index].IsPoint)
        {
            index++;
        }

        return Math.Min(index, Places.Length - 1);
    }

    /// <summary>Index of the place in which the middle of another place lies; a joint or terminal is itself.</summary>
    public int IndexOf(Place place) => place.IsPoint ? IndexOfPoint(place) : IndexAt(place.AtMetres);

    /// <summary>The places that a coarser place covers, with its share in each; a point is itself.</summary>
    public (int Index, double Share)[] Within(Place coarse)
    {
        if (!_within.TryGetValue(coarse, out (int, double)[]? covered))
        {
            covered = coarse.IsPoint ? [(IndexOfPoint(coarse), 1)] : [.. Covered(coarse)];
            _within.Add(coarse, covered);
        }

        return covered;
    }

    private int IndexOfPoint(Place point)
    {
        int index = FirstEndingAtOrAfter(point.AtMetres - 1e-6);
        while (Places[index].Kind != point.Kind)
        {
            index++;
        }

        return index;
    }

    private int FirstEndingAtOrAfter(double atMetres)
    {
        int low = 0, high = Places.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = Places[middle].ToMetres >= atMetres ? (low, middle) : (middle + 1, high);
        }

        return low;
    }

    private IEnumerable<(int Index, double Share)> Covered(Place coarse)
    {
        for (int i = IndexAt(coarse.FromMetres + 1e-6); i < Places.Length && Places[i].FromMetres < coarse.ToMetres; i++)
        {
            double overlap = Math.Min(Places[i].ToMetres, coarse.ToMetres) - Math.Max(Places[i].FromMetres, coarse.FromMetres);
            if (!Places[i].IsPoint && overlap > 0)
            {
                yield return (i, overlap / coarse.LengthMetres);
            }
        }
    }

    private static double StyleFactor(Yard yard, double atMetres) =>
        yard.Loop.JointNear(atMetres) is { } joint ? StatedProbabilities.JointStyleFactor(joint.Style) : 1;

    private static double RiskMetres(Yard yard, Place place)
    {
        double metres = place.LengthMetres;
        foreach (RiskSpot spot in yard.RiskSpots)
        {
            double overlap = Math.Min(place.ToMetres, spot.ToMetres) - Math.Max(place.FromMetres, spot.FromMetres);
            if (overlap > 0)
            {
                metres += overlap * (spot.Weight - 1);
            }
        }

        // Overlapping spots of small weight must not take a place out of the question.
        return Math.Max(metres, 0.01 * place.LengthMetres);
    }

    private static bool IsNearMetal(Yard yard, double atMetres) => MetalMetres(yard, atMetres) <= MetalReachMetres;

    private static double MetalMetres(Yard yard, double atMetres)
    {
        PlanPoint point = yard.Loop.Path.PointAt(atMetres);
        return yard.Metal.Count == 0 ? double.PositiveInfinity : yard.Metal.Min(metal => metal.Path.NearestTo(point).DistanceMetres);
    }

    /// <summary>1 beside metal, 0 away from it, evenly less between.</summary>
    private static double ClosenessToMetal(Yard yard, double atMetres) =>
        Math.Clamp((MetalReachMetres + 0.5 - MetalMetres(yard, atMetres)) / (MetalReachMetres + 0.5 - MetalCloseMetres), 0, 1);

    private double[] Normalised(Yard yard, Func<Place, double> weight)
    {
        double[] weights = [.. Places.Select(weight)];
        double total = weights.Sum();
        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] /= total;
        }

        return weights;
    }
}
