using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial.Tests;

/// <summary>Accounts added up by hand from the contract's table at its own rates: 60 an hour, 15 for the owner, travel 45.</summary>
public class TrialWorldCostTests
{
    // Sums of a few decimal numbers: only rounding errors of the addition.
    private const double Tolerance = 1e-9;

    [Fact]
    public void Owners_steps_cost_double_time_at_the_rate_of_patience_and_no_travel()
    {
        TrialWorld world = Scene.World(new Fault(CauseKind.NoMains));
        world.Perform(Scene.Owner(StepKind.StationLamp));
        world.Perform(Scene.Owner(StepKind.OutletCheck));
        world.Perform(Scene.Owner(StepKind.RestoreMains));
        world.Perform(Scene.Owner(StepKind.MowerCheck));

        // (1 + 2 + 5 + 5) minutes × 2 × 15 / 60.
        Assert.Equal(6.5, world.Cost, Tolerance);
        Assert.False(world.Case.OnSite);
        Assert.True(world.MowerRuns);
        Assert.Equal(4, world.Steps);
    }

    [Fact]
    public void Travel_is_paid_once_by_the_first_technicians_step()
    {
        TrialWorld world = Scene.World(Scene.Series(20, 900, joint: true));
        world.Perform(new(StepKind.LoopResistance));
        Assert.Equal(45 + 5, world.Cost, Tolerance);
        Assert.True(world.Case.OnSite);

        world.Perform(new(StepKind.RemakeJoint) { AtMetres = 19.8 });
        world.Perform(Scene.Owner(StepKind.MowerCheck));
        Assert.Equal(45 + 5 + 12 + 2 + 2.5, world.Cost, Tolerance);
    }

    [Fact]
    public void A_cut_costs_more_than_a_joint_and_leaves_a_joint()
    {
        TrialWorld world = Scene.World(Scene.Break(50));
        world.Perform(new(StepKind.SplitResistance) { AtMetres = 60 });
        Assert.Equal(45 + 12 + 2, world.Cost, Tolerance);
        world.Perform(new(StepKind.SplitResistance) { AtMetres = 40 });
        Assert.Equal(59 + 20 + 4, world.Cost, Tolerance);
        world.Perform(new(StepKind.SplitResistance) { AtMetres = 40.2 });
        Assert.Equal(83 + 12 + 2, world.Cost, Tolerance);
    }

    [Fact]
    public void Lengths_are_paid_by_the_metre()
    {
        TrialWorld world = Scene.World(Scene.Break(50));

        // Look at 4 m: the least, 2 minutes; at 30 m: 9 minutes.
        world.Perform(new(StepKind.Look) { FromMetres = 10, ToMetres = 14 });
        world.Perform(new(StepKind.Look) { FromMetres = 10, ToMetres = 40 });
        Assert.Equal(45 + 2 + 9, world.Cost, Tolerance);

        // Span of 3 m: 10 + 12 minutes, 4 + 1.5 parts.
        world.Perform(new(StepKind.MendSpan) { FromMetres = 60, ToMetres = 63 });
        Assert.Equal(56 + 22 + 5.5, world.Cost, Tolerance);

        // Bypass from the south-east corner (20 m) to the north-east (50 m): 30 m straight, 10 + 3 minutes.
        world.Perform(new(StepKind.Bypass) { FromMetres = 20, ToMetres = 50 });
        Assert.Equal(83.5 + 13, world.Cost, Tolerance);

        // 100 m of new loop: 60 + 120 minutes, 50 parts.
        world.Perform(new(StepKind.RenewLoop));
        Assert.Equal(96.5 + 180 + 50, world.Cost, Tolerance);
    }

    [Fact]
    public void Oracle_pays_travel_the_right_repair_and_one_check()
    {
        // Joint: 45 + 12 + 2, the owner's check 5 × 2 × 15 / 60.
        Assert.Equal(45 + 14 + 2.5, Oracle.Cost(Scene.With(Scene.Series(60, 900, joint: true))), Tolerance);

        // One metre of span: 10 + 4 minutes, 4 + 0.5 parts.
        Assert.Equal(45 + 18.5 + 2.5, Oracle.Cost(Scene.With(Scene.Break(33))), Tolerance);

        // Mains, by the owner: no travel.
        Assert.Equal(2.5 + 2.5, Oracle.Cost(Scene.With(new Fault(CauseKind.NoMains))), Tolerance);

        // Two at once: both repairs, one journey.
        Assert.Equal(45 + 14 + 18.5 + 2.5, Oracle.Cost(Scene.With(Scene.Series(60, 900, joint: true), Scene.Break(33))), Tolerance);
    }

    [Fact]
    public void What_nobody_could_do_is_refused_and_not_paid()
    {
        TrialWorld world = Scene.World(Scene.Break(50));
        Assert.Throws<TrialRefusalException>(() => world.Perform(Scene.Owner(StepKind.ReplaceStation)));
        Assert.Throws<TrialRefusalException>(() => world.Perform(new(StepKind.ToneTrace) { AtMetres = 5 }));
        Assert.Throws<TrialRefusalException>(() => world.Perform(new(StepKind.MendSpan) { FromMetres = 90, ToMetres = 120 }));
        Assert.Throws<TrialRefusalException>(() => world.Perform(new(StepKind.RemakeJoint) { AtMetres = double.NaN }));
        Assert.Equal(0, world.Cost);
    }
}
