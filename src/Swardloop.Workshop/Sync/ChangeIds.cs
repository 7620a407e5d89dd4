namespace Swardloop.Workshop.Sync;

/// <summary>Ids for the changes of one device, each greater than all that the device had before: sorting them gives the order in which they
/// were made, also when several are made in one millisecond or the clock is set back.</summary>
public sealed class ChangeIds
{
    private long _lastMilliseconds;

    /// <summary>Notes an id that is in use on this device.</summary>
    public void Saw(Guid id)
    {
        if (id.Version == 7)
        {
            Span<byte> bytes = stackalloc byte[16];
            id.TryWriteBytes(bytes, bigEndian: true, out _);
            long milliseconds = 0;
            for (int i = 0; i < 6; i++)
            {
                milliseconds = (milliseconds << 8) | bytes[i];
            }

            _lastMilliseconds = Math.Max(_lastMilliseconds, milliseconds);
        }
    }

    /// <summary>A new id.</summary>
    /// <param name="now">By the device's clock, which may be wrong.</param>
    public Guid Next(DateTimeOffset now)
    {
        _lastMilliseconds = Math.Max(_lastMilliseconds + 1, now.ToUnixTimeMilliseconds());
        return Guid.CreateVersion7(DateTimeOffset.FromUnixTimeMilliseconds(_lastMilliseconds));
    }
}
