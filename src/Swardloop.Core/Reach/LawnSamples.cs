using Swardloop.Core.Geometry;

namespace Swardloop.Core.Reach;

/// <summary>Places that cover a lawn evenly, each with the area it stands for, in rows from south to north.</summary>
/// <remarks>Rows are of equal height; on each row every stretch of lawn is divided evenly, so that straight edges along the axes are met exactly.</remarks>
internal sealed class LawnSamples
{
    private LawnSamples(double[] rowNorth, int[] rowStart, double[] east, double[] area) =>
        (RowNorthMetres, RowStart, EastMetres, AreaSquareMetres) = (rowNorth, rowStart, east, area);

    /// <summary>Northing of each row (m).</summary>
    public double[] RowNorthMetres { get; }

    /// <summary>Index of each row's first place; one entry more than rows.</summary>
    public int[] RowStart { get; }

    /// <summary>Easting of each place (m), row by row, west to east.</summary>
    public double[] EastMetres { get; }

    /// <summary>Area each place stands for (m²).</summary>
    public double[] AreaSquareMetres { get; }

    /// <summary>Number of places.</summary>
    public int Count => EastMetres.Length;

    /// <summary>Covers a lawn.</summary>
    /// <param name="lawn">The lawn.</param>
    /// <param name="cellMetres">Largest spacing of places (m), above zero.</param>
    public static LawnSamples Of(Lawn lawn, double cellMetres)
    {
        Guard.Positive(cellMetres);
        (PlanPoint southWest, PlanPoint northEast) = lawn.Bounds;
        double height = northEast.NorthMetres - southWest.NorthMetres;
        int rows = (int)Math.Max(1, Math.Ceiling((height / cellMetres) - 1e-9));
        double rowHeight = height / rows;
        double[] rowNorth = new double[rows];
        int[] rowStart = new int[rows + 1];
        double[][] stretches = new double[rows][];
        for (int row = 0; row < rows; row++)
        {
            rowNorth[row] = southWest.NorthMetres + ((row + 0.5) * rowHeight);
            stretches[row] = Stretches(lawn, rowNorth[row]);
            rowStart[row + 1] = rowStart[row];
            for (int at = 0; at < stretches[row].Length; at += 2)
            {
                rowStart[row + 1] += Cells(stretches[row][at], stretches[row][at + 1]);
            }
        }

        double[] east = new double[rowStart[^1]], area = new double[rowStart[^1]];
        int place = 0;
        foreach (double[] row in stretches)
        {
            for (int at = 0; at < row.Length; at += 2)
            {
                int cells = Cells(row[at], row[at + 1]);
                double width = (row[at + 1] - row[at]) / cells;
                for (int i = 0; i < cells; i++, place++)
                {
                    (east[place], area[place]) = (row[at] + ((i + 0.5) * width), width * rowHeight);
                }
            }
        }

        return new(rowNorth, rowStart, east, area);

        int Cells(double from, double to) => (int)Math.Max(1, Math.Ceiling(((to - from) / cellMetres) - 1e-9));
    }

    /// <summary>The stretches of lawn on a line from west to east, in order: where each begins and ends (m east), by turns.</summary>
    internal static double[] Stretches(Lawn lawn, double northMetres)
    {
        // Each ring covers the line between its crossings two by two; count how many rings and holes cover each stretch between crossings.
        List<Crossing> crossings = [];
        for (int i = 0; i < lawn.Rings.Count; i++)
        {
            AddCrossings(crossings, lawn.Rings[i], i, northMetres);
        }

        for (int i = 0; i < lawn.Holes.Count; i++)
        {
            AddCrossings(crossings, lawn.Holes[i], lawn.Rings.Count + i, northMetres);
        }

        crossings.Sort((a, b) => a.East.CompareTo(b.East));
        bool[] covers = new bool[lawn.Rings.Count + lawn.Holes.Count];
        double[] edges = new double[crossings.Count];
        int count = 0, rings = 0, holes = 0;
        for (int i = 0; i < crossings.Count; i++)
        {
            int ring = crossings[i].Ring;
            covers[ring] = !covers[ring];
            (ring < lawn.Rings.Count ? ref rings : ref holes) += covers[ring] ? 1 : -1;
            bool more = i + 1 < crossings.Count && crossings[i + 1].East == crossings[i].East;
            bool onLawn = rings > 0 && holes == 0, wasOnLawn = count % 2 == 1;
            if (!more && onLawn != wasOnLawn)
            {
                edges[count++] = crossings[i].East;
            }
        }

        double[] found = new double[count];
        Array.Copy(edges, found, count);
        return found;
    }

    private static void AddCrossings(List<Crossing> crossings, IReadOnlyList<PlanPoint> corners, int ring, double northMetres)
    {
        for (int i = 0, j = corners.Count - 1; i < corners.Count; j = i++)
        {
            PlanPoint a = corners[j], b = corners[i];
            if (a.NorthMetres > northMetres != b.NorthMetres > northMetres)
            {
                crossings.Add(new(a.EastMetres + ((northMetres - a.NorthMetres) / (b.NorthMetres - a.NorthMetres) * (b.EastMetres - a.EastMetres)), ring));
            }
        }
    }

    /// <summary>Where the line crosses a ring or hole; these are numbered, rings first.</summary>
    private sealed record Crossing(double East, int Ring);
}
