using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Two leaks, and the one that is left when the other is mended.</summary>
public sealed class LeakPairTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20) with
    {
        Metal = [new("fence", new([new(2, -0.8), new(18, -0.8)]), 40), new("fence", new([new(-0.8, 2), new(-0.8, 18)]), 40)],
    };

    private static readonly Observation[] OneMended =
    [
        new Observation.WireCrossing(true, null, true), new Observation.EarthRatio(4.5, 4.4), new Observation.EarthResistance(400),
        new Observation.RepairDone(StepKind.MendSpan, null, 8, 12, "damaged insulation"), new Observation.MowerCheck(false),
    ];

    [Fact]
    public void After_one_is_mended_an_earth_ratio_is_worth_asking_again_and_points_at_the_other()
    {
        // The loop is measured once more after a find, before anything else.
        Assert.Contains(DiagnosisScene.Advise(Yard, [.. OneMended, DiagnosisScene.Loop(1.7)]).Next, next => next.Step.Kind is StepKind.EarthRatio or StepKind.EarthGradient);

        // s/L = Va/(Va + Vb), references D2: 70 of 80 m.
        Advice advice = DiagnosisScene.Advise(Yard, [.. OneMended, new Observation.EarthRatio(7.8, 1.1)]);
        Assert.Equal(CauseKind.LeakPair, advice.Location!.Cause.First);
        Assert.Equal(70, advice.Location.AtMetres, 3.0);
        Assert.InRange(advice.Location.HighMetres - advice.Location.LowMetres, 0, 10);
    }

    // Both ends of the wire are at the station: two leaks near it lie side by side.
    [Fact]
    public void Between_two_leaks_is_the_shorter_way_round()
    {
        Place near = new(PlaceKind.Span, 2, 3), far = new(PlaceKind.Span, 77, 78), early = new(PlaceKind.Span, 20, 21), late = new(PlaceKind.Span, 50, 51);
        double Crosses(double at, Place first, Place second) => PlaceTestModel.CrossesAtLeakPair(at, true, first, second, true, 80).NearLeaks;

        Assert.Equal(StatedProbabilities.CrossesAtLeakPair, Crosses(0, near, far), 1e-3);
        Assert.Equal(StatedProbabilities.CrossesAtLeakPair, Crosses(79, near, far), 1e-3);
        Assert.Equal(StatedProbabilities.CrossesAwayFromLeaks, Crosses(40, near, far), 1e-3);
        Assert.Equal(StatedProbabilities.CrossesAtLeakPair, Crosses(35, early, late), 1e-3);
        Assert.Equal(StatedProbabilities.CrossesAwayFromLeaks, Crosses(70, early, late), 1e-3);
    }

    // A meter of 10 MΩ in series with what leaks (model, section 5): nearly all of the battery's volts over a leak, half of them over 10 MΩ.
    [Theory]
    [InlineData(4.6, 4.35, 1.5, 9)]
    [InlineData(2.6, 2.5, -9, -1.5)]
    public void Sum_of_an_earth_ratio_says_whether_something_leaks(double voltsA, double voltsB, double leastBits, double mostBits)
    {
        double LogOdds(params Observation[] seen)
        {
            Belief belief = DiagnosisScene.Believe(Yard, [], seen);
            return Math.Log2(belief.Group(CauseKind.LeakPair).Weight / belief.Group(CauseKind.Drive).Weight);
        }

        // What the place says that it points at is taken out by voltages that point at the same place and tell no battery.
        double bits = LogOdds(new Observation.EarthRatio(voltsA, voltsB)) - LogOdds(new Observation.EarthRatio(voltsA * 0.01, voltsB * 0.01));
        Assert.InRange(bits, leastBits, mostBits);
    }

    [Fact]
    public void Metal_beside_the_wire_makes_a_pair_likelier_and_none_makes_it_unlikely()
    {
        double none = DiagnosisScene.Advise(DiagnosisScene.Rectangle(20, 20)).Probability(CauseKind.LeakPair);
        double metal = DiagnosisScene.Advise(Yard).Probability(CauseKind.LeakPair);
        Assert.InRange(metal / none, 10, 25);
    }
}
