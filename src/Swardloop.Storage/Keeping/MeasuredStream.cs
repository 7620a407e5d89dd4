using System.Security.Cryptography;

namespace Swardloop.Storage.Keeping;

/// <summary>Reads an entry of a backup, no more of it than it may hold, and computes its digests on the way.</summary>
/// <param name="inner">The entry.</param>
/// <param name="most">Most bytes; more are a fault of the file.</param>
internal sealed class MeasuredStream(Stream inner, long most) : Stream
{
    private static readonly uint[] Table = MakeTable();

    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private uint _crc = uint.MaxValue;
    private long _length;

    /// <summary>CRC-32 of what was read, as ZIP files have it (PKWARE APPNOTE 6.3.10, 4.4.7; polynomial 0xEDB88320).</summary>
    public uint Crc32 => ~_crc;

    /// <summary>SHA-256 of what was read, hexadecimal.</summary>
    public string Sha256 => Convert.ToHexStringLower(_hash.GetCurrentHash());

    /// <inheritdoc/>
    public override bool CanRead => true;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => false;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position { get => _length; set => throw new NotSupportedException(); }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override int Read(Span<byte> buffer)
    {
        int count = inner.Read(buffer);
        Measure(buffer[..count]);
        return count;
    }

    /// <inheritdoc/>
    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        int count = await inner.ReadAsync(buffer, cancellationToken);
        Measure(buffer.Span[..count]);
        return count;
    }

    /// <inheritdoc/>
    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    /// <inheritdoc/>
    public override void Flush() => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc/>
    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
            _hash.Dispose();
        }

        base.Dispose(disposing);
    }

    private void Measure(ReadOnlySpan<byte> read)
    {
        _length += read.Length;
        if (_length > most)
        {
            throw new InvalidDataException($"an entry unpacks to more than the {most} bytes it may have");
        }

        _hash.AppendData(read);
        foreach (byte one in read)
        {
            _crc = Table[(byte)(_crc ^ one)] ^ (_crc >> 8);
        }
    }

    private static uint[] MakeTable()
    {
        uint[] table = new uint[256];
        for (uint i = 0; i < table.Length; i++)
        {
            uint value = i;
            for (int bit = 0; bit < 8; bit++)
            {
                value = (value & 1) != 0 ? 0xedb88320 ^ (value >> 1) : value >> 1;
            }

            table[i] = value;
        }

        return table;
    }
}
