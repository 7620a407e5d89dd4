using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial.Tests;

public class TrialRunTests
{
    [Fact]
    public void One_who_knows_the_truth_pays_what_the_oracle_pays()
    {
        IReadOnlyList<YardResult> results = TrialRun.Play(new Knowing(3), 120, 3, cancellation: TestContext.Current.CancellationToken);
        TrialReport report = TrialReport.Of(results);
        Assert.Equal(1, report.Whole.CuredShare);
        Assert.Equal(1, report.Whole.TopRightShare);
        Assert.Equal(0, report.Whole.Brier!.Value, 1e-12);
        Assert.Equal(1, report.Whole.PlaceHeldShare);

        // A metre is now and then dug beside the place, and one mended leak of a pair does not always do.
        Assert.InRange(report.Whole.Excess!.Value, 0, 0.05);
        Assert.InRange(report.Whole.WrongRepairs, 0, 0.03);
    }

    [Fact]
    public void Results_do_not_depend_on_threads()
    {
        string[] one = Told(threads: 1), three = Told(threads: 3);
        Assert.Equal(one, three);

        static string[] Told(int threads) => [.. TrialRun.Play(new Knowing(4), 40, 4, threads: threads, cancellation: TestContext.Current.CancellationToken).SelectMany(TrialStory.Tell)];
    }

    [Fact]
    public void One_who_never_finishes_is_stopped_and_the_card_is_paid_on_top()
    {
        TrialYard yard = Scene.With(Scene.Break(33));
        YardResult result = TrialRun.Play(new Always(new(StepKind.LoopResistance)), yard);
        Assert.False(result.Cured);
        Assert.Equal(TrialRun.MostSteps, result.Played.Count);
        Assert.Equal(45 + (30 * 5) + result.Routine.Cost, result.Cost, 1e-9);
        Assert.Null(result.LastVerdict);
    }

    [Fact]
    public void One_who_asks_the_impossible_or_fails_has_not_cured()
    {
        TrialYard yard = Scene.With(Scene.Break(33));
        Assert.Contains("owner", TrialRun.Play(new Always(Scene.Owner(StepKind.RenewLoop)), yard).Trouble, StringComparison.Ordinal);
        Assert.Contains("failed", TrialRun.Play(new Failing(), yard).Trouble, StringComparison.Ordinal);
        Assert.Contains("does not run", TrialRun.Play(new Contented(), yard).Trouble, StringComparison.Ordinal);
    }

    [Fact]
    public void Wrong_repairs_are_counted()
    {
        YardResult result = TrialRun.Play(new Always(new(StepKind.RemakeTerminals)), Scene.With(Scene.Break(33)));
        Assert.Equal(TrialRun.MostSteps, result.WrongRepairs);
    }

    [Fact]
    public void Brier_and_verdict_are_those_reckoned_by_hand()
    {
        TrialYard yard = Scene.With(Scene.Break(33));
        YardResult result = TrialRun.Play(new Always(new(StepKind.RenewLoop)), yard);
        PlayedStep first = result.Played[0] with
        {
            Advice = new(false, null,
                [new(new(CauseKind.SeriesResistance), 0.5), new(new(CauseKind.Open), 0.4), new(new(CauseKind.Station), 0.1)],
                new(new(CauseKind.Open), 32, 30, 32.9, 0.9)),
        };
        CauseVerdict verdict = result.Verdict(first);
        Assert.False(verdict.TopRight);

        // (1 − 0.4)² + 0.5² + 0.1².
        Assert.Equal(0.62, verdict.Brier, 1e-12);
        Assert.False(Assert.Single((result with { Played = [first] }).PlaceVerdicts()).Holds);
        PlayedStep wider = first with { Advice = first.Advice with { Location = new(new(CauseKind.Open), 32, 30, 33, 0.9) } };
        Assert.True(Assert.Single((result with { Played = [wider] }).PlaceVerdicts()).Holds);
    }

    [Fact]
    public void Of_two_faults_the_one_left_is_right_and_so_are_both()
    {
        TrialYard yard = Scene.With(Scene.Series(20, 900, joint: true), Scene.Break(33));
        YardResult result = new(yard, [], false, null, 0, 0, null, PracticeRoutine.Play(yard), 0);
        Fault broken = yard.Faults[1];
        Assert.True(Says([broken], new(CauseKind.Open)));
        Assert.True(Says([broken], new(CauseKind.Open, CauseKind.SeriesResistance)));
        Assert.False(Says([broken], new(CauseKind.SeriesResistance)));
        Assert.False(Says(yard.Faults, new(CauseKind.Open)));

        bool Says(IReadOnlyList<Fault> left, Cause cause) =>
            result.Verdict(new(new(false, null, [new(cause, 1)], null), new Observation.MowerCheck(false), 0, false, left)).TopRight;
    }

    private sealed class Knowing(ulong seed) : IAdviceSource
    {
        public TrialAdvice Advise(ServiceCase serviceCase)
        {
            // The yard's name carries its number; its world is played again from there to know what is still wrong.
            TrialYard trial = TrialYards.Generate(seed, int.Parse(serviceCase.Yard.Name.Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture));
            TrialWorld world = new(trial);
            foreach (Observation seen in serviceCase.Observations.Skip(trial.Case.Observations.Count))
            {
                world.Perform(seen is Observation.RepairDone repair
                    ? new(repair.Repair) { AtMetres = repair.AtMetres, FromMetres = repair.FromMetres, ToMetres = repair.ToMetres, By = repair.By }
                    : new(seen.Step) { By = seen.By });
            }

            bool owner = serviceCase.Can.Owner;
            Fault? next = world.Remaining.FirstOrDefault(fault => fault.Harmful);
            if (next is null)
            {
                bool done = serviceCase.Observations is [.., Observation.MowerCheck { Runs: true }];
                return new(done, new(StepKind.MowerCheck) { By = owner ? Person.Owner : Person.Technician }, [], null);
            }

            // Where mending one place of a pair did not end it, the other is next.
            bool other = next.SecondAtMetres is not null && serviceCase.Observations.OfType<Observation.RepairDone>().Any(repair => repair.Found == "damaged insulation");
            Step step = Oracle.Repair(other ? next with { AtMetres = next.SecondAtMetres } : next, serviceCase.Yard.Loop);
            return new(
                false,
                owner && step.Kind == StepKind.RestoreMains ? step with { By = Person.Owner } : step,
                [new(new(next.Kind, world.Remaining.Count(fault => fault.Harmful) > 1 ? world.Remaining.Where(fault => fault.Harmful).ElementAt(1).Kind : null), 1)],
                next.AtMetres is { } at ? new(new(next.Kind), at, at, at, 0.9) : null);
        }
    }

    private sealed class Always(Step step) : IAdviceSource
    {
        public TrialAdvice Advise(ServiceCase serviceCase) => new(false, step, [new(new(CauseKind.Unmodelled), 1)], null);
    }

    private sealed class Contented : IAdviceSource
    {
        public TrialAdvice Advise(ServiceCase serviceCase) => new(true, null, [], null);
    }

    private sealed class Failing : IAdviceSource
    {
        public TrialAdvice Advise(ServiceCase serviceCase) => throw new InvalidOperationException("no idea");
    }
}
