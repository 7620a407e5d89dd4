using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Reach;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Server.Advising;
using Swardloop.Server.Files;
using Swardloop.Storage;

namespace Swardloop.Server.Watching;

/// <summary>Computes what changed of many yards: reach, forecast, advice of open cases. The marks in the database that say what is out of date are the only list of work: each is taken away
/// together with writing its result, so that a run that is killed is gone on with by the next, and what two runs compute is written once.</summary>
internal sealed class Screening(IDbContextFactory<WorkshopDatabase> databases, WriteTurn turn, Func<ServiceCase, CausePriors, CancellationToken, Advice> advise)
{
    private const int MostFaultsTold = 20;

    /// <summary>Which of so many parts a yard belongs to, from 0: by its id alone, so that every run divides them alike.</summary>
    public static int PartOf(Guid yard, int parts) =>
        (int)(System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(SHA256.HashData(yard.ToByteArray(bigEndian: true))) % (uint)parts);

    /// <summary>Screens one part.</summary>
    /// <param name="part">Which, from 0.</param>
    /// <param name="parts">Of how many.</param>
    /// <param name="progress">Told after every yard.</param>
    /// <param name="cancellation">Ends the work; what is written stays.</param>
    public async Task<ScreenReport> RunAsync(int part, int parts, IProgress<ScreenReport>? progress, CancellationToken cancellation)
    {
        (List<Guid> work, int yards, CausePriors priors) = await WorkAsync(part, parts, cancellation);
        Tally tally = new(yards, work.Count, progress);
        await Parallel.ForEachAsync(
            work, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation },
            async (yard, stop) =>
            {
                try
                {
                    await YardAsync(yard, priors, tally, stop);
                }
#pragma warning disable CA1031 // One yard that cannot be computed holds up no other; it stays out of date, and the report names it.
                catch (Exception fault) when (fault is not OperationCanceledException)
#pragma warning restore CA1031
                {
                    tally.Failed(yard, fault);
                }

                tally.Done();
            });
        return tally.Report;
    }

    private async Task<(List<Guid> Work, int Yards, CausePriors Priors)> WorkAsync(int part, int parts, CancellationToken cancellation)
    {
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        int yards = 0;
        await foreach (Guid yard in database.Yards.AsNoTracking().Select(line => line.Yard).AsAsyncEnumerable().WithCancellation(cancellation))
        {
            yards += PartOf(yard, parts) == part ? 1 : 0;
        }

        HashSet<Guid> work = [];
        foreach (IQueryable<Guid> stale in (IQueryable<Guid>[])
            [
                database.Yards.Where(line => line.StaleSince != null).Select(line => line.Yard),
                database.Watch.Where(line => line.StaleSince != null).Select(line => line.Yard),
                database.Cases.Where(line => line.StaleSince != null && line.IsOpen).Select(line => line.Yard),
            ])
        {
            await foreach (Guid yard in stale.AsAsyncEnumerable().WithCancellation(cancellation))
            {
                if (PartOf(yard, parts) == part)
                {
                    work.Add(yard);
                }
            }
        }

        return ([.. work.Order()], yards, (await new WorkshopPriors(databases).FileAsync(cancellation)).Priors);
    }

    private async Task YardAsync(Guid yard, CausePriors priors, Tally tally, CancellationToken cancellation)
    {
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        if (await database.Yards.AsNoTracking().FirstOrDefaultAsync(line => line.Yard == yard && line.StaleSince != null, cancellation) is { } stale)
        {
            StoredRecord? stored = await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == yard, cancellation);
            (double? Expected, double? Limit) ohms = stored is null ? default : Ohms(FileEndpoints.YardOf(Journal.StateOf(stored)), cancellation);
            tally.Reach(await KeepOhmsAsync(database, stale, ohms, turn, cancellation));
        }

        if (await database.Watch.AsNoTracking().FirstOrDefaultAsync(line => line.Yard == yard && line.StaleSince != null, cancellation) is { } watched)
        {
            WatchWork.Input? input = await WatchWork.ReadAsync(database, yard, cancellation);
            bool isSame = input is null || input.Digest == watched.ComputedFrom;
            bool isKept = await WatchWork.KeepAsync(database, watched, input, isSame ? null : WatchWork.Compute(input!, watched, cancellation), turn, cancellation);
            tally.Forecast(isKept, isSame);
        }

        foreach (CaseLine line in await database.Cases.AsNoTracking().Where(line => line.Yard == yard && line.IsOpen && line.StaleSince != null).OrderBy(line => line.Case).ToListAsync(cancellation))
        {
            StoredRecord? stored = await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == line.Case, cancellation);
            Checked<CaseFile>? file = stored is null ? null : await FileEndpoints.CaseOfAsync(database, stored, cancellation);
            Advice? advice = file is { IsGood: true } ? advise(file.Value.Case, priors, cancellation) : null;
            tally.Advice(await KeepAdviceAsync(database, line, advice, null, null, turn, cancellation));
        }
    }

    /// <summary>What a sound loop measures, and from which loop on the weakest place falls silent (Ω); nulls where the drawing cannot be read.</summary>
    public static (double? Expected, double? Limit) Ohms(Checked<YardFile> file, CancellationToken cancellation)
    {
        if (!file.IsGood)
        {
            return (null, null);
        }

        Core.Yards.Yard yard = file.Value.Yard;
        LoopBudget budget = LoopBudget.For(yard);
        LoopReach reach = new(yard, cancellation: cancellation);
        return (budget.ExpectedOhms.Nominal, SignalBudget.Of(yard, budget.InductanceHenry).LimitOhms(reach.Weakest.FieldPerAmpere));
    }

    /// <summary>Writes a yard's ohms, unless it has changed since.</summary>
    /// <returns>Whether they were written.</returns>
    public static async Task<bool> KeepOhmsAsync(WorkshopDatabase database, YardLine line, (double? Expected, double? Limit) ohms, WriteTurn turn, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        return await database.Yards.Where(one => one.Yard == line.Yard && one.StaleSince == line.StaleSince).ExecuteUpdateAsync(set => set
            .SetProperty(one => one.ExpectedOhms, ohms.Expected)
            .SetProperty(one => one.LimitOhms, ohms.Limit)
            .SetProperty(one => one.StaleSince, (long?)null), cancellation) > 0;
    }

    /// <summary>Writes what lists show of a case, unless it has changed since.</summary>
    /// <returns>Whether it was written.</returns>
    public static async Task<bool> KeepAdviceAsync(
        WorkshopDatabase database, CaseLine line, Advice? advice, string? found, string? digest, WriteTurn turn, CancellationToken cancellation)
    {
        CauseProbability? likeliest = advice?.Causes.Count > 0 ? advice.Causes[0] : null;
        AdvisedStep? next = advice?.Next.Count > 0 ? advice.Next[0] : null;
        string? cause = likeliest is null ? null : WireName.Of(likeliest.Cause);
        string? step = next is null ? null : WireName.Of(next.Step.Kind), by = next is null ? null : WireName.Of(next.Step.By);
        using IDisposable mine = await turn.TakeAsync(cancellation);
        return await database.Cases.Where(one => one.Case == line.Case && one.StaleSince == line.StaleSince).ExecuteUpdateAsync(set => set
            .SetProperty(one => one.Cause, cause)
            .SetProperty(one => one.Probability, likeliest == null ? null : likeliest.Probability)
            .SetProperty(one => one.NextStep, step)
            .SetProperty(one => one.NextBy, by)
            .SetProperty(one => one.ExpectedCost, next == null ? null : next.ExpectedCostToFinish)
            .SetProperty(one => one.FoundCause, found)
            .SetProperty(one => one.Digest, digest)
            .SetProperty(one => one.StaleSince, (long?)null), cancellation) > 0;
    }

    /// <summary>Counts, from many threads.</summary>
    private sealed class Tally(int yards, int changed, IProgress<ScreenReport>? progress)
    {
        private readonly Lock _gate = new();
        private readonly System.Diagnostics.Stopwatch _watch = System.Diagnostics.Stopwatch.StartNew();
        private ScreenReport _report = new(yards, changed, 0, 0, 0, 0, 0, 0, 0, []);

        public ScreenReport Report
        {
            get
            {
                lock (_gate)
                {
                    return _report with { Seconds = _watch.Elapsed.TotalSeconds };
                }
            }
        }

        public void Reach(bool isKept) => Change(report => isKept ? report with { Reach = report.Reach + 1 } : report with { Overtaken = report.Overtaken + 1 });

        public void Forecast(bool isKept, bool isSame) => Change(report => !isKept ? report with { Overtaken = report.Overtaken + 1 } : isSame ? report : report with { Forecasts = report.Forecasts + 1 });

        public void Advice(bool isKept) => Change(report => isKept ? report with { Advice = report.Advice + 1 } : report with { Overtaken = report.Overtaken + 1 });

        public void Failed(Guid yard, Exception fault) => Change(report => report with
        {
            Failed = report.Failed + 1,
            Faults = report.Faults.Count < MostFaultsTold ? [.. report.Faults, $"{yard}: {fault.GetType().Name}: {fault.Message}"] : report.Faults,
        });

        public void Done()
        {
            Change(report => report with { Done = report.Done + 1 });
            progress?.Report(Report);
        }

        private void Change(Func<ScreenReport, ScreenReport> change)
        {
            lock (_gate)
            {
                _report = change(_report);
            }
        }
    }
}

/// <summary>What a screening did.</summary>
/// <param name="Yards">Yards of the part.</param>
/// <param name="Changed">Those that had changed since they were last computed.</param>
/// <param name="Done">Those gone through, failed ones among them.</param>
/// <param name="Reach">Reaches written.</param>
/// <param name="Forecasts">Forecasts written.</param>
/// <param name="Advice">Advice of open cases written.</param>
/// <param name="Overtaken">Results that were not written: another run was there before, or the yard changed meanwhile.</param>
/// <param name="Failed">Yards that could not be computed; they stay out of date.</param>
/// <param name="Seconds">Time taken.</param>
/// <param name="Faults">The first of what failed.</param>
internal sealed record ScreenReport(int Yards, int Changed, int Done, int Reach, int Forecasts, int Advice, int Overtaken, int Failed, double Seconds, IReadOnlyList<string> Faults);
