namespace Swardloop.Core.Diagnosis;

/// <summary>One fault of the wire at every place and of every size, alone or beside a cause elsewhere.</summary>
internal sealed partial class Belief
{
    /// <summary>One wire fault, alone or beside one cause that does not lie along the wire.</summary>
    private void AddWire(CauseKind kind, SizeGrid sizes, OhmsEvidence? ohms, List<PlaceLikelihood> likelihoods)
    {
        AddWire(kind, sizes, ohms, likelihoods, null);
        if (kind is CauseKind.SeriesResistance or CauseKind.Open)
        {
            foreach (CauseKind companion in Companions)
            {
                AddWire(kind, sizes, ohms, likelihoods, companion);
            }
        }
    }

    /// <summary>What the tests that depend on place say of a fault at each place, for each repair that may have ended it.</summary>
    private List<PlaceLikelihood> PlaceLikelihoods(CauseKind kind, SizeGrid sizes, OhmsEvidence? ohms)
    {
        Place[] places = Grid.Places;
        List<PlaceLikelihood> likelihoods = new(places.Length);
        bool bySize = _ratios.Length + _acRatios.Length > 0 || _echoesUntil[_never].Length > 0 || _capacitances.Length > 0;
        for (int i = 0; i < places.Length; i++)
        {
            foreach ((int until, double probability) in EndingsAt(places[i]))
            {
                double common = probability * Found(until) * (until == _never ? 1 : _soundAfter[until]);
                double wet = common * FaultyPlaceTests(kind, places[i], true, until, withCapacitance: false);
                double dry = kind == CauseKind.Open ? common * FaultyPlaceTests(kind, places[i], false, until, withCapacitance: false) * Capacitances(kind, places[i], until, 0) : 0;
                if (ohms is null)
                {
                    likelihoods.Add(new(i, until, 0, wet, dry));
                    continue;
                }

                foreach ((Int128 pattern, double share) in ohms.Patterns(places[i], until))
                {
                    double tests = share, conducting = 1;
                    if (bySize)
                    {
                        SizeMoments size = MomentsOf(sizes, ohms.BySize(pattern));
                        tests *= Ratios(kind, places[i], until, size) * Echoes(kind, places[i], 0, until, size.EchoShows);
                        conducting = Capacitances(kind, places[i], until, size.WetShare);
                    }

                    likelihoods.Add(new(i, until, pattern, tests * conducting * wet, tests * dry));
                }
            }
        }

        return likelihoods;
    }

    private void AddWire(CauseKind kind, SizeGrid sizes, OhmsEvidence? ohms, List<PlaceLikelihood> likelihoods, CauseKind? companion)
    {
        FaultGroup group = NewGroup(new Cause(kind, companion));
        if (companion is { } other)
        {
            foreach ((Condition condition, double share) in FormsOfTwo(other))
            {
                AddWire(group, kind, sizes, ohms, likelihoods, 2 * StatedProbabilities.PairPenalty * _priors[(int)kind] * _priors[(int)other] * share, new Part(other, Shown: condition), EndingsElsewhere(other));
            }
        }
        else
        {
            AddWire(group, kind, sizes, ohms, likelihoods, _priors[(int)kind], null, [(-1, 1)]);
        }

        _running += group.Weight;
        Faults.Add(group);
    }

    private void AddWire(
        FaultGroup group, CauseKind kind, SizeGrid sizes, OhmsEvidence? ohms, List<PlaceLikelihood> likelihoods, double prior, Part? companion, List<(int Until, double Probability)> companionEndings)
    {
        Condition companionCondition = companion?.Condition ?? Condition.Healthy;
        Place[] places = Grid.Places;
        double[] placePrior = Grid.PriorOf(kind);
        Dictionary<(Int128 Pattern, int Until), SizeSums> sums = [];

        // By what became of the companion: [0] still there too, [1] mended or never there.
        (double[][] finite, double[][] infinite, SizeSpread[] spread) = (_finite, _infinite, _spread);
        for (int state = 0; state < 2; state++)
        {
            Array.Clear(finite[state]);
            Array.Clear(infinite[state]);
        }

        double companionOnly = 0;
        foreach (PlaceLikelihood at in likelihoods)
        {
            if (!sums.TryGetValue((at.Pattern, at.Until), out SizeSums? bySize))
            {
                bySize = SumSizes(kind, sizes, ohms?.BySize(at.Pattern), at.Until, companionCondition, companionEndings);
                sums.Add((at.Pattern, at.Until), bySize);
            }

            if (at.Until == _never)
            {
                for (int state = 0; state < 2; state++)
                {
                    finite[state][at.Place] += at.Finite * bySize.Finite[state];
                    infinite[state][at.Place] += at.Infinite * bySize.Infinite[state];
                }

                spread[at.Place] = bySize.Spread;
            }
            else
            {
                double weight = prior * placePrior[at.Place];
                companionOnly += weight * ((at.Finite * bySize.Finite[0]) + (at.Infinite * bySize.Infinite[0]));
                group.End(weight * ((at.Finite * bySize.Finite[1]) + (at.Infinite * bySize.Infinite[1])), companion is null ? at.Until : _never);
            }
        }

        if (companion is { } left)
        {
            group.Add(companionOnly, left);
        }

        for (int state = companion is null ? 1 : 0; state < 2; state++)
        {
            Smear(finite[state]);
            Smear(infinite[state]);
            Part? second = state == 0 ? companion : null;
            for (int i = 0; i < places.Length; i++)
            {
                double at = prior * placePrior[i];
                group.Add(at * finite[state][i], new Part(kind, places[i], i, spread[i], kind == CauseKind.Open), second);
                group.Add(at * infinite[state][i], new Part(kind, places[i], i, SizeSpread.Infinite), second);
            }
        }
    }

    /// <summary>Sums over sizes for one pattern of readings and one ending: symptoms × readings × prior of the size.</summary>
    private SizeSums SumSizes(
        CauseKind kind, SizeGrid sizes, double[]? likelihood, int until, Condition companion, List<(int Until, double Probability)> companionEndings)
    {
        double[] finite = new double[2], infinite = new double[2], bySize = new double[sizes.Count];
        double healthy = likelihood is null ? SoundOhms() : 1;
        for (int j = 0; j < sizes.Count; j++)
        {
            double size = sizes.Prior[j] * (likelihood?[j] ?? (healthy * EarthReadings(sizes.Centre[j], until)));
            if (!(size > 0))
            {
                continue;
            }

            Condition condition = Condition.Of(kind, likelihood is null ? 0 : sizes.Centre[j]);
            foreach ((int companionUntil, double probability) in companionEndings)
            {
                double weight = size * probability * Symptoms2(condition, until, companion, companionUntil);
                int state = companionUntil == _never && companion.Present != 0 ? 0 : 1;
                if (double.IsInfinity(sizes.High[j]))
                {
                    infinite[state] += weight;
                }
                else
                {
                    finite[state] += weight;
                    bySize[j] += weight;
                }
            }
        }

        return new(finite, infinite, SizeSpread.Of(sizes, bySize));
    }

    /// <summary>Places are met to about 0.2 m, by every test on its own: likelihoods of neighbouring short pieces run into each other.</summary>
    private void Smear(double[] likelihood)
    {
        Place[] places = Grid.Places;
        double before = 0;
        for (int i = 0; i < places.Length; i++)
        {
            double own = likelihood[i];
            if (places[i].Kind == PlaceKind.Span && places[i].LengthMetres < 1)
            {
                double left = i > 0 && places[i - 1].Kind == PlaceKind.Span ? before : own;
                double right = i + 1 < places.Length && places[i + 1].Kind == PlaceKind.Span ? likelihood[i + 1] : own;
                likelihood[i] = (0.8 * own) + (0.1 * left) + (0.1 * right);
            }

            before = own;
        }
    }

    /// <summary>Likelihood of the place tests for one place and one ending: of a fault that conducts, and of a dry break.</summary>
    private readonly record struct PlaceLikelihood(int Place, int Until, Int128 Pattern, double Finite, double Infinite);

    private sealed record SizeSums(double[] Finite, double[] Infinite, SizeSpread Spread);
}
