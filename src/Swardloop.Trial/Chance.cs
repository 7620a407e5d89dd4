namespace Swardloop.Trial;

/// <summary>Draws that depend on a seed and on the words of the question alone, not on what was drawn before:
/// a world answers the same question the same way in whatever order, and on however many threads, it is asked.</summary>
/// <remarks>FNV-1a over the words, finished by the mixer of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014; from memory).</remarks>
internal readonly struct Chance(ulong seed)
{
    /// <summary>A source of its own for one part of the simulation.</summary>
    public Chance For(string part) => new(Mix(part));

    /// <summary>Even between 0 (included) and 1 (not included).</summary>
    public double Uniform(string question) => (Mix(question) >> 11) * (1.0 / (1UL << 53));

    /// <summary>Even between two values.</summary>
    public double Uniform(string question, double low, double high) => low + (Uniform(question) * (high - low));

    /// <summary>Even within a band.</summary>
    public double Uniform(string question, Band band) => Uniform(question, band.Low, band.High);

    /// <summary>Even in the logarithm, between two values above zero.</summary>
    public double LogUniform(string question, double low, double high) =>
        low * Math.Pow(high / low, Uniform(question));

    /// <summary>Standard normal, by Box and Muller.</summary>
    public double Normal(string question) =>
        Math.Sqrt(-2 * Math.Log(1 - Uniform(question + "/radius"))) * Math.Cos(2 * Math.PI * Uniform(question + "/angle"));

    /// <summary>True with a probability.</summary>
    public bool Happens(string question, double probability) => Uniform(question) < probability;

    /// <summary>A whole number from <paramref name="least"/> to <paramref name="most"/>, both included.</summary>
    public int Whole(string question, int least, int most) =>
        least + (int)(Uniform(question) * (most - least + 1));

    /// <summary>One of several, by weight.</summary>
    public T Pick<T>(string question, IReadOnlyList<(T Value, double Weight)> choices) =>
        Quantile(Uniform(question), choices);

    /// <summary>The choice at a share of the summed weights.</summary>
    public static T Quantile<T>(double share, IReadOnlyList<(T Value, double Weight)> choices)
    {
        double left = share * choices.Sum(choice => choice.Weight);
        foreach ((T value, double weight) in choices)
        {
            left -= weight;
            if (left < 0)
            {
                return value;
            }
        }

        return choices.Last(choice => choice.Weight > 0).Value;
    }

    private ulong Mix(string question)
    {
        ulong hash = seed ^ 14695981039346656037;
        foreach (char letter in question)
        {
            hash = (hash ^ letter) * 1099511628211;
        }

        hash += 0x9E3779B97F4A7C15;
        hash = (hash ^ (hash >> 30)) * 0xBF58476D1CE4E5B9;
        hash = (hash ^ (hash >> 27)) * 0x94D049BB133111EB;
        return hash ^ (hash >> 31);
    }
}
