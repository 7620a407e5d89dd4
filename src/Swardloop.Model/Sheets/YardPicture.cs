using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Pictures;

namespace Swardloop.Model.Sheets;

/// <summary>A yard in plan, north up: lawn, wire, numbered joints, the ends, and hatched where the mower is not reached. No words in it: they stand below, in the sheet's language.</summary>
public sealed class YardPicture
{
    private const double Side = 400, Edge = 18, JointRadius = 8;
    private const int MostCells = 140;
    private const string Grass = "#e9f2e4", Line = "#555555", Wire = "#1d4f91", Silent = "#a83232", Ink = "#111111";

    private readonly Yard _yard;
    private readonly double _scale, _left, _north;
    private readonly PicturePath _silent;

    /// <summary>Prepares a picture.</summary>
    /// <param name="reach">The yard's reach.</param>
    /// <param name="requiredFieldPerAmpere">The field from which on the mower is reached (1/m), above zero.</param>
    public YardPicture(LoopReach reach, double requiredFieldPerAmpere)
    {
        _yard = reach.Yard;
        (PlanPoint southWest, PlanPoint northEast) = Bounds(_yard);
        double width = northEast.EastMetres - southWest.EastMetres, height = northEast.NorthMetres - southWest.NorthMetres;
        _scale = (Side - (2 * Edge)) / Math.Max(width, height);
        (_left, _north) = (southWest.EastMetres, northEast.NorthMetres);
        (Width, Height) = ((width * _scale) + (2 * Edge), (height * _scale) + (2 * Edge));
        (_silent, SilentShare) = Silence(reach, requiredFieldPerAmpere);
    }

    /// <summary>Width (units of the picture).</summary>
    public double Width { get; }

    /// <summary>Height (units of the picture).</summary>
    public double Height { get; }

    /// <summary>Share of the lawn that the mower is not reached on.</summary>
    public double SilentShare { get; }

    /// <summary>Draws it.</summary>
    public void Draw(IPicturePen pen)
    {
        PicturePath lawn = new([.. _yard.Lawn.Rings.Concat(_yard.Lawn.Holes).Select(Points)], true);
        pen.Fill(lawn, Grass);
        if (_silent.Strands.Count > 0)
        {
            pen.Within(lawn, () => pen.Hatch(_silent, Silent));
        }

        pen.Stroke(lawn, Line, 0.7);
        foreach (GuideWire guide in _yard.Guides)
        {
            pen.Stroke(new([Points(guide.Path.Points)], false), Wire, 1.2, 4, 3);
        }

        pen.Stroke(new([Points(_yard.Loop.Path.Points)], false), Wire, 2);
        for (int i = 0; i < _yard.Loop.Joints.Count; i++)
        {
            Mark(pen, _yard.Loop.Path.PointAt(_yard.Loop.Joints[i].AtMetres), $"{i + 1}");
        }

        (double x, double y) = At(_yard.Loop.Path.Points[0]);
        pen.Fill(PicturePath.Rectangle(x - 6, y - 6, 12, 12), Ink);
    }

    private static (PlanPoint SouthWest, PlanPoint NorthEast) Bounds(Yard yard)
    {
        (PlanPoint a, PlanPoint b) = yard.Lawn.Bounds;
        double west = a.EastMetres, south = a.NorthMetres, east = b.EastMetres, north = b.NorthMetres;
        foreach (PlanPoint point in yard.Loop.Path.Points)
        {
            (west, east) = (Math.Min(west, point.EastMetres), Math.Max(east, point.EastMetres));
            (south, north) = (Math.Min(south, point.NorthMetres), Math.Max(north, point.NorthMetres));
        }

        return (new(west, south), new(east, north));
    }

    private (PicturePath Area, double Share) Silence(LoopReach reach, double required)
    {
        (PlanPoint southWest, PlanPoint northEast) = _yard.Lawn.Bounds;
        double step = Math.Max(northEast.EastMetres - southWest.EastMetres, northEast.NorthMetres - southWest.NorthMetres) / MostCells;
        PlanGrid grid = PlanGrid.Covering(southWest, northEast, step);
        double[] strength = reach.StrengthOn(grid);
        List<IReadOnlyList<(double, double)>> runs = [];
        for (int row = 0; row < grid.Rows; row++)
        {
            for (int column = 0, from = -1; column <= grid.Columns; column++)
            {
                bool silent = column < grid.Columns && strength[(row * grid.Columns) + column] < required;
                if (silent && from < 0)
                {
                    from = column;
                }
                else if (!silent && from >= 0)
                {
                    (double x1, double y1) = At(grid[from, row]);
                    (double x2, _) = At(grid[column, row]);
                    double half = step * _scale / 2;
                    runs.Add([(x1 - half, y1 - half), (x2 - half, y1 - half), (x2 - half, y1 + half), (x1 - half, y1 + half)]);
                    from = -1;
                }
            }
        }

        return (new(runs, true), 1 - reach.HeardShare(required));
    }

    private void Mark(IPicturePen pen, PlanPoint place, string number)
    {
        (double x, double y) = At(place);
        pen.Fill(PicturePath.Circle(x, y, JointRadius), "#ffffff");
        pen.Stroke(PicturePath.Circle(x, y, JointRadius), Wire, 1.2);
        pen.Text(x, y + 3.4, number, 9.5, Ink, centred: true);
    }

    private (double X, double Y)[] Points(IReadOnlyList<PlanPoint> points) => [.. points.Select(At)];

    private (double X, double Y) At(PlanPoint point) => (Edge + ((point.EastMetres - _left) * _scale), Edge + ((_north - point.NorthMetres) * _scale));
}
