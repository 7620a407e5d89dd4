namespace Swardloop.Worlds;

/// <summary>Draws named by words: the same seed and the same words give the same draw, whoever asks and in whatever order.</summary>
/// <param name="seed">The yard's seed.</param>
internal sealed class Draw(ulong seed)
{
    /// <summary>A draw for each part of a yard.</summary>
    public Draw For(string part) => new(Mix(part));

    /// <summary>Evenly between two values.</summary>
    public double Uniform(string what, double low, double high) => low + ((high - low) * ((Mix(what) >> 11) * (1.0 / (1UL << 53))));

    /// <summary>Evenly in the logarithm, both above 0.</summary>
    public double LogUniform(string what, double low, double high) => Math.Exp(Uniform(what, Math.Log(low), Math.Log(high)));

    /// <summary>Whether something of this probability happens.</summary>
    public bool Chance(string what, double probability) => Uniform(what, 0, 1) < probability;

    /// <summary>Standard normal, held to three deviations (Box and Muller).</summary>
    public double Normal(string what) =>
        Math.Clamp(Math.Sqrt(-2 * Math.Log(1 - Uniform(what + "/r", 0, 1))) * Math.Cos(2 * Math.PI * Uniform(what + "/a", 0, 1)), -3, 3);

    /// <summary>One of several by weight.</summary>
    public T Pick<T>(string what, IReadOnlyList<(T Value, double Weight)> choices)
    {
        double left = Uniform(what, 0, choices.Sum(choice => choice.Weight));
        foreach ((T value, double weight) in choices)
        {
            left -= weight;
            if (left < 0)
            {
                return value;
            }
        }

        return choices[^1].Value;
    }

    /// <summary>FNV-1a over the words, then the finaliser of SplitMix64 (both public domain).</summary>
    private ulong Mix(string what)
    {
        ulong hash = 14695981039346656037UL ^ seed;
        foreach (char letter in what)
        {
            hash = (hash ^ letter) * 1099511628211UL;
        }

        hash += 0x9E3779B97F4A7C15UL;
        hash = (hash ^ (hash >> 30)) * 0xBF58476D1CE4E5B9UL;
        hash = (hash ^ (hash >> 27)) * 0x94D049BB133111EBUL;
        return hash ^ (hash >> 31);
    }
}
