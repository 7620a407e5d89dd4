namespace Swardloop.Core.Diagnosis;

/// <summary>Two faults in series at every two places, of which one may harm nobody.</summary>
internal sealed partial class Belief
{
    /// <summary>Two faults in series at two places.</summary>
    private void AddPairsOfWireFaults(PlaceGrid grid)
    {
        const double Wet = StatedProbabilities.BreakIsWet, Both = StatedProbabilities.PairPenalty, Harmless = StatedProbabilities.HarmlessResistance;
        double series = _priors[(int)CauseKind.SeriesResistance], open = _priors[(int)CauseKind.Open];
        List<TwoFaults> combinations =
        [
            new(CauseKind.SeriesResistance, CauseKind.SeriesResistance, false, false, Both * series * series),
            new(CauseKind.SeriesResistance, CauseKind.Open, false, true, 2 * Both * series * open * (1 - Wet)),
            new(CauseKind.SeriesResistance, CauseKind.Open, false, false, 2 * Both * series * open * Wet),
            new(CauseKind.Open, CauseKind.Open, true, true, Both * open * open * Squared(1 - Wet)),
            new(CauseKind.Open, CauseKind.Open, true, false, Both * open * open * Wet * (1 - Wet)),
            new(CauseKind.Open, CauseKind.Open, false, true, Both * open * open * Wet * (1 - Wet)),
            new(CauseKind.Open, CauseKind.Open, false, false, Both * open * open * Squared(Wet)),
        ];

        // Resistance that harms nobody shows beside a fault only where the wire was measured in parts.
        if (Array.Exists(_evidence.Ohms, reading => reading.Outside || reading.Guide > 0 || reading.ToMetres - reading.FromMetres < _physics.LengthMetres - 1))
        {
            combinations.Add(new(CauseKind.SeriesResistance, CauseKind.SeriesResistance, false, false, Harmless * series) { FirstIsHarmless = true });
            combinations.Add(new(CauseKind.SeriesResistance, CauseKind.Open, false, true, Harmless * open * (1 - Wet)) { FirstIsHarmless = true });
            combinations.Add(new(CauseKind.SeriesResistance, CauseKind.Open, false, false, Harmless * open * Wet) { FirstIsHarmless = true });
        }

        Dictionary<Cause, FaultGroup> groups = [];
        List<(int Until, double Probability)>[] endings = [.. grid.Places.Select(EndingsAt)];
        foreach (TwoFaults faults in combinations)
        {
            Cause cause = faults.FirstIsHarmless ? new(faults.Second) : new(faults.First, faults.Second);
            if (!groups.TryGetValue(cause, out FaultGroup? group))
            {
                group = faults.FirstIsHarmless ? Faults.Find(known => known.Cause == cause)! : NewGroup(cause);
                groups.Add(cause, group);
                if (!faults.FirstIsHarmless)
                {
                    Faults.Add(group);
                }
            }

            double[] priorA = grid.PriorOf(faults.First), priorB = grid.PriorOf(faults.Second);
            bool alike = faults.First == faults.Second && !faults.FirstIsHarmless;
            for (int a = 0; a < grid.Places.Length; a++)
            {
                for (int b = alike ? a + 1 : 0; b < grid.Places.Length; b++)
                {
                    double placePrior = faults.Prior * priorA[a] * priorB[b] * (alike ? 2 : 1);
                    if (a == b || !(placePrior > 1e-9))
                    {
                        continue;
                    }

                    AddPairAtPlaces(group, faults, grid.Places[a], grid.Places[b], endings[a], endings[b], placePrior);
                }
            }
        }
    }

    private void AddPairAtPlaces(
        FaultGroup group, TwoFaults faults, Place placeA, Place placeB,
        List<(int Until, double Probability)> endingsA, List<(int Until, double Probability)> endingsB, double prior)
    {
        (CauseKind kindA, CauseKind kindB, bool dryA, bool dryB) = (faults.First, faults.Second, faults.FirstIsDry, faults.SecondIsDry);
        TwoFaultOhms.Range rangeA = faults.FirstIsHarmless ? new(2, _mostHarmless) : TwoFaultOhms.Range.Of(kindA, dryA, _leastOfPair);
        foreach ((int untilA, double probabilityA) in endingsA)
        {
            foreach ((int untilB, double probabilityB) in endingsB)
            {
                TwoFaultOhms.Result result = _twoOhms.Of(
                    _seriesOhms.Pattern(placeA.AtMetres, untilA), _seriesOhms.Pattern(placeB.AtMetres, untilB),
                    rangeA, TwoFaultOhms.Range.Of(kindB, dryB, _leastOfPair));
                double weight = prior * probabilityA * probabilityB * result.Likelihood;
                if (!(weight > 1e-11 * _running))
                {
                    continue;
                }

                Condition conditionA = faults.FirstIsHarmless ? Condition.Healthy : Condition.Of(kindA, Snapped(result.OhmsA)), conditionB = Condition.Of(kindB, Snapped(result.OhmsB));
                weight *= Symptoms2(conditionA, untilA, conditionB, untilB);
                weight *= _ratios.Length + _acRatios.Length == 0 ? 1 : PairRatios((kindA, placeA, result.OhmsA), untilA, (kindB, placeB, result.OhmsB), untilB);
                weight *= _capacitances.Length == 0 ? 1 : PairCapacitances((kindA, placeA, result.OhmsA), untilA, (kindB, placeB, result.OhmsB), untilB);
                weight *= _echoesUntil[_never].Length == 0 ? 1 : PairEchoes((kindA, placeA, result.OhmsA), untilA, (kindB, placeB, result.OhmsB), untilB);
                weight *= Found(untilA, untilB) * PairPlaceTests((kindA, placeA, !dryA), untilA, (kindB, placeB, !dryB), untilB);
                Part partA = new(kindA, placeA, -1, SizeSpread.At(result.OhmsA), kindA == CauseKind.Open && !dryA);
                Part partB = new(kindB, placeB, -1, SizeSpread.At(result.OhmsB), kindB == CauseKind.Open && !dryB);
                group.AddTwo(
                    weight, untilA == _never && !faults.FirstIsHarmless ? partA : null, untilB == _never ? partB : null, faults.FirstIsHarmless ? untilB : Math.Max(untilA, untilB));
            }
        }
    }

    /// <summary>Place tests of two faults. While both are there, of a resistance and a break the break answers, of two of a kind either does;
    /// then the one that is left; then the sound wire.</summary>
    private double PairPlaceTests((CauseKind Kind, Place Place, bool Wet) a, int untilA, (CauseKind Kind, Place Place, bool Wet) b, int untilB)
    {
        int both = Math.Min(untilA, untilB), last = Math.Max(untilA, untilB);
        double likelihood = a.Kind == b.Kind ? 0.5 * (Tests(a, 0, both) + Tests(b, 0, both)) : Tests(b, 0, both);
        if (last > both)
        {
            likelihood *= Tests(untilA > untilB ? a : b, both + 1, last);
        }

        return last == _never ? likelihood : likelihood * _soundAfter[last];
    }

    private double Tests((CauseKind Kind, Place Place, bool Wet) fault, int fromEpoch, int until)
    {
        ((CauseKind Kind, Place Place, bool Wet), int, int) key = (fault, fromEpoch, until);
        if (!_pairTests.TryGetValue(key, out double likelihood))
        {
            likelihood = FaultyPlaceTests(fault.Kind, fault.Place, fault.Wet, until, fromEpoch, withCapacitance: false);
            _pairTests.Add(key, likelihood);
        }

        return likelihood;
    }

    /// <summary>Sizes snapped to the grid so that symptoms are computed once per bin.</summary>
    private double Snapped(double ohms) => double.IsInfinity(ohms) ? ohms : _seriesSizes.Centre[_seriesSizes.IndexOf(ohms)];

    /// <summary>Two faults in series. The first may be resistance that harms nobody: it shows in readings and need not be found.</summary>
    private readonly record struct TwoFaults(CauseKind First, CauseKind Second, bool FirstIsDry, bool SecondIsDry, double Prior)
    {
        public bool FirstIsHarmless { get; init; }
    }
}
