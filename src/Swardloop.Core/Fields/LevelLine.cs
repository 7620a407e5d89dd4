using Swardloop.Core.Geometry;

namespace Swardloop.Core.Fields;

/// <summary>A line along which a quantity on a grid has one value, the higher side on its left.</summary>
/// <param name="Points">The line; a closed one repeats its first point at the end.</param>
/// <param name="Closed">Whether it closes on itself; otherwise it ends at the grid's edge.</param>
public sealed record LevelLine(IReadOnlyList<PlanPoint> Points, bool Closed)
{
    // The sides of a cell: south, east, north, west. For each set of corners at or above the level (south-west 1, south-east 2, north-east 4,
    // north-west 8): from which side to which the line runs; two lines where opposite corners agree, first when the middle is low, then when high.
    private const int South = 0, East = 1, North = 2, West = 3;

    private static readonly (int From, int To)[][] Cases =
    [
        [], [(South, West)], [(East, South)], [(East, West)],
        [(North, East)], [(South, West), (North, East)], [(North, South)], [(North, West)],
        [(West, North)], [(South, North)], [(East, South), (West, North)], [(East, North)],
        [(West, East)], [(South, East)], [(West, South)], [],
    ];

    private static readonly (int From, int To)[] SaddleFiveHigh = [(South, East), (North, West)], SaddleTenHigh = [(West, South), (East, North)];

    /// <summary>Finds all lines of one level, by marching squares with linear interpolation along the grid's edges.</summary>
    /// <param name="grid">Where the values lie.</param>
    /// <param name="values">Values, row by row from the south, each row from the west; all finite.</param>
    /// <param name="level">The level. A value equal to it counts as above.</param>
    /// <returns>The lines, in the order in which a scan from the south-west meets them: the same for the same values.</returns>
    /// <exception cref="ArgumentException">Not one value for each place.</exception>
    /// <remarks>Source: Lorensen and Cline's marching cubes (1987) in the plane, textbook; saddles by the mean of the corners.</remarks>
    public static IReadOnlyList<LevelLine> Trace(PlanGrid grid, ReadOnlySpan<double> values, double level)
    {
        if (values.Length != grid.Count)
        {
            throw new ArgumentException("Needs one value for each place of the grid.", nameof(values));
        }

        // Each edge that a line crosses has at most one cell it comes from and one it goes to.
        Dictionary<int, int> next = [];
        HashSet<int> entered = [];
        List<int> order = [];
        for (int row = 0; row + 1 < grid.Rows; row++)
        {
            for (int column = 0; column + 1 < grid.Columns; column++)
            {
                int at = (row * grid.Columns) + column;
                double sw = values[at], se = values[at + 1], nw = values[at + grid.Columns], ne = values[at + grid.Columns + 1];
                int corners = (sw >= level ? 1 : 0) | (se >= level ? 2 : 0) | (ne >= level ? 4 : 0) | (nw >= level ? 8 : 0);
                bool high = corners is 5 or 10 && (sw + se + nw + ne) / 4 >= level;
                foreach ((int from, int to) in high ? (corners == 5 ? SaddleFiveHigh : SaddleTenHigh) : Cases[corners])
                {
                    int start = Edge(at, from, grid.Columns), end = Edge(at, to, grid.Columns);
                    next[start] = end;
                    entered.Add(end);
                    order.Add(start);
                }
            }
        }

        List<LevelLine> lines = [];
        foreach (int start in order.Where(edge => !entered.Contains(edge)).Concat(order))
        {
            if (!next.ContainsKey(start))
            {
                continue;
            }

            List<PlanPoint> points = [Crossing(grid, values, level, start)];
            int edge = start;
            while (next.Remove(edge, out int following))
            {
                points.Add(Crossing(grid, values, level, following));
                edge = following;
            }

            lines.Add(new(points, edge == start));
        }

        return lines;
    }

    // Twice the place's number for the edge eastward from it, one more for the edge northward.
    private static int Edge(int at, int side, int columns) => side switch
    {
        South => 2 * at,
        West => (2 * at) + 1,
        North => 2 * (at + columns),
        _ => (2 * (at + 1)) + 1,
    };

    private static PlanPoint Crossing(PlanGrid grid, ReadOnlySpan<double> values, double level, int edge)
    {
        int from = edge / 2, to = from + (edge % 2 == 0 ? 1 : grid.Columns);
        PlanPoint a = grid[from % grid.Columns, from / grid.Columns], b = grid[to % grid.Columns, to / grid.Columns];
        return a.Towards(b, (level - values[from]) / (values[to] - values[from]));
    }
}
