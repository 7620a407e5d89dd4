using Microsoft.JSInterop;

namespace Swardloop.Drawing;

/// <summary>One worker and the requests that wait for it. A newer request takes the place of a waiting one of its kind; one at work that was
/// replaced or given up may finish within <see cref="Patience"/>, then the worker is ended and started anew. Not for several threads.</summary>
internal sealed class EngineLane(IJSRuntime script, TimeProvider time) : IAsyncDisposable
{
    /// <summary>How long work that nobody waits for may go on: about as long as a new worker takes to start.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.8);

    /// <summary>How long any work may take; then the worker is taken to hang.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

    private readonly List<Request> _waiting = [];
    private Request? _running;
    private IJSObjectReference? _worker;
    private DotNetObjectReference<EngineLane>? _self;
    private bool _onPage;

    /// <summary>Whether this lane computes on the page, because workers are not to be had.</summary>
    public bool IsOnPage => _onPage;

    /// <summary>Asks for work.</summary>
    /// <param name="task">What is wanted.</param>
    /// <param name="bytes">The request.</param>
    /// <param name="progress">Hears the share done, 0 to 1, where the task tells it.</param>
    /// <param name="cancellation">Gives the request up.</param>
    /// <returns>The answer's bytes; cancelled when it was given up or replaced by a newer request.</returns>
    /// <exception cref="TimeoutException">The work took longer than <see cref="Longest"/>.</exception>
    public Task<byte[]> Ask(EngineTask task, byte[] bytes, IProgress<double>? progress, CancellationToken cancellation)
    {
        Request request = new(task, bytes, progress, cancellation);
        if (_running is { } running)
        {
            foreach (Request older in _waiting.Where(older => older.Task == task))
            {
                older.Answer.TrySetCanceled(cancellation);
            }

            _waiting.RemoveAll(older => older.Task == task);
            _waiting.Add(request);
            if (running.Task == task)
            {
                _ = EndAfter(running, Patience, timedOut: false);
            }
        }
        else
        {
            _ = Run(request);
        }

        return request.Answer.Task;
    }

    /// <summary>Hears the progress of the work; called by the worker's script.</summary>
    /// <param name="share">Share done, 0 to 1.</param>
    [JSInvokable]
    public void OnProgress(double share) => _running?.Progress?.Report(share);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (Request request in _waiting)
        {
            request.Answer.TrySetCanceled();
        }

        _waiting.Clear();
        _running?.Answer.TrySetCanceled();
        if (_worker is not null)
        {
            try
            {
                await _worker.InvokeVoidAsync("stop");
                await _worker.DisposeAsync();
            }
            catch (JSDisconnectedException)
            {
                // The page is gone, and its workers with it.
            }
        }

        _self?.Dispose();
    }

    private async Task Run(Request request)
    {
        _running = request;
        using CancellationTokenRegistration givenUp = request.Cancellation.Register(() =>
        {
            request.Answer.TrySetCanceled(request.Cancellation);
            _ = EndAfter(request, Patience, timedOut: false);
        });
        try
        {
            request.Answer.TrySetResult(await Compute(request));
        }
#pragma warning disable CA1031 // Whatever went wrong belongs to whoever asked.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            if (request.TimedOut)
            {
                request.Answer.TrySetException(new TimeoutException($"The work took longer than {Longest.TotalSeconds:0} s and was ended."));
            }
            else if (request.Ended)
            {
                request.Answer.TrySetCanceled();
            }
            else
            {
                request.Answer.TrySetException(fault);
            }
        }

        _running = null;
        while (_waiting.Count > 0)
        {
            Request next = _waiting[0];
            _waiting.RemoveAt(0);
            if (!next.Cancellation.IsCancellationRequested)
            {
                _ = Run(next);
                break;
            }

            next.Answer.TrySetCanceled(next.Cancellation);
        }
    }

    private async Task<byte[]> Compute(Request request)
    {
        _ = EndAfter(request, Longest, timedOut: true);
        if (!_onPage)
        {
            if (_worker is null)
            {
                _self ??= DotNetObjectReference.Create(this);
                IJSObjectReference module = await script.InvokeAsync<IJSObjectReference>("import", "./_content/Swardloop.Drawing/engine.js");
                _worker = await module.InvokeAsync<IJSObjectReference>("open", _self);
            }

            _onPage = !await _worker.InvokeAsync<bool>("ready");
            if (request.Ended || request.Cancellation.IsCancellationRequested)
            {
                throw new OperationCanceledException(request.Cancellation);
            }
        }

        if (_onPage)
        {
            // The page gets to draw first.
            await Task.Delay(1, CancellationToken.None);
            return EngineWork.Answer(request.Task, request.Bytes, request.Progress);
        }

        request.IsAsked = true;
        return await _worker!.InvokeAsync<byte[]>("ask", CancellationToken.None, (int)request.Task, request.Bytes);
    }

    private async Task EndAfter(Request request, TimeSpan wait, bool timedOut)
    {
        await Task.Delay(wait, time);
        if (ReferenceEquals(_running, request) && (timedOut || !request.Ended) && _worker is not null)
        {
            (request.Ended, request.TimedOut) = (true, timedOut);
            // A worker that is still starting is let be, unless it hangs: the next request wants it too.
            if (request.IsAsked || timedOut)
            {
                await _worker.InvokeVoidAsync("stop");
            }
        }
    }

    private sealed class Request(EngineTask task, byte[] bytes, IProgress<double>? progress, CancellationToken cancellation)
    {
        public EngineTask Task { get; } = task;

        public byte[] Bytes { get; } = bytes;

        public IProgress<double>? Progress { get; } = progress;

        public CancellationToken Cancellation { get; } = cancellation;

        public TaskCompletionSource<byte[]> Answer { get; } = new();

        /// <summary>Whether the worker has it.</summary>
        public bool IsAsked { get; set; }

        public bool Ended { get; set; }

        public bool TimedOut { get; set; }
    }
}
