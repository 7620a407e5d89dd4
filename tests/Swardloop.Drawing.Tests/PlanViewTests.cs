using CsCheck;
using Swardloop.Core.Geometry;

namespace Swardloop.Drawing.Tests;

public class PlanViewTests
{
    private static readonly Gen<PlanView> Views = Gen.Select(Gen.Double[200, 2000], Gen.Double[200, 2000], Gen.Double[-500, 500], Gen.Double[-500, 500], Gen.Double[0.05, 500])
        .Select((width, height, west, north, scale) => new PlanView(width, height, west, north, scale));

    [Fact]
    public void A_place_comes_back_from_the_screen() => Gen.Select(Views, Gen.Double[-300, 300], Gen.Double[-300, 300]).Sample((view, east, north) =>
    {
        (double x, double y) = view.ToScreen(new(east, north));
        Assert.True(view.ToPlan(x, y).DistanceTo(new(east, north)) < 1e-6);
    });

    [Fact]
    public void North_is_up()
    {
        PlanView view = PlanView.Fit(new(0, 0), new(10, 10), 400, 400);
        Assert.True(view.ToScreen(new(5, 9)).Y < view.ToScreen(new(5, 1)).Y);
        Assert.True(view.ToScreen(new(9, 5)).X > view.ToScreen(new(1, 5)).X);
    }

    [Fact]
    public void Fit_shows_the_whole_box_in_the_middle() => Gen.Select(Gen.Double[0.5, 300], Gen.Double[0.5, 300], Gen.Double[120, 2000], Gen.Double[120, 2000]).Sample((east, north, width, height) =>
    {
        PlanView view = PlanView.Fit(new(-3, 7), new(-3 + east, 7 + north), width, height);
        (double left, double bottom) = view.ToScreen(new(-3, 7));
        (double right, double top) = view.ToScreen(new(-3 + east, 7 + north));
        Assert.True(left >= 0 && top >= 0 && right <= width && bottom <= height);
        Assert.Equal(left, width - right, 1e-6);
        Assert.Equal(top, height - bottom, 1e-6);
    });

    [Fact]
    public void Zooming_keeps_the_spot_under_the_pointer() => Gen.Select(Views, Gen.Double[0.2, 5], Gen.Double[0, 200], Gen.Double[0, 200]).Sample((view, factor, x, y) =>
        Assert.True(view.Zoomed(factor, x, y).ToPlan(x, y).DistanceTo(view.ToPlan(x, y)) < 1e-6));

    [Fact]
    public void Zoom_has_ends()
    {
        PlanView view = new(400, 400, 0, 0, 10);
        Assert.Equal(PlanView.MostPixelsPerMetre, view.Zoomed(1e9, 0, 0).PixelsPerMetre);
        Assert.Equal(PlanView.LeastPixelsPerMetre, view.Zoomed(1e-9, 0, 0).PixelsPerMetre);
    }

    [Fact]
    public void Scale_bar_is_the_longest_round_length_that_fits() => Gen.Select(Views, Gen.Double[20, 400]).Sample((view, most) =>
    {
        (double metres, double pixels) = view.ScaleBar(most);
        double mantissa = metres / Math.Pow(10, Math.Floor(Math.Log10(metres) + 1e-9));
        Assert.Contains(Math.Round(mantissa, 6), new[] { 1.0, 2, 5 });
        Assert.True(pixels <= most * (1 + 1e-9) && pixels * 2.5 > most * (1 - 1e-9));
    });

    [Fact]
    public void Another_size_keeps_the_middle()
    {
        PlanView view = PlanView.Fit(new(0, 0), new(10, 20), 400, 300).Resized(900, 200);
        Assert.True(view.Centre.DistanceTo(new PlanPoint(5, 10)) < 1e-9);
    }
}
