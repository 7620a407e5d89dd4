namespace Swardloop.Storage;

/// <summary>Lets the writers of this process write one after the other, in the order in which they came: a database that knows one writer
/// only would make them try again and again.</summary>
public sealed class WriteTurn : IDisposable
{
    private readonly SemaphoreSlim _turn = new(1, 1);

    /// <summary>Waits for the turn; it ends when the returned object is disposed of.</summary>
    public async Task<IDisposable> TakeAsync(CancellationToken cancellation)
    {
        await _turn.WaitAsync(cancellation);
        return new End(_turn);
    }

    /// <inheritdoc/>
    public void Dispose() => _turn.Dispose();

    private sealed class End(SemaphoreSlim turn) : IDisposable
    {
        private SemaphoreSlim? _turn = turn;

        public void Dispose() => Interlocked.Exchange(ref _turn, null)?.Release();
    }
}
