using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Trial.Tests;

public class TrialWorldPhysicsTests
{
    private const double WireOhms = 1.724;

    // Rectangle (0,0)–(30,20), references B2 (two routes there), in A/m per A: B / µ0. Tolerance 1e-6 as given there.
    [Theory]
    [InlineData(5, 3, 0, 100.4061137)]
    [InlineData(15, 10, 0.3, 48.03152563)]
    [InlineData(15, 1, 0.15, 213.02877)]
    [InlineData(15, -1, 0.15, 179.6591365)]
    public void Unit_field_matches_the_reference_rectangle(double east, double north, double height, double nanotesla)
    {
        Yard yard = new()
        {
            Name = "reference",
            Lawn = new([[new(0, 0), new(30, 0), new(30, 20), new(0, 20)]], []),
            Loop = new()
            {
                Path = new([new(0, 0), new(30, 0), new(30, 20), new(0, 20), new(0, 0)]),
                Conductor = new() { AreaSquareMetres = 1e-6 },
                DepthMetres = height,
            },
            Mower = new() { SensorHeightMetres = 0 },
        };
        double expected = nanotesla * 1e-9 / (4e-7 * Math.PI);
        Assert.Equal(expected, new YardPhysics(yard).UnitField(new(east, north)), expected * 1e-6);
    }

    // Common practice, no source: references P5 and the profile fitted there, 6 m × 8 m, sensor 0.12 m up, reactance neglected.
    // Reach 2.0 m at 557 Ω (fitted), full cover at 250 Ω, about 0.8 m at 1030 Ω. Tolerance: the world walks in sixtieths of 3 m.
    [Theory]
    [InlineData(557, 2.0)]
    [InlineData(1030, 0.8)]
    public void Reach_is_that_of_common_practice(double ohms, double metres)
    {
        Yard yard = Square(6, 8);
        (double reached, bool all) = new YardPhysics(yard).ReachMetres((107 + ohms) / 4581);
        Assert.False(all);
        Assert.Equal(metres, reached, 0.1);
    }

    [Fact]
    public void Six_metres_are_covered_at_250_ohms() =>
        Assert.True(new YardPhysics(Square(6, 8)).ReachMetres((107 + 250) / 4581.0).AllTheWay);

    // Rectangle 30 m × 20 m, radius 0.6 mm: 201.5208791 µH, references B4. Tolerance 1e-4 as given there.
    [Fact]
    public void Inductance_matches_the_reference_rectangle() =>
        Assert.Equal(201.5208791e-6, new YardPhysics(Square(30, 20)).InductanceHenry, 201.5e-6 * 1e-4);

    [Fact]
    public void Sound_loop_reads_its_wire_and_its_leads()
    {
        Observation.LoopResistance seen = Reading(Scene.World(new Fault(CauseKind.Drive)));

        // 3 digits of 0.1 Ω on the meter, and half a digit in the leads' noted value.
        Assert.Equal(WireOhms + seen.LeadOhms, seen.Ohms!.Value, 0.4);
    }

    [Fact]
    public void Series_resistance_adds_and_a_break_is_over_range()
    {
        Observation.LoopResistance seen = Reading(Scene.World(Scene.Series(40, 550)));
        // 3 digits of 1 Ω on this range and half the last.
        Assert.Equal(550 + WireOhms + seen.LeadOhms, seen.Ohms!.Value, 4.0);
        Assert.Null(Reading(Scene.World(Scene.Break(40))).Ohms);
    }

    [Fact]
    public void A_split_tells_the_side_and_opening_the_bad_joint_cures()
    {
        TrialWorld world = Scene.World(Scene.Series(20, 700, joint: true));
        Observation.SplitResistance at60 = (Observation.SplitResistance)world.Perform(new(StepKind.SplitResistance) { AtMetres = 60 });
        Assert.Equal(700 + (0.6 * WireOhms) + at60.LeadOhms, at60.OhmsA!.Value, 4.0);
        Assert.Equal((0.4 * WireOhms) + at60.LeadOhms, at60.OhmsB!.Value, 0.5);
        Assert.False(world.MowerRuns);

        Observation.SplitResistance at20 = (Observation.SplitResistance)world.Perform(new(StepKind.SplitResistance) { AtMetres = 20.2 });
        Assert.True(at20.OhmsA < 3 && at20.OhmsB < 4);
        Assert.True(world.MowerRuns);
    }

    [Fact]
    public void Capacitance_divides_at_the_break()
    {
        Observation.EndCapacitance seen = (Observation.EndCapacitance)Scene.World(Scene.Break(30)).Perform(new(StepKind.EndCapacitance));

        // 30 m and 70 m of 250 pF/m; leads of up to 60 pF and a reading in hundredths of a nanofarad.
        Assert.Equal(7.5e-9, seen.FaradA, 0.08e-9);
        Assert.Equal(17.5e-9, seen.FaradB, 0.08e-9);
    }

    [Fact]
    public void Earth_ratio_points_at_one_leak_and_between_two()
    {
        Observation.EarthRatio one = Ratio(new Fault(CauseKind.Leak) { AtMetres = 25, Ohms = 500 });
        Assert.Equal(0.25, one.VoltsA / (one.VoltsA + one.VoltsB), 0.01);

        // Equal leaks at 20 and 40 m of 100 m: the mean of both, references D1.
        Observation.EarthRatio two = Ratio(new Fault(CauseKind.LeakPair) { AtMetres = 20, SecondAtMetres = 40, Ohms = 300, SecondOhms = 300 });
        Assert.Equal(0.30, two.VoltsA / (two.VoltsA + two.VoltsB), 0.01);
    }

    // The wire that is bypassed drops out of the reading together with the fault in it.
    [Fact]
    public void Bypass_of_most_of_the_loop_reads_less_than_the_sound_loop()
    {
        TrialWorld world = Scene.World(Scene.Series(40, 900));
        double bypassed = ((Observation.Bypass)world.Perform(new(StepKind.Bypass) { FromMetres = 5, ToMetres = 95 })).Ohms!.Value;
        world.Perform(new(StepKind.MendSpan) { FromMetres = 38, ToMetres = 42 });
        Assert.True(bypassed < Reading(world).Ohms, $"{bypassed} Ω bypassed");
    }

    [Fact]
    public void Tone_says_nothing_of_series_resistance_and_ends_at_a_break()
    {
        TrialWorld series = Scene.World(Scene.Series(40, 900)), broken = Scene.World(Scene.Break(40));
        Assert.All(new[] { 10.0, 39, 41, 90 }, at => Assert.Equal(ToneStrength.Strong, Tone(series, at)));
        Assert.Equal(ToneStrength.Strong, Tone(broken, 10));
        Assert.All(new[] { 60.0, 75, 90 }, at => Assert.NotEqual(ToneStrength.Strong, Tone(broken, at)));
    }

    [Fact]
    public void Echo_delay_is_twice_the_way_at_the_velocity_factor()
    {
        Observation.Reflection seen = (Observation.Reflection)Scene.World(Scene.Break(36)).Perform(new(StepKind.Reflection) { From = WireEnd.A });
        Assert.Equal(EchoKind.Open, seen.Kind);

        // Four standard deviations of the trace's 3 ns.
        Assert.Equal(2 * 36 / (0.6 * 299_792_458), seen.DelaySeconds!.Value, 12e-9);
    }

    [Fact]
    public void Mending_ends_what_lies_in_the_span_only()
    {
        TrialWorld world = Scene.World(Scene.Break(33));
        Assert.Equal("sound wire", Found(world, 33.5, 36));
        Assert.False(world.MowerRuns);
        Assert.Equal("broken wire", Found(world, 32.5, 33.5));
        Assert.True(world.MowerRuns);
    }

    [Theory]
    [InlineData(CauseKind.Supply, StepKind.ReplaceSupply)]
    [InlineData(CauseKind.Station, StepKind.ReplaceStation)]
    [InlineData(CauseKind.EndsSwapped, StepKind.RemakeTerminals)]
    [InlineData(CauseKind.Crosstalk, StepKind.RecodeStation)]
    [InlineData(CauseKind.Receiver, StepKind.ServiceReceiver)]
    [InlineData(CauseKind.Drive, StepKind.ServiceDrive)]
    public void Each_part_is_cured_by_its_own_repair_only(CauseKind kind, StepKind repair)
    {
        TrialWorld world = Scene.World(new Fault(kind));
        foreach (StepFacts other in StepCatalogue.All.Where(facts => facts.IsRepair && facts.Kind != repair && !(kind == CauseKind.EndsSwapped && facts.Kind == StepKind.SwapEnds)))
        {
            world.Perform(new(other.Kind) { AtMetres = 20, FromMetres = 10, ToMetres = 12 });
            Assert.False(world.MowerRuns, $"{other.Kind} cured {kind}");
        }

        world.Perform(new(repair));
        Assert.True(world.MowerRuns);
    }

    [Fact]
    public void Asking_an_owner_who_errs_again_mostly_errs_again()
    {
        int wrong = 0, wrongAgain = 0;
        WorldHabits careless = Scene.Habits with { OwnerRight = 0.7 };
        for (ulong seed = 0; seed < 400; seed++)
        {
            TrialYard yard = new(0, WorldStyle.Plain, Scene.With().Case, [new Fault(CauseKind.NoMains)], careless, new(Scene.Yard), new(seed));
            TrialWorld world = new(yard);
            if (world.Perform(Scene.Owner(StepKind.OutletCheck)) is Observation.OutletCheck { Live: true })
            {
                wrong++;
                wrongAgain += world.Perform(Scene.Owner(StepKind.OutletCheck)) is Observation.OutletCheck { Live: true } ? 1 : 0;
            }
        }

        // 30 % of 400 wrong, ±4 standard deviations of 9; nine in ten of those again, and three in ten of the tenth: 93 %.
        Assert.InRange(wrong, 84, 156);
        Assert.InRange(wrongAgain / (double)wrong, 0.82, 1);
    }

    private static Yard Square(double width, double height) => new()
    {
        Name = "rectangle",
        Lawn = new([[new(0, 0), new(width, 0), new(width, height), new(0, height)]], []),
        Loop = new()
        {
            Path = new([new(0, 0), new(width, 0), new(width, height), new(0, height), new(0, 0)]),
            Conductor = new() { AreaSquareMetres = 1e-6 },
        },
    };

    private static Observation.LoopResistance Reading(TrialWorld world) => (Observation.LoopResistance)world.Perform(new(StepKind.LoopResistance));

    private static Observation.EarthRatio Ratio(Fault fault) => (Observation.EarthRatio)Scene.World(fault).Perform(new(StepKind.EarthRatio));

    private static ToneStrength Tone(TrialWorld world, double at) =>
        ((Observation.ToneTrace)world.Perform(new(StepKind.ToneTrace) { AtMetres = at, From = WireEnd.A })).Strength;

    private static string? Found(TrialWorld world, double from, double to) =>
        ((Observation.RepairDone)world.Perform(new(StepKind.MendSpan) { FromMetres = from, ToMetres = to })).Found;
}
