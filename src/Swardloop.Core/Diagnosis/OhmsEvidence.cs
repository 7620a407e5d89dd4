namespace Swardloop.Core.Diagnosis;

/// <summary>What a case's resistance readings say of faults in series with the wire, by size; the wire's own factor (length, conductor,
/// temperature) is integrated out, and so is the chance that one reading is simply wrong.</summary>
/// <remarks>
/// A reading is linear: y = k·nominal + (r, if the fault is in its path) + error, with k normal about 1. Gaussian errors make the
/// integral over k exact, and what is left is a Gaussian in r, averaged over each bin of sizes exactly (error function).
/// "One wrong" adds, for each reading, the likelihood of the others times a flat density in the logarithm of that reading;
/// two wrong readings at once are left to 'something not modelled'.
/// Places between two probes see the same readings, so each pattern of "in its path or not" is computed once.
/// </remarks>
internal sealed class OhmsEvidence
{
    /// <summary>A wrong reading may be anything over eight decades: density 1/(y·ln 10⁸).</summary>
    private const double WrongLogRange = 18.42;

    /// <summary>A place is met to about 0.2 m, and a piece of wire lies somewhere about its middle (m).</summary>
    private const double ProbeDeviationMetres = 0.3;

    private readonly OhmsReading[] _readings;
    private readonly WireFactor[] _factors;
    private readonly SizeGrid _sizes;
    private readonly Dictionary<Int128, double[]> _bySize = [];
    private readonly double[] _wrongDensity;

    public OhmsEvidence(IReadOnlyList<OhmsReading> readings, double factorDeviation, SizeGrid sizes)
    {
        _readings = [.. readings];
        _factors = WireFactor.All(factorDeviation);
        _sizes = sizes;
        _wrongDensity = [.. _readings.Select(reading => reading.Ohms is { } ohms ? 1 / (WrongLogRange * Math.Max(Math.Abs(ohms), reading.DeviationOhms)) : 0.3)];
    }

    /// <summary>Number of readings.</summary>
    public int Count => _readings.Length;

    /// <summary>Which readings have the place in their path while the fault is still there.</summary>
    /// <param name="atMetres">The fault's place.</param>
    /// <param name="endsBeforeEpoch">The fault is there in epochs up to this one.</param>
    public Int128 Pattern(double atMetres, int endsBeforeEpoch)
    {
        Int128 pattern = 0;
        for (int i = 0; i < _readings.Length; i++)
        {
            if (_readings[i].Epoch <= endsBeforeEpoch && _readings[i].Includes(atMetres))
            {
                pattern |= Int128.One << i;
            }
        }

        return pattern;
    }

    /// <summary>The same for a place that may lie on either side of where a probe was set: every pattern it may have, with its share.</summary>
    /// <param name="place">The fault's place; a joint or a terminal is where it is.</param>
    /// <param name="endsBeforeEpoch">The fault is there in epochs up to this one.</param>
    public List<(Int128 Pattern, double Share)> Patterns(Place place, int endsBeforeEpoch)
    {
        List<(Int128 Pattern, double Share)> patterns = [(Pattern(place.AtMetres, endsBeforeEpoch), 1)];
        if (place.IsPoint)
        {
            AddOtherSideOfGuides(place, endsBeforeEpoch, patterns);
            return patterns;
        }

        for (int i = 0; i < _readings.Length; i++)
        {
            // Both sides of one opening change together.
            if (_readings[i].Epoch > endsBeforeEpoch || (i > 0 && _readings[i - 1].Index == _readings[i].Index))
            {
                continue;
            }

            double beside = Math.Min(Beside(_readings[i].FromMetres, _readings[i].FromIsProbe), Beside(_readings[i].ToMetres, _readings[i].ToIsProbe));
            double other = NormalDistribution.Cumulative(-beside / ProbeDeviationMetres);
            if (other < 0.01)
            {
                continue;
            }

            Int128 bits = Int128.One << i;
            if (i + 1 < _readings.Length && _readings[i + 1].Index == _readings[i].Index)
            {
                bits |= Int128.One << (i + 1);
            }

            int count = patterns.Count;
            for (int p = 0; p < count; p++)
            {
                (Int128 pattern, double share) = patterns[p];
                patterns[p] = (pattern, (1 - other) * share);
                patterns.Add((pattern ^ bits, other * share));
            }
        }

        return patterns;

        double Beside(double probeMetres, bool isProbe) => isProbe ? Math.Abs(place.AtMetres - probeMetres) : double.PositiveInfinity;
    }

    /// <summary>In the joint where a guide meets the loop either of the loop's wires may be loose: the fault shows from one end, not from both.</summary>
    private void AddOtherSideOfGuides(Place place, int endsBeforeEpoch, List<(Int128 Pattern, double Share)> patterns)
    {
        for (int i = 0; i + 1 < _readings.Length; i++)
        {
            if (_readings[i].Guide > 0 && _readings[i].Epoch <= endsBeforeEpoch && _readings[i].Index == _readings[i + 1].Index
                && _readings[i].Includes(place.AtMetres) && _readings[i + 1].Includes(place.AtMetres))
            {
                Int128 a = Int128.One << i, b = Int128.One << (i + 1);
                int count = patterns.Count;
                for (int p = 0; p < count; p++)
                {
                    (Int128 pattern, double share) = patterns[p];
                    patterns[p] = (pattern & ~b, share / 2);
                    patterns.Add((pattern & ~a, share / 2));
                }
            }
        }
    }

    /// <summary>Likelihood of all readings for each size, the fault being in the path of those in the pattern.</summary>
    public double[] BySize(Int128 pattern)
    {
        if (!_bySize.TryGetValue(pattern, out double[]? likelihood))
        {
            likelihood = Compute(pattern);
            _bySize.Add(pattern, likelihood);
        }

        return likelihood;
    }

    /// <summary>Likelihood of all readings of a wire with no series fault in any path.</summary>
    public double Healthy() => BySize(0)[0];

    /// <summary>Probability that each reading is wrong, given a pattern and a distribution over sizes.</summary>
    public double[] WrongProbabilities(Int128 pattern, double[] sizeWeights)
    {
        double[] sound = new double[_sizes.Count];
        AddSound(pattern, -1, sound);
        double[] wrong = new double[_readings.Length];
        double total = Dot(sound, sizeWeights);
        for (int i = 0; i < _readings.Length; i++)
        {
            Array.Clear(sound);
            AddSound(pattern, i, sound);
            wrong[i] = Dot(sound, sizeWeights);
            total += wrong[i];
        }

        for (int i = 0; i < wrong.Length; i++)
        {
            wrong[i] = total > 0 ? wrong[i] / total : 0;
        }

        return wrong;
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    private double[] Compute(Int128 pattern)
    {
        double[] likelihood = new double[_sizes.Count];
        AddSound(pattern, -1, likelihood);
        for (int i = 0; i < _readings.Length; i++)
        {
            AddSound(pattern, i, likelihood);
        }

        return likelihood;
    }

    /// <summary>Adds the likelihood with one reading (or none: −1) taken as wrong, over every wire that may lie there.</summary>
    private void AddSound(Int128 pattern, int wrongIndex, double[] target)
    {
        foreach (WireFactor factor in _factors)
        {
            AddSound(pattern, wrongIndex, factor, target);
        }
    }

    private void AddSound(Int128 pattern, int wrongIndex, WireFactor factor, double[] target)
    {
        double kk = 1 / (factor.Deviation * factor.Deviation), kr = 0, rr = 0, ky = factor.Mean * kk, ry = 0, yy = factor.Mean * factor.Mean * kk;
        double log = Math.Log(factor.Share) + (0.5 * Math.Log(kk));
        int outOfRangeInPath = 0, inPathFinite = 0;
        double outOfRangeElsewhere = 1;
        for (int i = 0; i < _readings.Length; i++)
        {
            OhmsReading reading = _readings[i];
            if (i == wrongIndex)
            {
                log += reading.Weight * Math.Log(reading.WrongProbability * _wrongDensity[i]);
                continue;
            }

            log += reading.Weight * Math.Log(1 - reading.WrongProbability);
            bool inPath = (pattern & (Int128.One << i)) != 0;
            if (reading.Ohms is not { } ohms)
            {
                if (inPath)
                {
                    outOfRangeInPath++;
                }
                else
                {
                    outOfRangeElsewhere *= OverRange.Probability(reading.NominalOhms);
                }

                continue;
            }

            double precision = reading.Weight / (reading.DeviationOhms * reading.DeviationOhms);
            double nominal = reading.NominalOhms;
            log += reading.Weight * Math.Log(1 / (reading.DeviationOhms * Math.Sqrt(2 * Math.PI)));
            kk += precision * nominal * nominal;
            ky += precision * nominal * ohms;
            yy += precision * ohms * ohms;
            if (inPath)
            {
                inPathFinite++;
                kr += precision * nominal;
                rr += precision;
                ry += precision * ohms;
            }
        }

        log -= 0.5 * Math.Log(kk);
        double least = yy - (ky * ky / kk);
        if (inPathFinite == 0)
        {
            double constant = Math.Exp(log - (least / 2)) * outOfRangeElsewhere;
            for (int j = 0; j < _sizes.Count; j++)
            {
                target[j] += constant * Math.Pow(OverRange.Probability(_sizes.Centre[j]), outOfRangeInPath);
            }

            return;
        }

        double precisionR = rr - (kr * kr / kk);
        double mean = (ry - (kr * ky / kk)) / precisionR;
        least -= precisionR * mean * mean;
        double deviation = 1 / Math.Sqrt(precisionR);
        double peak = Math.Exp(log - (Math.Max(least, 0) / 2)) * outOfRangeElsewhere;
        if (!(peak > 0))
        {
            return;
        }

        for (int j = 0; j < _sizes.Count; j++)
        {
            double low = _sizes.Low[j], high = _sizes.High[j];
            if (double.IsInfinity(low))
            {
                continue;
            }

            double share = NormalDistribution.Between((low - mean) / deviation, (high - mean) / deviation);
            double average = share * Math.Sqrt(2 * Math.PI) * deviation / (high - low);
            target[j] += peak * average * Math.Pow(OverRange.Probability(_sizes.Centre[j]), outOfRangeInPath);
        }
    }
}
