using Swardloop.Core.Diagnosis;

namespace Swardloop.Drawing.Tests;

public class ProbeTrailTests
{
    [Fact]
    public void A_tone_that_is_still_strong_speaks_against_a_break_before_it()
    {
        ServiceCase broken = Examples.Case("sorrel-corner").Case with
        {
            Observations =
            [
                new Observation.StationLamp(LampState.Alarm),
                new Observation.LoopResistance(null, 0.3, new(0.8, 3, 1)),
                new Observation.ToneTrace(60, WireEnd.A, ToneStrength.Strong),
                new Observation.ToneTrace(80, WireEnd.A, ToneStrength.None),
            ],
        };
        IReadOnlyList<WireProbe> probes = ProbeTrail.Of(broken, CausePriors.Default, Examples.Soon);
        Assert.Equal([2, 3], probes.Select(probe => probe.Observation));
        Assert.Equal(60, probes[0].Where!.Value.MiddleMetres);
        Assert.NotEmpty(probes[0].RuledOut);
        Assert.All(probes[0].RuledOut, gone => Assert.True(gone.ToMetres <= 61));
        Assert.NotEmpty(probes[1].RuledOut);
        Assert.All(probes[1].RuledOut, gone => Assert.True(gone.FromMetres >= 79));
    }

    [Fact]
    public void What_keeps_its_probability_is_not_ruled_out()
    {
        DensityBin[] before = [new(0, 50, 0.5), new(50, 100, 0.5)], after = [new(0, 50, 0.95), new(50, 100, 0.05)];
        WireStretch gone = Assert.Single(ProbeTrail.RuledOut(before, after, 100));
        Assert.Equal(50, gone.FromMetres, 0.1);
        Assert.Equal(100, gone.ToMetres, 0.1);
        Assert.Empty(ProbeTrail.RuledOut(before, before, 100));
        Assert.Empty(ProbeTrail.RuledOut([], after, 100));
        Assert.Empty(ProbeTrail.RuledOut(before, [], 100));
    }

    [Fact]
    public void Density_alone_is_the_density_of_the_advice()
    {
        ServiceCase serviceCase = Examples.Case("marram-reach").Case;
        Assert.Equal(Advisor.Advise(serviceCase, CausePriors.Default, Examples.Soon).Density, Advisor.PlaceDensity(serviceCase, CausePriors.Default));
    }
}
