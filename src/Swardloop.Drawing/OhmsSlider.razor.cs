using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Swardloop.Drawing;

/// <summary>The slider of extra ohms with its marks. A component of its own, so that a step of it draws anew what changes with it and not the picture's lines.</summary>
public sealed partial class OhmsSlider
{
    private static int _lastNumber;

    private readonly int _number = Interlocked.Increment(ref _lastNumber);
    private double _ohms, _given = double.NaN;
    private OhmScale _scale = new(100);
    private List<(OhmsMark Mark, int Row)> _ticks = [];

    /// <summary>The signal.</summary>
    [Parameter, EditorRequired]
    public required SignalMap Map { get; set; }

    /// <summary>What is marked on it.</summary>
    [Parameter, EditorRequired]
    public required IReadOnlyList<OhmsMark> Marks { get; set; }

    /// <summary>Where it stands (Ω beyond the healthy loop); zero or more.</summary>
    [Parameter]
    public double ExtraOhms { get; set; }

    /// <summary>Hears every step while it is moved. Not an event callback, since that would draw its owner anew.</summary>
    [Parameter, EditorRequired]
    public required Func<double, Task> Sliding { get; set; }

    /// <summary>Hears where it was let go, or which mark was chosen.</summary>
    [Parameter]
    public EventCallback<double> Chosen { get; set; }

    /// <summary>The wording.</summary>
    [CascadingParameter]
    public DrawingWords Words { get; set; } = DrawingWords.English;

    private string Id => $"sw-ohms-{_number}";

    private string Heard => Words.Number(100 * Map.HeardShare(_ohms));

    /// <inheritdoc/>
    protected override void OnParametersSet()
    {
        // While it is moved, what its owner last heard is old.
        if (ExtraOhms != _given)
        {
            _ohms = _given = ExtraOhms;
        }

        _scale = OhmScale.For(Marks.Select(mark => mark.ExtraOhms).Append(_ohms));
        _ticks = [];
        foreach (OhmsMark mark in Marks.Where(mark => mark.ExtraOhms >= 0))
        {
            // Signs that would run into each other stand in rows.
            int row = 0;
            while (_ticks.Exists(other => other.Row == row && Math.Abs(_scale.StepOf(other.Mark.ExtraOhms) - _scale.StepOf(mark.ExtraOhms)) < 0.05 * OhmScale.Steps))
            {
                row++;
            }

            _ticks.Add((mark, row));
        }
    }

    private Task OnSlide(ChangeEventArgs change)
    {
        if (!double.TryParse(change.Value?.ToString(), CultureInfo.InvariantCulture, out double step))
        {
            return Task.CompletedTask;
        }

        _ohms = _scale.OhmsAt(step);
        return Sliding(_ohms);
    }
}
