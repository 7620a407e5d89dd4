using Swardloop.Client.Device;
using Swardloop.Client.Wording;
using Swardloop.Model.Cases;

namespace Swardloop.Client.Cases;

/// <summary>The advice for one case as a place shows it: asked again when the case, the priors or the language change, and given up when the
/// person says so or leaves.</summary>
/// <param name="source">Gives advice.</param>
/// <param name="device">Has the priors.</param>
/// <param name="say">Has the language.</param>
/// <param name="onChange">Draws the place again.</param>
public sealed class CaseThinking(AdviceSource source, ThisDevice device, Speech say, Action onChange) : IDisposable
{
    private CancellationTokenSource? _work;
    private ReadOnlyMemory<byte> _askedPriors;
    private Tongue _askedTongue;

    /// <summary>The advice, of <see cref="Asked"/> unless it is still being worked out; null before the first.</summary>
    public ShownAdvice? Advice { get; private set; }

    /// <summary>The case that the advice is of.</summary>
    public CaseFile? Advised { get; private set; }

    /// <summary>Whether the advice is of the case as it is now.</summary>
    public bool IsUpToDate => Advice is not null && Advised?.Digest == Asked?.Digest;

    /// <summary>The case that advice was last asked for.</summary>
    public CaseFile? Asked { get; private set; }

    /// <summary>Whether it is being worked out.</summary>
    public bool IsThinking { get; private set; }

    /// <summary>Whether it was given up.</summary>
    public bool IsStopped { get; private set; }

    /// <summary>Forgets everything: another case comes.</summary>
    public void Forget()
    {
        _work?.Cancel();
        (Advice, Advised, Asked) = (null, null, null);
    }

    /// <summary>Asks when something has changed.</summary>
    /// <param name="file">The case; null when its records make none.</param>
    public void Look(CaseFile? file)
    {
        if (file is null)
        {
            (Advice, Advised, Asked) = (null, null, null);
        }
        else if (Asked?.Digest != file.Digest || _askedTongue != say.Tongue || !_askedPriors.Span.SequenceEqual(device.PriorsFile.Span))
        {
            (Asked, _askedPriors, _askedTongue) = (file, device.PriorsFile, say.Tongue);
            _ = ThinkAsync(file);
        }
    }

    /// <summary>Gives up.</summary>
    public void Stop() => _work?.Cancel();

    /// <summary>Asks again after it was given up.</summary>
    public void Again()
    {
        if (Asked is { } file)
        {
            _ = ThinkAsync(file);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _work?.Cancel();

    private async Task ThinkAsync(CaseFile file)
    {
        _work?.Cancel();
        using CancellationTokenSource work = new();
        _work = work;
        (IsThinking, IsStopped) = (true, false);
        try
        {
            ShownAdvice advice = await source.AdviseAsync(file, device.PriorsFile, say.Tongue, work.Token).ConfigureAwait(true);
            if (_work == work)
            {
                (Advice, Advised, IsThinking) = (advice, file, false);
            }
        }
        catch (OperationCanceledException)
        {
            if (_work == work)
            {
                (IsThinking, IsStopped) = (false, true);
            }
        }
        finally
        {
            if (_work == work)
            {
                _work = null;
            }
        }

        onChange();
    }
}
