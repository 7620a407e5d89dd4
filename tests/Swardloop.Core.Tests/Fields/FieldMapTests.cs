using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

public sealed class FieldMapTests
{
    private static readonly PolylineField Loop = new(EllipticCircle.Polygon(new(10, 10), 9, 37), 0.12);
    private static readonly PlanGrid Grid = PlanGrid.Covering(new(0, 0), new(20, 15), 0.37);

    [Fact]
    public void A_map_holds_each_place_s_own_field()
    {
        FieldMap map = new(Loop, Grid);

        Assert.Equal(Grid.Count, map.FieldPerAmpere.Length);
        for (int row = 0; row < Grid.Rows; row += 7)
        {
            for (int column = 0; column < Grid.Columns; column += 5)
            {
                Assert.Equal(Loop.VerticalFieldPerAmpere(Grid[column, row]), map[column, row]);
            }
        }
    }

    [Fact]
    public void Progress_rises_to_one()
    {
        Steps steps = new();
        _ = new FieldMap(Loop, Grid, steps);

        Assert.Equal(Grid.Rows, steps.Shares.Count);
        Assert.Equal(steps.Shares.Order(), steps.Shares);
        Assert.Equal(1, steps.Shares[^1]);
    }

    [Fact]
    public void Cancelling_ends_the_work_part_way()
    {
        using CancellationTokenSource source = new();
        Steps steps = new(share =>
        {
            if (share > 0.2)
            {
                source.Cancel();
            }
        });

        Assert.ThrowsAny<OperationCanceledException>(() => new FieldMap(Loop, Grid, steps, source.Token));
        Assert.True(steps.Shares.Count < Grid.Rows);
    }

    [Fact]
    public void A_grid_covers_its_box()
    {
        Assert.Equal((55, 42), (PlanGrid.Covering(new(0, 0), new(20, 15), 0.375).Columns, Grid.Rows));
        Assert.Equal(new PlanPoint(20, 15), PlanGrid.Covering(new(0, 0), new(20, 15), 2.5)[8, 6]);
        Assert.Throws<ArgumentOutOfRangeException>(() => PlanGrid.Covering(new(0, 0), new(1e6, 1e6), 0.1));
    }

    private sealed class Steps(Action<double>? then = null) : IProgress<double>
    {
        public List<double> Shares { get; } = [];

        public void Report(double value)
        {
            Shares.Add(value);
            then?.Invoke(value);
        }
    }
}
