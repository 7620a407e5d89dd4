using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Budget;

/// <summary>A loop's resistance as somebody measured it, judged against its budget.</summary>
public sealed record LoopReading
{
    /// <summary>Excess from which on a loop is worth investigating (Ω), even if the mower runs: the trade's 10 Ω in all, less the
    /// 5 Ω that its 300 m loops have. Common practice, no source.</summary>
    public const double InvestigateExcessOhms = 5;

    /// <summary>The same for short loops (Ω/m): one ohm per 100 m above the one that the trade expects. Common practice, no source.</summary>
    public const double InvestigateExcessOhmsPerMetre = 0.01;

    /// <summary>Excess at which mowers commonly fail (Ω): 40–50 Ω is the most that a loop of 150–200 m with 20 m from wire to
    /// wire gets away with. Common practice, no source.</summary>
    public const double FaultyExcessOhms = 40;

    /// <summary>How many standard deviations of excess pass for nothing: one healthy loop in forty lies above, one below.</summary>
    public const double WithinDeviations = 2;

    private LoopReading()
    {
    }

    /// <summary>What the loop measures (Ω): shown, less the leads. May be a little below 0 where the leads were overrated.</summary>
    public required double LoopOhms { get; init; }

    /// <summary>The meter's limit of error (Ω): the true value lies this near, or the meter is broken.</summary>
    public required double LimitOhms { get; init; }

    /// <summary>One standard deviation of the reading (Ω): limit / √3, as nothing is known but the limits.
    /// Source: JCGM 100:2008 (GUM), 4.3.7, from memory.</summary>
    public double ReadingDeviationOhms => LimitOhms / Math.Sqrt(3);

    /// <summary>Loop less expectation (Ω).</summary>
    public required double ExcessOhms { get; init; }

    /// <summary>One standard deviation of the excess (Ω): of reading and of expectation, independent.</summary>
    public required double ExcessDeviationOhms { get; init; }

    /// <summary>What that says.</summary>
    public required LoopVerdict Verdict { get; init; }

    /// <summary>What the rule of thumb would have said, to stand beside it.</summary>
    public required RuleOfThumbVerdict RuleOfThumb { get; init; }

    /// <summary>Judges a reading.</summary>
    /// <param name="budget">What the loop should measure.</param>
    /// <param name="shownOhms">What the meter showed (Ω), leads included, 0 or more.</param>
    /// <param name="leadOhms">What it showed with the leads' tips together (Ω), 0 or more. Its own error is not counted again: the
    /// same meter made it, and the zero's share of it cancels in the difference.</param>
    /// <param name="meter">The meter's limits of error.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is below 0 or not finite.</exception>
    public static LoopReading Judge(LoopBudget budget, double shownOhms, double leadOhms, MeterAccuracy meter)
    {
        Guard.NotNegative(shownOhms);
        Guard.NotNegative(leadOhms);
        double limit = meter.LimitOhms(shownOhms);
        Guard.NotNegative(limit, nameof(meter));

        double loop = shownOhms - leadOhms, excess = loop - budget.MeanOhms;
        double deviation = Math.Sqrt((limit * limit / 3) + (budget.StandardDeviationOhms * budget.StandardDeviationOhms));
        return new()
        {
            LoopOhms = loop,
            LimitOhms = limit,
            ExcessOhms = excess,
            ExcessDeviationOhms = deviation,
            Verdict = Of(excess, deviation, budget.LengthMetres),
            RuleOfThumb = ByRuleOfThumb(loop, budget.LengthMetres),
        };
    }

    private static LoopVerdict Of(double excess, double deviation, double length) =>
        excess < -WithinDeviations * deviation ? LoopVerdict.BelowExpected
        : excess <= WithinDeviations * deviation ? LoopVerdict.Healthy
        : excess >= FaultyExcessOhms ? LoopVerdict.Faulty
        : excess >= Math.Min(InvestigateExcessOhms, InvestigateExcessOhmsPerMetre * length) ? LoopVerdict.Investigate
        : LoopVerdict.Watch;

    private static RuleOfThumbVerdict ByRuleOfThumb(double ohms, double length)
    {
        double times = ohms / (LoopBudget.RuleOfThumbOhmsPerMetre * length);
        return times > 2 || ohms > 15 ? RuleOfThumbVerdict.AtFault
            : times > 1 || ohms > 10 ? RuleOfThumbVerdict.Doubtful
            : RuleOfThumbVerdict.Fine;
    }
}
