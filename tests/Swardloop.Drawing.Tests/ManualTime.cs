namespace Swardloop.Drawing.Tests;

/// <summary>A clock that stands still until a test moves it.</summary>
internal sealed class ManualTime : TimeProvider
{
    private readonly List<Waiting> _timers = [];
    private TimeSpan _now;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        Waiting timer = new(this, () => callback(state));
        timer.Change(dueTime, period);
        return timer;
    }

    public void Move(TimeSpan by)
    {
        _now += by;
        foreach (Waiting timer in _timers.Where(timer => timer.Due <= _now).ToArray())
        {
            _timers.Remove(timer);
            timer.Ring();
        }
    }

    private sealed class Waiting(ManualTime time, Action ring) : ITimer
    {
        public TimeSpan Due { get; private set; }

        public void Ring() => ring();

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            time._timers.Remove(this);
            if (dueTime != Timeout.InfiniteTimeSpan)
            {
                Due = time._now + dueTime;
                time._timers.Add(this);
            }

            return true;
        }

        public void Dispose() => time._timers.Remove(this);

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
