using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>Plays yards against an adviser, the practice routine and the oracle.</summary>
public static class TrialRun
{
    /// <summary>A cure after so many steps no longer counts.</summary>
    public const int MostSteps = 30;

    /// <summary>Plays several yards. The same seed and yards give the same results in the same order, however many threads play.</summary>
    /// <param name="source">Who is on trial.</param>
    /// <param name="yards">How many yards.</param>
    /// <param name="seed">The trial's seed.</param>
    /// <param name="style">One world only; null for all in turn.</param>
    /// <param name="threads">How many yards at once.</param>
    /// <param name="progress">Told how many are done.</param>
    /// <param name="cancellation">Stops the trial.</param>
    public static IReadOnlyList<YardResult> Play(
        IAdviceSource source, int yards, ulong seed, WorldStyle? style = null, int threads = 2, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        YardResult[] results = new YardResult[yards];
        int done = 0;
        ParallelOptions options = new() { MaxDegreeOfParallelism = threads, CancellationToken = cancellation };
        Parallel.For(0, yards, options, i =>
        {
            results[i] = Play(source, TrialYards.Generate(seed, i, style));
            progress?.Report(Interlocked.Increment(ref done));
        });
        return results;
    }

    /// <summary>Plays one yard.</summary>
    public static YardResult Play(IAdviceSource source, TrialYard trial)
    {
        TrialWorld world = new(trial);
        List<PlayedStep> played = [];
        string? trouble = null;
        bool finished = false;
        int? curedBy = null;
        int wrongRepairs = 0;
        while (!finished && played.Count < MostSteps)
        {
            if (Ask(source, world.Case, ref trouble) is not { } advice)
            {
                break;
            }

            if (advice.Finished)
            {
                finished = true;
                break;
            }

            if (advice.Next is not { } step)
            {
                trouble = "Neither finished nor a next step.";
                break;
            }

            bool ran = world.MowerRuns;
            int mended = world.Mended;
            double paid = world.Cost;
            Fault[] remaining = [.. world.Remaining];
            try
            {
                Observation seen = world.Perform(step);
                played.Add(new(advice, seen, world.Cost - paid, ran, remaining));
            }
            catch (TrialRefusalException refusal)
            {
                trouble = refusal.Message;
                break;
            }

            if (!ran && world.MowerRuns)
            {
                curedBy = played.Count - 1;
            }

            wrongRepairs += StepCatalogue.Of(step.Kind).IsRepair && world.Mended == mended ? 1 : 0;
        }

        // The thirtieth step may have been the last check.
        finished = finished || (trouble is null && Ask(source, world.Case, ref trouble) is { Finished: true });
        bool cured = finished && world.MowerRuns;
        trouble ??= cured ? null : finished ? "Called finished, but the mower does not run." : $"Not finished after {MostSteps} steps.";
        TrialWorld routine = PracticeRoutine.Play(trial);

        // Who is left with a mower that does not run still has the card.
        double cost = world.Cost + (cured ? 0 : routine.Cost);
        return new(trial, played, cured, trouble, cost, wrongRepairs, curedBy, routine, Oracle.Cost(trial)) { Payments = world.Payments };
    }

    /// <summary>An adviser that fails costs its yard, not the trial.</summary>
    private static TrialAdvice? Ask(IAdviceSource source, ServiceCase serviceCase, ref string? trouble)
    {
        try
        {
            return source.Advise(serviceCase);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            trouble = $"The adviser failed: {failure.GetType().Name}: {failure.Message}";
            return null;
        }
    }
}
