using System.Globalization;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Pictures;

/// <summary>A yard to scale, north up, and where its mower hears: shades of margin, the line of silence, hatching where it is silent.</summary>
/// <remarks>Shades are those of <see cref="MarginShade"/> on light paper; the silent part is hatched as well, the line of silence is firm.</remarks>
public sealed class ReachPicture
{
    private const string Paper = "#FBFAF5", Ink = "#23292B", Faint = "#7C8583", Bare = "#F3EFE2", Accent = "#B5432A";
    private const double Margin = 36, Top = 96, LongestSide = 860, LeastWidth = 640, Box = 66;

    private static readonly double[] GuideDashes = [10, 5];

    private readonly LoopReach _reach;
    private readonly SignalBudget _budget;
    private readonly double _loopOhms, _required, _scale, _left;
    private readonly PlanPoint _southWest, _northEast;
    private readonly List<IReadOnlyList<LevelLine>> _lines;

    /// <summary>Prepares a picture.</summary>
    /// <param name="reach">The map.</param>
    /// <param name="budget">What turns resistance into the field needed.</param>
    /// <param name="loopOhms">Resistance of the loop (Ω), zero or more.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is negative or not finite.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public ReachPicture(LoopReach reach, SignalBudget budget, double loopOhms, CancellationToken cancellation = default)
    {
        (_reach, _budget, _loopOhms) = (reach, budget, loopOhms);
        _required = budget.RequiredFieldPerAmpere(loopOhms);
        (_southWest, _northEast) = View(reach.Yard);
        double width = _northEast.EastMetres - _southWest.EastMetres, height = _northEast.NorthMetres - _southWest.NorthMetres;
        _scale = LongestSide / Math.Max(width, height);
        Width = Math.Max(LeastWidth, (width * _scale) + (2 * Margin));
        _left = (Width - (width * _scale)) / 2;
        Bottom = Top + (height * _scale);
        Height = Bottom + 190;
        _lines = Lines(reach, MarginShade.All.Select(shade => _required * Math.Pow(10, shade.Decibels / 20)), cancellation);
    }

    /// <summary>What state of the loop it shows, in a sentence; null: the sound loop with the resistance given.</summary>
    public string? Caption { get; init; }

    /// <summary>Width of the picture, in its own units.</summary>
    public double Width { get; }

    /// <summary>Height of the picture, in its own units.</summary>
    public double Height { get; }

    /// <summary>What the picture shows, in one sentence.</summary>
    public string Description =>
        Say($"{_reach.Yard.Name}: {(Caption is null ? Say($"with {_loopOhms:0.#} Ω in the loop") : Caption)} the mower has reception on {100 * _reach.HeardShare(_required):F1} % of the lawn; weakest place {WeakestWords}.");

    private double Bottom { get; }

    private double WeakestDecibels => _budget.MarginDecibels(_reach.Weakest.FieldPerAmpere, _loopOhms);

    private string WithOhms => Caption is null ? Say($" with {_loopOhms:0.#} Ω in the loop") : "";

    private string WeakestWords => WeakestDecibels < -60 ? "without any signal" : Say($"{WeakestDecibels:+0.0;−0.0} dB");

    /// <summary>The line where a margin is met, in plan metres, as far as it lies on the lawn.</summary>
    /// <param name="reach">The map.</param>
    /// <param name="fieldsPerAmpere">Fields (1/m) to trace, each above zero.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>For each field its lines; the stronger side lies on the left.</returns>
    public static IReadOnlyList<IReadOnlyList<IReadOnlyList<PlanPoint>>> LinesOnLawn(
        LoopReach reach, IEnumerable<double> fieldsPerAmpere, CancellationToken cancellation = default) =>
        [.. Lines(reach, fieldsPerAmpere, cancellation).Select(level => level.SelectMany(line => OnLawn(reach.Yard.Lawn, line.Points)).ToList())];

    /// <summary>Draws it.</summary>
    public void Draw(IPicturePen pen)
    {
        pen.Fill(PicturePath.Rectangle(0, 0, Width, Height), Paper);
        Header(pen);
        pen.Within(Rectangle(_southWest, _northEast), () => DrawPlan(pen));
        ScaleBar(pen);
        Legend(pen);
    }

    private static (PlanPoint SouthWest, PlanPoint NorthEast) View(Yard yard)
    {
        (PlanPoint southWest, PlanPoint northEast) = yard.Lawn.Bounds;
        IEnumerable<PlanPoint> all = yard.Loop.Path.Points.Concat(yard.Guides.SelectMany(guide => guide.Path.Points)).Append(southWest).Append(northEast);
        (double west, double east) = (all.Min(p => p.EastMetres), all.Max(p => p.EastMetres));
        (double south, double north) = (all.Min(p => p.NorthMetres), all.Max(p => p.NorthMetres));
        double margin = 0.05 * Math.Max(east - west, north - south);
        return (new(west - margin, south - margin), new(east + margin, north + margin));
    }

    // The outermost places of the grid count as silent, so that every line closes; they lie off the lawn.
    private static List<IReadOnlyList<LevelLine>> Lines(LoopReach reach, IEnumerable<double> fields, CancellationToken cancellation)
    {
        (PlanPoint southWest, PlanPoint northEast) = reach.Yard.Lawn.Bounds;
        double longest = Math.Max(northEast.EastMetres - southWest.EastMetres, northEast.NorthMetres - southWest.NorthMetres);
        double spacing = Math.Clamp(reach.CellMetres, longest / 600, longest / 150);
        PlanGrid grid = PlanGrid.Covering(
            new(southWest.EastMetres - (1.5 * spacing), southWest.NorthMetres - (1.5 * spacing)),
            new(northEast.EastMetres + (1.5 * spacing), northEast.NorthMetres + (1.5 * spacing)),
            spacing);
        double[] strength = reach.StrengthOn(grid, null, cancellation);
        for (int i = 0; i < strength.Length; i++)
        {
            (int row, int column) = Math.DivRem(i, grid.Columns);
            if (row == 0 || column == 0 || row == grid.Rows - 1 || column == grid.Columns - 1)
            {
                strength[i] = 0;
            }
        }

        return [.. fields.Select(field => LevelLine.Trace(grid, strength, field))];
    }

    private static IEnumerable<IReadOnlyList<PlanPoint>> OnLawn(Lawn lawn, IReadOnlyList<PlanPoint> line)
    {
        List<PlanPoint> piece = [];
        foreach (PlanPoint point in line)
        {
            if (lawn.Contains(point))
            {
                piece.Add(point);
            }
            else if (piece.Count > 0)
            {
                if (piece.Count > 1)
                {
                    yield return piece;
                }

                piece = [];
            }
        }

        if (piece.Count > 1)
        {
            yield return piece;
        }
    }

    private void Header(IPicturePen pen)
    {
        string name = _reach.Yard.Name.Length > 60 ? _reach.Yard.Name[..59] + "…" : _reach.Yard.Name;
        pen.Text(Margin, 46, name, 22, Ink, bold: true);
        pen.Text(Margin, 70, Say(
            $"{(Caption is null ? "" : Caption + " ")}Reception on {100 * _reach.HeardShare(_required):F1} % of the lawn{WithOhms}. Weakest place: {WeakestWords}."), 13, Ink);

        // North: the arrow turns with the plan's bearing where the datum gives one.
        double x = Width - Margin - 14, y = 46, bearing = (_reach.Yard.Datum?.BearingDegrees ?? 0) * Math.PI / 180;
        (double sin, double cos) = (Math.Sin(-bearing), Math.Cos(-bearing));
        (double, double) At(double right, double up) => (x + (right * cos) + (up * sin), y + (right * sin) - (up * cos));
        pen.Fill(new([[At(0, 22), At(7, -12), At(0, -6), At(-7, -12)]], true), Ink);
        (double textX, double textY) = At(0, 30);
        pen.Text(textX, textY + 4, "N", 12, Ink, centred: true, bold: true);
    }

    private void DrawPlan(IPicturePen pen)
    {
        Yard yard = _reach.Yard;
        PicturePath lawn = new([.. yard.Lawn.Rings.Concat(yard.Lawn.Holes).Select(Strand)], true);
        pen.Within(lawn, () =>
        {
            pen.Fill(lawn, Bare);
            pen.Hatch(lawn, "#C9BFA5");
            for (int i = 0; i < MarginShade.All.Count; i++)
            {
                if (_lines[i].Count > 0)
                {
                    pen.Fill(new([.. _lines[i].Select(line => Strand(line.Points))], true), MarginShade.All[i].Colour);
                }
            }

            PicturePath silence = new([.. _lines[0].Select(line => Strand(line.Points))], false);
            pen.Stroke(silence, Paper, 5);
            pen.Stroke(silence, Accent, 2.6);
        });
        pen.Stroke(lawn, Faint, 0.8);

        foreach (NeighbourLoop neighbour in yard.Neighbours)
        {
            pen.Stroke(new([Strand(neighbour.Path.Points)], false), Ink, 1.3, [9, 3, 2, 3]);
        }

        foreach (MetalObject metal in yard.Metal)
        {
            pen.Stroke(new([Strand(metal.Path.Points)], false), Faint, 5);
            pen.Stroke(new([Strand(metal.Path.Points)], false), Paper, 2, [3, 4]);
        }

        foreach (GuideWire guide in yard.Guides)
        {
            PicturePath line = new([Strand(guide.Path.Points)], false);
            pen.Stroke(line, Paper, 4);
            pen.Stroke(line, Ink, 1.6, GuideDashes);
        }

        PicturePath wire = new([Strand(yard.Loop.Path.Points)], false);
        pen.Stroke(wire, Paper, 4.5);
        pen.Stroke(wire, Ink, 2);
        foreach (PlanPoint joint in yard.Loop.Joints.Select(joint => yard.Loop.Path.PointAt(joint.AtMetres))
            .Concat(yard.Guides.SelectMany(guide => guide.Joints.Select(joint => guide.Path.PointAt(joint.AtMetres)))))
        {
            (double x, double y) = Place(joint);
            JointMark(pen, x, y);
        }

        (double stationX, double stationY) = Place(yard.Loop.Path.Points[0]);
        StationMark(pen, stationX, stationY);
        (double weakX, double weakY) = Place(_reach.Weakest.Point);
        WeakestMark(pen, weakX, weakY);
    }

    private void ScaleBar(IPicturePen pen)
    {
        // The longest round length within a quarter of the picture's width.
        double most = Width / 4 / _scale, power = Math.Pow(10, Math.Floor(Math.Log10(most)));
        double metres = most >= 5 * power ? 5 * power : most >= 2 * power ? 2 * power : power;
        double x = _left, y = Bottom + 22, length = metres * _scale;
        pen.Stroke(new([[(x, y - 5), (x, y), (x + length, y), (x + length, y - 5)]], false), Ink, 1.5);
        pen.Text(x + length + 10, y + 4, Say($"{metres:0.##} m"), 12, Ink);
    }

    private void Legend(IPicturePen pen)
    {
        double x = Margin, y = Bottom + 62;
        pen.Text(x, y - 10, "Signal margin, dB", 12, Ink);
        PicturePath silent = PicturePath.Rectangle(x, y, Box, 18);
        pen.Fill(silent, Bare);
        pen.Hatch(silent, "#C9BFA5");
        pen.Text(x + (Box / 2) - 6, y + 34, "none", 12, Ink, centred: true);
        for (int i = 0; i < MarginShade.All.Count; i++)
        {
            double left = x + ((i + 1) * Box);
            pen.Fill(PicturePath.Rectangle(left, y, Box, 18), MarginShade.All[i].Colour);
            pen.Text(left, y + 34, Say($"{MarginShade.All[i].Decibels:0}"), 12, Ink, centred: true);
        }

        pen.Stroke(PicturePath.Rectangle(x, y, (MarginShade.All.Count + 1) * Box, 18), Faint, 0.8);
        pen.Stroke(PicturePath.Line(x + Box, y, x + Box, y + 18), Accent, 2.6);

        Yard yard = _reach.Yard;
        List<(string Words, Action<double, double> Mark)> marks =
        [
            ("wire", (at, line) => pen.Stroke(PicturePath.Line(at - 11, line, at + 11, line), Ink, 2)),
            ("station", (at, line) => StationMark(pen, at, line)),
            ("limit of reception", (at, line) => pen.Stroke(PicturePath.Line(at - 11, line, at + 11, line), Accent, 2.6)),
            ("weakest place", (at, line) => WeakestMark(pen, at, line)),
        ];
        if (yard.Loop.Joints.Count > 0)
        {
            marks.Insert(2, ("joint", (at, line) => JointMark(pen, at, line)));
        }

        if (yard.Guides.Count > 0)
        {
            marks.Add(("guide wire", (at, line) => pen.Stroke(PicturePath.Line(at - 13, line, at + 13, line), Ink, 1.6, GuideDashes)));
        }

        if (yard.Metal.Count > 0)
        {
            marks.Add(("metal", (at, line) =>
            {
                pen.Stroke(PicturePath.Line(at - 11, line, at + 11, line), Faint, 5);
                pen.Stroke(PicturePath.Line(at - 11, line, at + 11, line), Paper, 2, [3, 4]);
            }
            ));
        }

        if (yard.Neighbours.Count > 0)
        {
            marks.Add(("neighbour's loop", (at, line) => pen.Stroke(PicturePath.Line(at - 13, line, at + 13, line), Ink, 1.3, [9, 3, 2, 3])));
        }

        for (int i = 0; i < marks.Count; i++)
        {
            double at = x + ((i % 4) * 145), line = y + 66 + ((i / 4) * 26);
            marks[i].Mark(at + 12, line);
            pen.Text(at + 32, line + 4, marks[i].Words, 12, Ink);
        }
    }

    private static void JointMark(IPicturePen pen, double x, double y)
    {
        pen.Fill(PicturePath.Circle(x, y, 5), Paper);
        pen.Stroke(PicturePath.Circle(x, y, 5), Ink, 1.6);
    }

    private static void StationMark(IPicturePen pen, double x, double y)
    {
        pen.Fill(PicturePath.Rectangle(x - 8, y - 8, 16, 16), Paper);
        pen.Fill(PicturePath.Rectangle(x - 6, y - 6, 12, 12), Ink);
    }

    private static void WeakestMark(IPicturePen pen, double x, double y)
    {
        foreach ((string colour, double width) in new[] { (Paper, 5.5), (Accent, 2.4) })
        {
            pen.Stroke(PicturePath.Line(x - 6, y - 6, x + 6, y + 6), colour, width);
            pen.Stroke(PicturePath.Line(x - 6, y + 6, x + 6, y - 6), colour, width);
        }
    }

    private PicturePath Rectangle(PlanPoint southWest, PlanPoint northEast)
    {
        (double left, double bottom) = Place(southWest);
        (double right, double top) = Place(northEast);
        return PicturePath.Rectangle(left, top, right - left, bottom - top);
    }

    private IReadOnlyList<(double X, double Y)> Strand(IReadOnlyList<PlanPoint> points) => [.. points.Select(Place)];

    private (double X, double Y) Place(PlanPoint point) =>
        (_left + ((point.EastMetres - _southWest.EastMetres) * _scale), Bottom - ((point.NorthMetres - _southWest.NorthMetres) * _scale));

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
