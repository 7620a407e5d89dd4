using System.Numerics;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Reach;

/// <summary>Plan distance to the nearest place on a wire, for many places at once.</summary>
internal sealed class WireDistance
{
    private const int Stride = 5;
    private readonly double[] _pieces;

    /// <summary>Prepares a path.</summary>
    public WireDistance(WirePath path)
    {
        _pieces = new double[Stride * (path.Points.Count - 1)];
        for (int i = 0; i + 1 < path.Points.Count; i++)
        {
            PlanPoint a = path.Points[i], b = path.Points[i + 1];
            double east = b.EastMetres - a.EastMetres, north = b.NorthMetres - a.NorthMetres;
            double square = (east * east) + (north * north);
            Span<double> c = _pieces.AsSpan(Stride * i, Stride);

            // A piece of no length is its own start.
            (c[0], c[1], c[2], c[3], c[4]) = (a.EastMetres, a.NorthMetres, east, north, square > 0 ? 1 / square : 0);
        }
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
            Nearest(northMetres, new Vector<double>(eastMetres[i..])).CopyTo(distanceMetres[i..]);
        }

        if (i < eastMetres.Length)
        {
            Span<double> padded = stackalloc double[width];
            padded.Fill(eastMetres[i]);
            eastMetres[i..].CopyTo(padded);
            Nearest(northMetres, new Vector<double>(padded)).CopyTo(padded);
            padded[..(eastMetres.Length - i)].CopyTo(distanceMetres[i..]);
        }
    }

    private Vector<double> Nearest(double northMetres, Vector<double> east)
    {
        Vector<double> least = new(double.PositiveInfinity);
        for (int i = 0; i < _pieces.Length; i += Stride)
        {
            ReadOnlySpan<double> c = _pieces.AsSpan(i, Stride);
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
