using Swardloop.Core.Geometry;
using Swardloop.Core.MowerRun;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.MowerRun;

public sealed class MowerSimulationTests
{
    private static readonly PlanPoint[] Rectangle = [new(0, 0), new(18, 0), new(18, 11), new(0, 11)];

    // Mean chord of random lines through a convex area: π A / P (Cauchy and Crofton; Santaló 1976, from memory). A mower that rolls nowhere past the wire.
    // Stated error: four standard errors of the mean of some ten thousand legs, 2 %, and 2 % for corners, where the way back is not square to one wire.
    [Fact]
    public void The_mean_leg_is_the_mean_chord_of_random_lines()
    {
        RunOutcome outcome = Simulation(Rectangle, 3, new() { MostOvershootMetres = 0 }).Simulate(40, 6, 3, TestContext.Current.CancellationToken);
        double chord = Math.PI * (18 * 11) / (2 * (18 + 11));
        Assert.True(outcome.Legs > 5_000, $"{outcome.Legs} legs");
        Assert.InRange(outcome.MeanLegMetres, 0.96 * chord, 1.04 * chord);
        Assert.Empty(outcome.Stuck);
        Assert.Equal(0, outcome.TurnedEarlyShare);
    }

    // Strips of width w thrown at random cover 1 − exp(−w S / A) of an area A after S metres (Poisson model; stated error: 4 points of a hundred,
    // for edges, where strips from one side only pass, and for strips that follow each other).
    [Fact]
    public void Coverage_follows_the_law_of_strips_thrown_at_random()
    {
        MowerHabits habits = new() { MostOvershootMetres = 0 };
        RunOutcome outcome = Simulation(Rectangle, 3, habits).Simulate(3, 16, 4, TestContext.Current.CancellationToken);
        foreach (MownShare mown in outcome.Mown)
        {
            double metres = mown.Hours * 3600 * outcome.MeanLegMetres / ((outcome.MeanLegMetres / habits.SpeedMetresPerSecond) + habits.TurnSeconds);
            double law = 1 - Math.Exp(-habits.CutWidthMetres * metres / (18 * 11));
            Assert.InRange(mown.Median, law - 0.04, law + 0.04);
            Assert.True(mown.Low <= mown.Median && mown.Median <= mown.High);
        }
    }

    [Theory]
    [InlineData(3)]
    [InlineData(600)]
    public void What_the_mower_hears_at_each_step_is_the_fields_answer(double ohms)
    {
        Yard yard = YardOf(Rectangle);
        LoopReach reach = new(yard);
        double required = new SignalBudget(4581, 107, 0).RequiredFieldPerAmpere(ohms);
        int steps = 0, turns = 0;
        PlanPoint? before = null;
        new MowerSimulation(reach, required).Follow(0.3, 7, 0, step =>
        {
            Assert.Equal(reach.SideAt(step.Place, required), step.Heard);
            Assert.Equal(step.Heard != HeardSide.Inside, step.EndsLeg);

            // Nor did it pass anything between two steps of a leg.
            if (before is PlanPoint from && !step.EndsLeg)
            {
                Assert.Equal(HeardSide.Inside, reach.SideAt(from.Towards(step.Place, 0.5), required));
            }

            before = step.EndsLeg ? null : step.Place;
            steps++;
            turns += step.EndsLeg ? 1 : 0;
        });
        Assert.True(steps > 100 && turns > 10, $"{steps} steps, {turns} turns");
    }

    [Fact]
    public void With_more_ohms_less_is_mown_and_the_mower_turns_early()
    {
        RunOutcome sound = Simulation(Rectangle, 3).Simulate(6, 6, 1, TestContext.Current.CancellationToken), bad = Simulation(Rectangle, 800).Simulate(6, 6, 1, TestContext.Current.CancellationToken);
        Assert.True(sound.Mown[^1].Median > 0.9, $"{sound.Mown[^1]}");
        Assert.True(bad.Mown[^1].Median < sound.Mown[^1].Median - 0.2, $"{bad.Mown[^1]}");
        Assert.True(bad.TurnedEarlyShare > 0.2);
    }

    [Fact]
    public void Without_any_signal_every_run_ends_where_it_starts()
    {
        StuckPlace stuck = Assert.Single(Simulation(Rectangle, 1e6).Simulate(1, 4, 1, TestContext.Current.CancellationToken).Stuck);
        Assert.Equal((1.0, StuckReason.NoSignalAtStart), (stuck.Share, stuck.Reason));
    }

    [Fact]
    public void The_same_seed_gives_the_same_picture_and_another_seed_another()
    {
        MowerSimulation simulation = Simulation(Rectangle, 3);
        Assert.Equal(simulation.Simulate(1, 4, 5, TestContext.Current.CancellationToken).Mown, simulation.Simulate(1, 4, 5, TestContext.Current.CancellationToken).Mown);
        Assert.NotEqual(simulation.Simulate(1, 4, 5, TestContext.Current.CancellationToken).Mown, simulation.Simulate(1, 4, 6, TestContext.Current.CancellationToken).Mown);
    }

    private static MowerSimulation Simulation(PlanPoint[] corners, double ohms, MowerHabits? habits = null) =>
        new(new LoopReach(YardOf(corners)), new SignalBudget(4581, 107, 0).RequiredFieldPerAmpere(ohms), habits);

    private static Yard YardOf(PlanPoint[] corners) => new()
    {
        Name = "test",
        Lawn = new([corners], []),
        Loop = new() { Path = new([.. corners, corners[0]]), Conductor = new() { AreaSquareMetres = 1.5e-6 } },
    };
}
