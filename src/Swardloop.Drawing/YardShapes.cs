using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing;

/// <summary>A yard's shapes as SVG paths in plan metres; made once, shown at any scale.</summary>
internal sealed record YardShapes(
    string Lawn, string Wire, IReadOnlyList<string> Guides, IReadOnlyList<string> Metal, IReadOnlyList<string> Neighbours, IReadOnlyList<string> RiskSpots,
    IReadOnlyList<(string Path, int Weight)> Heat, string? ToOpen)
{
    public static YardShapes Of(Yard yard, IReadOnlyList<DensityBin>? density, WireStretch? toOpen) => new(
        SvgText.Rings(yard.Lawn.Rings.Concat(yard.Lawn.Holes)),
        SvgText.Path(yard.Loop.Path.Points),
        [.. yard.Guides.Select(guide => SvgText.Path(guide.Path.Points))],
        [.. yard.Metal.Select(metal => SvgText.Path(metal.Path.Points))],
        [.. yard.Neighbours.Select(neighbour => SvgText.Path(neighbour.Path.Points))],
        [.. yard.RiskSpots.Select(spot => SvgText.Path(new WireStretch(spot.FromMetres, spot.ToMetres).On(yard.Loop.Path)))],
        [.. FaultHeat.Of(density ?? []).Select(heat => (SvgText.Path(heat.Stretch.On(yard.Loop.Path)), heat.Weight))],
        toOpen is { } open && open.LengthMetres > 0 ? SvgText.Path(open.On(yard.Loop.Path)) : null);
}
