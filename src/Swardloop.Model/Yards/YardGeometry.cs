using System.Globalization;
using Swardloop.Core.Geometry;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>What must hold of a yard's shapes before anything is computed from them.</summary>
internal sealed class YardGeometry
{
    /// <summary>A wire lies on the lawn or a little beside it: in the bed, under the kerb, behind the station. Further out it is a slip
    /// of the pen, or the lawn is (m). Common practice, no source.</summary>
    public const double MostOffLawnMetres = 1.5;

    /// <summary>A wire off the lawn with its return this near beside it is a run: to a station in the shed, or from lawn to lawn (m).</summary>
    private const double RunWidthMetres = 0.5;

    /// <summary>Places along the wire that are looked at for being off the lawn, beside its corners.</summary>
    private const int MostSamples = 20_000;

    /// <summary>Of one kind of problem in one shape, this many are told; a scribble has thousands.</summary>
    private const int MostTold = 5;

    private readonly string _prefix;
    private readonly ProblemList _problems;

    // Effort left for all searches of one yard. A line of 20,000 pieces as people lay it needs less than a million, so only
    // a scribble made to be slow runs out, within a fraction of a second.
    private long _effort = 10_000_000;

    private YardGeometry(string yardPlace, ProblemList problems) =>
        (_prefix, _problems) = (yardPlace.Length == 0 ? "" : yardPlace + ".", problems);

    /// <summary>Checks wire and lawn.</summary>
    /// <param name="wire">The loop's path.</param>
    /// <param name="lawn">The lawn as drawn; null when the file draws none.</param>
    /// <param name="yardPlace">Path of the yard in its file.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static void Check(WirePath wire, Lawn? lawn, string yardPlace, ProblemList problems) =>
        new YardGeometry(yardPlace, problems).Check(wire, lawn);

    /// <summary>Checks a lawn that has no wire yet.</summary>
    /// <param name="lawn">The lawn as drawn.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns>Whether it is fit to be planned on.</returns>
    public static bool Check(Lawn lawn, ProblemList problems) => new YardGeometry("", problems).CheckLawn(lawn);

    private void Check(WirePath wire, Lawn? lawn)
    {
        string place = _prefix + "loop.path";
        if (!(wire.LengthMetres >= YardLimits.LeastLoopMetres && wire.LengthMetres <= YardLimits.MostLoopMetres))
        {
            _problems.Add(place, Text($"the wire is {wire.LengthMetres:0.###} m long"), Text($"{YardLimits.LeastLoopMetres} to {YardLimits.MostLoopMetres} m"));
            return;
        }

        PieceTree pieces = new(wire.Points, closed: false);
        _ = TellCrossings(pieces, pieces, "the wire crosses itself", place,
            "a wire that may touch itself and run out and back along one line, but not cross");
        if (lawn is not null && CheckLawn(lawn))
        {
            CheckWireOnLawn(wire, pieces, Trees(lawn.Rings), place);
        }
    }

    /// <returns>Whether the rings are fit to be compared with.</returns>
    private bool CheckLawn(Lawn lawn)
    {
        (PlanPoint southWest, PlanPoint northEast) = lawn.Bounds;
        double width = Math.Max(northEast.EastMetres - southWest.EastMetres, northEast.NorthMetres - southWest.NorthMetres);
        if (!(width <= YardLimits.MostLawnMetres))
        {
            _problems.Add(_prefix + "lawn", Text($"the lawn is {width:0.#} m across"), Text($"at most {YardLimits.MostLawnMetres} m"));
            return false;
        }

        PieceTree[] rings = Trees(lawn.Rings);
        PieceTree[] holes = Trees(lawn.Holes);
        bool good = CheckRings(rings, "lawn") & CheckRings(holes, "holes");
        for (int i = 0; good && i < holes.Length; i++)
        {
            string place = Text($"{_prefix}holes[{i}]");
            if (!rings.Any(ring => TellCrossings(holes[i], ring, "the hole crosses the lawn's edge", place, "holes inside the lawn"))
                && !rings.Any(ring => LiesIn(holes[i], ring)))
            {
                _problems.Add(place, Text($"the hole at {At(holes[i].Point(0))} lies outside the lawn"), "holes inside the lawn", holes[i].Point(0));
            }
        }

        return good;
    }

    /// <summary>Each ring simple and of some size; no two in each other's way.</summary>
    private bool CheckRings(PieceTree[] rings, string name)
    {
        bool good = true;
        for (int i = 0; i < rings.Length; i++)
        {
            string place = Text($"{_prefix}{name}[{i}]");
            if (TellCrossings(rings[i], rings[i], "the ring crosses itself", place, "a ring that does not cross itself"))
            {
                good = false;
            }
            else if (Area(rings[i]) is double area && !(area >= YardLimits.LeastAreaSquareMetres))
            {
                _problems.Add(place, Text($"encloses {area:0.####} m²"), Text($"at least {YardLimits.LeastAreaSquareMetres} m²"));
                good = false;
            }

            for (int j = 0; good && j < i; j++)
            {
                if (TellCrossings(rings[i], rings[j], Text($"crosses {name}[{j}]"), place, "rings beside each other"))
                {
                    good = false;
                }
                else if (LiesIn(rings[i], rings[j]) || LiesIn(rings[j], rings[i]))
                {
                    _problems.Add(place, Text($"one of this and {name}[{j}] lies in the other"), "rings beside each other");
                    good = false;
                }
            }
        }

        return good;
    }

    private void CheckWireOnLawn(WirePath wire, PieceTree pieces, PieceTree[] rings, string place)
    {
        double step = Math.Max(1, wire.LengthMetres / MostSamples);
        double? leftAt = null;
        int corner = 0, told = 0;
        for (int piece = 0; piece < pieces.Count && told < MostTold; piece++)
        {
            PlanPoint from = pieces.Point(piece), to = pieces.Point(piece + 1);
            double start = wire.CornerMetres[pieces.CornerOf(piece)], length = from.DistanceTo(to);
            int samples = (int)Math.Ceiling(length / step);
            for (int sample = 0; sample <= samples; sample++)
            {
                double share = (double)sample / samples;
                PlanPoint at = from.Towards(to, share);
                if (rings.Any(ring => ring.Holds(at) || ring.AnyNear(at, MostOffLawnMetres, _ => true)))
                {
                    Tell(start + (share * length));
                }
                else if (leftAt is null && !HasReturnBeside(pieces, piece, at))
                {
                    leftAt = start + (share * length);
                    corner = pieces.CornerOf(piece);
                }
            }
        }

        Tell(wire.LengthMetres);

        void Tell(double backAt)
        {
            if (leftAt is double metres)
            {
                _problems.Add(Text($"{place}[{corner}]"),
                    Text($"the wire is off the lawn from {metres:0.0} m to {backAt:0.0} m along it, from {At(wire.PointAt(metres))} after corner {corner}"),
                    Text($"at most {MostOffLawnMetres} m beside the lawn, or out and back along one line"), wire.PointAt(metres));
                leftAt = null;
                told++;
            }
        }
    }

    private static bool HasReturnBeside(PieceTree pieces, int piece, PlanPoint at)
    {
        int asked = 0;
        PlanPoint from = pieces.Point(piece), to = pieces.Point(piece + 1);
        return pieces.AnyNear(at, RunWidthMetres, other =>
        {
            // A wire wound up in one spot is no run: after so many neighbours the search ends.
            if (++asked > 100)
            {
                return true;
            }

            PlanPoint start = pieces.Point(other), end = pieces.Point(other + 1);
            double dot = ((to.EastMetres - from.EastMetres) * (end.EastMetres - start.EastMetres))
                + ((to.NorthMetres - from.NorthMetres) * (end.NorthMetres - start.NorthMetres));
            return dot < -0.8 * from.DistanceTo(to) * start.DistanceTo(end);
        }) && asked <= 100;
    }

    /// <summary>Whether a ring that does not cross another lies in it: a corner that is not on the other's edge decides.</summary>
    private static bool LiesIn(PieceTree inner, PieceTree outer)
    {
        for (int i = 0; i < inner.Count; i++)
        {
            PlanPoint middle = inner.Point(i).Towards(inner.Point(i + 1), 0.5);
            PlanPoint point = outer.DistanceTo(inner.Point(i)) > CrossingSearch.RunMetres ? inner.Point(i) : middle;
            if (outer.DistanceTo(point) > CrossingSearch.RunMetres)
            {
                return outer.Holds(point);
            }
        }

        return true; // the same ring twice
    }

    /// <returns>Whether anything was told.</returns>
    private bool TellCrossings(PieceTree first, PieceTree second, string what, string place, string allowed)
    {
        List<Crossing> crossings = CrossingSearch.Between(first, second, MostTold, ref _effort);
        crossings.Sort((a, b) => a.FirstCorner != b.FirstCorner ? a.FirstCorner.CompareTo(b.FirstCorner) : a.SecondCorner.CompareTo(b.SecondCorner));
        foreach (Crossing crossing in crossings)
        {
            _problems.Add(place, Text($"{what} at {At(crossing.At)}: the pieces after corner {crossing.FirstCorner} and after corner {crossing.SecondCorner}"), allowed, crossing.At);
        }

        if (_effort <= 0 && crossings.Count == 0)
        {
            _problems.Add(place, "lies over itself or others so often that it cannot be checked", allowed);
            return true;
        }

        return crossings.Count > 0;
    }

    private static PieceTree[] Trees(IReadOnlyList<IReadOnlyList<PlanPoint>> rings) => [.. rings.Select(ring => new PieceTree(ring, closed: true))];

    private static double Area(PieceTree ring)
    {
        PlanPoint[] corners = new PlanPoint[ring.Count];
        for (int i = 0; i < corners.Length; i++)
        {
            corners[i] = ring.Point(i);
        }

        return Math.Abs(Lawn.SignedArea(corners));
    }

    private static string At(PlanPoint point) => Text($"({point.EastMetres:0.00}, {point.NorthMetres:0.00})");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
