using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Words;

namespace Swardloop.Drawing;

/// <summary>The wire unrolled from A to B: corners, joints, risk spots; above it where the fault may be, below it what was tried and what that
/// ruled out. Touching it chooses a place.</summary>
public sealed partial class WireStrip : IAsyncDisposable
{
    private const double Border = 18, DensityY = 96, WireY = 128, ColumnPixels = 3, MostColumn = 62, GuideRow = 34, BesideMetres = 1.5;

    private static int _lastNumber;

    private readonly int _number = Interlocked.Increment(ref _lastNumber);
    private ElementReference _line;
    private DotNetObjectReference<WireStrip>? _self;
    private IJSObjectReference? _surface;
    private double _width = 390;
    private List<(double X, double Height)> _columns = [];
    private List<double> _corners = [];
    private List<WireStretch> _metal = [];
    private (Yard?, IReadOnlyList<DensityBin>?, double) _drawn;
    private bool _dragging;

    /// <summary>The yard.</summary>
    [Parameter, EditorRequired]
    public required Yard Yard { get; set; }

    /// <summary>Probability of the place of the fault; from the advice.</summary>
    [Parameter]
    public IReadOnlyList<DensityBin> Density { get; set; } = [];

    /// <summary>Where the fault lies; from the advice. Null: none that is still to be found
    /// stands out, and the density only says where one would lie.</summary>
    [Parameter]
    public FaultLocation? Location { get; set; }

    /// <summary>What was tried; its probes are told in words.</summary>
    [Parameter]
    public IReadOnlyList<Observation> Observations { get; set; } = [];

    /// <summary>The probes among the observations, and what each ruled out: <see cref="ProbeTrail"/>.</summary>
    [Parameter]
    public IReadOnlyList<WireProbe> Probes { get; set; } = [];

    /// <summary>The place to open next.</summary>
    [Parameter]
    public WireStretch? PlaceToOpen { get; set; }

    /// <summary>What is to be done there: open, test or look; null for opening.</summary>
    [Parameter]
    public string? ToDo { get; set; }

    /// <summary>Whether advice is being computed: what is not there yet may still come.</summary>
    [Parameter]
    public bool IsComputing { get; set; }

    /// <summary>The place chosen (m from A).</summary>
    [Parameter]
    public double? AtMetres { get; set; }

    /// <summary>Hears which place a person chose (m from A).</summary>
    [Parameter]
    public EventCallback<double?> AtMetresChanged { get; set; }

    /// <summary>The wording.</summary>
    [CascadingParameter]
    public DrawingWords Words { get; set; } = DrawingWords.English;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    private double Length => Yard.Loop.LengthMetres;

    private StripScale Scale => new(Length, _width, Border);

    private double Height => WireY + 64 + (Yard.Guides.Count * GuideRow) + (Probes.Count * 24);

    private IEnumerable<(double X, string Text)> KindLabels =>
        Yard.RiskSpots.OrderByDescending(spot => spot.Weight).Select(spot => (X((spot.FromMetres + spot.ToMetres) / 2), spot.Kind.Length > 18 ? spot.Kind[..17] + "…" : spot.Kind));

    /// <summary>Takes one event of a pointer; called by the surface's script.</summary>
    /// <param name="stage">As <see cref="PointerStage"/>.</param>
    /// <param name="id">Which pointer.</param>
    /// <param name="x">Where (px).</param>
    /// <param name="y">Where (px).</param>
    /// <param name="isTouch">Whether it is a finger.</param>
    /// <param name="shift">Whether shift is held.</param>
    [JSInvokable]
    public Task OnPointer(int stage, int id, double x, double y, bool isTouch, bool shift)
    {
        PointerTouch touch = new((PointerStage)stage, id, x, y, isTouch, shift);
        _dragging = touch.Stage switch
        {
            PointerStage.Down => true,
            PointerStage.Move => _dragging,
            _ => false,
        };
        return _dragging ? Choose(Joined(Scale.MetresAt(x), touch.IsTouch ? 8 : 5)) : Task.CompletedTask;
    }

    /// <summary>Takes the strip's size; called by the surface's script.</summary>
    /// <param name="width">Width (px).</param>
    /// <param name="height">Height (px).</param>
    [JSInvokable]
    public void OnSize(double width, double height)
    {
        _ = height;
        if (width > 100 && Math.Abs(width - _width) > 0.5)
        {
            _width = width;
            OnParametersSet();
            StateHasChanged();
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        try
        {
            if (_surface is not null)
            {
                await _surface.InvokeVoidAsync("detach");
                await _surface.DisposeAsync();
            }
        }
        catch (JSDisconnectedException)
        {
            // The page is gone, and its scripts with it.
        }

        _self?.Dispose();
    }

    /// <inheritdoc/>
    protected override void OnParametersSet()
    {
        if (_drawn == (Yard, Density, _width))
        {
            return;
        }

        _drawn = (Yard, Density, _width);
        _columns = [.. Columns()];
        _corners = [.. Corners(Yard.Loop.Path)];
        _metal = [.. BesideMetal()];
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _self = DotNetObjectReference.Create(this);
            IJSObjectReference script = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/surface.js");
            _surface = await script.InvokeAsync<IJSObjectReference>("attach", _line, _self, false);
        }
    }

    // A change of direction of 30° or more is a corner to the eye.
    private static IEnumerable<double> Corners(WirePath path)
    {
        for (int i = 1; i + 1 < path.Points.Count; i++)
        {
            (PlanPoint a, PlanPoint b, PlanPoint c) = (path.Points[i - 1], path.Points[i], path.Points[i + 1]);
            double east1 = b.EastMetres - a.EastMetres, north1 = b.NorthMetres - a.NorthMetres, east2 = c.EastMetres - b.EastMetres, north2 = c.NorthMetres - b.NorthMetres;
            if (Math.Abs(Math.Atan2((east1 * north2) - (north1 * east2), (east1 * east2) + (north1 * north2))) >= Math.PI / 6)
            {
                yield return path.CornerMetres[i];
            }
        }
    }

    private static string N(double value) => SvgText.Of(value);

    private static string Slants(double from, double to, double y) =>
        string.Concat(Enumerable.Range(0, (int)Math.Max(0, (to - from - 10) / 7)).Select(i => $"M{N(from + 10 + (i * 7))} {N(y - 5)}l-10 10"));

    private string Id(string part) => $"sw-strip-{_number}-{part}";

    private double X(double metres) => Scale.At(metres);

    private double Held(double x, string text)
    {
        double half = 3.6 * text.Length;
        return Math.Clamp(x, Math.Min(half, _width / 2), Math.Max(_width - half, _width / 2));
    }

    private static double GuideY(int guide) => WireY + 80 + (guide * GuideRow);

    private double RowY(int row) => WireY + 76 + (Yard.Guides.Count * GuideRow) + (row * 24);

    // Where on a guide wire something was tried.
    private IEnumerable<double> ProbesOn(GuideWire guide) => Observations.Where(seen => seen.Wire == guide.Name)
        .Select(seen => WireProbe.PlaceOf(seen with { Wire = null })?.MiddleMetres).OfType<double>();

    private string GuideText(GuideWire guide) => Words.Say(Words.GuideOnStrip, guide.Name, Words.Length(guide.LengthMetres), Words.Length(guide.JoinsAtMetres));

    // The density as columns, each as high as the probability in it compared with the highest.
    private IEnumerable<(double X, double Height)> Columns()
    {
        double[] mass = new double[(int)Math.Ceiling((_width - (2 * Border)) / ColumnPixels)];
        foreach (DensityBin bin in Density)
        {
            double from = (X(bin.FromMetres) - Border) / ColumnPixels, to = Math.Max((X(bin.ToMetres) - Border) / ColumnPixels, from + 1e-9);
            for (int i = Math.Clamp((int)from, 0, mass.Length - 1); i < mass.Length && i < to; i++)
            {
                mass[i] += bin.Probability * Math.Clamp((Math.Min(to, i + 1) - Math.Max(from, i)) / (to - from), 0, 1);
            }
        }

        double most = mass.DefaultIfEmpty(0).Max();
        for (int i = 0; most > 0 && i < mass.Length; i++)
        {
            double height = mass[i] / most * MostColumn;
            if (height >= 0.5)
            {
                yield return (Border + (i * ColumnPixels), height);
            }
        }
    }

    private IEnumerable<WireStretch> BesideMetal()
    {
        double step = Length / 600;
        double? start = null;
        for (int i = 0; i <= 601; i++)
        {
            bool beside = i <= 600 && Yard.Metal.Any(metal => metal.Path.NearestTo(Yard.Loop.Path.PointAt(i * step)).DistanceMetres <= BesideMetres);
            if (beside)
            {
                start ??= i * step;
            }
            else if (start is { } from)
            {
                yield return new(from, (i - 1) * step);
                start = null;
            }
        }
    }

    // A touch beside a joint means the joint.
    private double Joined(double metres, double reachPixels)
    {
        double perPixel = Length / (_width - (2 * Border));
        Joint? joint = Yard.Loop.Joints.MinBy(candidate => Math.Abs(candidate.AtMetres - metres));
        return joint is not null && Math.Abs(joint.AtMetres - metres) <= reachPixels * perPixel ? joint.AtMetres : Math.Round(metres, perPixel < 0.1 ? 2 : 1);
    }

    private string PlaceText(double at) => Words.Say(Words.PlaceWithWords, Words.Length(at), PlaceWords.Describe(Yard, at, Words.Phrases));

    private string StretchText(WireStretch stretch) =>
        Words.Say(Words.PlaceWithWords, Words.Say(Words.Between, Words.Length(stretch.FromMetres), Words.Length(stretch.ToMetres)), PlaceWords.DescribeStretch(Yard, stretch.FromMetres, stretch.ToMetres, Words.Phrases));

    private string ProbeText(WireProbe probe) =>
        probe.Observation < Observations.Count ? ObservationWords.Describe(Observations[probe.Observation], Yard, Words.Phrases) : "";

    private string VerdictText(WireProbe probe) => probe.RuledOut.Count == 0
        ? Words.RulesNothingOut
        : Words.Say(Words.RuledOut, string.Join(", ", probe.RuledOut.Select(gone => Words.Say(Words.Between, Words.Length(gone.FromMetres), Words.Length(gone.ToMetres)))));

    private async Task Choose(double at)
    {
        at = Math.Clamp(at, 0, Length);
        if (AtMetres != at)
        {
            AtMetres = at;
            await AtMetresChanged.InvokeAsync(at);
            StateHasChanged();
        }
    }

    private Task OnKey(KeyboardEventArgs pressed)
    {
        double at = AtMetres ?? 0, step = Length > 100 ? 0.5 : 0.1;
        return pressed.Key switch
        {
            "ArrowRight" or "ArrowUp" => Choose(Math.Round(at + step, 2)),
            "ArrowLeft" or "ArrowDown" => Choose(Math.Round(at - step, 2)),
            "PageUp" => Choose(Math.Round(at + (10 * step), 2)),
            "PageDown" => Choose(Math.Round(at - (10 * step), 2)),
            "Home" => Choose(0),
            "End" => Choose(Length),
            _ => Task.CompletedTask,
        };
    }
}
