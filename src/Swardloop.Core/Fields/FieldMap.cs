using Swardloop.Core.Geometry;

namespace Swardloop.Core.Fields;

/// <summary>The vertical field per ampere on a regular grid. Immutable.</summary>
/// <remarks>Cost is linear in places × pieces of wire, and far less than that where both are large (see <see cref="FarFieldTree"/>, with its error); memory is
/// eight bytes for each place. Bits do not depend on the number of threads.</remarks>
public sealed class FieldMap
{
    private readonly double[] _fieldPerAmpere;

    /// <summary>Computes the map.</summary>
    /// <param name="field">Whose field.</param>
    /// <param name="grid">Where.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work between rows.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public FieldMap(PolylineField field, PlanGrid grid, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        Grid = grid;
        _fieldPerAmpere = new double[grid.Count];
        double[] east = [.. Enumerable.Range(0, grid.Columns).Select(column => grid[column, 0].EastMetres)];
        FarFieldTree? tree = field.TreeFor(grid[0, 0], grid[grid.Columns - 1, grid.Rows - 1], grid.Count, cancellation);
        RowWork.Run(
            grid.Rows,
            tree?.Terms ?? (long)grid.Count * field.SegmentCount,
            row =>
            {
                Span<double> here = _fieldPerAmpere.AsSpan(row * grid.Columns, grid.Columns);
                if (tree is null)
                {
                    field.FillRow(grid[0, row].NorthMetres, east, here);
                }
                else
                {
                    tree.FillRow(grid[0, row].NorthMetres, east, here);
                }
            },
            progress,
            cancellation);
    }

    /// <summary>Where the values lie.</summary>
    public PlanGrid Grid { get; }

    /// <summary>Field per ampere (1/m) of every place, row by row from the south, each row from the west; positive up.</summary>
    public ReadOnlySpan<double> FieldPerAmpere => _fieldPerAmpere;

    /// <summary>Field per ampere (1/m) at one place of the grid; positive up.</summary>
    public double this[int column, int row] => _fieldPerAmpere[(row * Grid.Columns) + column];
}
