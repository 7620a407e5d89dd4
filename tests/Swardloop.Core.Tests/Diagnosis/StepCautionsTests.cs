using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>The limits that no expected value buys off, stated as the trade states them (common practice, no source) and
/// apart from how the code derives them.</summary>
public sealed class StepCautionsTests
{
    private static readonly StepKind[] ElectricalReadings =
    [
        StepKind.LoopResistance, StepKind.EarthResistance, StepKind.Insulation, StepKind.EarthRatio, StepKind.EndCapacitance,
        StepKind.SplitResistance, StepKind.Bypass, StepKind.ToneTrace, StepKind.Reflection,
        StepKind.AcRatio, StepKind.GuideResistance, StepKind.JointDrop, StepKind.PinProbe, StepKind.EarthGradient, StepKind.Wiggle,
    ];

    private static StepKind[] With(Caution caution) =>
        [.. Enum.GetValues<StepKind>().Where(kind => StepCautions.Required(kind).Contains(caution))];

    private static void AllCarry(Caution caution, params StepKind[] kinds) =>
        Assert.All(kinds, kind => Assert.Contains(caution, StepCautions.Required(kind)));

    [Fact]
    public void Every_step_carries_a_caution_and_none_twice() => Assert.All(Enum.GetValues<StepKind>(), kind =>
    {
        Assert.NotEqual(StepTouches.None, StepCautions.Touches(kind));
        IReadOnlyList<Caution> cautions = StepCautions.Required(kind);
        Assert.NotEmpty(cautions);
        Assert.Equal(cautions.Distinct(), cautions);
        Assert.Equal(cautions.Order(), cautions);
    });

    // A thing to touch that no caution asks for, or a caution that no step carries, is a gap.
    [Fact]
    public void Whatever_hands_touch_is_warned_of_and_every_caution_is_used()
    {
        Assert.All(Enum.GetValues<StepTouches>().Where(each => each != StepTouches.None), touch =>
        {
            Assert.Contains(Enum.GetValues<Caution>(), caution => StepCautions.AsksFor(caution).HasFlag(touch));
            Assert.Contains(Enum.GetValues<StepKind>(), kind => StepCautions.Touches(kind).HasFlag(touch));
        });
        Assert.All(Enum.GetValues<Caution>(), caution => Assert.NotEmpty(With(caution)));
    }

    [Fact]
    public void In_thunder_nothing_is_measured() =>
        AllCarry(Caution.NoThunder, [.. Enum.GetValues<StepKind>().Where(kind => !StepCatalogue.Of(kind).IsRepair)]);

    [Fact]
    public void Electrical_reading_needs_the_station_off_and_no_live_fence() => Assert.All(ElectricalReadings, kind =>
    {
        Assert.Contains(Caution.StationUnplugged, StepCautions.Required(kind));
        Assert.Contains(Caution.NoLiveElectricFence, StepCautions.Required(kind));
        Assert.Contains(Caution.MowerIsolated, StepCautions.Required(kind));
        Assert.Contains(Caution.ProbesStayOutOfOutlets, StepCautions.Required(kind));
    });

    [Fact]
    public void Test_voltage_needs_everything_disconnected() =>
        Assert.Equal([StepKind.Insulation], With(Caution.AllDisconnectedForTestVoltage));

    [Fact]
    public void Battery_and_tone_generator_are_extra_low_voltage() =>
        Assert.Equal([StepKind.EarthRatio, StepKind.ToneTrace, StepKind.AcRatio, StepKind.JointDrop, StepKind.EarthGradient], With(Caution.ExtraLowVoltageOnly));

    [Fact]
    public void Battery_across_the_loop_is_limited_and_the_meter_stands_on_volts()
    {
        Assert.Equal([StepKind.EarthRatio, StepKind.JointDrop, StepKind.EarthGradient], With(Caution.BatteryCurrentLimited));
        AllCarry(Caution.MeterOnVolts, StepKind.SupplyVoltage, StepKind.EarthRatio, StepKind.AcRatio, StepKind.JointDrop, StepKind.EarthGradient);
    }

    [Fact]
    public void Buried_wire_is_proven_before_it_is_cut_opened_or_pierced() => Assert.Equal(
        [
            StepKind.SplitResistance, StepKind.Bypass, StepKind.JointDrop, StepKind.PinProbe, StepKind.RemakeJoint, StepKind.MendSpan, StepKind.RenewLoop,
            StepKind.RelayLayout,
        ],
        With(Caution.ProveWireBeforeCutting));

    [Fact]
    public void Digging_cutting_and_stakes_need_services_located() => Assert.Equal(
        [
            StepKind.EarthResistance, StepKind.Insulation, StepKind.EarthRatio, StepKind.EndCapacitance, StepKind.SplitResistance,
            StepKind.Bypass, StepKind.ToneTrace, StepKind.Reflection, StepKind.AcRatio, StepKind.JointDrop, StepKind.PinProbe, StepKind.EarthGradient,
            StepKind.Wiggle, StepKind.RemakeJoint, StepKind.MendSpan, StepKind.RenewLoop, StepKind.RelayLayout,
        ],
        With(Caution.LocateServices));

    [Fact]
    public void Mains_parts_stay_closed_wherever_they_are_touched() => AllCarry(
        Caution.MainsStayClosed,
        StepKind.OutletCheck, StepKind.SupplyVoltage, StepKind.RestoreMains, StepKind.ReplaceSupply, StepKind.ReplaceStation, StepKind.ChargeCheck, StepKind.CleanContacts,
        StepKind.AskMaker);

    [Fact]
    public void Switchboard_supply_and_battery_have_cautions_of_their_own()
    {
        Assert.Equal([StepKind.RestoreMains], With(Caution.DryHandsAtSwitchboard));
        Assert.Equal([StepKind.ReplaceSupply], With(Caution.SafetyIsolatedSupply));
        Assert.Equal([StepKind.ServiceReceiver, StepKind.ServiceDrive, StepKind.ReplaceBattery], With(Caution.MowerBatteryOut));
    }

    private static readonly StepKind[] RunsTheMower =
    [
        StepKind.MowerStart, StepKind.MowerReach, StepKind.FollowWire, StepKind.WireCrossing, StepKind.SubstituteLoop, StepKind.SubstituteMower,
        StepKind.NeighbourOff, StepKind.MowerCheck, StepKind.RelayLayout, StepKind.RecodeStation, StepKind.ServiceReceiver, StepKind.ServiceDrive,
    ];

    // A mower that is switched on to charge may start by itself.
    private static readonly StepKind[] SwitchesItOn = [StepKind.ChargeCheck, StepKind.CleanContacts, StepKind.ReplaceBattery];

    [Fact]
    public void Running_mower_runs_only_inside_a_loop_that_works_and_is_kept_clear_of_as_is_one_that_may_start()
    {
        Assert.Equal(RunsTheMower, With(Caution.RunOnlyInsideLiveLoop));
        Assert.Equal(RunsTheMower.Concat(SwitchesItOn).Order(), With(Caution.ClearOfRunningMower));
    }

    [Fact]
    public void Hands_near_blades_need_the_mower_isolated() => AllCarry(
        Caution.MowerIsolated,
        StepKind.ServiceReceiver, StepKind.ServiceDrive, StepKind.Look, StepKind.MowerStart, StepKind.ReplaceStation, StepKind.ChargeCheck,
        StepKind.TerminalLook, StepKind.SwapEnds, StepKind.CleanContacts, StepKind.ReplaceBattery, StepKind.AskMaker, StepKind.NeighbourOff, StepKind.RecodeStation);

    [Fact]
    public void Carrying_a_mower_needs_gloves() => AllCarry(
        Caution.CarryBladesAway,
        StepKind.MowerStart, StepKind.SubstituteLoop, StepKind.SubstituteMower, StepKind.MowerCheck, StepKind.ChargeCheck, StepKind.ServiceDrive, StepKind.Insulation);

    [Fact]
    public void Step_that_owners_may_do_never_digs_cuts_or_tests_with_voltage() => Assert.All(
        StepCatalogue.All.Where(facts => facts.OwnerMay),
        facts => Assert.Empty(StepCautions.Required(facts.Kind).Intersect(
            [Caution.LocateServices, Caution.ProveWireBeforeCutting, Caution.AllDisconnectedForTestVoltage, Caution.ExtraLowVoltageOnly, Caution.MowerBatteryOut])));

    [Fact]
    public void What_is_done_anew_at_each_step_never_holds_for_the_visit()
    {
        Assert.Equal(
            [
                Caution.NoThunder, Caution.MainsStayClosed, Caution.ProbesStayOutOfOutlets, Caution.LocateServices, Caution.NoLiveElectricFence, Caution.StationUnplugged,
                Caution.MowerIsolated,
            ],
            Enum.GetValues<Caution>().Where(StepCautions.HoldsForVisit));

        // Some steps need the station on: it is unplugged where a step needs that, not at the gate.
        Assert.Equal(Enum.GetValues<Caution>().Where(StepCautions.HoldsForVisit).Except([Caution.StationUnplugged]), Enum.GetValues<Caution>().Where(StepCautions.OpensVisit));
    }

    [Fact]
    public void Mower_that_was_run_is_isolated_and_the_station_that_was_on_is_unplugged_again() => Assert.All(Enum.GetValues<StepKind>(), kind =>
    {
        bool runs = RunsTheMower.Contains(kind), isOn = runs || With(Caution.MainsStayClosed).Contains(kind);
        Assert.Equal(runs || SwitchesItOn.Contains(kind), StepCautions.Ends(kind, Caution.MowerIsolated));
        Assert.Equal(isOn, StepCautions.Ends(kind, Caution.StationUnplugged));
        Assert.All(Enum.GetValues<Caution>().Except([Caution.MowerIsolated, Caution.StationUnplugged]), caution => Assert.False(StepCautions.Ends(kind, caution)));
    });

    // One tick stands for few sentences, and for one danger.
    [Fact]
    public void What_a_step_asks_anew_of_one_danger_is_five_sentences_at_most_and_cutting_stands_alone()
    {
        Assert.All(Enum.GetValues<StepKind>(), kind => Assert.All(
            StepCautions.Required(kind).Where(caution => !StepCautions.OpensVisit(caution)).GroupBy(StepCautions.Danger), together => Assert.InRange(together.Count(), 1, 5)));
        Assert.Equal([Caution.ProveWireBeforeCutting], Enum.GetValues<Caution>().Where(caution => StepCautions.Danger(caution) == Danger.Cutting));
    }
}
