using Swardloop.Client.Wording;
using Swardloop.Drawing;
using Swardloop.Model.Cases;

namespace Swardloop.Client.Cases;

/// <summary>Gives advice for case files from the engine; the last ones are remembered, so that going back to a case shows it at once.</summary>
public sealed class AdviceSource(Engine engine)
{
    private const int MostRemembered = 20;

    private readonly Dictionary<string, ShownAdvice> _known = new(StringComparer.Ordinal);
    private readonly Queue<string> _oldestFirst = new();

    /// <summary>Yards read before.</summary>
    public YardShelf Shelf { get; } = new();

    /// <summary>What computes.</summary>
    public Engine Engine => engine;

    /// <summary>The advice.</summary>
    /// <param name="file">The case.</param>
    /// <param name="priors">The workshop's priors file; empty for the stated defaults.</param>
    /// <param name="tongue">Language of its words.</param>
    /// <param name="cancellation">Gives it up.</param>
    /// <exception cref="OperationCanceledException">Given up, or replaced by a newer request.</exception>
    /// <exception cref="EngineRefusalException">A file is wrong.</exception>
    public async Task<ShownAdvice> AdviseAsync(CaseFile file, ReadOnlyMemory<byte> priors, Tongue tongue, CancellationToken cancellation)
    {
        string key = $"{tongue} {file.Digest} {Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(priors.Span))}";
        if (_known.TryGetValue(key, out ShownAdvice? known))
        {
            return known;
        }

        ShownAdvice advice = ShownAdvice.Read(await engine.AdviseAsync(file.ToUtf8(), default, priors, Speech.Tag(tongue), cancellation).ConfigureAwait(true));
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
}
