using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Reach;

/// <summary>Common practice, no source: what the trade knows about resistance and reach. The default profile was fitted to two of these facts
/// (the first two tests); the others must come out by themselves.</summary>
public sealed class PracticeFactsTests
{
    private static readonly LoopReach SixByEight = new(Rectangle(6, 8));
    private static readonly LoopReach TwentyBySeventy = new(Rectangle(20, 70));
    private static readonly SignalBudget Budget = SignalBudget.Of(Rectangle(6, 8), inductanceHenry: 0);

    // 557 Ω and "about 2 m": the fit itself gives 2.0 to two figures.
    [Fact]
    public void Five_hundred_and_fifty_seven_ohms_reach_two_metres_on_a_six_metre_lawn() =>
        Assert.Equal(2.0, ReachMetres(557), tolerance: 0.01);

    [Fact]
    public void A_loop_twenty_metres_wide_falls_silent_at_the_centre_at_forty_five_ohms()
    {
        Assert.Equal(45, Budget.LimitOhms(TwentyBySeventy.FieldPerAmpereAt(new(10, 35)))!.Value, tolerance: 0.5);
        Assert.Equal(45, Budget.LimitOhms(TwentyBySeventy.Weakest.FieldPerAmpere)!.Value, tolerance: 0.5);
    }

    [Fact]
    public void Two_hundred_and_fifty_ohms_still_cover_a_six_metre_lawn()
    {
        Assert.True(SixByEight.Profile.At(Budget.RequiredFieldPerAmpere(250)).CoversEverything);
        Assert.Equal(1, SixByEight.HeardShare(Budget.RequiredFieldPerAmpere(250)));
    }

    [Fact]
    public void A_six_metre_lawn_has_its_first_silent_spot_at_about_five_hundred_ohms_in_the_middle()
    {
        Assert.Equal(500, Budget.LimitOhms(SixByEight.Weakest.FieldPerAmpere)!.Value, tolerance: 2);
        Assert.InRange(SixByEight.Weakest.Point.DistanceTo(new(3, 4)), 0, 0.01);
    }

    // "runs beside the wire" put in figures by the default profile: 0.8 m.
    [Fact]
    public void A_thousand_and_thirty_ohms_leave_a_strip_beside_the_wire() =>
        Assert.Equal(0.8, ReachMetres(1030), tolerance: 0.02);

    // "40-50 Ω is the most that one gets away with", and a lamp worth having would warn at 50-60 Ω: nothing is lost at 40 Ω, a
    // good part of the lawn (more than a twentieth) at 60 Ω.
    [Fact]
    public void Between_forty_and_sixty_ohms_a_loop_twenty_metres_wide_loses_its_middle()
    {
        Assert.Equal(1, TwentyBySeventy.HeardShare(Budget.RequiredFieldPerAmpere(40)));
        Assert.InRange(TwentyBySeventy.HeardShare(Budget.RequiredFieldPerAmpere(60)), 0.5, 0.95);
    }

    private static double ReachMetres(double ohms)
    {
        ReachDistance reach = SixByEight.Profile.At(Budget.RequiredFieldPerAmpere(ohms));
        Assert.False(reach.CoversEverything);
        return reach.Metres;
    }

    private static Yard Rectangle(double eastMetres, double northMetres)
    {
        PlanPoint[] corners = [new(0, 0), new(eastMetres, 0), new(eastMetres, northMetres), new(0, northMetres)];
        return new()
        {
            Name = "Trial square",
            Lawn = new Lawn([corners], []),
            Loop = new Loop { Path = new WirePath([.. corners, corners[0]]), Conductor = new Conductor { AreaSquareMetres = 0.75e-6 } },
        };
    }
}
