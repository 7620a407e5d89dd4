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
        IReadOnlyList<Caution> cautions = StepCautions.Required(kind);
        Assert.NotEmpty(cautions);
        Assert.Equal(cautions.Distinct(), cautions);
        Assert.Equal(cautions.Order(), cautions);
    });

    [Fact]
    public void In_thunder_nothing_is_measured() =>
        AllCarry(Caution.NoThunder, [.. Enum.GetValues<StepKind>().Where(kind => !StepCatalogue.Of(kind).IsRepair)]);

    [Fact]
    public void Electrical_reading_needs_the_station_off_and_no_live_fence() => Assert.All(ElectricalReadings, kind =>
    {
        Assert.Contains(Caution.StationUnplugged, StepCautions.Required(kind));
        Assert.Contains(Caution.NoLiveElectricFence, StepCautions.Required(kind));
        Assert.Contains(Caution.MowerIsolated, StepCautions.Required(kind));
    });

    [Fact]
    public void Test_voltage_needs_everything_disconnected() =>
        Assert.Equal([StepKind.Insulation], With(Caution.AllDisconnectedForTestVoltage));

    [Fact]
    public void Battery_and_sender_are_extra_low_voltage() =>
        Assert.Equal([StepKind.EarthRatio, StepKind.ToneTrace, StepKind.AcRatio, StepKind.JointDrop, StepKind.EarthGradient], With(Caution.ExtraLowVoltageOnly));

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
    public void Running_mower_is_kept_clear_of() => AllCarry(
        Caution.ClearOfRunningMower,
        StepKind.MowerStart, StepKind.MowerReach, StepKind.FollowWire, StepKind.WireCrossing, StepKind.SubstituteLoop, StepKind.SubstituteMower, StepKind.NeighbourOff, StepKind.MowerCheck);

    [Fact]
    public void Hands_near_blades_need_the_mower_isolated() => AllCarry(
        Caution.MowerIsolated,
        StepKind.ServiceReceiver, StepKind.ServiceDrive, StepKind.Look, StepKind.MowerStart, StepKind.ReplaceStation, StepKind.ChargeCheck,
        StepKind.TerminalLook, StepKind.SwapEnds, StepKind.CleanContacts, StepKind.ReplaceBattery, StepKind.AskMaker);

    [Fact]
    public void Step_that_owners_may_do_never_digs_or_tests_with_voltage() => Assert.All(
        StepCatalogue.All.Where(facts => facts.OwnerMay),
        facts => Assert.Empty(StepCautions.Required(facts.Kind).Intersect(
            [Caution.LocateServices, Caution.AllDisconnectedForTestVoltage, Caution.ExtraLowVoltageOnly])));
}
