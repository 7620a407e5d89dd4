using Swardloop.Server.Input;

namespace Swardloop.Server.Photos;

/// <summary>Opens photos that were handed in, one at a time: an opened photo takes a hundred times the memory of its file, and whoever sends a dozen
/// at once gets them opened one after the other.</summary>
/// <remarks>Most memory at a time: one opened photo (<see cref="PhotoFile.MostPixels"/> × 4 bytes and the decoder's own), and the bytes of
/// <see cref="MostWaiting"/> + 1 files.</remarks>
internal sealed class PhotoWork : IDisposable
{
    /// <summary>Largest file (bytes).</summary>
    public const int MostBytes = 16 * 1024 * 1024;

    // Their bytes are read when their turn comes near; until then they lie on the disk.
    private const int MostWaiting = 2, MostInQueue = 60;

    private readonly SemaphoreSlim _near = new(MostWaiting + 1, MostWaiting + 1), _turn = new(1, 1);
    private int _inQueue;

    /// <summary>Reads and opens a photo when its turn comes.</summary>
    /// <param name="open">Opens the file that was handed in; it lies on the disk.</param>
    /// <param name="cancellation">Gives the place in the queue up.</param>
    /// <returns>The photo drawn anew; null when it is none, or broken off.</returns>
    /// <exception cref="BadInputException">It is too large, or too many wait.</exception>
    public async Task<PhotoFile?> ReadAsync(Func<Stream> open, CancellationToken cancellation)
    {
        if (Interlocked.Increment(ref _inQueue) > MostInQueue)
        {
            Interlocked.Decrement(ref _inQueue);
            throw new BadInputException(StatusCodes.Status503ServiceUnavailable, "Too many photos at once; send it again in a minute.", []);
        }

        try
        {
            await _near.WaitAsync(cancellation);
            try
            {
                byte[] bytes = await BytesAsync(open, cancellation);
                await _turn.WaitAsync(cancellation);
                try
                {
                    return await Task.Run(() => PhotoFile.Read(bytes), CancellationToken.None);
                }
                finally
                {
                    _turn.Release();
                }
            }
            finally
            {
                _near.Release();
            }
        }
        finally
        {
            Interlocked.Decrement(ref _inQueue);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _near.Dispose();
        _turn.Dispose();
    }

    private static async Task<byte[]> BytesAsync(Func<Stream> open, CancellationToken cancellation)
    {
        await using Stream file = open();
        if (file.Length > MostBytes)
        {
            throw new BadInputException(StatusCodes.Status413PayloadTooLarge, $"A photo may have {MostBytes >> 20} MiB at most.", []);
        }

        byte[] bytes = new byte[file.Length];
        await file.ReadExactlyAsync(bytes, cancellation);
        return bytes;
    }
}
