namespace Swardloop.Core.Geometry;

/// <summary>Finds the piece of a path nearest to a point: the same one, to the last digit, that looking at every piece in order finds, in about log n. Immutable.</summary>
/// <remarks>A tree of boxes over the order of the pieces, a few pieces to a leaf. A box is passed over only when it lies farther than the best by more than rounding can be
/// (1e-9 m against less than 1e-11 m for coordinates within 10 km).</remarks>
internal sealed class NearestPiece
{
    private const int PiecesOfLeaf = 8;
    private const double RoundingMetres = 1e-9;

    private readonly PlanPoint[] _points;
    private readonly PlanBox[] _boxes; // node k has children 2k and 2k + 1; the leaves begin at _leaves
    private readonly int _leaves;

    /// <summary>Makes the tree.</summary>
    /// <param name="points">Corners of the path, two or more; not changed afterwards.</param>
    public NearestPiece(PlanPoint[] points)
    {
        _points = points;
        int filled = (points.Length - 2 + PiecesOfLeaf) / PiecesOfLeaf;
        _leaves = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)filled);
        _boxes = new PlanBox[2 * _leaves];
        Array.Fill(_boxes, PlanBox.Empty);
        for (int i = 0; i + 1 < points.Length; i++)
        {
            int leaf = _leaves + (i / PiecesOfLeaf);
            _boxes[leaf] = PlanBox.Union(_boxes[leaf], PlanBox.Round(points[i], points[i + 1]));
        }

        for (int node = _leaves - 1; node >= 1; node--)
        {
            _boxes[node] = PlanBox.Union(_boxes[2 * node], _boxes[(2 * node) + 1]);
        }
    }

    /// <summary>The first of the nearest pieces, the share of it at which it is nearest, and the distance squared (m²).</summary>
    public (int Piece, double Share, double SquaredDistance) To(PlanPoint point)
    {
        Best best = new(point);
        Below(1, ref best);
        return (best.Piece, best.Share, best.Square);
    }

    private void Below(int node, ref Best best)
    {
        if (_boxes[node].SquaredDistanceTo(best.Point) > best.Limit)
        {
            return;
        }

        if (node >= _leaves)
        {
            int first = (node - _leaves) * PiecesOfLeaf;
            for (int i = first; i < first + PiecesOfLeaf && i + 1 < _points.Length; i++)
            {
                (double share, double square) = WirePath.NearestOnPiece(_points[i], _points[i + 1], best.Point);
                if (square < best.Square || (square == best.Square && i < best.Piece))
                {
                    best.Take(i, share, square);
                }
            }

            return;
        }

        int near = 2 * node, far = near + 1;
        if (_boxes[far].SquaredDistanceTo(best.Point) < _boxes[near].SquaredDistanceTo(best.Point))
        {
            (near, far) = (far, near);
        }

        Below(near, ref best);
        Below(far, ref best);
    }

    private struct Best(PlanPoint point)
    {
        public readonly PlanPoint Point => point;

        public int Piece { get; private set; } = 0;

        public double Share { get; private set; } = 0;

        public double Square { get; private set; } = double.PositiveInfinity;

        /// <summary>Boxes farther than this, squared, hold nothing nearer (m²).</summary>
        public double Limit { get; private set; } = double.PositiveInfinity;

        public void Take(int piece, double share, double square)
        {
            (Piece, Share, Square) = (piece, share, square);
            double far = Math.Sqrt(square) + RoundingMetres;
            Limit = far * far;
        }
    }
}
