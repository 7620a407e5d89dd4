using System.Collections.Concurrent;
using System.Threading.Channels;

namespace Swardloop.Storage;

/// <summary>Tells everybody in this process who listens that records changed.</summary>
public sealed class ChangeNews
{
    // A listener that cannot keep up loses notices rather than memory; it reads records since the number it knows, so it misses nothing.
    private const int MostWaiting = 1000;

    private readonly ConcurrentDictionary<Channel<ChangeNotice>, byte> _listeners = new();

    /// <summary>Tells all listeners.</summary>
    public void Tell(ChangeNotice notice)
    {
        foreach (Channel<ChangeNotice> listener in _listeners.Keys)
        {
            listener.Writer.TryWrite(notice);
        }
    }

    /// <summary>Listens from now on until the returned listening is disposed of.</summary>
    public Listening Listen()
    {
        Channel<ChangeNotice> channel = Channel.CreateBounded<ChangeNotice>(
            new BoundedChannelOptions(MostWaiting) { FullMode = BoundedChannelFullMode.DropOldest });
        _listeners[channel] = 0;
        return new(channel.Reader, () =>
        {
            _listeners.TryRemove(channel, out _);
            channel.Writer.TryComplete();
        });
    }

    /// <summary>One who listens.</summary>
    public sealed class Listening(ChannelReader<ChangeNotice> notices, Action stop) : IDisposable
    {
        /// <summary>What is told, in order.</summary>
        public ChannelReader<ChangeNotice> Notices { get; } = notices;

        /// <inheritdoc/>
        public void Dispose() => stop();
    }
}
