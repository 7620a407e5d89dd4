namespace Swardloop.Drawing.Tests;

public class PanAndPinchTests
{
    private static readonly PlanView View = new(400, 300, 0, 30, 10);

    [Fact]
    public void A_press_that_stays_is_a_touch()
    {
        PanAndPinch pinch = new();
        Assert.Same(View, pinch.Take(new(PointerStage.Down, 1, 50, 60, true), View, out _));
        Assert.Same(View, pinch.Take(new(PointerStage.Move, 1, 54, 62, true), View, out _));
        Assert.Same(View, pinch.Take(new(PointerStage.Up, 1, 54, 62, true), View, out PointerTouch? tapped));
        Assert.Equal((54, 62), (tapped!.Value.X, tapped.Value.Y));
    }

    [Fact]
    public void One_pointer_pushes_the_paper()
    {
        PanAndPinch pinch = new();
        _ = pinch.Take(new(PointerStage.Down, 1, 50, 60, false), View, out _);
        PlanView moved = pinch.Take(new(PointerStage.Move, 1, 80, 40, false), View, out _);
        Assert.True(moved.ToPlan(80, 40).DistanceTo(View.ToPlan(50, 60)) < 1e-9);
        _ = pinch.Take(new(PointerStage.Up, 1, 80, 40, false), moved, out PointerTouch? tapped);
        Assert.Null(tapped);
    }

    [Fact]
    public void Two_fingers_keep_what_is_under_them()
    {
        PanAndPinch pinch = new();
        _ = pinch.Take(new(PointerStage.Down, 1, 100, 100, true), View, out _);
        _ = pinch.Take(new(PointerStage.Down, 2, 200, 100, true), View, out _);
        PlanView view = pinch.Take(new(PointerStage.Move, 2, 300, 100, true), View, out _);
        Assert.Equal(20, view.PixelsPerMetre, 1e-9);
        Assert.True(view.ToPlan(100, 100).DistanceTo(View.ToPlan(100, 100)) < 1e-9);
        Assert.True(view.ToPlan(300, 100).DistanceTo(View.ToPlan(200, 100)) < 1e-9);
        _ = pinch.Take(new(PointerStage.Up, 2, 300, 100, true), view, out PointerTouch? tapped);
        Assert.Null(tapped);
    }

    [Fact]
    public void What_the_system_takes_away_is_no_touch()
    {
        PanAndPinch pinch = new();
        _ = pinch.Take(new(PointerStage.Down, 1, 50, 60, true), View, out _);
        _ = pinch.Take(new(PointerStage.Cancel, 1, 50, 60, true), View, out PointerTouch? tapped);
        Assert.Null(tapped);
        Assert.False(pinch.IsActive);
    }
}
