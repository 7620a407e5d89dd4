using Swardloop.Core.Geometry;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <summary>The hand on the drawing board: turns pointers into edits of a document. One pointer draws or moves what it touches, or pushes the
/// paper where there is nothing; two push and pinch, and undo what the first had begun.</summary>
/// <param name="document">What is edited.</param>
public sealed class EditorHand(EditorDocument document)
{
    private readonly PanAndPinch _pinch = new();
    private (DrawnPart Part, int Corner)? _dragged;
    private int? _drawing;

    /// <summary>What the hand does.</summary>
    public EditorTool Tool { get; private set; }

    /// <summary>Whether places snap to ends, right angles and the grid.</summary>
    public bool Snaps { get; set; } = true;

    /// <summary>The unit of lengths in which the grid is round (m).</summary>
    public double UnitMetres { get; set; } = 1;

    /// <summary>The part chosen.</summary>
    public DrawnPart? Part { get; private set; }

    /// <summary>The corner chosen of it.</summary>
    public int? Corner { get; private set; }

    /// <summary>Corners of the line being drawn.</summary>
    public IReadOnlyList<PlanPoint> Line => document.Line;

    /// <summary>Where the next corner of the line would be; null when no pointer says.</summary>
    public SnappedPoint? Next { get; private set; }

    /// <summary>Whether a corner is being moved or placed.</summary>
    public bool IsBusy => _dragged is not null || _drawing is not null;

    /// <summary>Places of the photo touched so far, at most two, in plan metres.</summary>
    public IReadOnlyList<PlanPoint> PhotoPlaces => Tool == EditorTool.PhotoScale ? Line : [];

    /// <summary>Takes up a tool; a line begun with another is dropped, which can be taken back.</summary>
    public void Take(EditorTool tool)
    {
        Tool = tool;
        LetGo();
        if (Line.Count > 0)
        {
            document.DrawLine(tool, []);
        }
    }

    /// <summary>After a step back or forth: lets go of everything, and takes up the tool of a line that is there again.</summary>
    /// <param name="before">The drawing before that step.</param>
    public void Follow(YardDrawing before)
    {
        LetGo();
        if (Line.Count > 0)
        {
            Tool = document.LineTool;
        }
        else if (!ReferenceEquals(before, document.Settled) || (Tool == EditorTool.PhotoScale && document.Photo is null))
        {
            Tool = EditorTool.Move;
        }
    }

    private void LetGo()
    {
        Next = null;
        document.Drop();
        (_dragged, _drawing) = (null, null);
    }

    /// <summary>Chooses a part and perhaps a corner of it.</summary>
    public void Choose(DrawnPart? part, int? corner = null)
    {
        Part = part is { } known && document.Drawing.Has(known) ? known : null;
        Corner = Part is { } chosen && corner is { } index && index >= 0 && index < document.Drawing.Corners(chosen).Count ? index : null;
    }

    /// <summary>Takes one event of a pointer.</summary>
    /// <param name="touch">The event.</param>
    /// <param name="view">The view before it.</param>
    /// <returns>The view after it.</returns>
    public PlanView Take(PointerTouch touch, PlanView view)
    {
        if (touch.Stage == PointerStage.Down && _pinch.IsActive)
        {
            // A second finger means the paper: what the first had begun did not happen.
            document.Drop();
            (_dragged, _drawing, Next) = (null, null, null);
        }

        PlanPoint at = view.ToPlan(touch.X, touch.Y);
        bool mine = _dragged is not null || _drawing is not null;
        PlanView after = mine && touch.Stage == PointerStage.Move ? view : _pinch.Take(touch, view, out _);
        switch (touch.Stage)
        {
            case PointerStage.Down when _pinch.Pointers == 1:
                Press(touch, view, at);
                break;
            case PointerStage.Move when _dragged is { } dragged:
                MoveCorner(dragged, at, touch, view);
                break;
            case PointerStage.Move when _drawing is not null || (!_pinch.IsActive && !touch.IsTouch && IsDrawing):
                Next = SnapNext(at, touch, view);
                break;
            case PointerStage.Up when _dragged is not null:
                _dragged = null;
                break;
            case PointerStage.Up when _drawing == touch.Id:
                _drawing = null;
                Place(SnapNext(at, touch, view).Point, view, touch);
                break;
            case PointerStage.Cancel:
                document.Drop();
                (_dragged, _drawing, Next) = (null, null, null);
                break;
            case PointerStage.Leave when !IsBusy:
                Next = null;
                break;
        }

        return after;
    }

    /// <summary>Puts the next corner of the line where it was typed.</summary>
    /// <param name="lengthMetres">Distance from the last corner (m).</param>
    /// <param name="bearingDegrees">Direction, clockwise from the plan's north.</param>
    public void PlaceByTape(double lengthMetres, double bearingDegrees)
    {
        PlanPoint from = Line.Count > 0 ? Line[^1] : new(0, 0);
        double angle = bearingDegrees * Math.PI / 180;
        PlaceAt(Snapping.Centimetres(new(from.EastMetres + (lengthMetres * Math.Sin(angle)), from.NorthMetres + (lengthMetres * Math.Cos(angle)))));
    }

    /// <summary>Puts the next corner of the line, or a joint, at a place.</summary>
    public void PlaceAt(PlanPoint at)
    {
        if (Tool == EditorTool.Joint)
        {
            PlaceJoint(at);
        }
        else if (IsDrawing)
        {
            document.DrawLine(Tool, [.. Line, at]);
        }
    }

    /// <summary>Takes the last corner of the line back.</summary>
    /// <returns>Whether there was one.</returns>
    public bool UnplaceLast()
    {
        if (Line.Count == 0)
        {
            return false;
        }

        document.DrawLine(Tool, [.. Line.SkipLast(1)]);
        return true;
    }

    /// <summary>Ends the line: it becomes a part of the drawing, if it has enough corners.</summary>
    /// <param name="closed">Whether a wire or a neighbour's loop comes back to where it began.</param>
    /// <returns>Whether it did.</returns>
    public bool Finish(bool closed = false)
    {
        if (KindOf(Tool) is not { } kind)
        {
            return false;
        }

        List<PlanPoint> corners = [.. Line.Where((point, i) => i == 0 || point.DistanceTo(Line[i - 1]) > YardDrawing.OnePlaceMetres)];
        bool ring = new DrawnPart(kind).IsRing;
        if (ring && corners.Count > 1 && corners[0].DistanceTo(corners[^1]) <= YardDrawing.OnePlaceMetres)
        {
            corners.RemoveAt(corners.Count - 1);
        }
        else if (!ring && closed && corners.Count > 2 && corners[0].DistanceTo(corners[^1]) > YardDrawing.OnePlaceMetres)
        {
            corners.Add(corners[0]);
        }

        if (corners.Count < new DrawnPart(kind).FewestCorners)
        {
            return false;
        }

        // A lawn that follows the wire has no edge an island could lie in; so the edge is drawn first, where it is now.
        YardDrawing drawing = kind == DrawnKind.Island ? document.Drawing.WithLawnAlongWire() : document.Drawing;
        drawing = drawing.WithPart(kind, corners);
        document.Show(drawing, endsLine: true);
        Next = null;
        Choose(drawing.Parts.Last(part => part.Kind == kind));
        Tool = EditorTool.Move;
        return true;
    }

    private bool IsDrawing => KindOf(Tool) is not null || Tool is EditorTool.PhotoScale or EditorTool.Heard;

    /// <summary>Places where a tone was heard, the station first.</summary>
    public IReadOnlyList<PlanPoint> HeardPlaces => Tool == EditorTool.Heard ? Line : [];

    /// <summary>The wire lies where it was heard: a way through those places takes its place on the drawing.</summary>
    public void TakeHeard(HeardCourse heard)
    {
        document.Show(document.Drawing.WithHeardWire(heard), endsLine: true);
        Next = null;
        Choose(new DrawnPart(DrawnKind.Wire));
        Tool = EditorTool.Move;
    }

    /// <summary>Which part a tool draws; null when it draws none.</summary>
    public static DrawnKind? KindOf(EditorTool tool) => tool switch
    {
        EditorTool.Wire => DrawnKind.Wire,
        EditorTool.Guide => DrawnKind.Guide,
        EditorTool.Lawn => DrawnKind.Lawn,
        EditorTool.Island => DrawnKind.Island,
        EditorTool.Metal => DrawnKind.Metal,
        EditorTool.Neighbour => DrawnKind.Neighbour,
        _ => null,
    };

    private void Press(PointerTouch touch, PlanView view, PlanPoint at)
    {
        if (IsDrawing)
        {
            _drawing = touch.Id;
            Next = SnapNext(at, touch, view);
        }
        else if (Tool == EditorTool.Joint)
        {
            if (WiresNear(at).DistanceMetres * view.PixelsPerMetre <= 2 * touch.ReachPixels)
            {
                PlaceJoint(at);
                _dragged = Part is { Kind: DrawnKind.Joint } joint ? (joint, 0) : null;
            }
        }
        else if (Hit(at, touch.ReachPixels / view.PixelsPerMetre) is { } hit)
        {
            Choose(hit.Part, hit.Corner);
            _dragged = hit.Corner is { } corner ? (hit.Part, corner) : null;
        }
        else
        {
            Choose(null);
        }
    }

    private void PlaceJoint(PlanPoint at)
    {
        if (document.Drawing.WirePath is not { } wire)
        {
            return;
        }

        if (WiresNear(at).Guide is { } guide)
        {
            document.Show(document.Drawing.WithGuideJointAt(guide, new WirePath(document.Drawing.Guides[guide].Points).NearestTo(at).AtMetres));
            Choose(new DrawnPart(DrawnKind.Guide, guide));
            return;
        }

        YardDrawing drawing = document.Drawing.WithJointAt(wire.NearestTo(at).AtMetres);
        document.Show(drawing);
        int index = Enumerable.Range(0, drawing.Joints.Count).MinBy(i => Math.Abs(drawing.Joints[i].AtMetres - wire.NearestTo(at).AtMetres));
        Choose(new DrawnPart(DrawnKind.Joint, index), 0);
    }

    // The wire a joint is put on: the loop, unless a guide wire is nearer.
    private (double DistanceMetres, int? Guide) WiresNear(PlanPoint at)
    {
        YardDrawing drawing = document.Drawing;
        double loop = drawing.WirePath is { } wire ? wire.NearestTo(at).DistanceMetres : double.PositiveInfinity;
        (double distance, int guide) = drawing.Guides.Select((guide, i) => (new WirePath(guide.Points).NearestTo(at).DistanceMetres, i)).Append((double.PositiveInfinity, -1)).Min();
        return distance < loop - YardDrawing.OnePlaceMetres ? (distance, guide) : (loop, null);
    }

    private void MoveCorner((DrawnPart Part, int Corner) dragged, PlanPoint at, PointerTouch touch, PlanView view)
    {
        if (!document.Settled.Has(dragged.Part) && dragged.Part.Kind != DrawnKind.Joint)
        {
            return;
        }

        YardDrawing from = document.Settled.Has(dragged.Part) ? document.Settled : document.Drawing;
        if (dragged.Part.Kind == DrawnKind.Joint)
        {
            YardDrawing current = document.Drawing;
            Core.Yards.Joint joint = current.Joints[dragged.Part.Index];
            YardDrawing moved = current.WithCorner(dragged.Part, 0, at);
            document.Show(moved);

            // Past another joint its number changes.
            int index = Enumerable.Range(0, moved.Joints.Count).FirstOrDefault(i => !current.Joints.Contains(moved.Joints[i]), dragged.Part.Index);
            _ = joint;
            _dragged = (dragged.Part with { Index = index }, 0);
            Choose(_dragged.Value.Part, 0);
            return;
        }

        IReadOnlyList<PlanPoint> corners = from.Corners(dragged.Part);
        PlanPoint own = corners[dragged.Corner];
        List<(PlanPoint, PlanPoint?)> beside = [];
        bool ring = dragged.Part.IsRing;
        PlanPoint? Near(int offset) => ring ? corners[(dragged.Corner + offset + (2 * corners.Count)) % corners.Count]
            : dragged.Corner + offset is var i && i >= 0 && i < corners.Count ? corners[i] : null;
        foreach (int side in (int[])[-1, 1])
        {
            if (Near(side) is { } neighbour)
            {
                beside.Add((neighbour, Near(2 * side)));
            }
        }

        bool joins = dragged.Part.Kind == DrawnKind.Guide && dragged.Corner == corners.Count - 1;
        Snapping snapping = SnapFor(touch, view);
        IEnumerable<PlanPoint> ends = Ends(from).Where(end => end.DistanceTo(own) > YardDrawing.OnePlaceMetres);
        SnappedPoint snapped = snapping.Of(at, joins ? WithWire(from, ends, at, snapping.ReachMetres) : ends, beside);
        Next = snapped;
        document.Show(from.WithCorner(dragged.Part, dragged.Corner, snapped.Point));
        Choose(dragged.Part, dragged.Corner);
    }

    private void Place(PlanPoint at, PlanView view, PointerTouch touch)
    {
        Next = null;
        if (Tool == EditorTool.PhotoScale)
        {
            document.DrawLine(Tool, Line.Count >= 2 ? [at] : [.. Line, at]);
            return;
        }

        if (Tool == EditorTool.Heard)
        {
            if (Line.Count < HeardCourse.MostPlaces)
            {
                document.DrawLine(Tool, [.. Line, Snapping.Centimetres(at)]);
            }

            return;
        }

        bool closes = Line.Count > 2 && at.DistanceTo(Line[0]) * view.PixelsPerMetre <= touch.ReachPixels;
        if (closes)
        {
            Finish(closed: true);
        }
        else if (Line.Count > 0 && at.DistanceTo(Line[^1]) <= YardDrawing.OnePlaceMetres)
        {
            Finish();
        }
        else
        {
            document.DrawLine(Tool, [.. Line, at]);
        }
    }

    private SnappedPoint SnapNext(PlanPoint at, PointerTouch touch, PlanView view)
    {
        if (Tool is EditorTool.PhotoScale or EditorTool.Heard)
        {
            return new(at, SnapKind.None);
        }

        List<(PlanPoint, PlanPoint?)> beside = [];
        if (Line.Count > 0)
        {
            beside.Add((Line[^1], Line.Count > 1 ? Line[^2] : null));
        }

        if (Line.Count > 1)
        {
            beside.Add((Line[0], Line[1]));
        }

        Snapping snapping = SnapFor(touch, view);
        IEnumerable<PlanPoint> ends = Line.Concat(Ends(document.Settled));
        return snapping.Of(at, Tool == EditorTool.Guide ? WithWire(document.Settled, ends, at, snapping.ReachMetres) : ends, beside);
    }

    private Snapping SnapFor(PointerTouch touch, PlanView view) => Snapping.For(view, 0.6 * touch.ReachPixels, Snaps && !touch.Shift, UnitMetres);

    private static IEnumerable<PlanPoint> Ends(YardDrawing drawing) =>
        drawing.Parts.Where(part => part.Kind != DrawnKind.Joint).SelectMany(drawing.Corners);

    // A guide wire ends on the loop: where no corner is near, the loop itself draws its end.
    private static PlanPoint[] WithWire(YardDrawing drawing, IEnumerable<PlanPoint> ends, PlanPoint at, double reachMetres)
    {
        PlanPoint[] near = [.. ends.Concat(drawing.Joints.Select((_, i) => drawing.Corners(new(DrawnKind.Joint, i))[0])).Where(end => end.DistanceTo(at) <= reachMetres)];
        return near.Length > 0 || drawing.WirePath is not { } wire ? near : [Snapping.Centimetres(wire.PointAt(wire.NearestTo(at).AtMetres))];
    }

    // Corners come before legs, the part already chosen before others, joints before the wire they sit on.
    private (DrawnPart Part, int? Corner)? Hit(PlanPoint at, double reachMetres)
    {
        YardDrawing drawing = document.Drawing;
        var corners = drawing.Parts
            .SelectMany(part => drawing.Corners(part).Select((point, corner) => (Part: part, Corner: corner, Distance: point.DistanceTo(at))))
            .Where(corner => corner.Distance <= reachMetres)
            .OrderBy(corner => corner.Distance - (corner.Part == Part || corner.Part.Kind == DrawnKind.Joint ? reachMetres / 2 : 0))
            .ToList();
        if (corners.Count > 0)
        {
            return (corners[0].Part, corners[0].Corner);
        }

        var legs = drawing.Parts.Where(part => part.Kind != DrawnKind.Joint)
            .Select(part => (Part: part, Distance: Closed(drawing.Corners(part), part.IsRing).NearestTo(at).DistanceMetres))
            .Where(leg => leg.Distance <= reachMetres)
            .OrderBy(leg => leg.Distance)
            .ToList();
        return legs.Count > 0 ? (legs[0].Part, null) : null;
    }

    private static WirePath Closed(IReadOnlyList<PlanPoint> corners, bool ring) => new(ring ? corners.Append(corners[0]) : corners.Count == 1 ? [corners[0], corners[0]] : corners);
}
