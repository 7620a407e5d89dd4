using System.Numerics;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Reach;

/// <summary>Plan distance to the nearest wire that a mower can notice, for many places at once.</summary>
/// <remarks>A piece counts when the field changes across its middle by at least half of what the piece alone would make: the two wires of a run to an island
/// lie in one trench, cancel each other, and are no wire to a mower. Where no piece counts, all do. Source: none, our own convention.</remarks>
internal sealed class WireDistance
{
    private const int Stride = 5;

    private readonly List<(PlanPoint From, PlanPoint To)> _pieces;
    private readonly double[] _constants;

    /// <summary>Prepares the wire of a field.</summary>
    public WireDistance(PolylineField field)
    {
        IReadOnlyList<PlanPoint> corners = field.Path.Points;
        List<(PlanPoint From, PlanPoint To)> all = [.. corners.Zip(corners.Skip(1))];
        _pieces = all.FindAll(piece => IsNoticed(field, piece.From, piece.To));
        if (_pieces.Count == 0)
        {
            _pieces = all;
        }

        _constants = new double[Stride * _pieces.Count];
        for (int i = 0; i < _pieces.Count; i++)
        {
            (PlanPoint a, PlanPoint b) = _pieces[i];
            double east = b.EastMetres - a.EastMetres, north = b.NorthMetres - a.NorthMetres;
            double square = (east * east) + (north * north);
            Span<double> c = _constants.AsSpan(Stride * i, Stride);

            // A piece of no length is its own start.
            (c[0], c[1], c[2], c[3], c[4]) = (a.EastMetres, a.NorthMetres, east, north, square > 0 ? 1 / square : 0);
        }
    }

    /// <summary>The nearest place on the wire: the place, its distance (m), and the wire's direction there, of length one.</summary>
    public (PlanPoint Foot, double DistanceMetres, (double East, double North) Along) Nearest(PlanPoint point)
    {
        (double bestSquare, PlanPoint foot, int best) = (double.PositiveInfinity, point, 0);
        for (int i = 0; i < _pieces.Count; i++)
        {
            (double share, double square) = WirePath.NearestOnPiece(_pieces[i].From, _pieces[i].To, point);
            if (square < bestSquare)
            {
                (bestSquare, foot, best) = (square, _pieces[i].From.Towards(_pieces[i].To, share), i);
            }
        }

        (PlanPoint a, PlanPoint b) = _pieces[best];
        double length = a.DistanceTo(b);
        return (foot, Math.Sqrt(bestSquare), length > 0
            ? ((b.EastMetres - a.EastMetres) / length, (b.NorthMetres - a.NorthMetres) / length)
            : (1, 0));
    }

    /// <summary>Distance (m) of places on one line from west to east.</summary>
    /// <param name="northMetres">Northing of the line (m).</param>
    /// <param name="eastMetres">Eastings (m).</param>
    /// <param name="distanceMetres">Receives the distances (m).</param>
    public void FillRow(double northMetres, ReadOnlySpan<double> eastMetres, Span<double> distanceMetres)
    {
        int width = Vector<double>.Count, i = 0;
        for (; i + width <= eastMetres.Length; i += width)
        {
            Distances(northMetres, new Vector<double>(eastMetres[i..])).CopyTo(distanceMetres[i..]);
        }

        if (i < eastMetres.Length)
        {
            Span<double> padded = stackalloc double[width];
            padded.Fill(eastMetres[i]);
            eastMetres[i..].CopyTo(padded);
            Distances(northMetres, new Vector<double>(padded)).CopyTo(padded);
            padded[..(eastMetres.Length - i)].CopyTo(distanceMetres[i..]);
        }
    }

    private static bool IsNoticed(PolylineField field, PlanPoint from, PlanPoint to)
    {
        double length = from.DistanceTo(to);
        if (!(length > 0))
        {
            return false;
        }

        PlanPoint middle = from.Towards(to, 0.5);
        double east = (to.NorthMetres - from.NorthMetres) / length * field.HeightMetres, north = (from.EastMetres - to.EastMetres) / length * field.HeightMetres;
        PlanPoint right = new(middle.EastMetres + east, middle.NorthMetres + north), left = new(middle.EastMetres - east, middle.NorthMetres - north);
        PolylineField alone = new(new([from, to]), field.HeightMetres);
        return Math.Abs(field.VerticalFieldPerAmpere(left) - field.VerticalFieldPerAmpere(right))
            >= 0.5 * Math.Abs(alone.VerticalFieldPerAmpere(left) - alone.VerticalFieldPerAmpere(right));
    }

    private Vector<double> Distances(double northMetres, Vector<double> east)
    {
        Vector<double> least = new(double.PositiveInfinity);
        for (int i = 0; i < _constants.Length; i += Stride)
        {
            ReadOnlySpan<double> c = _constants.AsSpan(i, Stride);
            double dy = northMetres - c[1];
            Vector<double> dx = east - new Vector<double>(c[0]);
            Vector<double> share = ((dx * new Vector<double>(c[2])) + new Vector<double>(dy * c[3])) * new Vector<double>(c[4]);
            share = Vector.Min(Vector.Max(share, Vector<double>.Zero), Vector<double>.One);
            Vector<double> offEast = dx - (share * new Vector<double>(c[2]));
            Vector<double> offNorth = new Vector<double>(dy) - (share * new Vector<double>(c[3]));
            least = Vector.Min(least, (offEast * offEast) + (offNorth * offNorth));
        }

        return Vector.SquareRoot(least);
    }
}
