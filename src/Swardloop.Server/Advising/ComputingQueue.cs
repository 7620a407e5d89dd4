using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Server.Input;

namespace Swardloop.Server.Advising;

/// <summary>The workshop's one queue for what takes a processor for long: advice for pages and programs, and what lists show. The same question is
/// computed once, whoever asks; one that nobody waits for any more is dropped; none may take longer than <see cref="Longest"/>.</summary>
internal sealed class ComputingQueue : IDisposable
{
    /// <summary>What one computation may take.</summary>
    private static TimeSpan Longest { get; } = TimeSpan.FromSeconds(60);

    private const int MostWaiting = 100, MostKept = 200;

    private readonly Lock _gate = new();
    private readonly Dictionary<string, Asked> _asked = new(StringComparer.Ordinal);
    private readonly Queue<string> _kept = new();

    // One processor at least is left for answers that need no computing.
    private readonly SemaphoreSlim _lanes = new(Math.Max(1, Environment.ProcessorCount - 1));
    private readonly TimeSpan _longest;
    private int _waiting;

    /// <summary>Nothing waits yet.</summary>
    public ComputingQueue()
        : this(Longest)
    {
    }

    /// <summary>Nothing waits yet.</summary>
    /// <param name="longest">What one computation may take.</param>
    public ComputingQueue(TimeSpan longest) => _longest = longest;

    /// <summary>Advice, computed or known.</summary>
    /// <param name="key">What is asked: equal keys have equal answers.</param>
    /// <param name="compute">Computes it; called at most once at a time for one key.</param>
    /// <param name="cancellation">This one waits no longer.</param>
    /// <exception cref="BadInputException">Too much waits already, or it took too long.</exception>
    public async Task<Advice> AdviseAsync(string key, Func<CancellationToken, Advice> compute, CancellationToken cancellation)
    {
        Asked asked;
        lock (_gate)
        {
            if (!_asked.TryGetValue(key, out asked!))
            {
                asked = new();
                _asked[key] = asked;
                asked.Answer = AnswerAsync(key, asked, compute);
            }

            asked.Waiting++;
        }

        try
        {
            return await asked.Answer.WaitAsync(cancellation);
        }
        finally
        {
            lock (_gate)
            {
                if (--asked.Waiting == 0 && !asked.Answer.IsCompleted)
                {
                    asked.Stop.Cancel();
                    Drop(key, asked);
                }
            }
        }
    }

    /// <summary>Advice for a case, computed or known: the same for pages, programs and lists.</summary>
    /// <param name="file">The case.</param>
    /// <param name="priors">The workshop's counts; null for the built-in ones.</param>
    /// <param name="cancellation">This one waits no longer.</param>
    /// <param name="advise">Advises; null for the engine.</param>
    /// <exception cref="BadInputException">Too much waits already, or it took too long.</exception>
    public Task<Advice> AdviseAsync(
        CaseFile file, PriorsFile? priors, CancellationToken cancellation, Func<ServiceCase, CausePriors, CancellationToken, Advice>? advise = null) => AdviseAsync(
        $"{file.Digest} {CountsOf(priors)}",
        stop => (advise ?? Advisor.Advise)(file.Case, priors?.Priors ?? CausePriors.Default, stop),
        cancellation);

    // Nothing else of the file is reckoned with: which cases were counted makes no other answer, and a workshop that counted none has the built-in ones.
    private static string CountsOf(PriorsFile? priors) =>
        string.Join(' ', (priors ?? PriorsFile.Empty).Counts.Select(one => FormattableString.Invariant($"{one.Key}={one.Value:R}")));

    /// <summary>Computes something when its turn comes, on a thread of its own.</summary>
    /// <exception cref="BadInputException">Too much waits already, or it took too long.</exception>
    public async Task<T> RunAsync<T>(Func<CancellationToken, T> compute, CancellationToken cancellation)
    {
        if (Interlocked.Increment(ref _waiting) > MostWaiting)
        {
            Interlocked.Decrement(ref _waiting);
            throw Busy("Too much waits to be computed; ask again in a minute.");
        }

        try
        {
            await _lanes.WaitAsync(cancellation);
            using CancellationTokenSource bounded = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
            bounded.CancelAfter(_longest);
            try
            {
                return await Task.Run(() => compute(bounded.Token), bounded.Token);
            }
            catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
            {
                throw Busy($"This takes longer than {_longest.TotalSeconds:0} s to compute; draw the yard with fewer corners.");
            }
            finally
            {
                _lanes.Release();
            }
        }
        finally
        {
            Interlocked.Decrement(ref _waiting);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _lanes.Dispose();

    private static BadInputException Busy(string words) => new(StatusCodes.Status503ServiceUnavailable, words, []);

    private async Task<Advice> AnswerAsync(string key, Asked asked, Func<CancellationToken, Advice> compute)
    {
        // Away from the lock under which it is begun.
        await Task.Yield();
        try
        {
            Advice advice = await RunAsync(compute, asked.Stop.Token);
            lock (_gate)
            {
                // The last who waited may have left just now, and taken the question with them.
                if (_asked.GetValueOrDefault(key) == asked)
                {
                    _kept.Enqueue(key);
                    if (_kept.Count > MostKept)
                    {
                        _asked.Remove(_kept.Dequeue());
                    }
                }
            }

            return advice;
        }
        catch
        {
            lock (_gate)
            {
                Drop(key, asked);
            }

            throw;
        }
    }

    private void Drop(string key, Asked asked)
    {
        if (_asked.TryGetValue(key, out Asked? there) && there == asked)
        {
            _asked.Remove(key);
        }
    }

    /// <summary>One question, and who waits for its answer.</summary>
    private sealed class Asked
    {
        public Task<Advice> Answer { get; set; } = null!;

        public CancellationTokenSource Stop { get; } = new();

        public int Waiting { get; set; }
    }
}
