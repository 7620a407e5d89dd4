using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Drawn;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>The picture as it is now, against what the sound loop's closed forms and plain reasoning say of each fault.</summary>
public sealed class FaultyReachTests
{
    private const double Cell = 0.5;

    // A lawn of 24 m by 20 m, a fence along its east side, an island reached by a double run.
    private static readonly Yard Yard = new()
    {
        Name = "Teasel Corner",
        Lawn = new([[new(0, 0), new(24, 0), new(24, 20), new(0, 20)]], []),
        Loop = new()
        {
            Path = new([new(12, 0), new(24, 0), new(24, 20), new(12, 20), new(12, 14), new(14, 14), new(14, 10), new(10, 10), new(10, 14), new(12, 14), new(12, 20), new(0, 20), new(0, 0), new(12, 0)]),
            Conductor = new Conductor { AreaSquareMetres = 0.75e-6 },
        },
        Metal = [new("fence", new([new(24.5, 2), new(24.5, 18)]), 40)],
    };

    private static readonly LoopBudget Budget = LoopBudget.For(Yard);

    private static readonly double Required = new SignalBudget(Yard.Mower.ReachConstantOhmMetres, Yard.Station.SourceOhms, Budget.ReactanceOhms).RequiredFieldPerAmpere(Budget.ExpectedOhms.Nominal);

    private static readonly LoopReach Sound = new(Yard, Cell);

    private static readonly PlanPoint Middle = new(6, 5);

    private static FaultyReach Now(CauseKind kind, double? at = null, double? other = null, double ohms = 1, LoopState state = LoopState.Now) =>
        FaultyReach.Of(Yard, new(kind, at, other, ohms), state, Cell, cancellation: TestContext.Current.CancellationToken);

    // The network's line has the wire's capacitance and leakage too, which the closed form leaves out: they are thousandths at 10 kHz.
    [Fact]
    public void Ohms_in_series_give_the_picture_that_the_closed_form_gives()
    {
        SignalBudget signal = new(Yard.Mower.ReachConstantOhmMetres, Yard.Station.SourceOhms, Budget.ReactanceOhms);
        FaultyReach now = Now(CauseKind.SeriesResistance, at: 30, ohms: 400);

        double expected = Sound.StrengthAt(Middle) * signal.ImpedanceOhms(Budget.MeanOhms) / signal.ImpedanceOhms(Budget.MeanOhms + 400);
        Assert.Equal(1, now.Reach.StrengthAt(Middle) / expected, 0.02);
        Assert.Equal(Sound.HeardShare(signal.RequiredFieldPerAmpere(Budget.MeanOhms + 400) / signal.ImpedanceOhms(Budget.MeanOhms) * signal.ImpedanceOhms(Budget.ExpectedOhms.Nominal)), now.Reach.HeardShare(Required), 0.03);
        Assert.Null(now.MetalShare);
    }

    [Fact]
    public void A_sound_loop_and_a_fault_that_is_not_the_wires_leave_the_map_as_it_is()
    {
        Assert.Equal(Sound.StrengthAt(Middle), Now(CauseKind.SeriesResistance, at: 30, ohms: 400, state: LoopState.Sound).Reach.StrengthAt(Middle));
        Assert.Equal(Sound.StrengthAt(Middle), Now(CauseKind.Drive).Reach.StrengthAt(Middle));
    }

    [Fact]
    public void Swapped_ends_turn_inside_and_outside_about()
    {
        LoopReach swapped = Now(CauseKind.EndsSwapped).Reach;
        Assert.Equal(HeardSide.Inside, Sound.SideAt(Middle, Required / 10));
        Assert.Equal(HeardSide.Outside, swapped.SideAt(Middle, Required / 10));
        Assert.Equal(1, swapped.StrengthAt(Middle) / Sound.StrengthAt(Middle), 0.02);
    }

    [Fact]
    public void A_wet_break_and_a_dead_station_leave_hardly_anything()
    {
        Assert.InRange(Now(CauseKind.Open, at: 30, ohms: 200e3).Reach.StrengthAt(Middle) / Sound.StrengthAt(Middle), 0, 0.02);
        Assert.Equal(0, Now(CauseKind.Station).Reach.StrengthAt(Middle));
        Assert.Equal(0, Now(CauseKind.Station).Reach.HeardShare(Required));
    }

    // The run leaves the north side at 44 m and is back at 72 m; shorted at its mouth the island has no field of its own any more.
    [Fact]
    public void A_short_across_the_double_run_silences_the_islands_wire()
    {
        ServiceCase @case = new() { Yard = Yard };
        SupposedFault fault = SupposedFault.Of(@case, new(CauseKind.ShortCircuit), new(new(CauseKind.ShortCircuit), 46, 44, 50, 0.9), null, []);
        Assert.Equal(72, fault.OtherMetres!.Value, 2.1);

        LoopReach now = FaultyReach.Of(Yard, fault, LoopState.Now, Cell, cancellation: TestContext.Current.CancellationToken).Reach;
        PlanPoint inIsland = new(11, 11);
        Assert.True(Sound.FieldPerAmpereAt(inIsland) * Sound.FieldPerAmpereAt(Middle) < 0, "inside the island the field points the other way");
        Assert.True(now.FieldPerAmpereAt(inIsland) * now.FieldPerAmpereAt(Middle) > 0, "without it the island is lawn to the mower");
    }

    [Fact]
    public void Two_leaks_beside_the_fence_hardly_feed_it_and_practice_says_they_do()
    {
        // The fence stands beside the wire from 14 to 30 m.
        FaultyReach now = Now(CauseKind.LeakPair, 16, 28, 3000), practice = Now(CauseKind.LeakPair, 16, 28, 3000, LoopState.Practice);
        PlanPoint between = new(24.25, 10);

        Assert.InRange(now.MetalShare!.Value, 1e-7, 1e-2);
        // The wire's inductance against metal that has none: the wire's own current turns a little, and the metal carries more than the station gives.
        Assert.InRange(practice.MetalShare!.Value, 0.9, 1.02);
        Assert.Equal(1, now.Reach.FieldPerAmpereAt(between) / Sound.FieldPerAmpereAt(between), 0.02);
        Assert.True(practice.Reach.FieldPerAmpereAt(between) * Sound.FieldPerAmpereAt(between) < 0, "the fence carries the current: between it and the wire the field turns round");
        Assert.True(new SupposedFault(CauseKind.LeakPair, 16, 28, 3000).PracticeParts(Yard));
        Assert.False(new SupposedFault(CauseKind.LeakPair, 16, 60, 3000).PracticeParts(Yard));
    }

    [Fact]
    public void The_second_place_of_a_pair_is_the_likeliest_other_beside_the_same_metal()
    {
        ServiceCase @case = new() { Yard = Yard, Observations = [new Observation.EarthResistance(2200)] };
        SupposedFault believed = SupposedFault.Of(@case, new(CauseKind.LeakPair), new(new(CauseKind.LeakPair), 16, 15, 17, 0.9), null, [new(15, 17, 0.5), new(26, 28, 0.4), new(60, 62, 0.1)]);
        Assert.Equal((16.0, 27.0, 2200.0), (believed.AtMetres, believed.OtherMetres, believed.Ohms));

        SupposedFault unknown = SupposedFault.Of(@case, new(CauseKind.LeakPair), new(new(CauseKind.LeakPair), 16, 15, 17, 0.9), null, []);
        Assert.InRange(unknown.OtherMetres!.Value, 30, 30 + SupposedFault.BesideMetres);
    }

    [Fact]
    public void A_neighbour_takes_from_the_field()
    {
        Yard beside = Yard with { Neighbours = [new(new([new(25, 0), new(45, 0), new(45, 20), new(25, 20), new(25, 0)]), false, 4)] };
        LoopReach now = FaultyReach.Of(beside, new(CauseKind.Crosstalk, null, null, 1), LoopState.Now, Cell, cancellation: TestContext.Current.CancellationToken).Reach;
        Assert.True(now.StrengthAt(new(22, 10)) < Sound.StrengthAt(new(22, 10)));
    }
}
