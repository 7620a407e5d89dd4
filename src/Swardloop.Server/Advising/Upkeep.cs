using Microsoft.EntityFrameworkCore;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Server.Files;
using Swardloop.Server.Watching;
using Swardloop.Storage;

namespace Swardloop.Server.Advising;

/// <summary>Computes in the background what lists show and a change made out of date: advice of open cases, causes of closed ones, ohms to
/// spare of yards, and when they lose reception. The changes themselves wait for none of it. One that cannot be computed holds up no other: it is put aside and tried again
/// later. Advice is the advisor's unless another is given.</summary>
internal sealed partial class Upkeep(
    IDbContextFactory<WorkshopDatabase> databases, ChangeNews news, WriteTurn turn, WorkshopPriors priors, ComputingQueue queue, TimeProvider clock, ILogger<Upkeep> log,
    Func<ServiceCase, CausePriors, CancellationToken, Advice>? advise = null) : BackgroundService
{
    // Another server may have stopped in the middle of its work: looked for now and then, without news too.
    private static readonly TimeSpan LookAgain = TimeSpan.FromMinutes(1);

    // With many cases to go through, all the closed ones are not counted again for each: a few more or less say the same.
    private const int CasesPerCount = 100;

    private readonly Func<ServiceCase, CausePriors, CancellationToken, Advice> _advise = advise ?? Advisor.Advise;

    // Yards and cases whose computing failed: since when they are out of date, and when to try again.
    private readonly Dictionary<Guid, (long StaleSince, DateTimeOffset Until)> _aside = [];
    private PriorsFile? _counts;
    private int _counted;

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        using ChangeNews.Listening listening = news.Listen();
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                while (await OneAsync(stoppingToken))
                {
                }

                using CancellationTokenSource wait = CancellationTokenSource.CreateLinkedTokenSource(stoppingToken);
                wait.CancelAfter(LookAgain);
                await listening.Notices.ReadAsync(wait.Token);
                while (listening.Notices.TryRead(out _))
                {
                }
            }
            catch (Exception fault) when (stoppingToken.IsCancellationRequested || fault is ObjectDisposedException)
            {
                // What is left waits for the next start. Disposed of: the server was not told to stop before its services went, as when its address
                // is taken.
                return;
            }
            catch (OperationCanceledException)
            {
                // Time to look again.
            }
#pragma warning disable CA1031 // The lists can wait; the server must not stop over them.
            catch (Exception fault)
#pragma warning restore CA1031
            {
                LogFailed(log, fault);
                await Task.Delay(LookAgain, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    /// <summary>Does one piece of work that waits; false when there is none, or only such as failed a moment ago.</summary>
    public async Task<bool> OneAsync(CancellationToken cancellation)
    {
        DateTimeOffset now = clock.GetUtcNow();
        List<Guid> aside = [.. _aside.Where(one => one.Value.Until > now).Select(one => one.Key)];
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        YardLine? yard = await database.Yards.AsNoTracking().Where(line => line.StaleSince != null && !aside.Contains(line.Yard))
            .OrderBy(line => line.StaleSince).FirstOrDefaultAsync(cancellation);
        if (yard is not null)
        {
            await YardAsync(database, yard, cancellation);
            return true;
        }

        CaseLine? line = await database.Cases.AsNoTracking().Where(line => line.StaleSince != null && !aside.Contains(line.Case))
            .OrderByDescending(line => line.IsOpen).ThenByDescending(line => line.StaleSince).FirstOrDefaultAsync(cancellation);
        // Advice is waited for by somebody; when a loop will fail can come after it, and what closed cases teach after that.
        if (line is not { IsOpen: true } && await database.Watch.AsNoTracking().Where(watch => watch.StaleSince != null && !aside.Contains(watch.Yard))
            .OrderBy(watch => watch.StaleSince).FirstOrDefaultAsync(cancellation) is { } watched)
        {
            await WatchAsync(database, watched, cancellation);
            return true;
        }

        if (line is null)
        {
            _counts = null;
            return false;
        }

        await CaseAsync(database, line, cancellation);
        return true;
    }

    private async Task YardAsync(WorkshopDatabase database, YardLine line, CancellationToken cancellation)
    {
        StoredRecord? stored = await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == line.Yard, cancellation);
        (double? Expected, double? Limit) ohms = (null, null);
        if (stored is not null && !await ComputedAsync(
            line.Yard, line.StaleSince!.Value, async () => ohms = await queue.RunAsync(stop => Screening.Ohms(FileEndpoints.YardOf(Journal.StateOf(stored)), stop), cancellation)))
        {
            return;
        }

        await Screening.KeepOhmsAsync(database, line, ohms, turn, cancellation);
    }

    private async Task WatchAsync(WorkshopDatabase database, WatchLine line, CancellationToken cancellation)
    {
        WatchWork.Input? input = null;
        WatchWork.Output? output = null;
        if (await ComputedAsync(line.Yard, line.StaleSince!.Value, async () =>
        {
            input = await WatchWork.ReadAsync(database, line.Yard, cancellation);
            output = input is null || input.Digest == line.ComputedFrom ? null : await queue.RunAsync(stop => WatchWork.Compute(input, line, stop), cancellation);
        }))
        {
            await WatchWork.KeepAsync(database, line, input, output, turn, cancellation);
        }
    }

    private async Task CaseAsync(WorkshopDatabase database, CaseLine line, CancellationToken cancellation)
    {
        StoredRecord? stored = await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == line.Case, cancellation);
        Checked<CaseFile>? file = null;
        if (stored is not null && !await ComputedAsync(line.Case, line.StaleSince!.Value, async () => file = await FileEndpoints.CaseOfAsync(database, stored, cancellation), isWhole: false))
        {
            return;
        }

        string? found = null;
        Advice? advice = null;
        if (file is { IsGood: true })
        {
            PriorsFile counts = await CountsAsync(cancellation);
            bool isComputed = await ComputedAsync(line.Case, line.StaleSince!.Value, async () =>
            {
                if (line.IsOpen)
                {
                    advice = await queue.AdviseAsync(file.Value, counts, cancellation, _advise);
                }
                else
                {
                    found = await queue.RunAsync(stop => CauseOf(stored!, file.Value.Case, counts.Priors, stop), cancellation);
                }
            });
            if (!isComputed)
            {
                return;
            }
        }

        await Screening.KeepAdviceAsync(database, line, advice, found, found is null ? null : file!.Value!.Digest, turn, cancellation);
    }

    private async Task<PriorsFile> CountsAsync(CancellationToken cancellation)
    {
        if (_counts is null || ++_counted >= CasesPerCount)
        {
            (_counts, _counted) = (await priors.FileAsync(cancellation), 0);
        }

        return _counts;
    }

    /// <summary>What a person said it was counts; where nobody did, what the repairs tell.</summary>
    private string? CauseOf(StoredRecord stored, ServiceCase serviceCase, CausePriors counts, CancellationToken cancellation)
    {
        if (Journal.StateOf(stored).Text("foundCause") is { } said && WireName.TryReadCause(said, out Cause cause))
        {
            return WireName.Of(cause);
        }

        return ClosedCase.CauseOf(serviceCase, earlier => _advise(earlier, counts, cancellation)) is { } kind ? WireName.Of(kind) : null;
    }

    /// <summary>Computes; where that fails the record is put aside, and the failure told once for each of its states.</summary>
    private async Task<bool> ComputedAsync(Guid record, long staleSince, Func<Task> compute, bool isWhole = true)
    {
        try
        {
            await compute();
            if (isWhole)
            {
                _aside.Remove(record);
            }

            return true;
        }
#pragma warning disable CA1031 // Whatever is wrong with one record must not keep the others from their turn.
        catch (Exception fault) when (fault is not OperationCanceledException)
#pragma warning restore CA1031
        {
            if (!_aside.TryGetValue(record, out (long StaleSince, DateTimeOffset Until) before) || before.StaleSince != staleSince)
            {
                LogPutAside(log, record, fault);
            }

            _aside[record] = (staleSince, clock.GetUtcNow() + LookAgain);
            return false;
        }
    }

    [LoggerMessage(LogLevel.Error, "What the lists show of {Record} could not be computed; the others go on")]
    private static partial void LogPutAside(ILogger log, Guid record, Exception fault);

    [LoggerMessage(LogLevel.Error, "Advice for the lists could not be computed")]
    private static partial void LogFailed(ILogger log, Exception fault);
}
