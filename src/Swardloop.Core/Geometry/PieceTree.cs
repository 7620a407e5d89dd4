namespace Swardloop.Core.Geometry;

/// <summary>The straight pieces of a path or a ring in a tree of boxes, so that places and crossings are found without looking at
/// every piece. Immutable. Pieces shorter than a micrometre are left out; a line of nothing else has no pieces.</summary>
/// <remarks>Balanced over the order of the pieces, which along a wire is also an order in space: looking up a place costs about
/// log n for wires as people lay them; in the worst case, every box overlapping every other, n.</remarks>
public sealed class PieceTree
{
    /// <summary>Points nearer than this are one (m): far below any wire, far above rounding of coordinates within 10 km.</summary>
    public const double TouchMetres = 1e-6;

    /// <summary>What showing one pair of pieces counts as effort.</summary>
    public const int PairEffort = 10;

    private readonly PlanPoint[] _points;   // piece i runs from point i to point i + 1
    private readonly int[] _corners;        // index of each point among the corners handed in
    private readonly PlanBox[] _boxes;          // node k has children 2k and 2k + 1; piece i is node _leaves + i
    private readonly int _leaves;

    /// <summary>Makes the tree.</summary>
    /// <param name="corners">Corners in order, finite coordinates (m).</param>
    /// <param name="closed">Whether a last piece runs back to the first corner.</param>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public PieceTree(IReadOnlyList<PlanPoint> corners, bool closed)
    {
        PlanPoint[] points = new PlanPoint[corners.Count + 1];
        int[] indices = new int[corners.Count + 1];
        int count = 0;
        for (int i = 0; i < corners.Count; i++)
        {
            Guard.Finite(corners[i].EastMetres, nameof(corners));
            Guard.Finite(corners[i].NorthMetres, nameof(corners));
            if (count == 0 || points[count - 1].DistanceTo(corners[i]) > TouchMetres)
            {
                (points[count], indices[count]) = (corners[i], i);
                count++;
            }
        }

        if (closed && count > 1)
        {
            count -= points[count - 1].DistanceTo(points[0]) <= TouchMetres ? 1 : 0;
            (points[count], indices[count]) = (points[0], indices[0]);
            count++;
        }

        (_points, _corners) = (points, indices);
        IsClosed = closed;
        Count = Math.Max(0, count - 1);
        _leaves = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(1, Count));
        _boxes = new PlanBox[2 * _leaves];
        for (int leaf = _leaves + Count; leaf < _boxes.Length; leaf++)
        {
            _boxes[leaf] = PlanBox.Empty;
        }

        for (int i = 0; i < Count; i++)
        {
            _boxes[_leaves + i] = PlanBox.Round(_points[i], _points[i + 1]);
        }

        for (int node = _leaves - 1; node >= 1; node--)
        {
            _boxes[node] = PlanBox.Union(_boxes[2 * node], _boxes[(2 * node) + 1]);
        }
    }

    /// <summary>Number of pieces.</summary>
    public int Count { get; }

    /// <summary>Whether the line is a ring.</summary>
    public bool IsClosed { get; }

    /// <summary>Start of a piece (0 to <see cref="Count"/> − 1), or with <see cref="Count"/> the end of the last one.</summary>
    public PlanPoint Point(int piece) => _points[piece];

    /// <summary>Index, among the corners handed in, of the corner where a piece starts.</summary>
    public int CornerOf(int piece) => _corners[piece];

    /// <summary>Straight distance from a point to the nearest piece (m); infinite when there are no pieces.</summary>
    public double DistanceTo(PlanPoint point)
    {
        double best = double.PositiveInfinity;
        NearestBelow(1, point, ref best);
        return Math.Sqrt(best);
    }

    /// <summary>Whether a ring holds a point, by the parity of the edges east of it. On an edge, either answer may come.</summary>
    /// <exception cref="InvalidOperationException">The line is not closed.</exception>
    public bool Holds(PlanPoint point) => IsClosed
        ? OddEastOf(1, point)
        : throw new InvalidOperationException("Only a ring has an inside.");

    /// <summary>Whether some piece with its nearest place at most <paramref name="radiusMetres"/> from a point fits.</summary>
    /// <param name="point">The point.</param>
    /// <param name="radiusMetres">How far to look (m).</param>
    /// <param name="fits">Asked for each such piece until one fits.</param>
    public bool AnyNear(PlanPoint point, double radiusMetres, Func<int, bool> fits) => AnyNear(1, point, radiusMetres * radiusMetres, fits);

    /// <summary>Looks at every pair of pieces whose boxes touch, of two lines or, handed the same tree twice, of one line with itself
    /// (each pair once, the smaller index first; neighbours included, a piece with itself not).</summary>
    /// <param name="first">One line.</param>
    /// <param name="second">The other, or the same.</param>
    /// <param name="effort">How much may be done, 1 for each pair of boxes compared and <see cref="PairEffort"/> for each pair of pieces shown;
    /// what is left comes back, and at 0 or below the visit has given up.</param>
    /// <param name="pair">Takes a piece of each; answers whether to go on.</param>
    public static void VisitTouchingPairs(PieceTree first, PieceTree second, ref long effort, Func<int, int, bool> pair)
    {
        Walk walk = new(first, second, pair) { Effort = effort };
        walk.Pairs(1, 1);
        effort = walk.Effort;
    }

    private void NearestBelow(int node, PlanPoint point, ref double best)
    {
        if (_boxes[node].SquaredDistanceTo(point) >= best)
        {
            return;
        }

        if (node >= _leaves)
        {
            best = Math.Min(best, WirePath.NearestOnPiece(_points[node - _leaves], _points[node - _leaves + 1], point).SquaredDistance);
            return;
        }

        int near = 2 * node, far = near + 1;
        if (_boxes[far].SquaredDistanceTo(point) < _boxes[near].SquaredDistanceTo(point))
        {
            (near, far) = (far, near);
        }

        NearestBelow(near, point, ref best);
        NearestBelow(far, point, ref best);
    }

    private bool OddEastOf(int node, PlanPoint point)
    {
        PlanBox box = _boxes[node];
        if (!(box.MostEast > point.EastMetres && box.LeastNorth <= point.NorthMetres && box.MostNorth >= point.NorthMetres))
        {
            return false;
        }

        if (node < _leaves)
        {
            return OddEastOf(2 * node, point) ^ OddEastOf((2 * node) + 1, point);
        }

        PlanPoint a = _points[node - _leaves], b = _points[node - _leaves + 1];
        return a.NorthMetres > point.NorthMetres != b.NorthMetres > point.NorthMetres
            && point.EastMetres < a.EastMetres
                + ((b.EastMetres - a.EastMetres) * (point.NorthMetres - a.NorthMetres) / (b.NorthMetres - a.NorthMetres));
    }

    private bool AnyNear(int node, PlanPoint point, double square, Func<int, bool> fits)
    {
        if (_boxes[node].SquaredDistanceTo(point) > square)
        {
            return false;
        }

        return node < _leaves
            ? AnyNear(2 * node, point, square, fits) || AnyNear((2 * node) + 1, point, square, fits)
            : WirePath.NearestOnPiece(_points[node - _leaves], _points[node - _leaves + 1], point).SquaredDistance <= square
                && fits(node - _leaves);
    }

    private sealed class Walk(PieceTree first, PieceTree second, Func<int, int, bool> pair)
    {
        private bool _stopped;

        public long Effort { get; set; }

        public void Pairs(int a, int b)
        {
            if (_stopped || Effort <= 0)
            {
                return;
            }

            Effort--;
            bool same = ReferenceEquals(first, second) && a == b;
            if (!same && !first._boxes[a].Touches(second._boxes[b]))
            {
                return;
            }

            bool leafA = a >= first._leaves, leafB = b >= second._leaves;
            if (leafA && leafB)
            {
                Effort -= same ? 0 : PairEffort;
                _stopped = !same && !pair(a - first._leaves, b - second._leaves);
            }
            else if (same)
            {
                Pairs(2 * a, 2 * a);
                Pairs(2 * a, (2 * a) + 1);
                Pairs((2 * a) + 1, (2 * a) + 1);
            }
            else if (!leafA && (leafB || a <= b))
            {
                Pairs(2 * a, b);
                Pairs((2 * a) + 1, b);
            }
            else
            {
                Pairs(a, 2 * b);
                Pairs(a, (2 * b) + 1);
            }
        }
    }
}
