namespace Swardloop.Server.Mail;

/// <summary>One sending of an id at a time: who asks for the same again while it runs, waits for it and finds it done.</summary>
internal sealed class SendingTurn
{
    private readonly Lock _gate = new();
    private readonly Dictionary<Guid, (SemaphoreSlim Turn, int Waiting)> _turns = [];

    /// <summary>Waits for the turn; it ends when the returned object is disposed of.</summary>
    public async Task<IDisposable> TakeAsync(Guid id, CancellationToken cancellation)
    {
        SemaphoreSlim turn;
        lock (_gate)
        {
            (turn, int waiting) = _turns.TryGetValue(id, out (SemaphoreSlim Turn, int Waiting) known) ? known : (new(1, 1), 0);
            _turns[id] = (turn, waiting + 1);
        }

        try
        {
            await turn.WaitAsync(cancellation);
        }
        catch
        {
            Leave(id);
            throw;
        }

        return new End(this, id, turn);
    }

    private void Leave(Guid id)
    {
        lock (_gate)
        {
            (SemaphoreSlim turn, int waiting) = _turns[id];
            if (waiting == 1)
            {
                _turns.Remove(id);
                turn.Dispose();
            }
            else
            {
                _turns[id] = (turn, waiting - 1);
            }
        }
    }

    private sealed class End(SendingTurn of, Guid id, SemaphoreSlim turn) : IDisposable
    {
        private bool _isOver;

        public void Dispose()
        {
            if (!_isOver)
            {
                _isOver = true;
                turn.Release();
                of.Leave(id);
            }
        }
    }
}
