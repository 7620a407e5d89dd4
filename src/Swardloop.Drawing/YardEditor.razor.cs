using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Swardloop.Core.Budget;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <summary>The drawing board: wire, lawn, islands, joints, metal and neighbours drawn and moved by pointer, touch, keys or typed measures, with what
/// is wrong said at its spot. With an <see cref="Engine"/> the signal picture follows the hand.</summary>
public sealed partial class YardEditor : IAsyncDisposable
{
    private const int MostRows = 200, MostImportMegabytes = 20, PlacesWhileMoving = 2500;

    private static int _lastNumber;

    private readonly int _number = Interlocked.Increment(ref _lastNumber);
    private EditorHand _hand = null!;
    private EditorDocument? _known;
    private ElementReference _board, _stage, _canvas, _legend, _photoInput;
    private InputFile? _importInput;
    private DotNetObjectReference<YardEditor>? _self;
    private IJSObjectReference? _surface, _drop, _photoScript;
    private SignalCanvas? _signal;
    private PlanView _view = PlanView.Fit(new(0, 0), new(24, 18), 640, 480);
    private bool _sized, _zoomed;
    private SignalMap? _map;
    private Lawn? _mapLawn;
    private readonly List<string> _photosOpened = [];
    private bool? _byTouch;
    private string? _photoProblem;
    private List<string> _importProblems = [];
    private string _length = "", _bearing = "90", _distance = "", _east = "0", _north = "0";

    /// <summary>What is edited.</summary>
    [Parameter, EditorRequired]
    public required EditorDocument Document { get; set; }

    /// <summary>Computes the signal picture, when given.</summary>
    [Parameter]
    public Engine? Engine { get; set; }

    /// <summary>Ohms beyond the healthy loop that the signal picture shows (Ω).</summary>
    [Parameter]
    public double ExtraOhms { get; set; }

    /// <summary>Hears the yard, unchecked, at every frame in which it changes; for whatever follows the hand.</summary>
    [Parameter]
    public EventCallback<Yard> Following { get; set; }

    /// <summary>Hears the end of every gesture that changed something, undo and redo too.</summary>
    [Parameter]
    public EventCallback<EditorDocument> Changed { get; set; }

    /// <summary>The wording.</summary>
    [CascadingParameter]
    public DrawingWords Words { get; set; } = DrawingWords.English;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    private YardDrawing Drawing => Document.Drawing;

    private PhotoUnderlay? Photo => Document.Photo;

    private Lawn? LawnShown => Drawing.Lawn.Count > 0 ? new(Drawing.Lawn, Drawing.Islands) : Drawing.WirePath is { } path ? LawnFromWire.Lawn(path) : null;

    private IEnumerable<(EditorTool Tool, string Name)> Tools =>
    [
        (EditorTool.Move, Words.ToolMove), (EditorTool.Wire, Words.ToolWire), (EditorTool.Heard, Words.ToolHeard), (EditorTool.Guide, Words.ToolGuide), (EditorTool.Lawn, Words.ToolLawn), (EditorTool.Island, Words.ToolIsland),
        (EditorTool.Joint, Words.ToolJoint), (EditorTool.Metal, Words.ToolMetal), (EditorTool.Neighbour, Words.ToolNeighbour),
    ];

    private string Totals
    {
        get
        {
            if (Drawing.WirePath is not { LengthMetres: > 0 } path)
            {
                return Words.NothingDrawn;
            }

            string totals = Words.Say(Words.Totals, Words.Length(path.LengthMetres), Words.Number(LawnShown?.AreaSquareMetres ?? 0, 0));
            if (Document.Shown is { } yard)
            {
                LoopBudget budget = LoopBudget.For(yard);
                totals += "; " + Words.Say(Words.ExpectedLoop, Words.Ohms(budget.ExpectedOhms.Nominal), Words.Ohms(budget.ExpectedOhms.Low), Words.Ohms(budget.ExpectedOhms.High));
            }

            return totals + ".";
        }
    }

    // Lengths on the line being drawn, beside the corner being moved, and on the legs of the part chosen where there is room.
    private IEnumerable<(PlanPoint Middle, string Text)> LegLabels
    {
        get
        {
            if (_hand.Tool is not (EditorTool.PhotoScale or EditorTool.Heard) && _hand.Line.Count > 0)
            {
                return Legs([.. _hand.Next is { } next ? _hand.Line.Append(next.Point) : _hand.Line], ring: false);
            }

            return _hand.Part is { Kind: not DrawnKind.Joint } part && Drawing.Has(part) ? Legs(Drawing.Corners(part), part.IsRing) : [];
        }
    }

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
        YardDrawing before = Drawing;
        PlanView viewBefore = _view;
        SnappedPoint? nextBefore = _hand.Next;
        PointerStage what = (PointerStage)stage;
        _byTouch = isTouch;
        _view = _hand.Take(new(what, id, x, y, isTouch, shift), _view);
        _zoomed |= _view != viewBefore;
        if (what == PointerStage.Up && !_hand.IsBusy)
        {
            await Settle();
        }
        else if (!ReferenceEquals(before, Drawing))
        {
            await Follow();
        }
        else if (what == PointerStage.Move && _view == viewBefore && nextBefore == _hand.Next)
        {
            return;
        }

        StateHasChanged();
    }

    /// <summary>Zooms by the wheel; called by the surface's script.</summary>
    /// <param name="factor">How much larger.</param>
    /// <param name="x">Where (px).</param>
    /// <param name="y">Where (px).</param>
    [JSInvokable]
    public void OnWheel(double factor, double x, double y)
    {
        (_view, _zoomed) = (_view.Zoomed(factor, x, y), true);
        StateHasChanged();
    }

    /// <summary>Takes the board's size; called by the surface's script.</summary>
    /// <param name="width">Width (px).</param>
    /// <param name="height">Height (px).</param>
    [JSInvokable]
    public void OnSize(double width, double height)
    {
        if (width > 0 && height > 0 && (width != _view.Width || height != _view.Height || !_sized))
        {
            _sized = true;
            _view = _zoomed ? _view.Resized(width, height) : Whole(width, height);
            StateHasChanged();
        }
    }

    /// <summary>Puts an imported drawing on the board, as one step that can be undone.</summary>
    /// <param name="bytes">GeoJSON, GPX or CSV.</param>
    /// <param name="fileName">What problems name as the file.</param>
    /// <returns>One line for each problem; none when it was imported.</returns>
    public async Task<IReadOnlyList<string>> Import(ReadOnlyMemory<byte> bytes, string fileName)
    {
        ProblemList problems = new(fileName);
        _outline = null;
        if (SketchReader.Read(bytes, SketchReader.FormatOf(bytes.Span), problems) is not { } sketch)
        {
            return [.. problems.Kept.Select(InFile)];
        }

        if (sketch.IsOutlineOnly)
        {
            _outline = (sketch, fileName);
            return [Words.Say(Words.OutlineOnly, fileName)];
        }

        return await Import(sketch, fileName);
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

            if (_drop is not null)
            {
                await _drop.InvokeVoidAsync("detach");
                await _drop.DisposeAsync();
            }

            foreach (string photo in _photosOpened)
            {
                await _photoScript!.InvokeVoidAsync("close", photo);
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
        if (!ReferenceEquals(_known, Document))
        {
            _known = Document;
            _hand = new(Document);
            if (!Drawing.Parts.Any())
            {
                _hand.Take(EditorTool.Wire); // Nothing else can be done first.
            }

            (_map, _mapLawn) = (null, null);
            (_view, _zoomed) = (Whole(_view.Width, _view.Height), false);
            _ = RequestMap(moving: false);
        }

        _hand.UnitMetres = Words.UnitMetres;
    }

    /// <inheritdoc/>
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _self = DotNetObjectReference.Create(this);
            _signal = await SignalCanvas.On(Script, _canvas, _legend);
            IJSObjectReference script = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/surface.js");
            _surface = await script.InvokeAsync<IJSObjectReference>("attach", _stage, _self, true);
            IJSObjectReference dropScript = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/drop.js");
            _drop = await dropScript.InvokeAsync<IJSObjectReference>("accept", _board, _importInput!.Element, _photoInput);
        }

        if (_signal is not null)
        {
            await _signal.Show(_map, _mapLawn ?? new Lawn([[default, default, default]], []));
            await _signal.Show(_view);
            if (_map is not null)
            {
                await _signal.Require(_map.RequiredFieldPerAmpere(ExtraOhms));
            }
        }
    }

    private string InFile(Problem problem) => $"{problem.Source}{(problem.Place.Length > 0 ? ", " : "")}{problem.Place}: {Words.Line(problem)}";

    private static string N(double value) => SvgText.Of(value);

    private static string Pressed(bool pressed) => pressed ? "true" : "false";

    private static string Capital(string text) => text.Length > 0 ? char.ToUpperInvariant(text[0]) + text[1..] : text;

    private string Id(string part) => $"sw-editor-{_number}-{part}";

    private IEnumerable<(PlanPoint Middle, string Text)> Legs(IReadOnlyList<PlanPoint> corners, bool ring)
    {
        const double LeastPixels = 46;
        for (int i = 0; i < (ring ? corners.Count : corners.Count - 1); i++)
        {
            PlanPoint from = corners[i], to = corners[(i + 1) % corners.Count];
            if (from.DistanceTo(to) * _view.PixelsPerMetre >= LeastPixels)
            {
                yield return (from.Towards(to, 0.5), Words.Length(from.DistanceTo(to), 2));
            }
        }
    }

    private IEnumerable<double> LegsAt(DrawnPart part, int corner)
    {
        IReadOnlyList<PlanPoint> corners = Drawing.Corners(part);
        if (corner > 0 || part.IsRing)
        {
            yield return corners[corner].DistanceTo(corners[(corner + corners.Count - 1) % corners.Count]);
        }

        if (corner + 1 < corners.Count || part.IsRing)
        {
            yield return corners[corner].DistanceTo(corners[(corner + 1) % corners.Count]);
        }
    }

    private string NameOf(DrawnPart part) => part.Kind switch
    {
        DrawnKind.Wire => Words.PartWire,
        DrawnKind.Lawn => Words.Say(Words.PartLawn, part.Index + 1),
        DrawnKind.Island => Words.Say(Words.PartIsland, part.Index + 1),
        DrawnKind.Metal => Words.Say(Words.PartMetal, part.Index + 1, Drawing.Metal[part.Index].Kind),
        DrawnKind.Neighbour => Words.Say(Words.PartNeighbour, part.Index + 1),
        DrawnKind.Guide => Words.Say(Words.PartGuide, Drawing.Guides[part.Index].Name),
        _ => Words.Say(Words.PartJoint, part.Index + 1),
    };

    private string NameOf(JointStyle style) => style switch
    {
        JointStyle.Gel => Words.StyleGel,
        JointStyle.Crimped => Words.StyleCrimped,
        JointStyle.Soldered => Words.StyleSoldered,
        JointStyle.Twisted => Words.StyleTwisted,
        JointStyle.Clamp => Words.StyleClamp,
        _ => Words.StyleUnknown,
    };

    private PlanView Whole(double width, double height)
    {
        PlanPoint[] points = [.. Drawing.Parts.SelectMany(Drawing.Corners), .. _hand?.HeardPlaces ?? []];
        (PlanPoint southWest, PlanPoint northEast) = points.Length > 0 ? PlanExtent.Of(points) : (new(0, 0), new(24, 18));
        return PlanView.Fit(southWest, northEast, width, height, 40);
    }

    // Lines far enough apart to be told from each other, on round lengths.
    private double GridMetres => _view.ScaleBar(64, Words.UnitMetres).Metres;

    private string GridLines
    {
        get
        {
            double step = GridMetres, east = _view.WestMetres + (_view.Width / _view.PixelsPerMetre), south = _view.NorthMetres - (_view.Height / _view.PixelsPerMetre);
            System.Text.StringBuilder path = new();
            for (double x = Math.Ceiling(_view.WestMetres / step) * step; x <= east; x += step)
            {
                _ = path.Append('M').Append(N(_view.ToScreen(new(x, 0)).X)).Append(" 0V").Append(N(_view.Height));
            }

            for (double y = Math.Ceiling(south / step) * step; y <= _view.NorthMetres; y += step)
            {
                _ = path.Append("M0 ").Append(N(_view.ToScreen(new(0, y)).Y)).Append('H').Append(N(_view.Width));
            }

            return path.ToString();
        }
    }

    // A number that would lie on its neighbour's says nothing.
    private bool IsNumbered(DrawnPart part, int corner)
    {
        const double LeastPixels = 22;
        IReadOnlyList<PlanPoint> corners = Drawing.Corners(part);
        return corner == _hand.Corner || corner == 0 || corners[corner].DistanceTo(corners[corner - 1]) * _view.PixelsPerMetre >= LeastPixels;
    }

    private void Zoom(double factor) => (_view, _zoomed) = (_view.Zoomed(factor, _view.Width / 2, _view.Height / 2), true);

    private void ShowAll() => (_view, _zoomed) = (Whole(_view.Width, _view.Height), false);

    private void TakeTool(EditorTool tool)
    {
        _hand.Take(tool);
        _hereProblem = null;
        (_length, _bearing) = ("", "90");
    }

    private async Task Follow()
    {
        if (Document.Shown is { } yard)
        {
            await Following.InvokeAsync(yard);
        }

        _ = RequestMap(moving: true);
    }

    private async Task Settle()
    {
        if (Document.Settle())
        {
            await Told();
        }
    }

    private async Task Told()
    {
        if (_hand.Part is { } part)
        {
            _hand.Choose(part, _hand.Corner);
        }

        if (Document.Shown is { } yard)
        {
            await Following.InvokeAsync(yard);
        }

        await Changed.InvokeAsync(Document);
        _ = RequestMap(moving: false);
        StateHasChanged();
    }

    private async Task Do(YardDrawing drawing)
    {
        if (Document.Do(drawing))
        {
            await Told();
        }
    }

    // A yard that is wrong has no signal to show; while the hand moves, the last picture stays.
    private async Task RequestMap(bool moving)
    {
        if (Engine is null)
        {
            return;
        }

        if ((moving ? Document.Shown : Document.File?.Yard) is not { } yard)
        {
            if (!moving)
            {
                (_map, _mapLawn) = (null, null);
            }

            return;
        }

        try
        {
            SignalMap map = moving ? await Engine.MapAsync(yard, PlacesWhileMoving) : await Engine.MapAsync(yard);
            (_map, _mapLawn) = (map, yard.Lawn);
            StateHasChanged();
        }
        catch (OperationCanceledException)
        {
            // A newer one is on its way.
        }
        catch (EngineRefusalException)
        {
            // Said at the spot when the gesture ends.
        }
    }

    private Task Undo() => Walk(Document.Undo);

    private Task Redo() => Walk(Document.Redo);

    // A step of the drawing is told; one of the line or the photo is only shown.
    private async Task Walk(Func<bool> step)
    {
        YardDrawing before = Document.Settled;
        _wrong.Clear();
        if (step())
        {
            _hand.Follow(before);
            if (!ReferenceEquals(before, Document.Settled))
            {
                await Told();
            }
        }
    }

    private async Task Finish(bool closed)
    {
        if (_hand.Tool == EditorTool.Heard)
        {
            await TakeHeard();
        }
        else if (_hand.Finish(closed))
        {
            await Settle();
        }
    }

    private void ChoosePart(DrawnPart part)
    {
        _hand.Take(EditorTool.Move);
        _hand.Choose(part, part.Kind == DrawnKind.Joint ? 0 : null);
    }

    private void ChooseCorner(DrawnPart part, int corner) => _hand.Choose(part, corner);

    private Task DeletePart()
    {
        if (_hand.Part is not { } part || !Document.Settled.Has(part))
        {
            return Task.CompletedTask;
        }

        _hand.Choose(null);
        return Do(Document.Settled.WithoutPart(part));
    }

    private Task DeleteCorner(DrawnPart part, int corner) => Do(Document.Settled.WithoutCorner(part, corner));

    private async Task InsertAfter(DrawnPart part, int corner)
    {
        IReadOnlyList<PlanPoint> corners = Document.Settled.Corners(part);
        await Do(Document.Settled.WithCornerIn(part, corner, corners[corner].Towards(corners[(corner + 1) % corners.Count], 0.5)));
        _hand.Choose(part, corner + 1);
    }

    private Task SetJointStyle(int joint, ChangeEventArgs change) =>
        Enum.TryParse(change.Value?.ToString(), out JointStyle style) ? Do(Document.Settled.WithJoint(joint, Document.Settled.Joints[joint] with { Style = style })) : Task.CompletedTask;

    private Task SetMetalKind(int metal, ChangeEventArgs change) =>
        Do(Document.Settled.WithMetal(metal, Document.Settled.Metal[metal] with { Kind = change.Value?.ToString()?.Trim() is { Length: > 0 } kind ? kind : YardLimits.DefaultMetalKind }));

    private Task SetSameCoding(int neighbour, ChangeEventArgs change) =>
        Do(Document.Settled.WithNeighbour(neighbour, Document.Settled.Neighbours[neighbour] with { SameCoding = change.Value is true }));

    private Task StationHere() =>
        _hand is { Part: { Kind: DrawnKind.Wire }, Corner: { } corner } && Document.Settled.WirePath is { } path
            ? Do(Document.Settled.WithStationAt(path.CornerMetres[corner]))
            : Task.CompletedTask;

    private void GoTo(DrawingFlaw flaw)
    {
        _hand.Take(EditorTool.Move);
        _hand.Choose(flaw.Part, 0);
        if (flaw.At is { } spot)
        {
            PlanView close = _view.PixelsPerMetre < 25 ? _view with { PixelsPerMetre = 25 } : _view;
            (_view, _zoomed) = (close with { WestMetres = spot.EastMetres - (close.Width / 2 / close.PixelsPerMetre), NorthMetres = spot.NorthMetres + (close.Height / 2 / close.PixelsPerMetre) }, true);
        }
    }

    private async Task OnKey(KeyboardEventArgs pressed)
    {
        if (pressed.AltKey)
        {
            return;
        }

        if (pressed.CtrlKey || pressed.MetaKey)
        {
            await (pressed.Key switch
            {
                "z" when !pressed.ShiftKey => Undo(),
                "y" or "Z" or "z" => Redo(),
                _ => Task.CompletedTask,
            });
            return;
        }

        switch (pressed.Key)
        {
            case "+" or "=":
                Zoom(1.25);
                break;
            case "-":
                Zoom(1 / 1.25);
                break;
            case "0":
                ShowAll();
                break;
            case "Escape" when _hand.Tool != EditorTool.Move:
                TakeTool(EditorTool.Move);
                break;
            case "Escape":
                _hand.Choose(null);
                break;
            case "Enter":
                await Finish(false);
                break;
            case "Backspace":
                _ = _hand.UnplaceLast();
                break;
            case "[" or "]":
                Step(pressed.Key == "]" ? 1 : -1);
                break;
            case "Delete" when _hand is { Part: { Kind: not DrawnKind.Joint } part, Corner: { } corner }:
                await DeleteCorner(part, corner);
                break;
            case "Delete":
                await DeletePart();
                break;
            case "Insert" when _hand is { Part: { Kind: not DrawnKind.Joint } part, Corner: { } corner } && (part.IsRing || corner + 1 < Drawing.Corners(part).Count):
                await InsertAfter(part, corner);
                break;
            case "ArrowLeft":
                await Nudge(-1, 0, pressed.ShiftKey);
                break;
            case "ArrowRight":
                await Nudge(1, 0, pressed.ShiftKey);
                break;
            case "ArrowUp":
                await Nudge(0, 1, pressed.ShiftKey);
                break;
            case "ArrowDown":
                await Nudge(0, -1, pressed.ShiftKey);
                break;
        }
    }

    // Through the corners of the part chosen and on to the next part.
    private void Step(int by)
    {
        List<(DrawnPart Part, int Corner)> all = [.. Drawing.Parts.SelectMany(part => Enumerable.Range(0, Drawing.Corners(part).Count).Select(corner => (part, corner)))];
        if (all.Count > 0)
        {
            int now = all.FindIndex(corner => corner.Part == _hand.Part && corner.Corner == (_hand.Corner ?? 0));
            (DrawnPart part, int chosen) = all[now < 0 ? 0 : _hand.Corner is null ? now : (now + by + all.Count) % all.Count];
            _hand.Choose(part, chosen);
        }
    }

    private Task Nudge(int east, int north, bool far)
    {
        double step = Snapping.For(_view, 0, on: false, Words.UnitMetres).GridMetres * (far ? 10 : 1);
        if (_hand is { Part: { Kind: DrawnKind.Joint } joint })
        {
            double at = Document.Settled.Joints[joint.Index].AtMetres + ((east + north) * step);
            return Do(Document.Settled.WithJoint(joint.Index, Document.Settled.Joints[joint.Index] with { AtMetres = Math.Round(at, 3) }));
        }

        if (_hand is { Part: { } part, Corner: { } corner })
        {
            PlanPoint at = Document.Settled.Corners(part)[corner];
            return Do(Document.Settled.WithCorner(part, corner, new(Math.Round(at.EastMetres + (east * step), 3), Math.Round(at.NorthMetres + (north * step), 3))));
        }

        if (_hand.Part is { } whole && Document.Settled.Has(whole))
        {
            return Do(Document.Settled.Moved(whole, east * step, north * step));
        }

        (_view, _zoomed) = (_view.Panned(-48 * east, 48 * north), true);
        return Task.CompletedTask;
    }

    private async Task Import(InputFileChangeEventArgs chosen)
    {
        if (chosen.File.Size > MostImportMegabytes << 20)
        {
            _importProblems = [Words.Say(Words.ImportTooLarge, MostImportMegabytes)];
            return;
        }

        using MemoryStream bytes = new();
        await using (Stream stream = chosen.File.OpenReadStream(MostImportMegabytes << 20))
        {
            await stream.CopyToAsync(bytes);
        }

        _importProblems = [.. await Import(bytes.ToArray(), chosen.File.Name)];
    }
}
