using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing;

/// <summary>The yard to scale, north up, with the signal its mower hears: shades of margin, the firm line of silence, and a slider of extra ohms
/// that moves it at once. Pan, pinch, wheel and keys; the wire can be touched.</summary>
public sealed partial class YardPicture : IAsyncDisposable
{
    private static int _lastNumber;

    private readonly int _number = Interlocked.Increment(ref _lastNumber);
    private readonly PanAndPinch _pinch = new();
    private ElementReference _stage, _canvas, _legend;
    private DotNetObjectReference<YardPicture>? _self;
    private IJSObjectReference? _surface;
    private SignalCanvas? _signal;
    private PlanView _view = new(640, 480, 0, 0, 1);
    private YardShapes _shapes = new("", "", [], [], [], [], [], null);
    private (Yard?, IReadOnlyList<DensityBin>?, WireStretch?) _drawn;
    private List<OhmsMark> _marks = [];
    private double _shownOhms, _givenOhms = double.NaN;
    private PlanPoint? _probe;
    private bool _zoomed, _sized;

    /// <summary>The yard.</summary>
    [Parameter, EditorRequired]
    public required Yard Yard { get; set; }

    /// <summary>Its signal; null while it is being computed.</summary>
    [Parameter]
    public SignalMap? Map { get; set; }

    /// <summary>Ohms beyond the healthy loop (Ω) that the picture shows; zero or more.</summary>
    [Parameter]
    public double ExtraOhms { get; set; }

    /// <summary>Hears where the slider was let go.</summary>
    [Parameter]
    public EventCallback<double> ExtraOhmsChanged { get; set; }

    /// <summary>Whether the picture is of one state of the loop, to which no ohms are added.</summary>
    [Parameter]
    public bool IsFixed { get; set; }

    /// <summary>Ohms beyond the healthy loop that the newest reading puts the yard at; null without a reading. Marked on the slider.</summary>
    [Parameter]
    public double? TodayOhms { get; set; }

    /// <summary>A place along the wire to light (m from A).</summary>
    [Parameter]
    public double? AtMetres { get; set; }

    /// <summary>Hears which place along the wire a person touched (m from A).</summary>
    [Parameter]
    public EventCallback<double?> AtMetresChanged { get; set; }

    /// <summary>Probability of the place of the fault.</summary>
    [Parameter]
    public IReadOnlyList<DensityBin>? Density { get; set; }

    /// <summary>The place to open next.</summary>
    [Parameter]
    public WireStretch? PlaceToOpen { get; set; }

    /// <summary>What is to be done at the place to open: open, test or look; null for opening.</summary>
    [Parameter]
    public string? ToDo { get; set; }

    /// <summary>The wording.</summary>
    [CascadingParameter]
    public DrawingWords Words { get; set; } = DrawingWords.English;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    private string Description => Words.Say(Words.Described, Yard.Name, Words.Number(Yard.Lawn.AreaSquareMetres, 0), Words.Length(Yard.Loop.LengthMetres),
            Words.Joints(Yard.Loop.Joints.Count))
        + (Map is { } map
            ? " " + Words.Say(Words.DescribedHeard, Words.Number(100 * map.HeardShare(_shownOhms)), Words.Ohms(map.ExpectedOhms + _shownOhms), Words.Decibels(map.WeakestDecibels(_shownOhms)))
            : "");

    private string ReadingWords
    {
        get
        {
            if (_probe is not { } place)
            {
                return Map is null ? "" : Words.PointAtLawn;
            }

            string at = Words.Place(place);
            if (!Yard.Lawn.Contains(place))
            {
                return Words.Say(Words.OffLawn, at);
            }

            return Map?.StrengthAt(place) is { } strength && Map.DecibelsAt(place, _shownOhms) is { } decibels
                ? Words.Say(Words.ReadingHere, at, Words.Number(Math.Abs(decibels)), decibels >= 0 ? Words.AboveSilence : Words.BelowSilence, Words.Number(strength, 4))
                : Words.Say(Words.NotComputed, at);
        }
    }

    // How tall the stage is; the style sheet has a height for each.
    private string ShapeClass
    {
        get
        {
            (PlanPoint southWest, PlanPoint northEast) = PlanExtent.Of(Yard);
            double ratio = (northEast.EastMetres - southWest.EastMetres) / Math.Max(northEast.NorthMetres - southWest.NorthMetres, 0.1);
            return ratio > 2.2 ? "sw-wide" : ratio > 1.2 ? "sw-level" : "sw-tall";
        }
    }

    private IEnumerable<PlanPoint> JointPlaces => Yard.Loop.Joints.Select(joint => Yard.Loop.Path.PointAt(joint.AtMetres))
        .Concat(Yard.Guides.SelectMany(guide => guide.Joints.Select(joint => guide.Path.PointAt(joint.AtMetres))));

    private bool EndsMeet => Yard.Loop.Path.Points[0].DistanceTo(Yard.Loop.Path.Points[^1]) <= 1;

    /// <summary>Takes one event of a pointer; called by the surface's script.</summary>
    /// <param name="stage">As <see cref="PointerStage"/>.</param>
    /// <param name="id">Which pointer.</param>
    /// <param name="x">Where (px).</param>
    /// <param name="y">Where (px).</param>
    /// <param name="isTouch">Whether it is a finger.</param>
    /// <param name="shift">Whether shift is held.</param>
    [JSInvokable]
    public async Task OnPointer(int stage, int id, double x, double y, bool isTouch, bool shift)
    {
        PointerTouch touch = new((PointerStage)stage, id, x, y, isTouch, shift);
        PlanView before = _view;
        _view = _pinch.Take(touch, _view, out PointerTouch? tapped);
        _zoomed |= _view != before;
        if (touch.Stage == PointerStage.Leave && !isTouch)
        {
            _probe = null;
        }
        else if ((touch.Stage == PointerStage.Move && !_pinch.IsActive && !isTouch) || tapped is not null)
        {
            _probe = _view.ToPlan(x, y);
        }
        else if (_view == before)
        {
            return;
        }

        if (tapped is { } spot && Near(spot) is { } at)
        {
            await AtMetresChanged.InvokeAsync(at);
        }

        StateHasChanged();
        await SendView();
    }

    /// <summary>Zooms by the wheel; called by the surface's script.</summary>
    /// <param name="factor">How much larger.</param>
    /// <param name="x">Where (px).</param>
    /// <param name="y">Where (px).</param>
    [JSInvokable]
    public Task OnWheel(double factor, double x, double y) => SetView(_view.Zoomed(factor, x, y), zoomed: true);

    /// <summary>Takes the picture's size; called by the surface's script.</summary>
    /// <param name="width">Width (px).</param>
    /// <param name="height">Height (px).</param>
    [JSInvokable]
    public Task OnSize(double width, double height)
    {
        if (!(width > 0 && height > 0) || (width == _view.Width && height == _view.Height && _sized))
        {
            return Task.CompletedTask;
        }

        _sized = true;
        return SetView(_zoomed ? _view.Resized(width, height) : Whole(width, height), _zoomed);
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

        if (_signal is not null)
        {
            await _signal.DisposeAsync();
        }

        _self?.Dispose();
    }

    /// <inheritdoc/>
    protected override void OnParametersSet()
    {
        if (_drawn != (Yard, Density, PlaceToOpen))
        {
            bool another = !ReferenceEquals(_drawn.Item1, Yard);
            _drawn = (Yard, Density, PlaceToOpen);
            _shapes = YardShapes.Of(Yard, Density, PlaceToOpen);
            if (another && !_zoomed)
            {
                _view = Whole(_view.Width, _view.Height);
            }
        }

        double given = IsFixed ? 0 : ExtraOhms;
        if (given != _givenOhms)
        {
            _shownOhms = _givenOhms = given;
        }

        _marks = [.. Marks()];
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _self = DotNetObjectReference.Create(this);
            _signal = await SignalCanvas.On(Script, _canvas, _legend);
            IJSObjectReference surfaceScript = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/surface.js");
            _surface = await surfaceScript.InvokeAsync<IJSObjectReference>("attach", _stage, _self, true);
        }

        await SendMap();
        await SendView();
        await SendLevel();
    }

    private static string N(double value) => SvgText.Of(value);

    private static string Cross(double x, double y) => $"M{N(x - 6)} {N(y - 6)}L{N(x + 6)} {N(y + 6)}M{N(x - 6)} {N(y + 6)}L{N(x + 6)} {N(y - 6)}";

    // A drop whose tip is the place.
    private static string Drop(double x, double y) => $"M{N(x)} {N(y)}l-7 -13a8 8 0 1 1 14 0z";

    private string Id(string part) => $"sw-picture-{_number}-{part}";

    private IEnumerable<OhmsMark> Marks()
    {
        yield return new(0, Words.Healthy, "○");
        if (TodayOhms is { } today)
        {
            yield return new(Math.Max(0, today), Words.Today, "▲");
        }

        if (Map?.SpareAtWeakestOhms is { } weakest)
        {
            yield return new(weakest, Words.WeakestSilent, "✕");
        }

        if (Map?.SpareAtFivePercentOhms is { } some)
        {
            yield return new(some, Words.FivePercentSilent, "◆");
        }
    }

    private PlanView Whole(double width, double height)
    {
        (PlanPoint southWest, PlanPoint northEast) = PlanExtent.Of(Yard);
        return PlanView.Fit(southWest, northEast, width, height);
    }

    private double? Near(PointerTouch spot)
    {
        (double at, double distance) = Yard.Loop.Path.NearestTo(_view.ToPlan(spot.X, spot.Y));
        return distance * _view.PixelsPerMetre <= spot.ReachPixels ? at : null;
    }

    private double LabelX(double x) => Math.Clamp(x, 8, Math.Max(8, _view.Width - 8));

    // Inside the picture, and clear of a pin, which stands above its place.
    private double LabelY(double y) => y > _view.Height - 40 ? y - 40 : y + 34;

    private double StationLabelY(double y) => y > _view.Height - 54 ? y - 14 : y + 22;

    private string LabelAnchor(double x) => x < 70 ? "start" : x > _view.Width - 70 ? "end" : "middle";

    private Task Zoom(double factor) => SetView(_view.Zoomed(factor, _view.Width / 2, _view.Height / 2), zoomed: true);

    private Task ShowAll() => SetView(Whole(_view.Width, _view.Height), zoomed: false);

    private Task SetView(PlanView view, bool zoomed)
    {
        (_view, _zoomed) = (view, zoomed);
        StateHasChanged();
        return SendView();
    }

    private Task OnKey(KeyboardEventArgs pressed)
    {
        if (pressed.CtrlKey || pressed.AltKey || pressed.MetaKey)
        {
            return Task.CompletedTask;
        }

        (int right, int up) = pressed.Key switch
        {
            "ArrowLeft" => (-1, 0),
            "ArrowRight" => (1, 0),
            "ArrowUp" => (0, 1),
            "ArrowDown" => (0, -1),
            _ => (0, 0),
        };
        switch (pressed.Key)
        {
            case "+" or "=":
                return Zoom(1.25);
            case "-":
                return Zoom(1 / 1.25);
            case "0":
                return ShowAll();
        }

        if ((right, up) == (0, 0))
        {
            return Task.CompletedTask;
        }

        if (!pressed.ShiftKey)
        {
            return SetView(_view.Panned(-48 * right, 48 * up), zoomed: true);
        }

        PlanPoint place = _probe ?? _view.Centre;
        double step = _view.ScaleBar(24).Metres;
        _probe = new(place.EastMetres + (right * step), place.NorthMetres + (up * step));
        StateHasChanged();
        return Task.CompletedTask;
    }

    // The picture follows at once; whoever shows it hears when the slider is let go.
    private Task Slide(double ohms)
    {
        _shownOhms = ohms;
        return SendLevel();
    }

    private async Task SetOhms(double ohms)
    {
        ExtraOhms = _shownOhms = ohms;
        await SendLevel();
        await ExtraOhmsChanged.InvokeAsync(ExtraOhms);
    }

    private async Task SendMap()
    {
        if (_signal is not null)
        {
            await _signal.Show(Map, Yard.Lawn);
        }
    }

    private async Task SendView()
    {
        if (_signal is not null)
        {
            await _signal.Show(_view);
        }
    }

    private async Task SendLevel()
    {
        if (_signal is not null && Map is not null)
        {
            await _signal.Require(Map.RequiredFieldPerAmpere(_shownOhms));
        }
    }
}
