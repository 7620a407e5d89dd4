using System.Numerics;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Fields;

/// <summary>Vertical magnetic field, for one ampere, of a wire laid in a level plane, in a level plane above it.</summary>
/// <remarks>
/// Sum over the straight pieces of <see cref="SegmentField"/>'s closed form. Positive is up: inside a loop whose current runs
/// counter-clockwise seen from above. The current runs from the path's first corner to its last.
/// The wire need not be closed: the rest of the circuit is the station's business, and current that spreads evenly into level ground
/// from an earth contact makes no vertical field at all, by symmetry.
/// <para>Every answer is made of correctly rounded operations in one fixed order, so it has the same bits on every machine, at every
/// vector width and with any number of threads.</para>
/// <para>Source of the formula: see <see cref="SegmentField"/>. Accuracy: relative 1e-12 or better at 5 cm and more from a wire of pieces up
/// to 1 km, tested.</para>
/// </remarks>
public sealed class PolylineField
{
    // Constants per piece and row; RowConstants says which.
    private const int Stride = 6;

    private readonly double[] _east, _north;
    private readonly double _squaredHeight;

    /// <summary>Prepares the field of a path.</summary>
    /// <param name="path">The wire, first corner to last.</param>
    /// <param name="heightMetres">Height of the field plane above the wire (m), above zero: depth plus sensor height. A thin wire's own plane is
    /// left out because its field has no value there.</param>
    /// <exception cref="ArgumentOutOfRangeException">The height is not finite or not above zero.</exception>
    public PolylineField(WirePath path, double heightMetres)
    {
        Guard.Positive(heightMetres);
        HeightMetres = heightMetres;
        Path = path;
        _squaredHeight = heightMetres * heightMetres;
        _east = [.. path.Points.Select(p => p.EastMetres)];
        _north = [.. path.Points.Select(p => p.NorthMetres)];
    }

    /// <summary>The wire.</summary>
    public WirePath Path { get; }

    /// <summary>Height of the field plane above the wire (m).</summary>
    public double HeightMetres { get; }

    /// <summary>Number of straight pieces.</summary>
    public int SegmentCount => _east.Length - 1;

    /// <summary>Vertical field for one ampere (A/m per A, that is 1/m) above a place; positive up.</summary>
    /// <param name="point">The place in plan (m).</param>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public double VerticalFieldPerAmpere(PlanPoint point)
    {
        Guard.Finite(point.EastMetres, nameof(point));
        Guard.Finite(point.NorthMetres, nameof(point));
        Span<double> east = [point.EastMetres], field = [0.0];
        FillRow(point.NorthMetres, east, field);
        return field[0];
    }

    /// <summary>Vertical field for one ampere (1/m) at places on one line from west to east.</summary>
    /// <param name="northMetres">Northing of the line (m).</param>
    /// <param name="eastMetres">Eastings of the places (m), in any order.</param>
    /// <param name="fieldPerAmpere">Receives the field at each place (1/m); as long as <paramref name="eastMetres"/>.</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The northing is not finite.</exception>
    public void FillRow(double northMetres, ReadOnlySpan<double> eastMetres, Span<double> fieldPerAmpere)
    {
        Guard.Finite(northMetres);
        if (eastMetres.Length != fieldPerAmpere.Length)
        {
            throw new ArgumentException("Needs one result for each place.", nameof(fieldPerAmpere));
        }

        double[] constants = new double[Stride * SegmentCount];
        double firstSquare = RowConstants(northMetres, constants);
        int width = Vector<double>.Count, i = 0;
        for (; i + width <= eastMetres.Length; i += width)
        {
            Sum(constants, firstSquare, new Vector<double>(eastMetres[i..])).CopyTo(fieldPerAmpere[i..]);
        }

        if (i < eastMetres.Length)
        {
            // The last few places ride in a full vector of their own, so that they meet the very same operations.
            Span<double> padded = stackalloc double[width];
            padded.Fill(eastMetres[i]);
            eastMetres[i..].CopyTo(padded);
            Sum(constants, firstSquare, new Vector<double>(padded)).CopyTo(padded);
            padded[..(eastMetres.Length - i)].CopyTo(fieldPerAmpere[i..]);
        }
    }

    // On one row the northward and vertical parts of every product are constants: per piece, the start's easting, the end's easting, the end's
    // squared distance from the row's line, the two coefficients of the vertical cross product, and the dot product's part.
    private double RowConstants(double northMetres, Span<double> constants)
    {
        for (int i = 0; i < SegmentCount; i++)
        {
            double north1 = northMetres - _north[i], north2 = northMetres - _north[i + 1];
            double alongEast = _east[i + 1] - _east[i], alongNorth = _north[i + 1] - _north[i];
            Span<double> c = constants.Slice(Stride * i, Stride);
            c[0] = _east[i + 1];
            c[1] = (north2 * north2) + _squaredHeight;
            c[2] = alongEast * north1;
            c[3] = alongNorth;
            c[4] = (north1 * north2) + _squaredHeight;
            c[5] = ((alongEast * alongEast) + (alongNorth * alongNorth)) * _squaredHeight;
        }

        double first = northMetres - _north[0];
        return (first * first) + _squaredHeight;
    }

    private Vector<double> Sum(ReadOnlySpan<double> constants, double firstSquare, Vector<double> east)
    {
        Vector<double> sum = Vector<double>.Zero;
        Vector<double> x1 = east - new Vector<double>(_east[0]);
        Vector<double> d1 = Vector.SquareRoot((x1 * x1) + new Vector<double>(firstSquare));
        for (int i = 0; i < constants.Length; i += Stride)
        {
            Vector<double> x2 = east - new Vector<double>(constants[i]);
            Vector<double> d2 = Vector.SquareRoot((x2 * x2) + new Vector<double>(constants[i + 1]));
            Vector<double> cross = new Vector<double>(constants[i + 2]) - (new Vector<double>(constants[i + 3]) * x1);
            Vector<double> dot = (x1 * x2) + new Vector<double>(constants[i + 4]);
            Vector<double> product = d1 * d2;
            Vector<double> sound = product + Vector.Abs(dot);
            Vector<double> square = (cross * cross) + new Vector<double>(constants[i + 5]);
            var beside = Vector.LessThan(dot, Vector<double>.Zero);
            Vector<double> numerator = cross * (d1 + d2) * Vector.ConditionalSelect(beside, sound, Vector<double>.One);
            Vector<double> denominator = product * Vector.ConditionalSelect(beside, square, sound);
            sum += numerator / denominator;
            x1 = x2;
            d1 = d2;
        }

        return sum * new Vector<double>(1 / (4 * Math.PI));
    }
}
