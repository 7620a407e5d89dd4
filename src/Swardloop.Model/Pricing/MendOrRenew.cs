using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Pricing;

/// <summary>Mend or renew: each way with what it costs now and, by the loop's own faults and the stated rate, in the years after.</summary>
public sealed record MendOrRenew
{
    /// <summary>Years that are compared. Default of the trade's guarantee talks, no source.</summary>
    public const int Years = 5;

    /// <summary>Years that a loop is taken to have lain where nobody wrote down since when. Common practice, no source.</summary>
    public const double StandInAgeYears = 5;

    /// <summary>A stretch where no joints stand on either side reaches so far (m).</summary>
    private const double StretchMetres = 10;

    /// <summary>Setting up, before a metre of a stretch is renewed, by the metre as a whole loop (min). Common practice, no source.</summary>
    internal const double StretchMinutes = 20;

    private MendOrRenew()
    {
    }

    /// <summary>The ways, in the order of the enumeration; those that a yard does not have are left out.</summary>
    public required IReadOnlyList<RepairOption> Options { get; init; }

    /// <summary>The cheapest by expected cost.</summary>
    public RepairOption Cheapest => Options.MinBy(option => option.Expected)!;

    /// <summary>The loop's rate of faults before anything is done.</summary>
    public required FaultRate Rate { get; init; }

    /// <summary>Faults it has had, this one included, and in how many years.</summary>
    public required (int Faults, double Years) History { get; init; }

    /// <summary>Compares the ways to end a fault.</summary>
    /// <param name="serviceCase">The case: yard and rates.</param>
    /// <param name="atMetres">Where the fault lies (m from A).</param>
    /// <param name="lowMetres">Start of the stretch it lies in.</param>
    /// <param name="highMetres">End of it.</param>
    /// <param name="settings">How money is reckoned.</param>
    /// <param name="words">The language of the lines.</param>
    /// <param name="faults">Faults so far, this one included.</param>
    /// <param name="years">In how many years, above 0.</param>
    public static MendOrRenew Of(
        ServiceCase serviceCase, double atMetres, double lowMetres, double highMetres, PriceSettings settings, PriceWords words, int faults = 1, double years = StandInAgeYears)
    {
        Yard yard = serviceCase.Yard;
        double length = yard.Loop.LengthMetres;
        FaultRate stated = FaultRate.Stated(yard), rate = stated.After(faults, years);
        Joint? here = yard.Loop.JointNear(atMetres);
        Step mend = here is not null ? new(StepKind.RemakeJoint) { AtMetres = here.AtMetres }
            : atMetres <= Loop.JointReachMetres || atMetres >= length - Loop.JointReachMetres ? new(StepKind.RemakeTerminals)
            : new(StepKind.MendSpan) { FromMetres = Math.Max(0, lowMetres), ToMetres = Math.Min(length, Math.Max(highMetres, lowMetres + 0.3)) };
        Joint[] others = [.. yard.Loop.Joints.Where(joint => joint != here && FaultRate.IsSuspicious(joint))];
        (double from, double to) = Stretch(yard, atMetres);
        PriceSum mending = Price([mend]);
        decimal perFault = mending.Total;

        // What a part fails less often once it is new, as a share of the loop's stated rate; the loop's own faults scale all of it alike.
        double sum = FaultRate.Sum(yard);
        double hereGain = here is null ? 0 : FaultRate.JointsPerYear([here]) - FaultRate.PerJointYear;
        double newJoints = here is null && mend.Kind == StepKind.MendSpan ? 2 * FaultRate.PerJointYear : 0;
        double othersGain = FaultRate.JointsPerYear(others) - (others.Length * FaultRate.PerJointYear);
        Joint[] within = [.. yard.Loop.Joints.Where(joint => joint.AtMetres >= from && joint.AtMetres <= to)];
        double stretchGain = FaultRate.JointsPerYear(within) + FaultRate.WirePerYear(yard, from, to);
        double stretchAdds = (2 * FaultRate.PerJointYear) + (FaultRate.PerMetreYear * (to - from));

        List<RepairOption> options = [Option(RepairWay.MendHere, [mend], mending, rate.Changed(1 - (hereGain / sum), newJoints))];
        if (others.Length > 0)
        {
            Step[] steps = [mend, .. others.Select(joint => new Step(StepKind.RemakeJoint) { AtMetres = joint.AtMetres })];
            options.Add(Option(RepairWay.RemakeJoints, steps, Price(steps), rate.Changed(1 - ((hereGain + othersGain) / sum), newJoints)));
        }

        if (to - from < 0.7 * length)
        {
            Step stretch = new(StepKind.RenewLoop) { FromMetres = from, ToMetres = to };
            options.Add(Option(RepairWay.RenewStretch, [stretch], Price([stretch]), rate.Changed(Math.Max(0, 1 - (stretchGain / sum)), stretchAdds)));
        }

        // A new loop has no history: its rate is the stated one of plain wire and two terminals.
        FaultRate fresh = new(FaultRate.StatedShape, FaultRate.StatedShape / ((2 * FaultRate.PerJointYear) + (FaultRate.PerMetreYear * length)));
        Step all = new(StepKind.RenewLoop);
        options.Add(Option(RepairWay.RenewAll, [all], Price([all]), fresh));
        return new() { Options = options, Rate = rate, History = (faults, years) };

        RepairOption Option(RepairWay way, Step[] steps, PriceSum now, FaultRate after) => new()
        {
            Way = way,
            Steps = steps,
            Now = now,
            FaultsPerYear = after.PerYear,
            PerFault = perFault,
            Faults = Interval(after),
        };

        PriceSum Price(Step[] steps) => PriceSum.Of(StepLines.Of(serviceCase, steps, words), settings);
    }

    private static (double Mean, int Low, int High) Interval(FaultRate rate)
    {
        IReadOnlyList<double> faults = rate.Faults(Years);
        double tail = 0.05;
        return (rate.PerYear * Years, Quantile(tail), Quantile(1 - tail));

        int Quantile(double share)
        {
            double sum = 0;
            for (int n = 0; n < faults.Count; n++)
            {
                sum += faults[n];
                if (sum >= share)
                {
                    return n;
                }
            }

            return faults.Count - 1;
        }
    }

    private static (double From, double To) Stretch(Yard yard, double at)
    {
        double before = yard.Loop.Joints.Where(joint => joint.AtMetres < at - Loop.JointReachMetres).Select(joint => joint.AtMetres).DefaultIfEmpty(0).Max();
        double after = yard.Loop.Joints.Where(joint => joint.AtMetres > at + Loop.JointReachMetres).Select(joint => joint.AtMetres).DefaultIfEmpty(yard.Loop.LengthMetres).Min();
        return (Math.Max(before, at - (2 * StretchMetres)), Math.Min(after, at + (2 * StretchMetres)));
    }
}
