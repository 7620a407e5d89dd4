using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <content>What is typed beside the board: cells of the tables, lines by tape, the photo's measures, and files.</content>
public sealed partial class YardEditor
{
    private const string TapeEast = "tape east", TapeNorth = "tape north", TapeLength = "tape length", TapeBearing = "tape bearing", PhotoDistance = "photo distance";

    // What was typed and not taken, by cell.
    private readonly Dictionary<string, (string Typed, string Why)> _wrong = [];
    private (Sketch Sketch, string FileName)? _outline;

    // In a mouse's words and in a finger's; the style sheet shows those of the device. Null while the hand measures.
    private (string Touch, string Mouse)? Hint => _hand.Tool switch
    {
        EditorTool.Move => (Words.HintMove, Words.HintMoveByMouse),
        EditorTool.Wire when Drawing.Wire.Count > 0 => ($"{Words.HintWire} {Words.HintWireReplaces}", $"{Words.HintWireByMouse} {Words.HintWireReplaces}"),
        EditorTool.Wire => (Words.HintWire, Words.HintWireByMouse),
        EditorTool.Joint => (Words.HintJoint, Words.HintJointByMouse),
        EditorTool.Guide => (Words.HintGuide, Words.HintGuideByMouse),
        EditorTool.Heard => (Words.HintHeard, Words.HintHeardByMouse),
        EditorTool.PhotoScale => (Words.HintPhotoScale, Words.HintPhotoScaleByMouse),
        _ => (Words.HintDraw, Words.HintDrawByMouse),
    };

    private string? Measured => _hand switch
    {
        { Next: { } next, Line.Count: > 0, Tool: not (EditorTool.PhotoScale or EditorTool.Heard) } =>
            Words.Say(Words.LegLength, Words.Length(_hand.Line[^1].DistanceTo(next.Point), 2)) + (next.Kind == SnapKind.RightAngle ? ", " + Words.Square : ""),
        { IsBusy: true, Part: { Kind: not DrawnKind.Joint } part, Corner: { } corner } => string.Join(", ", LegsAt(part, corner).Select(leg => Words.Length(leg, 2))),
        { IsBusy: true, Part: { Kind: DrawnKind.Joint } joint } => Words.Length(Drawing.Joints[joint.Index].AtMetres, 2),
        _ => null,
    };

    /// <summary>Whether no wire runs round an island, so that it adds none to the loop.</summary>
    private bool IsWithoutWire(DrawnPart island) =>
        Drawing.WirePath is { } wire && Drawing.Corners(island).All(corner => wire.NearestTo(corner).DistanceMetres > MostToIslandMetres);

    // A wire laid round an island keeps some decimetres from its edge; common practice, no source.
    private const double MostToIslandMetres = 1.5;

    private static double? Number(string? typed) =>
        double.TryParse(typed?.Trim().Replace(',', '.').Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value)
            ? value
            : null;

    private static string CellOf(DrawnPart part, int corner, string field) => $"{part.Kind} {part.Index} {corner} {field}";

    /// <summary>What a cell shows: what was typed and not taken, or the drawing's own value.</summary>
    private string Shown(string cell, string value) => _wrong.TryGetValue(cell, out (string Typed, string Why) wrong) ? wrong.Typed : value;

    private string? Invalid(string cell) => _wrong.ContainsKey(cell) ? "true" : null;

    // A value that cannot be is marked where it was typed, and stays there to be put right.
    private async Task Type(string cell, ChangeEventArgs change, Func<string?, double?> read, Func<double, bool> allows, string why, Func<double, Task> take)
    {
        string typed = change.Value?.ToString() ?? "";
        if (read(typed) is { } value && allows(value))
        {
            _ = _wrong.Remove(cell);
            await take(value);
        }
        else
        {
            _wrong[cell] = (typed, Words.Say(why, typed, Words.LengthUnit));
        }
    }

    private Task SetCorner(DrawnPart part, int corner, ChangeEventArgs change, bool east) =>
        Type(CellOf(part, corner, east ? "east" : "north"), change, Words.ParseLength, YardLimits.Coordinate.Holds, Words.WrongCoordinate, metres =>
        {
            PlanPoint at = Document.Settled.Corners(part)[corner];
            return Do(Document.Settled.WithCorner(part, corner, east ? at with { EastMetres = metres } : at with { NorthMetres = metres }));
        });

    private Task SetLeg(DrawnPart part, int leg, ChangeEventArgs change) =>
        Type(CellOf(part, leg, "leg"), change, Words.ParseLength, IsLeg, Words.WrongLength, metres => Do(Document.Settled.WithLeg(part, leg, metres)));

    private Task SetJointPlace(int joint, ChangeEventArgs change) =>
        Type(CellOf(new(DrawnKind.Joint, joint), 0, "at"), change, Words.ParseLength, metres => metres >= 0, Words.WrongLength,
            metres => Do(Document.Settled.WithJoint(joint, Document.Settled.Joints[joint] with { AtMetres = metres })));

    private Task SetMetalOhms(int metal, ChangeEventArgs change) =>
        Type(CellOf(new(DrawnKind.Metal, metal), 0, "ohms"), change, Number, ohms => ohms >= 0, Words.WrongNumber,
            ohms => Do(Document.Settled.WithMetal(metal, Document.Settled.Metal[metal] with { EarthOhms = ohms })));

    private Task SetNeighbourOhms(int neighbour, ChangeEventArgs change) =>
        Type(CellOf(new(DrawnKind.Neighbour, neighbour), 0, "ohms"), change, Number, ohms => ohms >= 0, Words.WrongNumber,
            ohms => Do(Document.Settled.WithNeighbour(neighbour, Document.Settled.Neighbours[neighbour] with { Ohms = ohms })));

    private static bool IsLeg(double metres) => metres > 0 && metres <= YardLimits.MostLoopMetres;

    private async Task AddByTape()
    {
        // Both are read, so that all that is wrong is marked at once.
        if (_hand.Line.Count == 0)
        {
            double? east = await Typed(TapeEast, _east, Words.ParseLength, YardLimits.Coordinate.Holds, Words.WrongCoordinate);
            double? north = await Typed(TapeNorth, _north, Words.ParseLength, YardLimits.Coordinate.Holds, Words.WrongCoordinate);
            if (east is { } x && north is { } y)
            {
                _hand.PlaceAt(new(Math.Round(x, 2), Math.Round(y, 2)));
            }

            return;
        }

        double? length = await Typed(TapeLength, _length, Words.ParseLength, IsLeg, Words.WrongLength);
        double? bearing = await Typed(TapeBearing, _bearing, Number, _ => true, Words.WrongNumber);
        if (length is { } metres && bearing is { } degrees)
        {
            _hand.PlaceByTape(metres, degrees);
            _length = "";

            // Most yards turn left at right angles as the wire is laid; the next leg is proposed so.
            _bearing = Words.Number((degrees + 270) % 360);
        }
    }

    private async Task<double?> Typed(string cell, string typed, Func<string?, double?> read, Func<double, bool> allows, string why)
    {
        double? taken = null;
        await Type(cell, new() { Value = typed }, read, allows, why, value =>
        {
            taken = value;
            return Task.CompletedTask;
        });
        return taken;
    }

    private async Task UseOutline()
    {
        if (_outline is { } outline)
        {
            _outline = null;
            _importProblems = [.. await Import(outline.Sketch.WithWireAlongOutline(), outline.FileName)];
        }
    }

    private async Task<IReadOnlyList<string>> Import(Sketch sketch, string fileName)
    {
        Yard? rest = Document.Shown ?? Document.Draft?.Yard;
        Checked<YardFile> made = SketchYard.Make(sketch, rest?.Name ?? sketch.Name ?? Path.GetFileNameWithoutExtension(fileName), Document.WireConductor, fileName);
        if (!made.IsGood)
        {
            return [.. made.Problems.Select(InFile)];
        }

        Document.Load(made.Value);
        (_importProblems, _outline) = ([], null);
        _wrong.Clear();
        _hand.Take(EditorTool.Move);
        _hand.Choose(null);
        (_view, _zoomed) = (Whole(_view.Width, _view.Height), false);
        await Told();
        return [];
    }

    private async Task OpenPhoto()
    {
        _photoScript ??= await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/photo.js");
        OpenedPhoto? opened = await _photoScript.InvokeAsync<OpenedPhoto?>("open", _photoInput);
        _photoProblem = opened is null ? Words.PhotoUnreadable : null;
        if (opened is not null)
        {
            _photosOpened.Add(opened.Address); // A photo taken away can come back; the browser keeps it until the board is left.
            Document.LayPhoto(PhotoUnderlay.Across(opened.Address, opened.Width, opened.Height, _view));
            TakeTool(EditorTool.PhotoScale);
        }
    }

    private async Task ScalePhoto()
    {
        if (Photo is { } photo && _hand.PhotoPlaces is [var first, var second] && first != second
            && await Typed(PhotoDistance, _distance, Words.ParseLength, IsLeg, Words.WrongLength) is { } metres)
        {
            Document.LayPhoto(photo.Scaled(first, second, metres));
            TakeTool(EditorTool.Move);
        }
    }

    private Task MovePhoto(string field, ChangeEventArgs change, string why, Func<PhotoUnderlay, double, PhotoUnderlay> moved) =>
        Type($"photo {field}", change, Number, _ => true, why, value =>
        {
            if (Photo is { } photo)
            {
                Document.LayPhoto(moved(photo, value));
            }

            return Task.CompletedTask;
        });

    private void RemovePhoto()
    {
        Document.LayPhoto(null);
        if (_hand.Tool == EditorTool.PhotoScale)
        {
            TakeTool(EditorTool.Move);
        }
    }

    // As the script gives it.
    private sealed record OpenedPhoto(string Address, double Width, double Height);
}
