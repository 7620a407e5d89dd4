using Microsoft.AspNetCore.Components;
using Swardloop.Model.Pictures;

namespace Swardloop.Drawing;

/// <summary>What the shades of a signal picture mean. The canvas takes its colours from these swatches.</summary>
public sealed partial class MarginLegend
{
    private const int ShadeWidth = 36, SilentWidth = 64;

    /// <summary>The wording.</summary>
    [CascadingParameter]
    public DrawingWords Words { get; set; } = DrawingWords.English;

    private string Label => $"{Words.SignalAbove}: {Words.Silent}, {string.Join(", ", MarginShade.All.Select(shade => SvgText.Of(shade.Decibels)))}";

    // Slanting lines over the silent swatch, as on the map.
    private static string HatchPath => string.Concat(Enumerable.Range(0, 9).Select(i => 4 + (9 * i))
        .Select(across => (Across: across, Upper: Math.Max(0, across - SilentWidth), Lower: Math.Min(16, across)))
        .Select(line => $"M{line.Across - line.Upper} {20 + line.Upper}L{line.Across - line.Lower} {20 + line.Lower}"));
}
