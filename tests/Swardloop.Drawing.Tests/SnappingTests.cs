using Swardloop.Core.Geometry;

namespace Swardloop.Drawing.Tests;

public class SnappingTests
{
    private static readonly Snapping Snaps = new(0.5, 0.1);

    [Fact]
    public void An_end_in_reach_is_met_exactly() =>
        Assert.Equal(new(new(3.333, 4), SnapKind.End), Snaps.Of(new(3.5, 4.2), [new(0, 0), new(3.333, 4)], []));

    [Fact]
    public void A_leg_becomes_square_to_the_leg_before_it()
    {
        // The leg before runs to the north-east; square to it is north-west.
        SnappedPoint snapped = Snaps.Of(new(2.1, 8.2), [], [(new(5, 5), new PlanPoint(0, 0))]);
        Assert.Equal(SnapKind.RightAngle, snapped.Kind);
        Assert.Equal(0, ((snapped.Point.EastMetres - 5) * 5) + ((snapped.Point.NorthMetres - 5) * 5), 0.1);
    }

    [Fact]
    public void Due_north_of_one_neighbour_and_due_east_of_the_other_meet_in_a_corner() =>
        Assert.Equal(new(new(10, 8), SnapKind.RightAngle), Snaps.Of(new(10.2, 7.8), [], [(new(10, 0), null), (new(0, 8), null)]));

    [Fact]
    public void Lengths_on_a_right_angle_are_round() =>
        Assert.Equal(new(new(7.3, 0), SnapKind.RightAngle), Snaps.Of(new(7.33, 0.2), [], [(new(0, 0), null)]));

    [Fact]
    public void Elsewhere_the_grid_is_met() =>
        Assert.Equal(SnapKind.Grid, Snaps.Of(new(7.33, 5.27), [], [(new(0, 0), null)]).Kind);

    [Fact]
    public void Without_snapping_a_place_lies_where_it_was_put_to_a_centimetre() =>
        Assert.Equal(new(new(7.33, 0.2), SnapKind.None), new Snapping(0, 0.1).Of(new(7.333, 0.2), [new(7.3, 0.2)], [(new(0, 0), null)]));
}
