using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Reach;

/// <summary>Plan distance to the nearest wire that a mower can notice, for many places at once.</summary>
/// <remarks>A piece counts when the field changes across its middle by at least half of what the piece alone would make: the two wires of a run to an island
/// lie in one trench, cancel each other, and are no wire to a mower. Where no piece counts, all do. Source: none, our own convention.</remarks>
internal sealed class WireDistance
{
    private const int Stride = 5;

    private readonly PlanPoint[] _from, _to;
    private readonly double[] _constants;

    /// <summary>Prepares the wire of a field.</summary>
    public WireDistance(PolylineField field)
    {
        IReadOnlyList<PlanPoint> corners = field.Path.Points;
        List<int> counted = [];
        for (int piece = 0; piece < field.SegmentCount; piece++)
        {
            if (IsNoticed(field, corners[piece], corners[piece + 1]))
            {
                counted.Add(piece);
            }
        }

        int count = counted.Count > 0 ? counted.Count : field.SegmentCount;
        (_from, _to, _constants) = (new PlanPoint[count], new PlanPoint[count], new double[Stride * count]);
        for (int i = 0; i < count; i++)
        {
            int piece = counted.Count > 0 ? counted[i] : i;
            PlanPoint a = _from[i] = corners[piece], b = _to[i] = corners[piece + 1];
            double east = b.EastMetres - a.EastMetres, north = b.NorthMetres - a.NorthMetres;
            double square = (east * east) + (north * north);
            Span<double> c = _constants.AsSpan(Stride * i, Stride);

            // A piece of no length is its own start.
            (c[0], c[1], c[2], c[3], c[4]) = (a.EastMetres, a.NorthMetres, east, north, square > 0 ? 1 / square : 0);
        }
    }

    /// <summary>The nearest place on the wire.</summary>
    public Foot Nearest(PlanPoint point)
    {
        (double bestSquare, PlanPoint foot, int best) = (double.PositiveInfinity, point, 0);
        for (int i = 0; i < _from.Length; i++)
        {
            (double share, double square) = WirePath.NearestOnPiece(_from[i], _to[i], point);
            if (square < bestSquare)
            {
                (bestSquare, foot, best) = (square, _from[i].Towards(_to[i], share), i);
            }
        }

        PlanPoint a = _from[best], b = _to[best];
        double length = a.DistanceTo(b);
        return length > 0
            ? new(foot, Math.Sqrt(bestSquare), (b.EastMetres - a.EastMetres) / length, (b.NorthMetres - a.NorthMetres) / length)
            : new(foot, Math.Sqrt(bestSquare), 1, 0);
    }

    /// <summary>Distance (m) of places on one line from west to east.</summary>
    /// <param name="northMetres">Northing of the line (m).</param>
    /// <param name="eastMetres">Eastings (m).</param>
    /// <param name="distanceMetres">Receives the distances (m).</param>
    public void FillRow(double northMetres, ReadOnlySpan<double> eastMetres, Span<double> distanceMetres)
    {
        if (LaneChoice.IsOneByOne(eastMetres.Length, _from.Length))
        {
            FillRow<OneLane>(northMetres, eastMetres, distanceMetres);
        }
        else
        {
            FillRow<PortableLanes>(northMetres, eastMetres, distanceMetres);
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
        PolylineField alone = new(new((PlanPoint[])[from, to]), field.HeightMetres);
        return Math.Abs(field.VerticalFieldPerAmpere(left) - field.VerticalFieldPerAmpere(right))
            >= 0.5 * Math.Abs(alone.VerticalFieldPerAmpere(left) - alone.VerticalFieldPerAmpere(right));
    }

    private void FillRow<T>(double northMetres, ReadOnlySpan<double> eastMetres, Span<double> distanceMetres)
        where T : struct, ILanes<T>
    {
        int i = 0;
        for (; i + T.Count <= eastMetres.Length; i += T.Count)
        {
            Distances(northMetres, T.Load(eastMetres[i..])).Store(distanceMetres[i..]);
        }

        if (i < eastMetres.Length)
        {
            Span<double> padded = stackalloc double[T.Count];
            padded.Fill(eastMetres[i]);
            eastMetres[i..].CopyTo(padded);
            Distances(northMetres, T.Load(padded)).Store(padded);
            padded[..(eastMetres.Length - i)].CopyTo(distanceMetres[i..]);
        }
    }

    private T Distances<T>(double northMetres, T east)
        where T : struct, ILanes<T>
    {
        T zero = T.All(0), one = T.All(1), least = T.All(double.PositiveInfinity);
        for (int i = 0; i < _constants.Length; i += Stride)
        {
            ReadOnlySpan<double> c = _constants.AsSpan(i, Stride);
            double dy = northMetres - c[1];
            T dx = east - T.All(c[0]);
            T share = ((dx * T.All(c[2])) + T.All(dy * c[3])) * T.All(c[4]);
            share = T.WhereNegative(share, zero, T.WhereNegative(one - share, one, share));
            T offEast = dx - (share * T.All(c[2]));
            T offNorth = T.All(dy) - (share * T.All(c[3]));
            T square = (offEast * offEast) + (offNorth * offNorth);
            least = T.WhereNegative(square - least, square, least);
        }

        return T.SquareRoot(least);
    }

    /// <summary>The nearest place on the wire to some point.</summary>
    /// <param name="Place">The place.</param>
    /// <param name="DistanceMetres">How far it is (m).</param>
    /// <param name="AlongEast">East part of the wire's direction there, of length one.</param>
    /// <param name="AlongNorth">North part of that direction.</param>
    internal readonly record struct Foot(PlanPoint Place, double DistanceMetres, double AlongEast, double AlongNorth);
}
