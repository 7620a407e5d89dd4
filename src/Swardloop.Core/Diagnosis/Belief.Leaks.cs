namespace Swardloop.Core.Diagnosis;

/// <summary>Two leaks at every two places, and leaks behind a mended fault.</summary>
internal sealed partial class Belief
{
    private void AddLeakPairs(PlaceGrid grid)
    {
        FaultGroup group = NewGroup(new Cause(CauseKind.LeakPair));
        double prior = _priors[(int)CauseKind.LeakPair] * SoundOhms();
        AddLeakPairs(group, grid, -1, [.. Enumerable.Range(0, _never + 1).Select(until => prior * SymptomsUntil(Condition.Of(CauseKind.LeakPair), until))]);
        Faults.Add(group);
    }

    /// <summary>Pairs of leaks at every two places.</summary>
    /// <param name="group">Takes them.</param>
    /// <param name="grid">The places.</param>
    /// <param name="mendedAt">The repair that ended a fault in series beside them, which answered the other tests till then; −1 when there was none.</param>
    /// <param name="common">Weight of all else, by the epoch until which the pair leaks.</param>
    private void AddLeakPairs(FaultGroup group, PlaceGrid grid, int mendedAt, double[] common)
    {
        List<(int Until, double Probability)>[] endings = [.. grid.Places.Select(EndingsAt)];
        (double Likelihood, SizeSpread Spread)[] leakSizes = [.. Enumerable.Range(0, _never + 1).Select(LeakSizes)];
        for (int a = 0; a < grid.Places.Length; a++)
        {
            for (int b = a + 1; b < grid.Places.Length; b++)
            {
                Place first = grid.Places[a], second = grid.Places[b];
                double placePrior = 2 * grid.LeakPairPrior[a] * grid.LeakPairPrior[b] * (grid.NearMetal[a] == grid.NearMetal[b] ? 1 : 0.3);
                if (!(placePrior > 1e-6))
                {
                    continue;
                }

                foreach ((int untilA, double probabilityA) in endings[a])
                {
                    foreach ((int untilB, double probabilityB) in endings[b])
                    {
                        AddLeakPair(first, second, grid.NearMetal[a] || grid.NearMetal[b], untilA, untilB, placePrior * probabilityA * probabilityB);
                    }
                }
            }
        }

        void AddLeakPair(Place first, Place second, bool nearMetal, int untilA, int untilB, double weight)
        {
            // Mending either place usually ends it; sometimes both must be mended.
            bool alike = untilA == untilB;
            foreach (bool either in alike ? EitherWay : FirstThenBoth)
            {
                int until = either ? Math.Min(untilA, untilB) : Math.Max(untilA, untilB);
                if (!(common[until] > 0))
                {
                    continue;
                }

                (double sizes, SizeSpread spread) = leakSizes[until];
                double likelihood = weight * sizes * common[until] * (until == _never ? 1 : _soundAfter[until])
                    * (alike ? 1 : either ? StatedProbabilities.OneLeakOfTwoSuffices : 1 - StatedProbabilities.OneLeakOfTwoSuffices);
                likelihood *= Found(untilA, untilB) * LeakPairTests(first, second, nearMetal, Math.Min(untilA, untilB), untilA > untilB ? first : second, until, mendedAt);
                if (until != _never)
                {
                    group.End(likelihood, until);
                    continue;
                }

                Part partA = new(CauseKind.LeakPair, first, -1, spread), partB = partA with { Place = second };
                if (untilA == _never && untilB == _never)
                {
                    group.Add(likelihood, partA, partB);
                }
                else
                {
                    group.Add(likelihood, untilA == _never ? partA : partB);
                }
            }
        }
    }

    /// <summary>A fault in series that a repair has ended, and leaks that are left. While both are there the fault in series is what is measured and
    /// mended first; what comes out only then is that the mower still does not run.</summary>
    private void AddLeaksBesideMended(CauseKind kind, SizeGrid sizes, OhmsEvidence ohms, PlaceGrid grid)
    {
        FaultGroup pairs = NewGroup(new Cause(kind, CauseKind.LeakPair)), leaks = NewGroup(new Cause(kind, CauseKind.Leak));
        double prior = 2 * StatedProbabilities.PairPenalty * _priors[(int)kind];
        for (int mendedAt = 0; mendedAt < _never; mendedAt++)
        {
            double[] besidePair = [.. MendedBeside(CauseKind.LeakPair, mendedAt).Select(weight => prior * _priors[(int)CauseKind.LeakPair] * weight)];
            if (besidePair[_never] > 1e-6 * _running)
            {
                AddLeakPairs(pairs, grid, mendedAt, besidePair);
            }

            double[] besideLeak = [.. MendedBeside(CauseKind.Leak, mendedAt).Select(weight => prior * _priors[(int)CauseKind.Leak] * weight)];
            if (besideLeak[_never] > 1e-6 * _running)
            {
                AddLeaks(mendedAt, besideLeak);
            }
        }

        Faults.Add(pairs);
        Faults.Add(leaks);

        // By the epoch until which the leak is there, after the repair.
        double[] MendedBeside(CauseKind leak, int mendedAt)
        {
            double[] weights = new double[_never + 1];
            Dictionary<(Int128, int), SizeSums> known = [];
            for (int i = 0; i < Grid.Places.Length; i++)
            {
                Place place = Grid.Places[i];
                double probability = EndingsAt(place).Where(ending => ending.Until == mendedAt).Sum(ending => ending.Probability);
                if (!(probability > 0))
                {
                    continue;
                }

                double common = Grid.PriorOf(kind)[i] * probability * Found(mendedAt);
                double wet = common * FaultyPlaceTests(kind, place, true, mendedAt, besideLeak: true);
                double dry = kind == CauseKind.Open ? common * FaultyPlaceTests(kind, place, false, mendedAt, besideLeak: true) : 0;
                foreach ((Int128 pattern, double share) in ohms.Patterns(place, mendedAt))
                {
                    for (int until = mendedAt + 1; until <= _never; until++)
                    {
                        if (!known.TryGetValue((pattern, until), out SizeSums? sums))
                        {
                            sums = SumSizes(kind, sizes, ohms.BySize(pattern), mendedAt, Condition.Of(leak), [(until, 1)]);
                            known.Add((pattern, until), sums);
                        }

                        weights[until] += share * ((wet * sums.Finite.Sum()) + (dry * sums.Infinite.Sum()));
                    }
                }
            }

            return weights;
        }

        void AddLeaks(int mendedAt, double[] common)
        {
            for (int i = 0; i < grid.Places.Length; i++)
            {
                Place place = grid.Places[i];
                foreach ((int until, double probability) in EndingsAt(place).Where(ending => ending.Until > mendedAt))
                {
                    (double likelihood, SizeSpread spread) = LeakSizes(until);
                    double weight = common[until] * grid.LeakPrior[i] * probability * likelihood * Found(until) * FaultyPlaceTests(CauseKind.Leak, place, true, until, mendedAt + 1)
                        * LeakTestsUntil(mendedAt, place);
                    if (until == _never)
                    {
                        leaks.Add(weight, new Part(CauseKind.Leak, place, -1, spread));
                    }
                    else
                    {
                        leaks.End(weight * _soundAfter[until], until);
                    }
                }
            }
        }

        // While the other fault was there too the leak answered only what is asked of leaks, and the ratio said where that fault was.
        double LeakTestsUntil(int epoch, Place place) => _evidence.PlaceTests.Where(item => item.Epoch <= epoch).Aggregate(1.0, (likelihood, item) => likelihood * item.Seen switch
        {
            Observation.EarthRatio => item.Weighted(_placeTests.Likelihood(item.Seen, null, default, false)),
            Observation.WireCrossing => item.Weighted(_placeTests.Likelihood(item.Seen, CauseKind.Leak, place, true)),
            _ => 1,
        });
    }

    private (double Likelihood, SizeSpread Spread) LeakSizes(int until)
    {
        if (_leaks[until] is { Likelihood: > 0 } known)
        {
            return known;
        }

        double[] weights = [.. _leakSizes.Prior.Zip(_leakSizes.Centre, (prior, ohms) => prior * EarthReadings(ohms, until))];
        return _leaks[until] = (weights.Sum(), SizeSpread.Of(_leakSizes, weights));
    }

    /// <summary>Likelihood of the place tests over two leaks, of which one may have been mended before the other.</summary>
    /// <param name="first">One leak.</param>
    /// <param name="second">The other.</param>
    /// <param name="nearMetal">Whether either lies beside metal.</param>
    /// <param name="both">The epoch until which both are there.</param>
    /// <param name="left">The one that is there after it.</param>
    /// <param name="until">The epoch until which that is there.</param>
    /// <param name="mendedAt">The repair that ended a fault in series beside them; −1 when there was none.</param>
    private double LeakPairTests(Place first, Place second, bool nearMetal, int both, Place left, int until, int mendedAt)
    {
        double likelihood = 1;
        List<(CaseEvidence.Item Item, Place First, Place Second)>? crossings = null;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch > until || (item.Epoch <= mendedAt && !IsAboutLeaks(item.Seen)))
            {
                continue;
            }

            Place one = item.Epoch <= both ? first : left, other = item.Epoch <= both ? second : left;
            likelihood *= item.Seen switch
            {
                // The fault in series took nearly all of the battery's volts: the ratio says where it was, not where the leaks are.
                Observation.EarthRatio o when item.Epoch <= mendedAt => item.Weighted(_placeTests.Likelihood(o, null, default, false)),
                Observation.EarthRatio => item.Weighted(RatioAtLeaks(item, one, other)),
                Observation.ToneTrace o => item.Weighted(0.5 * (_placeTests.Likelihood(o, CauseKind.Leak, one, true) + _placeTests.Likelihood(o, CauseKind.Leak, other, true))),
                Observation.EarthGradient o => item.Weighted(0.5 * (_placeTests.Likelihood(o, CauseKind.Leak, one, true) + _placeTests.Likelihood(o, CauseKind.Leak, other, true))),
                Observation.EndCapacitance or Observation.AcRatio or Observation.TerminalLook or Observation.Wiggle =>
                    item.Weighted(_placeTests.Likelihood(item.Seen, null, one, true)),
                _ => 1,
            };
            if (item.Seen is Observation.WireCrossing)
            {
                (crossings ??= []).Add((item, one, other));
            }
        }

        likelihood *= crossings is null ? 1 : _placeTests.CrossingsAtLeakPair(crossings, nearMetal);
        CaseEvidence.Item[] looks = mendedAt < 0 ? _looksUntil[until] : Array.FindAll(_looksUntil[until], item => item.Epoch > mendedAt);
        if (looks.Length == 0)
        {
            return likelihood;
        }

        if (both >= until)
        {
            return likelihood * PlaceTestModel.LookLikelihood(looks, first, second);
        }

        CaseEvidence.Item[] before = Array.FindAll(looks, item => item.Epoch <= both), after = Array.FindAll(looks, item => item.Epoch > both);
        return likelihood * (before.Length > 0 ? PlaceTestModel.LookLikelihood(before, first, second) : 1) * (after.Length > 0 ? PlaceTestModel.LookLikelihood(after, left) : 1);
    }
}
