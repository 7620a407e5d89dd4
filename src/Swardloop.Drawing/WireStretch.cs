using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>A stretch of wire.</summary>
/// <param name="FromMetres">Start (m from A).</param>
/// <param name="ToMetres">End (m from A), not before the start.</param>
public readonly record struct WireStretch(double FromMetres, double ToMetres)
{
    /// <summary>Its middle (m from A).</summary>
    public double MiddleMetres => (FromMetres + ToMetres) / 2;

    /// <summary>Its length (m).</summary>
    public double LengthMetres => ToMetres - FromMetres;

    /// <summary>What is marked of it (m from A): both ends, or the one place that it is.</summary>
    public IReadOnlyList<double> Ends => LengthMetres > 0 ? [FromMetres, ToMetres] : [FromMetres];

    /// <summary>Where a step is done on the loop; null where it has no place, or its place is on another wire, which the drawings do not unroll.</summary>
    public static WireStretch? Of(Step? step) => step switch
    {
        { Wire: not null } => null,
        { AtMetres: { } at } => new(at, at),
        { FromMetres: { } from, ToMetres: { } to } => new(from, to),
        _ => null,
    };

    /// <summary>Its corners on the plan, both ends included.</summary>
    public IReadOnlyList<PlanPoint> On(WirePath path)
    {
        (double from, double to) = (FromMetres, ToMetres);
        return
        [
            path.PointAt(from),
            .. Enumerable.Range(0, path.Points.Count).Where(i => path.CornerMetres[i] > from && path.CornerMetres[i] < to).Select(i => path.Points[i]),
            path.PointAt(to),
        ];
    }
}
