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
        List<double> east = [], area = [];
        for (int row = 0; row < rows; row++)
        {
            rowNorth[row] = southWest.NorthMetres + ((row + 0.5) * rowHeight);
            foreach ((double from, double to) in Stretches(lawn, rowNorth[row]))
            {
                int cells = (int)Math.Max(1, Math.Ceiling(((to - from) / cellMetres) - 1e-9));
                double width = (to - from) / cells;
                for (int i = 0; i < cells; i++)
                {
                    east.Add(from + ((i + 0.5) * width));
                    area.Add(width * rowHeight);
                }
            }

            rowStart[row + 1] = east.Count;
        }

        return new(rowNorth, rowStart, [.. east], [.. area]);
    }

    /// <summary>The stretches of lawn on a line from west to east, in order.</summary>
    internal static IEnumerable<(double From, double To)> Stretches(Lawn lawn, double northMetres)
    {
        // Each ring covers the line between its crossings two by two; count how many rings and holes cover each stretch between crossings.
        List<(double East, int Rings, int Holes)> changes = [];
        foreach (IReadOnlyList<PlanPoint> ring in lawn.Rings)
        {
            changes.AddRange(Crossings(ring, northMetres).Select((east, i) => (east, i % 2 == 0 ? 1 : -1, 0)));
        }

        foreach (IReadOnlyList<PlanPoint> hole in lawn.Holes)
        {
            changes.AddRange(Crossings(hole, northMetres).Select((east, i) => (east, 0, i % 2 == 0 ? 1 : -1)));
        }

        changes.Sort((a, b) => a.East.CompareTo(b.East));
        int rings = 0, holes = 0;
        double? from = null;
        for (int i = 0; i < changes.Count; i++)
        {
            rings += changes[i].Rings;
            holes += changes[i].Holes;
            if (i + 1 < changes.Count && changes[i + 1].East == changes[i].East)
            {
                continue;
            }

            bool onLawn = rings > 0 && holes == 0;
            if (onLawn && from is null)
            {
                from = changes[i].East;
            }
            else if (!onLawn && from is { } start)
            {
                yield return (start, changes[i].East);
                from = null;
            }
        }
    }

    private static List<double> Crossings(IReadOnlyList<PlanPoint> ring, double northMetres)
    {
        List<double> crossings = [];
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            PlanPoint a = ring[j], b = ring[i];
            if (a.NorthMetres > northMetres != b.NorthMetres > northMetres)
            {
                crossings.Add(a.EastMetres + ((northMetres - a.NorthMetres) / (b.NorthMetres - a.NorthMetres) * (b.EastMetres - a.EastMetres)));
            }
        }

        crossings.Sort();
        return crossings;
    }
}
