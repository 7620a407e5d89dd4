using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

namespace Swardloop.Client.Cases;

/// <summary>Gives advice for case files; the last ones are remembered, so that going back to a case shows it at once.</summary>
public sealed class AdviceSource
{
    private const int MostRemembered = 20;

    private readonly Dictionary<string, Advice> _known = new(StringComparer.Ordinal);
    private readonly Queue<string> _oldestFirst = new();

    /// <summary>Yards read before.</summary>
    public YardShelf Shelf { get; } = new();

    /// <summary>The advice, if it was asked for before.</summary>
    public Advice? Known(CaseFile file, CausePriors priors) => _known.GetValueOrDefault(Key(file, priors));

    /// <summary>The advice.</summary>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public async Task<Advice> AdviseAsync(CaseFile file, CausePriors priors, CancellationToken cancellation)
    {
        string key = Key(file, priors);
        if (_known.TryGetValue(key, out Advice? known))
        {
            return known;
        }

        await Task.Delay(1, cancellation).ConfigureAwait(true); // the page shows that it is at work before it is
        Advice advice = Advisor.Advise(file.Case, priors, cancellation);
        if (_known.TryAdd(key, advice))
        {
            _oldestFirst.Enqueue(key);
            if (_oldestFirst.Count > MostRemembered)
            {
                _known.Remove(_oldestFirst.Dequeue());
            }
        }

        return advice;
    }

    private static string Key(CaseFile file, CausePriors priors) => $"{file.Digest} {System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(priors)}";
}
