namespace Swardloop.Core.MowerRun;

/// <summary>Numbers drawn from a seed, the same on every machine.</summary>
/// <remarks>SplitMix64: Steele, Lea and Flood, OOPSLA 2014 (from memory).</remarks>
internal struct RunDraws(ulong seed)
{
    private ulong _state = seed;

    /// <summary>Even from 0 (included) to 1 (not included).</summary>
    public double Next()
    {
        _state += 0x9E3779B97F4A7C15;
        ulong z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }
}
