using System.Numerics;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Fields;

/// <summary>Vertical field of any set of level conductors, each piece with its own current: wire and metal together.</summary>
/// <remarks>Pieces that follow each other end to start at one height with one current are summed as one wire, so a network's few different currents
/// cost no more than a single wire of as many pieces. Current that spreads from an earth contact into level ground makes no vertical field, by
/// symmetry about the contact: the conductors are all there is to sum. Formula, accuracy and sources: <see cref="PolylineField"/>.</remarks>
public sealed class FieldSource
{
    private readonly List<(PolylineField Field, Complex Amperes)> _wires = [];

    /// <summary>Prepares a set of pieces.</summary>
    /// <param name="segments">The pieces, in any order. An upright piece makes no vertical field.</param>
    /// <param name="planeMetres">Height of the field plane (m, up), on the scale of the pieces: the sensor's height when the ground is at zero.</param>
    /// <exception cref="ArgumentException">A piece slopes, or lies in the field plane, where a thin wire's field has no value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate or current is not finite.</exception>
    public FieldSource(IEnumerable<CurrentSegment> segments, double planeMetres)
    {
        Guard.Finite(planeMetres);
        List<PlanPoint> corners = [];
        CurrentSegment last = default;
        foreach (CurrentSegment segment in segments)
        {
            Guard.Finite(segment.StartMetres, nameof(segments));
            Guard.Finite(segment.EndMetres, nameof(segments));
            Guard.Finite(segment.CurrentAmperes.Real, nameof(segments));
            Guard.Finite(segment.CurrentAmperes.Imaginary, nameof(segments));
            Vec3 along = segment.EndMetres - segment.StartMetres;
            if (along is { X: 0, Y: 0 })
            {
                continue;
            }

            if (along.Z != 0 || segment.StartMetres.Z == planeMetres)
            {
                throw new ArgumentException($"A piece must be level and out of the field plane at {planeMetres} m; got {segment}.", nameof(segments));
            }

            if (corners.Count > 0 && (segment.StartMetres != last.EndMetres || segment.CurrentAmperes != last.CurrentAmperes))
            {
                Close(corners, last, planeMetres);
            }

            if (corners.Count == 0)
            {
                corners.Add(new(segment.StartMetres.X, segment.StartMetres.Y));
            }

            corners.Add(new(segment.EndMetres.X, segment.EndMetres.Y));
            last = segment;
        }

        if (corners.Count > 0)
        {
            Close(corners, last, planeMetres);
        }
    }

    /// <summary>Vertical field (A/m) above or below a place; positive up, in phase with the pieces' reference where real.</summary>
    /// <param name="point">The place in plan (m).</param>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public Complex VerticalFieldAmperesPerMetre(PlanPoint point)
    {
        Complex sum = Complex.Zero;
        foreach ((PolylineField field, Complex amperes) in _wires)
        {
            sum += amperes * field.VerticalFieldPerAmpere(point);
        }

        return sum;
    }

    /// <summary>Vertical field (A/m) at places on one line from west to east.</summary>
    /// <param name="northMetres">Northing of the line (m).</param>
    /// <param name="eastMetres">Eastings of the places (m).</param>
    /// <param name="inPhase">Receives the real part at each place (A/m).</param>
    /// <param name="quadrature">Receives the imaginary part at each place (A/m).</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The northing is not finite.</exception>
    public void FillRow(double northMetres, ReadOnlySpan<double> eastMetres, Span<double> inPhase, Span<double> quadrature)
    {
        if (inPhase.Length != eastMetres.Length || quadrature.Length != eastMetres.Length)
        {
            throw new ArgumentException("Needs one result for each place.", nameof(inPhase));
        }

        inPhase.Clear();
        quadrature.Clear();
        double[] one = new double[eastMetres.Length];
        foreach ((PolylineField field, Complex amperes) in _wires)
        {
            field.FillRow(northMetres, eastMetres, one);
            for (int i = 0; i < one.Length; i++)
            {
                inPhase[i] += amperes.Real * one[i];
                quadrature[i] += amperes.Imaginary * one[i];
            }
        }
    }

    private void Close(List<PlanPoint> corners, CurrentSegment last, double planeMetres)
    {
        _wires.Add((new PolylineField(new WirePath(corners), Math.Abs(planeMetres - last.EndMetres.Z)), last.CurrentAmperes));
        corners.Clear();
    }
}
