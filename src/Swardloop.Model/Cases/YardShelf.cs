using System.Security.Cryptography;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Cases;

/// <summary>Yards read lately, by the bytes of their files: a thousand cases of one yard read it once. Bounded: the oldest
/// goes when it is full, and large files are not kept. Not for several threads at once.</summary>
public sealed class YardShelf
{
    private const int MostYards = 32;
    private const int LargestKeptBytes = 1 << 20;

    private readonly Dictionary<string, Yard> _yards = new(StringComparer.Ordinal);
    private readonly Queue<string> _oldestFirst = new();

    /// <summary>The yard that was put there with the same bytes, or null.</summary>
    internal Yard? Find(ReadOnlySpan<byte> utf8) => _yards.GetValueOrDefault(Key(utf8));

    /// <summary>Keeps a yard.</summary>
    internal void Put(ReadOnlySpan<byte> utf8, Yard yard)
    {
        if (utf8.Length > LargestKeptBytes || !_yards.TryAdd(Key(utf8), yard))
        {
            return;
        }

        _oldestFirst.Enqueue(Key(utf8));
        if (_yards.Count > MostYards)
        {
            _yards.Remove(_oldestFirst.Dequeue());
        }
    }

    private static string Key(ReadOnlySpan<byte> utf8) => Convert.ToHexString(SHA256.HashData(utf8));
}
