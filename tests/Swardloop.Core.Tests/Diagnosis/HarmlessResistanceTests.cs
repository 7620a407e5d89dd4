using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Resistance in an old joint that harms nobody, beside whatever is the trouble.</summary>
public sealed class HarmlessResistanceTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(20, JointStyle.Twisted), new Joint(60, JointStyle.Gel));

    // 80 m of 1 mm²: 1.4 Ω. The twisted joint adds 12, which nobody minds; it is remade, and the mower does the same.
    [Fact]
    public void Mended_for_nothing_it_leaves_the_causes_that_were_there_before()
    {
        Advice advice = DiagnosisScene.Advise(
            Yard, new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(13.7), new Observation.SplitResistance(20, 0.7, 1.3, 0.3), DiagnosisScene.Loop(1.7),
            new Observation.MowerCheck(false), new Observation.ChargeCheck(false));

        Assert.InRange(advice.Probability(CauseKind.Charging), 0.5, 1);
        Assert.True(advice.Probability(CauseKind.None) < 0.1);
    }

    // The battery's volts fall over the 12 Ω and hardly along the wire: two leaks at 44 and 50 m of 80, the resistance at 20 m before them, share the volts as if both
    // lay close to B. By the voltage divider: (12 + 1.4·47/80) / 13.4 = 0.957 of the volts lie before their middle.
    [Fact]
    public void An_earth_ratio_over_leaks_counts_ohms_and_not_metres()
    {
        Yard fenced = Yard with { Metal = [new MetalObject("fence", new([new(12, 20.5), new(19, 20.5)]), 40)] };
        Observation earth = new Observation.EarthResistance(1500), ratio = new Observation.EarthRatio(8.6, 0.39);
        double before = Odds(DiagnosisScene.Loop(13.7), earth), after = Odds(DiagnosisScene.Loop(13.7), earth, ratio);
        double soundBefore = Odds(DiagnosisScene.Loop(1.7), earth), soundAfter = Odds(DiagnosisScene.Loop(1.7), earth, ratio);

        Assert.True(after / before > 5 * soundAfter / soundBefore, $"{before} {after}, sound {soundBefore} {soundAfter}");

        double Odds(params Observation[] seen)
        {
            Belief belief = DiagnosisScene.Believe(fenced, [], seen);
            return belief.Group(CauseKind.LeakPair).Weight / belief.Group(CauseKind.Unmodelled).Weight;
        }
    }

    // Between the needle and B lies a break that conducts a little; between it and A ten ohms too many, in a joint.
    [Fact]
    public void Beside_a_break_it_does_not_hide_the_break()
    {
        ServiceCase @case = DiagnosisScene.Case(
            Yard, new Observation.StationLamp(LampState.Alarm), DiagnosisScene.Loop(57_000), new Observation.PinProbe(65, 13.5, 57_000, 0.3), new Observation.PinProbe(77, 13.7, 57_100, 0.3)) with
        { OnSite = true };
        Advice advice = Advisor.Advise(@case, CausePriors.Default, TestContext.Current.CancellationToken);

        Assert.InRange(advice.Probability(CauseKind.Open), 0.7, 1);
        Assert.True(advice.Probability(CauseKind.Unmodelled) < 0.1);
    }
}
