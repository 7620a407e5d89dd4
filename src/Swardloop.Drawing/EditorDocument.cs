using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <summary>A yard on the drawing board: the drawing, its file, what is wrong with it, and every step back to where it began. Gestures show a
/// drawing at once (<see cref="Show"/>) and become one step when they end (<see cref="Settle"/>). Each corner of a line being drawn and each change of
/// the photo under it is a step of the same row, so that everything is taken back, and done again, in the order in which it was done. Nothing is ever
/// mended by itself.</summary>
public sealed class EditorDocument
{
    private readonly List<Step> _steps;
    private readonly Yard _blank;
    private int _at;
    private YardDrawing? _shown;
    private bool _endsLine;

    /// <summary>Takes up a yard file.</summary>
    public EditorDocument(YardFile file)
    {
        _blank = file.Yard;
        _steps = [new(YardDrawing.Of(file.Yard, file.DrawsLawn), file, file, [], [], EditorTool.Move, null)];
    }

    /// <summary>Begins a new yard with nothing drawn.</summary>
    /// <param name="name">What people call the place; not empty.</param>
    /// <param name="conductor">What the wire is made of; null: nobody knows.</param>
    public EditorDocument(string name, Conductor? conductor)
    {
        // The stand-ins for lawn and wire are never seen: a drawing without a wire makes no yard.
        PlanPoint[] standIn = [new(0, 0), new(1, 0), new(1, 1)];
        _blank = new() { Name = name, Lawn = new([standIn], []), Loop = new() { Path = new(standIn), Conductor = conductor ?? UnknownConductor.StandIn } };
        _steps = [Checked(new YardDrawing { Conductor = conductor }, null)];
    }

    /// <summary>The drawing, with what the hand is doing to it.</summary>
    public YardDrawing Drawing => _shown ?? Settled;

    /// <summary>The drawing as it was when the last gesture ended.</summary>
    public YardDrawing Settled => _steps[_at].Drawing;

    /// <summary>The yard file of the settled drawing; null while it is unfinished or wrong.</summary>
    public YardFile? File => _steps[_at].Sound;

    /// <summary>The yard file of the settled drawing, right or wrong, to be kept as a draft; null while too little is drawn.</summary>
    public YardFile? Draft => _steps[_at].Draft;

    /// <summary>What is wrong with the settled drawing, each at its spot.</summary>
    public IReadOnlyList<DrawingFlaw> Flaws => _steps[_at].Flaws;

    /// <summary>What is allowed but worth a look.</summary>
    public IReadOnlyList<Problem> Notes => File?.Notes ?? [];

    /// <summary>The yard as shown, the hand's doing included and unchecked; null while too little is drawn.</summary>
    public Yard? Shown => Drawing.On(Base);

    /// <summary>What the wire is made of; null: nobody knows.</summary>
    public Conductor? WireConductor => Drawing.Conductor;

    /// <summary>Corners of the line being drawn, or places touched on the photo.</summary>
    public IReadOnlyList<PlanPoint> Line => _steps[_at].Line;

    /// <summary>The tool that <see cref="Line"/> is drawn with.</summary>
    public EditorTool LineTool => _steps[_at].LineTool;

    /// <summary>The photo under the drawing; null without one. It is not kept with the yard.</summary>
    public PhotoUnderlay? Photo => _steps[_at].Photo;

    /// <summary>Whether there is a step to take back.</summary>
    public bool CanUndo => _at > 0;

    /// <summary>Whether there is a step to take again.</summary>
    public bool CanRedo => _at + 1 < _steps.Count;

    private Yard Base => (_steps[_at].Draft ?? _steps.Take(_at).Select(step => step.Draft).LastOrDefault(draft => draft is not null))?.Yard ?? _blank;

    /// <summary>Shows a drawing without making it a step.</summary>
    /// <param name="drawing">The drawing.</param>
    /// <param name="endsLine">Whether the line being drawn has become part of it.</param>
    public void Show(YardDrawing drawing, bool endsLine = false) => (_shown, _endsLine) = (drawing, endsLine);

    /// <summary>Makes the line being drawn another one, as a step; the drawing stays.</summary>
    /// <param name="tool">What it is drawn with.</param>
    /// <param name="line">Its corners so far; empty when it is dropped.</param>
    public void DrawLine(EditorTool tool, IReadOnlyList<PlanPoint> line) => Push(_steps[_at] with { LineTool = tool, Line = line });

    /// <summary>Lays, moves or takes away the photo under the drawing, as a step; places touched on it are done with.</summary>
    public void LayPhoto(PhotoUnderlay? photo) => Push(_steps[_at] with { Photo = photo, Line = LineTool == EditorTool.PhotoScale ? [] : Line });

    /// <summary>Makes what is shown a step, checked; whatever was taken back before is gone.</summary>
    /// <returns>Whether anything changed.</returns>
    public bool Settle()
    {
        if (_shown is not { } drawing || ReferenceEquals(drawing, Settled))
        {
            _shown = null;
            return false;
        }

        _shown = null;
        Step made = Checked(drawing, _steps[_at].Draft ?? _steps.Take(_at).Select(step => step.Draft).LastOrDefault(draft => draft is not null));
        Push(made with { Line = _endsLine ? [] : Line, LineTool = LineTool, Photo = Photo });
        return true;
    }

    /// <summary>Makes a drawing a step at once.</summary>
    /// <returns>Whether anything changed.</returns>
    public bool Do(YardDrawing drawing)
    {
        Show(drawing);
        return Settle();
    }

    /// <summary>Forgets what is shown and not settled.</summary>
    public void Drop() => _shown = null;

    /// <summary>Takes the last step back.</summary>
    /// <returns>Whether there was one.</returns>
    public bool Undo()
    {
        _shown = null;
        if (!CanUndo)
        {
            return false;
        }

        _at--;
        return true;
    }

    /// <summary>Takes the next step again.</summary>
    /// <returns>Whether there was one.</returns>
    public bool Redo()
    {
        _shown = null;
        if (!CanRedo)
        {
            return false;
        }

        _at++;
        return true;
    }

    /// <summary>Puts another yard file in the place of this one, as one step: an import, or a change made elsewhere.</summary>
    public void Load(YardFile file)
    {
        _shown = null;
        Push(new(YardDrawing.Of(file.Yard, file.DrawsLawn), file, file, [], [], EditorTool.Move, Photo));
    }

    private void Push(Step step)
    {
        _steps.RemoveRange(_at + 1, _steps.Count - _at - 1);
        _steps.Add(step);
        _at++;
    }

    private Step Checked(YardDrawing drawing, YardFile? before)
    {
        Yard rest = before?.Yard ?? _blank;
        if (drawing.On(rest) is not { } yard)
        {
            Problem missing = drawing.Wire.Count < 2
                ? new(rest.Name, "loop.path", "no wire is drawn yet", "a wire from A to B")
                : new(rest.Name, "loop.path", "the wire encloses no area, and no lawn is drawn", "a wire round the lawn, or a lawn");
            return new(drawing, null, null, [DrawingFlaw.Of(missing, drawing)], [], EditorTool.Move, null);
        }

        YardFile draft;
        if (before is null)
        {
            draft = YardFile.Create(yard);
        }
        else if (drawing.Lawn.Count == 0)
        {
            // A lawn that the file does not draw goes on following the wire.
            draft = before.With(yard with { Lawn = before.Yard.Lawn });
        }
        else
        {
            draft = (before.DrawsLawn ? before : before.WithLawnDrawn()).With(yard);
        }

        Checked<YardFile> read = YardFile.Read(draft.ToUtf8(), rest.Name);
        return new(drawing, read.Value ?? draft, read.Value, [.. read.Problems.Select(problem => DrawingFlaw.Of(problem, drawing))], [], EditorTool.Move, null);
    }

    private sealed record Step(
        YardDrawing Drawing, YardFile? Draft, YardFile? Sound, IReadOnlyList<DrawingFlaw> Flaws, IReadOnlyList<PlanPoint> Line, EditorTool LineTool, PhotoUnderlay? Photo);
}
