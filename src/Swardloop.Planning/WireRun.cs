using NetTopologySuite.Geometries;

namespace Swardloop.Planning;

/// <summary>A pair of wires in one slit from one ring to another.</summary>
/// <param name="From">Index of one ring.</param>
/// <param name="FromMetres">Where on it (m along it).</param>
/// <param name="To">Index of the other.</param>
/// <param name="ToMetres">Where on it (m along it).</param>
/// <param name="Start">The place on the one.</param>
/// <param name="End">The place on the other.</param>
internal sealed record WireRun(int From, double FromMetres, int To, double ToMetres, Coordinate Start, Coordinate End)
{
    /// <summary>Length of the slit (m).</summary>
    public double Metres => Start.Distance(End);

    /// <summary>The same run seen from its other ring.</summary>
    public WireRun Turned => new(To, ToMetres, From, FromMetres, End, Start);
}
