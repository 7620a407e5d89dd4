using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using Swardloop.Core.Geometry;
using Swardloop.Model.Pictures;

namespace Swardloop.Drawing;

/// <summary>The canvas that shows a signal map, and what it was last told.</summary>
internal sealed class SignalCanvas : IAsyncDisposable
{
    private readonly IJSObjectReference _canvas;
    private (SignalMap? Map, Lawn? Lawn) _map;
    private PlanView? _view;
    private double? _level;

    private SignalCanvas(IJSObjectReference canvas) => _canvas = canvas;

    /// <summary>Takes a canvas up.</summary>
    /// <param name="script">The page's scripts.</param>
    /// <param name="canvas">The canvas.</param>
    /// <param name="legend">The element whose swatches give the colours.</param>
    public static async Task<SignalCanvas> On(IJSRuntime script, ElementReference canvas, ElementReference legend)
    {
        IJSObjectReference module = await script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/signal-map.js");
        return new(await module.InvokeAsync<IJSObjectReference>("create", canvas, legend));
    }

    /// <summary>Shows a map on a lawn; nothing when there is none.</summary>
    public async Task Show(SignalMap? map, Lawn lawn)
    {
        if (ReferenceEquals(_map.Map, map) && (map is null || ReferenceEquals(_map.Lawn, lawn)))
        {
            return;
        }

        _map = (map, lawn);
        if (map is null)
        {
            await _canvas.InvokeVoidAsync("clear");
            return;
        }

        PlanGrid grid = map.Grid;
        await _canvas.InvokeVoidAsync("map", map.StrengthBytes,
            new Shape(grid.SouthWest.EastMetres, grid.SouthWest.NorthMetres, grid.SpacingMetres, grid.Columns, grid.Rows),
            lawn.Rings.Concat(lawn.Holes).Select(ring => ring.SelectMany(point => new[] { point.EastMetres, point.NorthMetres }).ToArray()).ToArray(),
            MarginShade.All.Select(shade => shade.Decibels).ToArray());
    }

    /// <summary>Shows the part of the plan that a view shows.</summary>
    public async Task Show(PlanView view)
    {
        if (_view != view)
        {
            _view = view;
            await _canvas.InvokeVoidAsync("view", view.WestMetres, view.NorthMetres, view.PixelsPerMetre, view.Width, view.Height);
        }
    }

    /// <summary>Sets the field that the mower needs.</summary>
    /// <param name="fieldPerAmpere">In 1/m, above zero.</param>
    public async Task Require(double fieldPerAmpere)
    {
        double level = 20 * Math.Log10(fieldPerAmpere);
        if (_level != level)
        {
            _level = level;
            await _canvas.InvokeVoidAsync("level", level);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        try
        {
            await _canvas.InvokeVoidAsync("detach");
            await _canvas.DisposeAsync();
        }
        catch (JSDisconnectedException)
        {
            // The page is gone, and its scripts with it.
        }
    }

    // As the script takes it.
    private sealed record Shape(double West, double South, double Spacing, int Columns, int Rows);
}
