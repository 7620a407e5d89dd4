using Swardloop.Core.Geometry;

namespace Swardloop.Core.Surveying;

/// <summary>Turns tapes between points into a plan, by least squares.</summary>
/// <remarks>
/// The errors are those of the tapes as stated, carried through the adjustment; they are not scaled by how well the tapes happen to agree.
/// A tape is called odd by its residual over the residual's own deviation (data snooping), and named when leaving it out explains the tapes better than
/// leaving out any other. Source: Baarda 1968 (see <see cref="SurveyPlan.CriticalDeviations"/>); Ghilani, Adjustment Computations, chapters 14, 19, 21 (from memory).
/// The next tape is the one that lowers the summed variance of all coordinates most (A-optimality, textbook).
/// Cost: with n points, some n³ for each tape once tapes disagree; a hundred points take seconds. Accuracy: linear in the errors, which holds while they are small beside the tapes.
/// </remarks>
public static class SurveyAdjustment
{
    /// <summary>Two arrangements whose sums of squares differ by less than this are both possible: the worse is at most some 3,000 times less likely.</summary>
    private const double MirrorChiSquare = 16;

    /// <summary>The odd tape is named when the next best explanation is worse by this sum of squares: it is then at least 1.6 times less likely.</summary>
    private const double NamedChiSquare = 1;

    /// <summary>Explanations worse by less than this, at most seven times less likely, are listed beside it.</summary>
    private const double ListedChiSquare = 4;

    /// <summary>When there are more tapes than this, only the worst are tried for the odd one.</summary>
    private const int MostTried = 40;

    /// <summary>A slip is noticed four times of five from this many deviations above <see cref="SurveyPlan.CriticalDeviations"/> on.</summary>
    private const double FourOfFive = 0.84;

    /// <summary>Adjusts a survey.</summary>
    /// <param name="fixedPoints">Points whose places are known, at least two, names and places different.</param>
    /// <param name="tapes">The tapes, at least one; a name that is not fixed is a point to be found.</param>
    /// <exception cref="ArgumentException">Fewer than two fixed points, a name fixed twice, no tape, or none that leads to a new point.</exception>
    public static SurveyResult Adjust(IReadOnlyList<(string Name, PlanPoint Place)> fixedPoints, IReadOnlyList<Tape> tapes)
    {
        if (fixedPoints.Count < 2)
        {
            throw new ArgumentException("Needs at least two fixed points.", nameof(fixedPoints));
        }

        TapeNetwork network = new(fixedPoints, tapes);
        if (network.FreeCount == 0)
        {
            throw new ArgumentException("Needs a tape to a point that is not fixed.", nameof(tapes));
        }

        bool[] used = new bool[tapes.Count];
        Array.Fill(used, true);
        if (Rigidity.Loose(network, used) is { Count: > 0 } loose)
        {
            return new(new SurveyFlaw(SurveyFlawKind.Undetermined, Names(network, loose), SuggestFor(network, loose)));
        }

        Arrangement whole = Arrangement.Of(network, used);
        (int? odd, int[] oneOf, Arrangement best) = FindOdd(network, used, whole);
        if (odd is int left)
        {
            used[left] = false;
        }

        if (best.Flaw(network) is { } flaw)
        {
            return new(flaw);
        }

        return new(PlanOf(network, used, best.Fit, odd, oneOf));
    }

    private static (int? Odd, int[] OneOf, Arrangement Best) FindOdd(TapeNetwork network, bool[] used, Arrangement whole)
    {
        double[] deviations = Deviations(network, used, whole.Fit);
        if (whole.Fit.WeakPoint >= 0 || !(deviations.Max() > SurveyPlan.CriticalDeviations))
        {
            return (null, [], whole);
        }

        List<(int Tape, Arrangement Without)> tried = [];
        foreach (int tape in Enumerable.Range(0, used.Length).OrderByDescending(t => deviations[t]).Take(MostTried))
        {
            bool[] without = (bool[])used.Clone();
            without[tape] = false;
            if (Rigidity.Loose(network, without).Count == 0)
            {
                tried.Add((tape, Arrangement.Of(network, without)));
            }
        }

        tried.RemoveAll(one => one.Without.Fit.WeakPoint >= 0);
        tried.Sort((a, b) => a.Without.Fit.ChiSquare.CompareTo(b.Without.Fit.ChiSquare));
        if (tried.Count == 0)
        {
            return (null, [], whole);
        }

        double least = tried[0].Without.Fit.ChiSquare;
        int[] oneOf = [.. tried.TakeWhile(one => one.Without.Fit.ChiSquare < least + ListedChiSquare).Select(one => one.Tape)];
        bool isNamed = tried.Count == 1 || tried[1].Without.Fit.ChiSquare > least + NamedChiSquare;
        return isNamed ? (oneOf[0], oneOf.Length > 1 ? oneOf : [], tried[0].Without) : (null, oneOf, whole);
    }

    private static SurveyPlan PlanOf(TapeNetwork network, bool[] used, TapeFit fit, int? odd, int[] oneOf)
    {
        NormalMatrix normal = TapeFit.Normal(network, used, fit.Places, new double[2 * network.FreeCount]);
        _ = normal.Factor();
        double[][] covariance = normal.Inverse();
        List<SurveyedPoint> points = [];
        for (int i = 0; i < network.FreeCount; i++)
        {
            double east = Math.Sqrt(covariance[2 * i][2 * i]), north = Math.Sqrt(covariance[(2 * i) + 1][(2 * i) + 1]);
            points.Add(new(network.Names[network.FixedCount + i], fit.Places[network.FixedCount + i], east, north, covariance[2 * i][(2 * i) + 1] / (east * north)));
        }

        double?[] slips = new double?[used.Length];
        for (int t = 0; t < used.Length; t++)
        {
            double share = used[t] ? Unexplained(network, fit, covariance, t) : 1;
            slips[t] = share > 0.01 ? (SurveyPlan.CriticalDeviations + FourOfFive) / Math.Sqrt(network.Tapes[t].Weight * share) : null;
        }

        return new()
        {
            Points = points,
            ResidualMetres = [.. network.Tapes.Select(tape => fit.Places[tape.From].DistanceTo(fit.Places[tape.To]) - tape.Metres)],
            LeastSlipMetres = slips,
            Odd = odd,
            OddOneOf = oneOf,
            ChiSquare = fit.ChiSquare,
            Redundancy = used.Count(isUsed => isUsed) - (2 * network.FreeCount),
            Next = NextOf(network, fit.Places, covariance),
        };
    }

    /// <summary>For each tape, its residual over the residual's own deviation; 0 where nothing checks it.</summary>
    private static double[] Deviations(TapeNetwork network, bool[] used, TapeFit fit)
    {
        double[] deviations = new double[used.Length];
        NormalMatrix normal = TapeFit.Normal(network, used, fit.Places, new double[2 * network.FreeCount]);
        if (normal.Factor() >= 0)
        {
            return deviations;
        }

        double[][] covariance = normal.Inverse();
        for (int t = 0; t < used.Length; t++)
        {
            double share = Unexplained(network, fit, covariance, t);
            TapeNetwork.Link tape = network.Tapes[t];
            double miss = fit.Places[tape.From].DistanceTo(fit.Places[tape.To]) - tape.Metres;
            deviations[t] = share > 1e-6 ? Math.Abs(miss) * Math.Sqrt(tape.Weight / share) : 0;
        }

        return deviations;
    }

    /// <summary>Redundancy number of a tape, 0 to 1: which share of a slip in it shows in its own residual.</summary>
    private static double Unexplained(TapeNetwork network, TapeFit fit, double[][] covariance, int tape) =>
        1 - (network.Tapes[tape].Weight * Variance(network, fit.Places, covariance, network.Tapes[tape], null));

    /// <summary>Variance (m²) of the distance between two adjusted points; the covariance with each coordinate goes into <paramref name="with"/>.</summary>
    private static double Variance(TapeNetwork network, PlanPoint[] places, double[][] covariance, TapeNetwork.Link link, double[]? with)
    {
        (double east, double north, _) = TapeFit.Direction(places, link);
        double[] sums = with ?? new double[covariance.Length];
        Array.Clear(sums);
        Add(link.From, -east, -north);
        Add(link.To, east, north);
        return Part(link.From, -east, -north) + Part(link.To, east, north);

        void Add(int point, double alongEast, double alongNorth)
        {
            int at = 2 * (point - network.FixedCount);
            for (int i = 0; at >= 0 && i < sums.Length; i++)
            {
                sums[i] += (covariance[at][i] * alongEast) + (covariance[at + 1][i] * alongNorth);
            }
        }

        double Part(int point, double alongEast, double alongNorth)
        {
            int at = 2 * (point - network.FixedCount);
            return at < 0 ? 0 : (sums[at] * alongEast) + (sums[at + 1] * alongNorth);
        }
    }

    private static NextTape? NextOf(TapeNetwork network, PlanPoint[] places, double[][] covariance)
    {
        HashSet<(int, int)> taped = [.. network.Tapes.Select(tape => (Math.Min(tape.From, tape.To), Math.Max(tape.From, tape.To)))];
        double now = 0;
        for (int i = 0; i < covariance.Length; i++)
        {
            now += covariance[i][i];
        }

        (TapeNetwork.Link Link, double Gain) best = (default, 0);
        double[] with = new double[covariance.Length];
        for (int to = network.FixedCount; to < places.Length; to++)
        {
            for (int from = 0; from < to; from++)
            {
                double length = places[from].DistanceTo(places[to]);
                if (taped.Contains((from, to)) || length < 0.1)
                {
                    continue;
                }

                double deviation = Tape.DefaultDeviationMetres(length);
                TapeNetwork.Link link = new(from, to, length, 1 / (deviation * deviation));
                double variance = Variance(network, places, covariance, link, with), gain = with.Sum(c => c * c) / (variance + (deviation * deviation));
                best = gain > best.Gain ? (link, gain) : best;
            }
        }

        return best.Gain > 0
            ? new(network.Names[best.Link.From], network.Names[best.Link.To], best.Link.Metres,
                Math.Sqrt(now / covariance.Length), Math.Sqrt(Math.Max(0, now - best.Gain) / covariance.Length))
            : null;
    }

    private static string[] Names(TapeNetwork network, IEnumerable<int> points) => [.. points.Select(point => network.Names[point])];

    /// <summary>A tape, from a fixed point that does not reach it yet, to the first of some points that are loose.</summary>
    private static (string From, string To)? SuggestFor(TapeNetwork network, List<int> loose)
    {
        foreach (int point in loose)
        {
            for (int from = 0; from < network.FixedCount; from++)
            {
                if (!Array.Exists(network.Tapes, tape => tape.OtherEnd(point) == from))
                {
                    return (network.Names[from], network.Names[point]);
                }
            }
        }

        return null;
    }

    /// <summary>The best adjustment of some tapes, and its nearest rival that lies elsewhere.</summary>
    private sealed record Arrangement(TapeFit Fit, TapeFit? Rival, bool SidesContradicted)
    {
        public static Arrangement Of(TapeNetwork network, bool[] used)
        {
            List<TapeFit> fits = [.. StartPlaces.Of(network, used).Select(start => TapeFit.From(network, used, start)).OrderBy(fit => fit.ChiSquare)];
            List<TapeFit> allowed = fits.FindAll(fit => network.SidesHold(fit.Places));
            List<TapeFit> from = allowed.Count > 0 ? allowed : fits;
            TapeFit best = from[0];
            TapeFit? rival = from.Find(fit => fit.ChiSquare < best.ChiSquare + MirrorChiSquare && Moved(network, best, fit).Count > 0);
            bool contradicted = allowed.Count == 0 || best.ChiSquare > fits[0].ChiSquare + MirrorChiSquare;
            return new(best, rival, contradicted && network.Sides.Length > 0);
        }

        public SurveyFlaw? Flaw(TapeNetwork network)
        {
            if (Fit.WeakPoint >= 0)
            {
                return new(SurveyFlawKind.InOneLine, [network.Names[Fit.WeakPoint]]);
            }

            if (SidesContradicted)
            {
                return new(SurveyFlawKind.SideContradicted, Names(network, network.Sides.Select(rule => rule.Point).Distinct()));
            }

            if (Rival is not null)
            {
                List<int> moved = Moved(network, Fit, Rival);
                return new(SurveyFlawKind.MirrorImage, Names(network, moved), SuggestFor(network, moved));
            }

            // Tapes that miss by metres everywhere are no survey of one yard.
            double worst = network.Tapes.Max(tape => Math.Abs(Fit.Places[tape.From].DistanceTo(Fit.Places[tape.To]) - tape.Metres) / tape.Metres);
            int bad = network.Tapes.Count(tape => Math.Abs(Fit.Places[tape.From].DistanceTo(Fit.Places[tape.To]) - tape.Metres) > 0.25 * tape.Metres);
            return worst > 0.25 && 2 * bad > network.Tapes.Length ? new(SurveyFlawKind.NoAgreement, Names(network, Enumerable.Range(network.FixedCount, network.FreeCount))) : null;
        }

        private static List<int> Moved(TapeNetwork network, TapeFit one, TapeFit other) =>
            [.. Enumerable.Range(network.FixedCount, network.FreeCount).Where(point => one.Places[point].DistanceTo(other.Places[point]) > 0.02)];
    }
}
