using CsCheck;
using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Budget;

public sealed class LoopReadingTests
{
    private static readonly MeterAccuracy Meter = new(0.8, 3, 0.1);

    // 300 m of 1.5 mm², as the trade lays it: 3.35 Ω expected at 12 °C.
    private static readonly LoopBudget Common = Budget(100, 50, 1.5);

    [Fact]
    public void Excess_is_shown_less_leads_less_expected()
    {
        LoopReading reading = LoopReading.Judge(Common, 9.0, 0.3, Meter);
        Assert.Equal(8.7, reading.LoopOhms, 1e-12);
        Assert.Equal(8.7 - Common.MeanOhms, reading.ExcessOhms, 1e-12);
        Assert.Equal((0.008 * 9.0) + 0.3, reading.LimitOhms, 1e-12);
        double half = reading.LimitOhms / Math.Sqrt(3);
        Assert.Equal((half * half) + (Common.StandardDeviationOhms * Common.StandardDeviationOhms), reading.ExcessDeviationOhms * reading.ExcessDeviationOhms, 1e-12);
    }

    // Common practice, no source: P1 to P3 and P6, P7 on a 300 m loop of commonly laid wire.
    [Theory]
    [InlineData(3.4, LoopVerdict.Healthy, RuleOfThumbVerdict.Doubtful)]
    [InlineData(5.5, LoopVerdict.Watch, RuleOfThumbVerdict.Doubtful)]
    [InlineData(10, LoopVerdict.Investigate, RuleOfThumbVerdict.AtFault)]
    [InlineData(15, LoopVerdict.Investigate, RuleOfThumbVerdict.AtFault)]
    [InlineData(50, LoopVerdict.Faulty, RuleOfThumbVerdict.AtFault)]
    [InlineData(1030, LoopVerdict.Faulty, RuleOfThumbVerdict.AtFault)]
    [InlineData(2.0, LoopVerdict.BelowExpected, RuleOfThumbVerdict.Fine)]
    public void Reading_is_judged_as_practice_does(double loopOhms, LoopVerdict verdict, RuleOfThumbVerdict ruleOfThumb)
    {
        LoopReading reading = LoopReading.Judge(Common, loopOhms + 0.2, 0.2, Meter);
        Assert.Equal(verdict, reading.Verdict);
        Assert.Equal(ruleOfThumb, reading.RuleOfThumb);
    }

    [Fact]
    public void Thin_wire_is_healthy_where_the_rule_of_thumb_sees_a_fault()
    {
        LoopReading reading = LoopReading.Judge(Budget(100, 50, 0.5), 10.2, 0.1, Meter);
        Assert.Equal(LoopVerdict.Healthy, reading.Verdict);
        Assert.Equal(RuleOfThumbVerdict.AtFault, reading.RuleOfThumb);
    }

    [Fact]
    public void One_ohm_too_many_is_worth_investigating_on_a_short_loop() =>
        // Common practice, no source (P1): above one to two ohms per 100 m something is at fault.
        Assert.Equal(LoopVerdict.Investigate, LoopReading.Judge(Budget(25, 25, 1.5), 2.6, 0.2, new(0.5, 2, 0.01)).Verdict);

    [Fact]
    public void Verdict_never_softens_as_the_reading_rises() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[0, 50], Gen.Double[0, 3], Gen.Double[0, 10]).Sample((shown, more, percent, digits) =>
        {
            MeterAccuracy meter = new(percent, digits, 0.1);
            Assert.True(Rank(shown) <= Rank(shown + more));

            int Rank(double ohms) => LoopReading.Judge(Common, ohms, 0, meter).Verdict switch
            {
                LoopVerdict.BelowExpected => -1,
                LoopVerdict verdict => (int)verdict,
            };
        });

    [Fact]
    public void Coarse_meter_leaves_the_verdict_open() =>
        Assert.Equal(LoopVerdict.Healthy, LoopReading.Judge(Common, 8, 0, new(1, 5, 1)).Verdict);

    [Fact]
    public void Impossible_reading_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => LoopReading.Judge(Common, double.NaN, 0, Meter));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoopReading.Judge(Common, -1, 0, Meter));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoopReading.Judge(Common, 5, double.NaN, Meter));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoopReading.Judge(Common, 5, 0, new(double.NaN, 0, 0)));
    }

    private static LoopBudget Budget(double east, double north, double areaMm2)
    {
        Yard yard = LoopBudgetTests.Yard(east, north);
        return LoopBudget.For(yard with { Loop = yard.Loop with { Conductor = new() { AreaSquareMetres = areaMm2 * 1e-6 } } });
    }
}
