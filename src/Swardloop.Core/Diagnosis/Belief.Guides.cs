namespace Swardloop.Core.Diagnosis;

/// <summary>Faults in guide wires: the loop is sound, the mower mows and does not come home along the guide.</summary>
internal sealed partial class Belief
{
    /// <summary>From this resistance on a fault in a guide is a break that conducts (Ω).</summary>
    public const double LeastOfBreak = 8_000;

    /// <summary>What faults in the yard's guide wires weigh against <see cref="CausePriors"/>'s count for them: by how much guide there is beside the loop.
    /// Judgement, no source.</summary>
    private static double GuideFactor(YardPhysics physics) => physics.Guides.Count == 0 ? 0 : Math.Min(1.5, 0.2 + (physics.Guides.Sum(guide => guide.LengthMetres) / physics.LengthMetres));

    private void AddGuides()
    {
        if (_physics.Guides.Count == 0)
        {
            return;
        }

        FaultGroup group = NewGroup(new Cause(CauseKind.Guide));
        double series = _priors[(int)CauseKind.SeriesResistance], open = _priors[(int)CauseKind.Open], prior = _priors[(int)CauseKind.Guide] * SoundPlaceTests(0), all = _physics.Guides.Sum(guide => guide.LengthMetres);
        double[] ended = new double[_never];
        double[] symptoms = [.. Enumerable.Range(0, _never + 1).Select(until => SymptomsUntil(Condition.Of(CauseKind.Guide), until))];
        foreach (GuidePhysics guide in _physics.Guides)
        {
            double share = guide.LengthMetres / all;
            AddGuide(group, guide, CauseKind.SeriesResistance, _seriesSizes, _seriesOhms, prior * share * series / (series + open), symptoms, ended);
            AddGuide(group, guide, CauseKind.Open, _breakSizes, _breakOhms, prior * share * open / (series + open), symptoms, ended);
        }

        _running += group.Weight;
        Faults.Add(group);
        AddBehindMended(Condition.Of(CauseKind.Guide), CauseKind.Guide, ended);
    }

    private void AddGuide(FaultGroup group, GuidePhysics guide, CauseKind kind, SizeGrid sizes, OhmsEvidence ohms, double prior, double[] symptoms, double[] ended)
    {
        double[] placePrior = kind == CauseKind.Open ? guide.OpenPrior : guide.SeriesPrior;
        double sound = GuideTests(guide, null, default, _never, false);
        for (int i = 0; i < guide.Places.Length; i++)
        {
            Place place = guide.Places[i];
            foreach ((int until, double probability) in Endings(change => GuideRepairs.Cures(change, place, _physics)))
            {
                double[] bySize = ohms.BySize(GuidePattern(place, until));
                double finite = 0, infinite = 0, logs = 0;
                for (int j = 0; j < sizes.Count; j++)
                {
                    double weight = sizes.Prior[j] * bySize[j];
                    if (double.IsInfinity(sizes.High[j]))
                    {
                        infinite += weight;
                    }
                    else
                    {
                        finite += weight;
                        logs += weight * Math.Log(sizes.Centre[j]);
                    }
                }

                // What a sound guide would have answered is in every other cause's weight.
                double common = prior * placePrior[i] * probability * Found(until) / sound;
                double wet = common * finite * GuideTests(guide, kind, place, until, true), dry = common * infinite * GuideTests(guide, kind, place, until, false);
                if (until == _never)
                {
                    group.Add(symptoms[until] * wet, new Part(CauseKind.Guide, place, -1, SizeSpread.At(finite > 0 ? Math.Exp(logs / finite) : sizes.Centre[0]), kind == CauseKind.Open));
                    group.Add(symptoms[until] * dry, new Part(CauseKind.Guide, place, -1, SizeSpread.Infinite));
                }
                else
                {
                    group.End(symptoms[until] * (wet + dry), until);
                    ended[until] += wet + dry;
                }
            }
        }
    }

    /// <summary>A fault in a guide and one in the loop: the reading from a plug to the guide has both in its path, the loop's its own.</summary>
    private void AddGuidesBesideWireFaults(PlaceGrid grid)
    {
        if (_physics.Guides.Count == 0)
        {
            return;
        }

        const double Wet = StatedProbabilities.BreakIsWet;
        double series = _priors[(int)CauseKind.SeriesResistance], open = _priors[(int)CauseKind.Open], dryGuides = open * (1 - Wet) / (series + open);
        double all = _physics.Guides.Sum(guide => guide.LengthMetres), prior = 2 * StatedProbabilities.PairPenalty * _priors[(int)CauseKind.Guide];
        List<OnGuide> onGuides =
        [
            .. _physics.Guides.SelectMany(guide => OnGuides(guide, prior * guide.LengthMetres / all * (1 - dryGuides), new(20, 2e7))),
            .. _physics.Guides.SelectMany(guide => OnGuides(guide, prior * guide.LengthMetres / all * dryGuides, new(double.PositiveInfinity, double.PositiveInfinity))),
        ];
        foreach (CauseKind kind in (CauseKind[])[CauseKind.SeriesResistance, CauseKind.Open])
        {
            FaultGroup group = NewGroup(new Cause(kind, CauseKind.Guide));
            double[] placePrior = grid.PriorOf(kind);
            for (int i = 0; i < grid.Places.Length; i++)
            {
                foreach ((int until, double probability) in EndingsAt(grid.Places[i]))
                {
                    double weight = _priors[(int)kind] * placePrior[i] * probability * (until == _never ? 1 : _soundAfter[until]);
                    if (kind == CauseKind.SeriesResistance)
                    {
                        AddBesideGuides(group, kind, grid.Places[i], until, false, weight, onGuides);
                    }
                    else
                    {
                        AddBesideGuides(group, kind, grid.Places[i], until, true, weight * Wet, onGuides);
                        AddBesideGuides(group, kind, grid.Places[i], until, false, weight * (1 - Wet), onGuides);
                    }
                }
            }

            Faults.Add(group);
        }
    }

    private IEnumerable<OnGuide> OnGuides(GuidePhysics guide, double prior, TwoFaultOhms.Range range)
    {
        double[] placePrior = range.IsInfinite ? guide.OpenPrior : guide.SeriesPrior;
        double sound = GuideTests(guide, null, default, _never, false);
        for (int i = 0; i < guide.Places.Length; i++)
        {
            Place place = guide.Places[i];
            foreach ((int until, double probability) in Endings(change => GuideRepairs.Cures(change, place, _physics)))
            {
                double weight = prior * placePrior[i] * probability / sound;
                yield return range.IsInfinite
                    ? new(place, until, GuidePattern(place, until), range, weight * GuideTests(guide, CauseKind.Open, place, until, false), 0)
                    : new(place, until, GuidePattern(place, until), range, weight * GuideTests(guide, CauseKind.SeriesResistance, place, until, false), weight * GuideTests(guide, CauseKind.Open, place, until, true));
            }
        }
    }

    private void AddBesideGuides(FaultGroup group, CauseKind kind, Place place, int until, bool wet, double prior, List<OnGuide> onGuides)
    {
        bool isDry = kind == CauseKind.Open && !wet;
        TwoFaultOhms.Range range = TwoFaultOhms.Range.Of(kind, isDry, _leastOfPair);
        Int128 pattern = _seriesOhms.Pattern(place.AtMetres, until);
        prior *= Tests((kind, place, wet), 0, until);
        foreach (OnGuide guide in onGuides)
        {
            if (!(prior * guide.Weight > 1e-12))
            {
                continue;
            }

            TwoFaultOhms.Result ohms = _twoOhms.Of(pattern, guide.Pattern, range, guide.Range);
            bool isBreak = !guide.Range.IsInfinite && ohms.OhmsB > LeastOfBreak;
            double weight = prior * (isBreak ? guide.WeightOfBreak : guide.Weight) * ohms.Likelihood;
            if (!(weight > 1e-11 * _running))
            {
                continue;
            }

            (CauseKind, Place, double) fault = (kind, place, ohms.OhmsA);
            weight *= Symptoms2(Condition.Of(kind, Snapped(ohms.OhmsA)), until, Condition.Of(CauseKind.Guide), guide.Until) * Found(until, guide.Until);
            weight *= _ratios.Length + _acRatios.Length == 0 ? 1 : PairRatios(fault, until, fault, -1);
            weight *= _capacitances.Length == 0 ? 1 : PairCapacitances(fault, until, fault, -1);
            weight *= _echoesUntil[_never].Length == 0 ? 1 : Echoes(kind, place, 0, until, PlaceTestModel.EchoShows(ohms.OhmsA));
            Part inLoop = new(kind, place, -1, SizeSpread.At(ohms.OhmsA), kind == CauseKind.Open && wet), inGuide = new(CauseKind.Guide, guide.Place, -1, SizeSpread.At(ohms.OhmsB), isBreak);
            group.AddTwo(weight, until == _never ? inLoop : null, guide.Until == _never ? inGuide : null, Math.Max(until, guide.Until));
        }
    }

    /// <summary>Which readings have a place on a guide in their path while the fault is there.</summary>
    private Int128 GuidePattern(Place place, int until)
    {
        Int128 pattern = 0;
        for (int i = 0; i < _evidence.Ohms.Length; i++)
        {
            if (_evidence.Ohms[i].Epoch <= until && _evidence.Ohms[i].IncludesOnGuide(place))
            {
                pattern |= Int128.One << i;
            }
        }

        return pattern;
    }

    /// <summary>Looks and tones along one guide, of a fault that is there until an epoch.</summary>
    private double GuideTests(GuidePhysics guide, CauseKind? kind, Place place, int until, bool wet)
    {
        CaseEvidence.Item[] mine = Array.FindAll(_evidence.GuideTests, item => ReferenceEquals(_physics.GuideOn(item.Seen), guide));
        if (mine.Length == 0)
        {
            return 1;
        }

        return Of(Array.FindAll(mine, item => item.Epoch <= until), kind, kind is null ? null : place) * Of(Array.FindAll(mine, item => item.Epoch > until), null, null);

        double Of(CaseEvidence.Item[] items, CauseKind? fault, Place? at)
        {
            CaseEvidence.Item[] looks = Array.FindAll(items, item => item.Seen is Observation.Look), tones = Array.FindAll(items, item => item.Seen is Observation.ToneTrace);
            return (looks.Length > 0 ? PlaceTestModel.LookLikelihood(looks, at) : 1) * (tones.Length > 0 ? PlaceTestModel.ToneLikelihood(tones, fault, at ?? default, wet) : 1);
        }
    }

    /// <summary>A fault at one place of a guide, there until one of the repairs; its weight without what the meter read, as bad contact or dry break, and as a
    /// break that conducts.</summary>
    private readonly record struct OnGuide(Place Place, int Until, Int128 Pattern, TwoFaultOhms.Range Range, double Weight, double WeightOfBreak);
}
