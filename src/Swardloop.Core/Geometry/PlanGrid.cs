namespace Swardloop.Core.Geometry;

/// <summary>A regular grid of places, row by row from south to north, each row from west to east.</summary>
/// <param name="SouthWest">The first place.</param>
/// <param name="SpacingMetres">Distance between neighbours (m), above zero.</param>
/// <param name="Columns">Places in a row, at least one.</param>
/// <param name="Rows">Rows, at least one.</param>
public readonly record struct PlanGrid(PlanPoint SouthWest, double SpacingMetres, int Columns, int Rows)
{
    /// <summary>Number of places.</summary>
    public int Count => Columns * Rows;

    /// <summary>The grid that covers a box, its last row and column on or just beyond the far edges.</summary>
    /// <param name="southWest">The box's south-west corner: the grid's first place.</param>
    /// <param name="northEast">Its north-east corner.</param>
    /// <param name="spacingMetres">Distance between neighbours (m), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The spacing is not above zero, or so fine that the grid has more than 100 million places.</exception>
    public static PlanGrid Covering(PlanPoint southWest, PlanPoint northEast, double spacingMetres)
    {
        Guard.Positive(spacingMetres);
        double columns = Math.Ceiling(((northEast.EastMetres - southWest.EastMetres) / spacingMetres) - 1e-9) + 1;
        double rows = Math.Ceiling(((northEast.NorthMetres - southWest.NorthMetres) / spacingMetres) - 1e-9) + 1;
        return columns * rows <= 1e8
            ? new(southWest, spacingMetres, (int)columns, (int)rows)
            : throw new ArgumentOutOfRangeException(nameof(spacingMetres), spacingMetres, "Too fine for this box: more than 100 million places.");
    }

    /// <summary>A place of the grid.</summary>
    public PlanPoint this[int column, int row] =>
        new(SouthWest.EastMetres + (column * SpacingMetres), SouthWest.NorthMetres + (row * SpacingMetres));
}
