using Swardloop.Core.Geometry;

namespace Swardloop.Core.MowerRun;

/// <summary>The lawn in small squares, and which of them were mown.</summary>
internal sealed class MownCells
{
    private const byte Off = 0, Standing = 1, Mown = 2;

    private readonly PlanGrid _grid;
    private readonly byte[] _cells;
    private int _mown;

    private MownCells(PlanGrid grid, byte[] cells, int all) => (_grid, _cells, All) = (grid, cells, all);

    /// <summary>Squares of lawn.</summary>
    public int All { get; }

    /// <summary>Share of them that was mown, 0 to 1.</summary>
    public double Share => (double)_mown / All;

    /// <summary>A lawn, unmown.</summary>
    public static MownCells Of(Lawn lawn, double cutWidthMetres)
    {
        const double MostCells = 100_000;
        double cell = Math.Max(cutWidthMetres / 3, Math.Sqrt(lawn.AreaSquareMetres / MostCells));
        (PlanPoint southWest, PlanPoint northEast) = lawn.Bounds;
        PlanGrid grid = PlanGrid.Covering(southWest, northEast, cell);
        byte[] cells = new byte[grid.Count];
        int all = 0;
        for (int row = 0; row < grid.Rows; row++)
        {
            for (int column = 0; column < grid.Columns; column++)
            {
                PlanPoint corner = grid[column, row];
                if (lawn.Contains(new(corner.EastMetres + (cell / 2), corner.NorthMetres + (cell / 2))))
                {
                    cells[(row * grid.Columns) + column] = Standing;
                    all++;
                }
            }
        }

        return new(grid, cells, Math.Max(1, all));
    }

    /// <summary>The same lawn, unmown again.</summary>
    public MownCells Fresh() => new(_grid, [.. _cells.Select(cell => cell == Off ? Off : Standing)], All);

    /// <summary>Mows a straight strip.</summary>
    public void Mow(PlanPoint from, PlanPoint to, double widthMetres)
    {
        // Whatever square a strip touches counts as mown; a strip narrower by one square touches, on average, what the whole strip covers.
        double length = from.DistanceTo(to), half = _grid.SpacingMetres / 2;
        widthMetres = Math.Max(0, widthMetres - _grid.SpacingMetres);
        if (!(length > 0))
        {
            return;
        }

        int along = (int)Math.Ceiling(length / half), across = (int)Math.Ceiling(widthMetres / half);
        double east = (to.EastMetres - from.EastMetres) / length, north = (to.NorthMetres - from.NorthMetres) / length;
        for (int i = 0; i <= along; i++)
        {
            PlanPoint middle = from.Towards(to, (double)i / along);
            for (int j = 0; j <= across; j++)
            {
                double aside = across == 0 ? 0 : ((double)j / across * widthMetres) - (widthMetres / 2);
                Mark(middle.EastMetres - (aside * north), middle.NorthMetres + (aside * east));
            }
        }
    }

    private void Mark(double east, double north)
    {
        double column = Math.Floor((east - _grid.SouthWest.EastMetres) / _grid.SpacingMetres), row = Math.Floor((north - _grid.SouthWest.NorthMetres) / _grid.SpacingMetres);
        if (column >= 0 && row >= 0 && column < _grid.Columns && row < _grid.Rows)
        {
            ref byte cell = ref _cells[((int)row * _grid.Columns) + (int)column];
            if (cell == Standing)
            {
                cell = Mown;
                _mown++;
            }
        }
    }
}
