namespace Swardloop.Cli.Commands;

/// <summary>The lines of a stream as bytes, one at a time, as soon as each is there; bounded in memory.</summary>
/// <param name="stream">Where they come from.</param>
/// <param name="mostBytes">Longest line that is kept.</param>
internal sealed class ByteLines(Stream stream, int mostBytes)
{
    private byte[] _buffer = new byte[1 << 16];
    private int _start, _end;
    private bool _atEnd;

    /// <summary>The next line without its end; null when it was too long to keep.</summary>
    /// <param name="line">The line; good until the next call.</param>
    /// <returns>False when there is no further line.</returns>
    public bool Next(out ReadOnlyMemory<byte>? line)
    {
        bool tooLong = false;
        int seen = 0;
        while (true)
        {
            int length = _buffer.AsSpan(_start + seen, _end - _start - seen).IndexOf((byte)'\n');
            if (length >= 0)
            {
                length += seen;
                line = tooLong || length > mostBytes ? (ReadOnlyMemory<byte>?)null : Trimmed(length);
                _start += length + 1;
                return true;
            }

            seen = _end - _start;
            if (seen > mostBytes)
            {
                // Too long to be a case: the rest of it is skipped, not stored.
                (tooLong, seen, _start, _end) = (true, 0, 0, 0);
            }

            if (_atEnd || !Fill())
            {
                line = tooLong ? (ReadOnlyMemory<byte>?)null : Trimmed(_end - _start);
                bool any = tooLong || _end > _start;
                _start = _end;
                return any;
            }
        }
    }

    private ReadOnlyMemory<byte> Trimmed(int length)
    {
        bool carriageReturn = length > 0 && _buffer[_start + length - 1] == '\r';
        return _buffer.AsMemory(_start, carriageReturn ? length - 1 : length);
    }

    private bool Fill()
    {
        if (_start > 0)
        {
            _buffer.AsSpan(_start, _end - _start).CopyTo(_buffer);
            (_start, _end) = (0, _end - _start);
        }

        if (_end == _buffer.Length)
        {
            Array.Resize(ref _buffer, 2 * _buffer.Length);
        }

        int count = stream.Read(_buffer, _end, _buffer.Length - _end);
        _end += count;
        _atEnd = count == 0;
        return count > 0;
    }
}
