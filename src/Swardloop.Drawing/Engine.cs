using Microsoft.JSInterop;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Drawn;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <summary>Heavy work off the page: a second runtime in a web worker computes advice and signal maps, so that the page never freezes. Where
/// workers are not to be had it computes on the page. A newer request of a kind replaces a waiting older one, whose task is cancelled.</summary>
/// <remarks>One for each page of the app (a scoped service). Work that was given up ends within about a second; work that hangs is ended after two minutes.</remarks>
public sealed class Engine(IJSRuntime script) : IAsyncDisposable
{
    private readonly EngineLane _cases = new(script, TimeProvider.System), _maps = new(script, TimeProvider.System);

    /// <summary>Whether workers turned out not to be had, so that work is done on the page.</summary>
    public bool IsOnPage => _cases.IsOnPage || _maps.IsOnPage;

    /// <summary>The advice for a case: the very bytes that <c>swardloop advise --json</c> prints for it.</summary>
    /// <param name="caseFile">The case file (UTF-8).</param>
    /// <param name="yardFile">The yard file (UTF-8), when the case names one instead of holding its yard; empty otherwise.</param>
    /// <param name="priors">The workshop's priors file (UTF-8); empty: the stated defaults.</param>
    /// <param name="language">Language of the words in it, <c>en</c> or <c>de</c>; only the English ones are the command line's bytes.</param>
    /// <param name="cancellation">Gives it up.</param>
    /// <exception cref="EngineRefusalException">A file is wrong.</exception>
    /// <exception cref="OperationCanceledException">Given up, or replaced by a newer request.</exception>
    public async Task<byte[]> AdviseAsync(
        ReadOnlyMemory<byte> caseFile, ReadOnlyMemory<byte> yardFile = default, ReadOnlyMemory<byte> priors = default, string language = "en",
        CancellationToken cancellation = default) =>
        EngineWork.Opened(await _cases.Ask(EngineTask.Advise, EngineWork.CaseRequest(caseFile.Span, yardFile.Span, priors.Span, language), null, cancellation));

    /// <summary>What each probe along the wire ruled out.</summary>
    /// <param name="observations">The case's observations, as in the file.</param>
    /// <param name="caseFile">The case file (UTF-8).</param>
    /// <param name="yardFile">The yard file (UTF-8), when the case names one; empty otherwise.</param>
    /// <param name="priors">The workshop's priors file (UTF-8); empty: the stated defaults.</param>
    /// <param name="cancellation">Gives it up.</param>
    /// <inheritdoc cref="AdviseAsync" path="/exception"/>
    public async Task<IReadOnlyList<WireProbe>> TrailAsync(
        IReadOnlyList<Observation> observations,
        ReadOnlyMemory<byte> caseFile,
        ReadOnlyMemory<byte> yardFile = default,
        ReadOnlyMemory<byte> priors = default,
        CancellationToken cancellation = default) =>
        EngineWork.Probes(
            EngineWork.Opened(await _cases.Ask(EngineTask.Trail, EngineWork.CaseRequest(caseFile.Span, yardFile.Span, priors.Span), null, cancellation)), observations);

    /// <summary>Which cause a mended case had, by its repair and what was believed before it; null when it teaches none.</summary>
    /// <param name="caseFile">The case file, its yard inside (UTF-8).</param>
    /// <param name="priors">The workshop's priors file (UTF-8); empty: the stated defaults.</param>
    /// <param name="cancellation">Gives it up.</param>
    /// <inheritdoc cref="AdviseAsync" path="/exception"/>
    public async Task<CauseKind?> CauseAsync(ReadOnlyMemory<byte> caseFile, ReadOnlyMemory<byte> priors = default, CancellationToken cancellation = default) =>
        EngineWork.Cause(EngineWork.Opened(await _cases.Ask(EngineTask.Taught, EngineWork.CaseRequest(caseFile.Span, default, priors.Span), null, cancellation)));

    /// <summary>The signal map of a yard.</summary>
    /// <param name="yard">The yard; if it is not sound the engine refuses it with its problems.</param>
    /// <param name="places">About how many places the map may have, 100 to 1,000,000.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Gives it up.</param>
    /// <exception cref="EngineRefusalException">The yard is wrong.</exception>
    /// <exception cref="OperationCanceledException">Given up, or replaced by a newer request.</exception>
    public async Task<SignalMap> MapAsync(Yard yard, int places = 30_000, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        SignalMap.FromBytes(EngineWork.Opened(
            await _maps.Ask(EngineTask.Map, EngineWork.MapRequest(YardFile.Create(yard).ToUtf8(), places), progress, cancellation)));

    /// <summary>The signal map of a yard with a fault.</summary>
    /// <param name="yard">The yard; if it is not sound the engine refuses it with its problems.</param>
    /// <param name="fault">The fault.</param>
    /// <param name="state">As it is now, or as practice knows it.</param>
    /// <param name="cancellation">Gives it up.</param>
    /// <exception cref="EngineRefusalException">The yard is wrong.</exception>
    /// <exception cref="OperationCanceledException">Given up, or replaced by a newer request.</exception>
    public async Task<SignalMap> MapAsync(Yard yard, SupposedFault fault, LoopState state, CancellationToken cancellation = default) =>
        SignalMap.FromBytes(EngineWork.Opened(
            await _maps.Ask(EngineTask.FaultMap, EngineWork.FaultMapRequest(YardFile.Create(yard).ToUtf8(), fault, state), null, cancellation)));

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _cases.DisposeAsync();
        await _maps.DisposeAsync();
    }
}
