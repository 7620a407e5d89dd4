namespace Swardloop.Core.Geometry;

/// <summary>A wire laid along straight pieces; places on it are metres <c>s</c> from its start. Immutable.</summary>
public sealed class WirePath
{
    private const int MostCornersLookedAt = 64;

    private readonly PlanPoint[] _points;
    private readonly double[] _startMetres;
    private NearestPiece? _nearest; // made when it is first asked for, of paths so long that it pays

    /// <summary>Makes a path; repeated corners (pieces of no length) are allowed and harmless.</summary>
    /// <param name="points">At least two corners, in metres, from start to end.</param>
    /// <exception cref="ArgumentException">Fewer than two corners.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public WirePath(IEnumerable<PlanPoint> points)
    {
        _points = points is PlanPoint[] corners ? (PlanPoint[])corners.Clone() : [.. points];
        if (_points.Length < 2)
        {
            throw new ArgumentException("A path needs at least two corners.", nameof(points));
        }

        _startMetres = new double[_points.Length];
        for (int i = 0; i < _points.Length; i++)
        {
            Guard.Finite(_points[i].EastMetres, nameof(points));
            Guard.Finite(_points[i].NorthMetres, nameof(points));
            if (i > 0)
            {
                _startMetres[i] = _startMetres[i - 1] + _points[i].DistanceTo(_points[i - 1]);
            }
        }
    }

    /// <summary>The corners, from start to end.</summary>
    public IReadOnlyList<PlanPoint> Points => _points;

    /// <summary>Distance along the wire of each corner (m); the first is 0, the last is <see cref="LengthMetres"/>.</summary>
    public IReadOnlyList<double> CornerMetres => _startMetres;

    /// <summary>Length along the wire (m).</summary>
    public double LengthMetres => _startMetres[^1];

    /// <summary>The place at <paramref name="metres"/> along the wire; beyond either end, that end.</summary>
    public PlanPoint PointAt(double metres)
    {
        int piece = PieceAt(metres);
        double length = _startMetres[piece + 1] - _startMetres[piece];
        return length > 0
            ? _points[piece].Towards(_points[piece + 1], Math.Clamp((metres - _startMetres[piece]) / length, 0, 1))
            : _points[piece];
    }

    /// <summary>Index of the straight piece that holds <paramref name="metres"/>: 0 for the one from corner 0 to corner 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public int PieceAt(double metres)
    {
        Guard.Finite(metres);
        int index = Array.BinarySearch(_startMetres, metres);
        if (index < 0)
        {
            index = ~index - 1;
        }

        return Math.Clamp(index, 0, _points.Length - 2);
    }

    /// <summary>The nearest place on the wire to a point: metres along it, and the straight distance to it (m).</summary>
    public (double AtMetres, double DistanceMetres) NearestTo(PlanPoint point)
    {
        if (_points.Length > MostCornersLookedAt)
        {
            (int piece, double ofPiece, double nearest) = (_nearest ??= new(_points)).To(point);
            return (_startMetres[piece] + (ofPiece * (_startMetres[piece + 1] - _startMetres[piece])), Math.Sqrt(nearest));
        }

        double bestSquare = double.PositiveInfinity, bestAt = 0;
        for (int i = 0; i + 1 < _points.Length; i++)
        {
            (double share, double square) = NearestOnPiece(_points[i], _points[i + 1], point);
            if (square < bestSquare)
            {
                bestSquare = square;
                bestAt = _startMetres[i] + (share * (_startMetres[i + 1] - _startMetres[i]));
            }
        }

        return (bestAt, Math.Sqrt(bestSquare));
    }

    /// <summary>The same wire walked from its other end.</summary>
    public WirePath Reversed() => new(_points.Reverse());

    internal static (double Share, double SquaredDistance) NearestOnPiece(PlanPoint a, PlanPoint b, PlanPoint point)
    {
        double east = b.EastMetres - a.EastMetres, north = b.NorthMetres - a.NorthMetres;
        double square = (east * east) + (north * north);
        double share = square > 0
            ? Math.Clamp((((point.EastMetres - a.EastMetres) * east) + ((point.NorthMetres - a.NorthMetres) * north)) / square, 0, 1)
            : 0;
        return (share, a.Towards(b, share).SquaredDistanceTo(point));
    }
}
