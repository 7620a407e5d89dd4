using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>What is believed after a case's observations: every cause, place and size on the grid, with its weight.</summary>
/// <remarks>
/// Exact enumeration: cause × place × size × "mended at which repair", two causes at once included. A fault that a repair ended answers
/// later tests as a sound yard does. The mower's reach constant is summed over its nodes, the wire's factor integrated in closed form.
/// Weights are not normalised; <see cref="Total"/> is the evidence.
/// </remarks>
internal sealed partial class Belief
{
    private static readonly CauseKind[] Elsewhere =
    [
        CauseKind.NoMains, CauseKind.Supply, CauseKind.Station, CauseKind.EndsSwapped, CauseKind.Layout, CauseKind.Crosstalk,
        CauseKind.Receiver, CauseKind.Drive, CauseKind.Charging, CauseKind.Unmodelled, CauseKind.None,
    ];

    private static readonly CauseKind[] Companions =
    [
        CauseKind.NoMains, CauseKind.Supply, CauseKind.Station, CauseKind.EndsSwapped, CauseKind.Crosstalk, CauseKind.Receiver, CauseKind.Drive,
        CauseKind.Charging, CauseKind.Layout, CauseKind.Unmodelled,
    ];

    /// <summary>Hypotheses of less than this share of the weight move nothing that is shown or planned.</summary>
    private const double NegligibleShare = 1e-13;

    private static readonly bool[] EitherWay = [true], FirstThenBoth = [true, false];

    private static readonly List<(int Until, double Probability)> NoRepairs = [(0, 1)];

    private readonly YardPhysics _physics;
    private readonly CaseEvidence _evidence;
    private readonly SymptomTable _symptoms;
    private readonly PlaceTestModel _placeTests;
    private readonly RepairModel _repairs;
    private readonly Dictionary<(Condition, int, Condition, int), double> _symptomLikelihoods = [];
    private readonly Dictionary<(int Assignment, Condition Open, int Until), double> _groundSymptoms = [];
    private readonly Dictionary<((CauseKind Kind, Place Place, bool Wet), int, int), double> _pairTests = [];
    private readonly int _never;

    // Work space for one kind of fault at a time, by place.
    private readonly double[][] _finite, _infinite;
    private readonly SizeSpread[] _spread;
    private readonly bool _weightsOnly;
    private readonly SizeGrid _seriesSizes, _breakSizes, _leakSizes;
    private readonly OhmsEvidence _seriesOhms, _breakOhms;
    private readonly List<PlaceLikelihood> _seriesPlaces;
    private readonly double _coverRisk, _leastOfPair, _mostHarmless, _factorDeviation;
    private double _running;
    private readonly double[] _priors, _soundAfter;

    // By observation: likelihood of what was read of a wire that leaks nowhere, and of one that leaks at a fault.
    private readonly Dictionary<int, (double Sound, double Leaks)> _earth = [];

    private readonly CaseEvidence.Item[] _ratios, _acRatios, _capacitances;

    // By the last epoch that counts: what all leaks together may be.
    private readonly (double Likelihood, SizeSpread Spread)[] _leaks;

    // By the last epoch that counts: what was walked, echoed and traced in epochs up to it.
    private readonly CaseEvidence.Item[][] _looksUntil, _echoesUntil, _tonesUntil;

    public Belief(YardPhysics physics, CaseEvidence evidence, CausePriors priors, PlaceGrid grid, PlaceGrid pairGrid, PlaceGrid leakGrid, bool withPairs, bool weightsOnly = false, SymptomTable? symptoms = null)
    {
        (_physics, _evidence, Grid, _weightsOnly) = (physics, evidence, grid, weightsOnly);
        _symptoms = symptoms ?? new(physics);
        _placeTests = new(physics);
        _repairs = new(physics);
        _never = evidence.Repairs.Length;
        int places = grid.Places.Length;
        (_finite, _infinite, _spread) = ([new double[places], new double[places]], [new double[places], new double[places]], new SizeSpread[places]);
        _coverRisk = CoverRisk(physics);
        _seriesSizes = SizeGrid.LogEven(1.5, 20_000, 36, ohms => 0.02 + (0.98 * FailsToCover(physics, 1.2 * ohms)));

        // Of two faults in series, one too small for the mower to mind needs no finding.
        double minded = _seriesSizes.Centre.FirstOrDefault(ohms => FailsToCover(physics, ohms) > 0.5, 400);
        (_leastOfPair, _mostHarmless) = (Math.Clamp(minded / 4, 6, 100), Math.Clamp(minded, 8, 60));
        _breakSizes = SizeGrid.Break();
        _leakSizes = SizeGrid.LogEven(8, 1e5, 15, ohms => 1 / (1 + Squared(ohms / StatedProbabilities.HarmlessLeakOhms)));
        _factorDeviation = Math.Max(physics.Budget.RelativeDeviation, 0.01);
        _seriesOhms = new(evidence.Ohms, _factorDeviation, _seriesSizes);
        _breakOhms = new(evidence.Ohms, _factorDeviation, _breakSizes);
        _priors = SinglePriors(priors);
        _leaks = new (double, SizeSpread)[_never + 1];
        (_looksUntil, _echoesUntil, _tonesUntil) = (Until<Observation.Look>(), Until<Observation.Reflection>(), Until<Observation.ToneTrace>());
        _capacitances = [.. evidence.PlaceTests.Where(item => item.Seen is Observation.EndCapacitance)];
        _ratios = [.. evidence.PlaceTests.Where(item => item.Seen is Observation.EarthRatio)];
        _acRatios = [.. evidence.PlaceTests.Where(item => item.Seen is Observation.AcRatio)];
        _soundAfter = [.. Enumerable.Range(1, _never + 1).Select(SoundPlaceTests)];
        _seriesPlaces = PlaceLikelihoods(CauseKind.SeriesResistance, _seriesSizes, _seriesOhms);
        foreach (CauseKind kind in Elsewhere)
        {
            AddElsewhere(kind);
        }

        AddWire(CauseKind.SeriesResistance, _seriesSizes, _seriesOhms, _seriesPlaces);
        AddWire(CauseKind.Open, _breakSizes, _breakOhms, PlaceLikelihoods(CauseKind.Open, _breakSizes, _breakOhms));
        AddWire(CauseKind.Leak, _leakSizes, null, PlaceLikelihoods(CauseKind.Leak, _leakSizes, null));
        AddUnsteady();
        AddGuides();
        AddShortCircuits(_factorDeviation);
        AddLeakPairs(leakGrid);
        if (withPairs)
        {
            AddPairsOfWireFaults(pairGrid);
            AddPairsElsewhere();
            AddLeaksBesideMended(CauseKind.SeriesResistance, _seriesSizes, _seriesOhms, leakGrid);
            AddLeaksBesideMended(CauseKind.Open, _breakSizes, _breakOhms, leakGrid);
        }

        AddSwappedByRepair();
        AddClosedCasePairs(priors);
        Total = Faults.Sum(fault => fault.Weight);
    }

    /// <summary>The places of single faults.</summary>
    public PlaceGrid Grid { get; }

    /// <summary>All hypotheses that have weight, grouped.</summary>
    public List<FaultGroup> Faults { get; } = [];

    /// <summary>Evidence: sum of all weights.</summary>
    public double Total { get; }

    /// <summary>Whether the complaint speaks of somebody else's mower.</summary>
    public bool NamesNeighbour => _symptoms.Complaint.NamesNeighbour;

    /// <summary>Whether the complaint says that the mower is locked, or shows an error.</summary>
    public bool SaysLocked => _symptoms.Complaint.SaysLocked;

    /// <summary>Likelihood model of symptoms, for planning.</summary>
    public SymptomModel Symptoms => _symptoms.Model;

    /// <summary>Likelihood model of place tests, for planning.</summary>
    public PlaceTestModel PlaceTests => _placeTests;

    /// <summary>Model of repairs, for planning.</summary>
    public RepairModel Repairs => _repairs;

    /// <summary>Sizes of series faults.</summary>
    public SizeGrid SeriesSizes => _seriesSizes;

    /// <summary>Probability of each cause, likeliest first, ties in the causes' own order.</summary>
    public List<CauseProbability> Causes() =>
        [.. Faults.GroupBy(fault => fault.Cause)
            .Select(group => new CauseProbability(group.Key, group.Sum(fault => fault.Weight) / Total))
            .OrderByDescending(entry => entry.Probability).ThenBy(entry => entry.Cause.First).ThenBy(entry => entry.Cause.Second)];

    /// <summary>Probability of what is still wrong: what a repair has ended counts no more, and where nothing is left the cause is none.</summary>
    public List<CauseProbability> CausesLeft()
    {
        Dictionary<Cause, double> left = [];
        foreach (FaultGroup group in Faults)
        {
            Add(new(CauseKind.None), group.Mended);
            foreach (FaultAtom atom in group.Atoms)
            {
                Add(atom.Cause, atom.Weight);
            }
        }

        double total = left.Values.Sum();
        return [.. left.Select(entry => new CauseProbability(entry.Key, entry.Value / total))
            .OrderByDescending(entry => entry.Probability).ThenBy(entry => entry.Cause.First).ThenBy(entry => entry.Cause.Second)];

        void Add(Cause cause, double weight) => left[cause] = left.GetValueOrDefault(cause) + weight;
    }

    /// <summary>Probability that a healthy loop falls short of its lawn.</summary>
    private static double CoverRisk(YardPhysics physics) => FailsToCover(physics, 0);

    private static double FailsToCover(YardPhysics physics, double extraOhms) =>
        physics.Profiles.Sum(node => node.Probability / (1 + Math.Exp(physics.LogMarginMidLawn(extraOhms, node.ReachFactor) / 0.1)));

    private double[] SinglePriors(CausePriors priors)
    {
        double[] weights = new double[Enum.GetValues<CauseKind>().Length];
        double total = 0;
        foreach ((Cause cause, double count) in priors.Counts.OrderBy(entry => entry.Key.First).ThenBy(entry => entry.Key.Second))
        {
            if (cause.Second is null)
            {
                weights[(int)cause.First] += count;
            }
        }

        // A loop that covers its lawn with room to spare is no case of a bad layout; one that falls short nearly always is.
        weights[(int)CauseKind.Layout] *= 0.03 + (6 * _coverRisk);
        weights[(int)CauseKind.Crosstalk] *= StatedProbabilities.CrosstalkFactor(_physics.Yard.Neighbours, _symptoms.Complaint.NamesNeighbour);
        weights[(int)CauseKind.LeakPair] *= StatedProbabilities.LeakPairFactor(Array.Exists(Grid.NearMetal, near => near));
        weights[(int)CauseKind.Guide] *= GuideFactor(_physics);
        weights[(int)CauseKind.ShortCircuit] *= _physics.IslandRuns.Count > 0 ? 1 : 0;
        total = weights.Sum();
        return [.. weights.Select(weight => weight / total)];
    }

    /// <summary>Likelihood of all symptoms when one condition lasts until a repair and another until another.</summary>
    private double Symptoms2(Condition first, int firstUntil, Condition second, int secondUntil)
    {
        (Condition, int, Condition, int) key = (first, firstUntil, second, secondUntil);
        if (!_symptomLikelihoods.TryGetValue(key, out double known))
        {
            known = ComputeSymptoms(first, firstUntil, second, secondUntil);
            _symptomLikelihoods.Add(key, known);
        }

        return known;
    }

    private double ComputeSymptoms(Condition first, int firstUntil, Condition second, int secondUntil) =>
        SymptomsWhere(item => (item.Epoch <= firstUntil ? first : Condition.Healthy).With(item.Epoch <= secondUntil ? second : Condition.Healthy))

            // The complaint came before everything that was done.
            * _symptoms.Complaint.Likelihood(firstUntil >= 0 ? first.With(secondUntil >= 0 ? second : Condition.Healthy) : second);

    /// <summary>Likelihood of all symptoms, the complaint apart, when what is wrong at the time of each is given.</summary>
    private double SymptomsWhere(Func<CaseEvidence.Item, Condition> at)
    {
        Span<double> sum = stackalloc double[_physics.Profiles.Count];
        sum.Clear();
        Span<PersistentAnswers.Answer> answers = stackalloc PersistentAnswers.Answer[16];
        foreach (CaseEvidence.Item[] question in _evidence.Symptoms)
        {
            if (question is [{ Count: 1 } only])
            {
                double[] logs = _symptoms.Logs(only, at(only));
                for (int node = 0; node < sum.Length; node++)
                {
                    sum[node] += logs[node];
                }

                continue;
            }

            // Answers about one state persist; a repair that ended a fault renews them.
            for (int start = 0; start < question.Length; start++)
            {
                Condition condition = at(question[start]);
                bool done = false;
                for (int i = 0; i < start && !done; i++)
                {
                    done = at(question[i]) == condition;
                }

                if (done)
                {
                    continue;
                }

                for (int node = 0; node < sum.Length; node++)
                {
                    int count = 0;
                    for (int i = start; i < question.Length && count < answers.Length; i++)
                    {
                        if (at(question[i]) == condition)
                        {
                            answers[count++] = new(question[i].Seen.By, SymptomModel.ValueOf(question[i].Seen), question[i].Count, _symptoms.Logs(question[i], condition)[node]);
                        }
                    }

                    sum[node] += PersistentAnswers.LogLikelihood(answers[..count]);
                }
            }
        }

        double likelihood = 0;
        for (int node = 0; node < sum.Length; node++)
        {
            likelihood += _physics.Profiles[node].Probability * Math.Exp(sum[node]);
        }

        return likelihood;
    }

    private double SymptomsUntil(Condition condition, int until) => Symptoms2(condition, until, Condition.Healthy, -1);

    /// <summary>Probability of each moment at which a cause may have been ended: index of the repair, or <see cref="_never"/>.</summary>
    private List<(int Until, double Probability)> Endings(Func<Observation, double> cures)
    {
        if (_never == 0)
        {
            return NoRepairs;
        }

        List<(int, double)> endings = [];
        double left = 1;
        for (int repair = 0; repair < _never; repair++)
        {
            double cured = left * cures(_evidence.Repairs[repair]);
            if (cured > 1e-9)
            {
                endings.Add((repair, cured));
                left -= cured;
            }
        }

        endings.Add((_never, left));
        return endings;
    }

    private List<(int Until, double Probability)> EndingsAt(Place place) =>
        _never == 0 ? NoRepairs : EndingsByMending(place);

    private List<(int Until, double Probability)> EndingsByMending(Place place) => Endings(change => _repairs.Cures(change, place));

    /// <summary>What people said they found at each repair of the wire, when the wire faults ended at the given repairs (−1: at none).</summary>
    private double Found(int endedA, int endedB = -1)
    {
        double likelihood = 1;
        for (int repair = 0; repair < _never; repair++)
        {
            if ((repair == endedA || repair == endedB) && _evidence.Repairs[repair] is Observation.RepairDone done)
            {
                likelihood *= RepairModel.FoundRatio(done);
            }
        }

        return likelihood;
    }

    private List<(int Until, double Probability)> EndingsElsewhere(CauseKind kind) =>
        Endings(change => change is Observation.RepairDone done ? RepairModel.Cures(done.Repair, kind) : 0);

    /// <summary>Likelihood of place tests when no wire fault is there at all, or none any more.</summary>
    private double SoundPlaceTests(int fromEpoch)
    {
        double likelihood = 1;
        List<CaseEvidence.Item> looks = [], echoes = [], tones = [];
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch < fromEpoch)
            {
                continue;
            }

            switch (item.Seen)
            {
                case Observation.Look:
                    looks.Add(item);
                    break;
                case Observation.Reflection:
                    echoes.Add(item);
                    break;
                case Observation.ToneTrace:
                    tones.Add(item);
                    break;
                case Observation.EarthResistance or Observation.Insulation:
                    likelihood *= Earth(item, PlaceTestModel.SideLeak(null));
                    break;
                default:
                    likelihood *= item.Weighted(_placeTests.Likelihood(item.Seen, null, default, false)) * Earth(item, PlaceTestModel.SideLeak(null));
                    break;
            }
        }

        likelihood *= tones.Count > 0 ? PlaceTestModel.ToneLikelihood([.. tones], null, default, false) : 1;
        return likelihood * PlaceTestModel.LookLikelihood([.. looks], null) * (echoes.Count > 0 ? _placeTests.EchoLikelihood([.. echoes], null, default) : 1);
    }

    /// <summary>Likelihood of the place tests made while a wire fault was there, earth readings apart for leaks; without those that a leak beside
    /// it answers, if there is one.</summary>
    private double FaultyPlaceTests(CauseKind kind, Place place, bool wet, int until, int fromEpoch = 0, bool besideLeak = false, bool withCapacitance = true)
    {
        double likelihood = 1;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch > until || item.Epoch < fromEpoch || (besideLeak && IsAboutLeaks(item.Seen)))
            {
                continue;
            }

            switch (item.Seen)
            {
                case Observation.Look or Observation.Reflection or Observation.ToneTrace:
                    break; // taken together below
                case Observation.EarthResistance or Observation.Insulation or Observation.EarthRatio when kind != CauseKind.Leak:
                    likelihood *= Earth(item, PlaceTestModel.SideLeak(kind)); // where a ratio points depends on the fault's size: see Ratios
                    break;
                case Observation.EarthResistance or Observation.Insulation:
                    break; // see EarthReadings
                case Observation.EarthRatio:
                    likelihood *= item.Weighted(RatioAtLeaks(item, place, place));
                    break;
                case Observation.AcRatio when !besideLeak && kind is CauseKind.SeriesResistance or CauseKind.Open:
                    break; // see Ratios
                case Observation.AcRatio o when kind == CauseKind.Unsteady:
                    likelihood *= item.Weighted(UnsteadyContact.AcRatio(o, place.AtMetres / _physics.LengthMetres));
                    break;
                case Observation.EndCapacitance when !withCapacitance && kind == CauseKind.Open:
                    break; // see Capacitances
                default:
                    likelihood *= item.Weighted(_placeTests.Likelihood(item.Seen, kind, place, wet));
                    break;
            }
        }

        // What a resistance sends back depends on its size: see Echoes.
        CaseEvidence.Item[] looks = From(_looksUntil[until]), tones = From(_tonesUntil[until]), echoes = kind == CauseKind.SeriesResistance ? [] : From(_echoesUntil[until]);
        if (looks.Length > 0)
        {
            likelihood *= PlaceTestModel.LookLikelihood(looks, place);
        }

        if (tones.Length > 0)
        {
            likelihood *= PlaceTestModel.ToneLikelihood(tones, kind, place, wet);
        }

        return echoes.Length > 0 ? likelihood * _placeTests.EchoLikelihood(echoes, kind, place) : likelihood;

        CaseEvidence.Item[] From(CaseEvidence.Item[] items) => fromEpoch == 0 ? items : Array.FindAll(items, item => item.Epoch >= fromEpoch);
    }

    /// <summary>Likelihood of the earth ratios taken across one fault in series.</summary>
    /// <param name="kind">A resistance or a break.</param>
    /// <param name="place">Where it is.</param>
    /// <param name="until">The epoch until which it is there.</param>
    /// <param name="size">Its size.</param>
    private double Ratios(CauseKind kind, Place place, int until, in SizeMoments size)
    {
        double likelihood = 1, at = place.AtMetres / _physics.LengthMetres;
        foreach (CaseEvidence.Item item in _ratios)
        {
            if (item.Epoch <= until)
            {
                likelihood *= item.Weighted(PlaceTestModel.RatioOverFaults(
                    (Observation.EarthRatio)item.Seen, SideLeakOf(kind, until), (at, size.Part), default, size.PartDeviation * Math.Abs(0.5 - at)));
            }
        }

        double coarse = place.LengthMetres / (4 * _physics.LengthMetres), middle = kind == CauseKind.Open ? double.PositiveInfinity : size.MiddleOhms;
        foreach (CaseEvidence.Item item in _acRatios)
        {
            if (item.Epoch <= until)
            {
                Observation.AcRatio seen = (Observation.AcRatio)item.Seen;
                double mean = AcRatioTest.Share(_physics, (at, middle), default, seen.Hertz);
                likelihood *= item.Weighted(AcRatioTest.Density(AcRatioTest.ShareOf(seen), mean, coarse + (kind == CauseKind.Open ? 0 : size.PartDeviation * Math.Abs(0.5 - at))));
            }
        }

        return likelihood;
    }

    /// <summary>The same across two faults in series, and across the one that is left when the other is mended.</summary>
    private double PairRatios((CauseKind Kind, Place Place, double Ohms) a, int untilA, (CauseKind Kind, Place Place, double Ohms) b, int untilB)
    {
        double likelihood = 1, length = _physics.LengthMetres;
        foreach (CaseEvidence.Item item in _ratios)
        {
            bool isA = item.Epoch <= untilA, isB = item.Epoch <= untilB;
            if (isA || isB)
            {
                (double partA, double partB) = (isA, isB) switch
                {
                    (true, false) => (PartOf(a.Ohms, 0), 0.0),
                    (false, true) => (0.0, PartOf(b.Ohms, 0)),
                    _ => (PartOf(a.Ohms, b.Ohms), PartOf(b.Ohms, a.Ohms)),
                };
                likelihood *= item.Weighted(PlaceTestModel.RatioOverFaults(
                    (Observation.EarthRatio)item.Seen, SideLeakOf(isB ? b.Kind : a.Kind, isB ? untilB : untilA), (a.Place.AtMetres / length, partA), (b.Place.AtMetres / length, partB),
                    (partA * a.Place.LengthMetres / length / 3) + (partB * b.Place.LengthMetres / length / 3)));
            }
        }

        foreach (CaseEvidence.Item item in _acRatios)
        {
            bool isA = item.Epoch <= untilA, isB = item.Epoch <= untilB;
            if (isA || isB)
            {
                Observation.AcRatio seen = (Observation.AcRatio)item.Seen;
                double mean = AcRatioTest.Share(_physics, (a.Place.AtMetres / length, isA ? a.Ohms : 0), (b.Place.AtMetres / length, isB ? b.Ohms : 0), seen.Hertz);
                double coarse = ((isA ? a.Place.LengthMetres : 0) + (isB ? b.Place.LengthMetres : 0)) / (4 * length);

                // How two breaks share the volts hangs on what both of them conduct.
                double shared = isA && isB && a.Kind == CauseKind.Open && b.Kind == CauseKind.Open ? Math.Abs(a.Place.AtMetres - b.Place.AtMetres) / (3 * length) : 0;
                likelihood *= item.Weighted(AcRatioTest.Density(AcRatioTest.ShareOf(seen), mean, coarse + shared));
            }
        }

        return likelihood;
    }

    /// <summary>Likelihood of the capacitances measured while a break was there; 1 for other kinds.</summary>
    private double Capacitances(CauseKind kind, Place place, int until, double wetShare)
    {
        double likelihood = 1;
        if (kind == CauseKind.Open)
        {
            foreach (CaseEvidence.Item item in _capacitances)
            {
                if (item.Epoch <= until)
                {
                    likelihood *= item.Weighted(_placeTests.CapacitanceLikelihood((Observation.EndCapacitance)item.Seen, (place.AtMetres, place.AtMetres), SideLeakOf(kind, until), wetShare));
                }
            }
        }

        return likelihood;
    }

    /// <summary>The same beside another fault in series: of two breaks each end's capacitance is that of the wire up to its own.</summary>
    private double PairCapacitances((CauseKind Kind, Place Place, double Ohms) a, int untilA, (CauseKind Kind, Place Place, double Ohms) b, int untilB)
    {
        double likelihood = 1, length = _physics.LengthMetres;
        foreach (CaseEvidence.Item item in _capacitances)
        {
            bool isA = a.Kind == CauseKind.Open && item.Epoch <= untilA, isB = b.Kind == CauseKind.Open && item.Epoch <= untilB;
            if (!isA && !isB)
            {
                continue;
            }

            double first = Math.Min(isA ? a.Place.AtMetres : length, isB ? b.Place.AtMetres : length), last = Math.Max(isA ? a.Place.AtMetres : 0, isB ? b.Place.AtMetres : 0);
            double wet = Math.Max(isA ? PlaceTestModel.WetShare(a.Ohms) : 0, isB ? PlaceTestModel.WetShare(b.Ohms) : 0);
            double coarse = ((isA ? a.Place.LengthMetres : 0) + (isB ? b.Place.LengthMetres : 0)) / (4 * length);
            likelihood *= item.Weighted(_placeTests.CapacitanceLikelihood(
                (Observation.EndCapacitance)item.Seen, (first, last), SideLeakOf(CauseKind.Open, isA ? untilA : untilB), wet + coarse));
        }

        return likelihood;
    }

    /// <summary>Likelihood of the echoes of a series resistance in some epochs; 1 for other kinds, whose echoes do not depend on their size.</summary>
    private double Echoes(CauseKind kind, Place place, int fromEpoch, int until, double shows)
    {
        CaseEvidence.Item[] echoes = kind == CauseKind.SeriesResistance ? Array.FindAll(_echoesUntil[until], item => item.Epoch >= fromEpoch) : [];
        return echoes.Length == 0 ? 1 : _placeTests.EchoLikelihood(echoes, kind, place, shows);
    }

    /// <summary>The same of two faults: beside a break the break answers, of two resistances either does; then the one that is left.</summary>
    private double PairEchoes((CauseKind Kind, Place Place, double Ohms) a, int untilA, (CauseKind Kind, Place Place, double Ohms) b, int untilB)
    {
        int both = Math.Min(untilA, untilB);
        double likelihood = a.Kind == b.Kind ? 0.5 * (Of(a, 0, both) + Of(b, 0, both)) : 1;
        return untilA == untilB ? likelihood : likelihood * Of(untilA > untilB ? a : b, both + 1, Math.Max(untilA, untilB));

        double Of((CauseKind Kind, Place Place, double Ohms) fault, int fromEpoch, int until) =>
            Echoes(fault.Kind, fault.Place, fromEpoch, until, PlaceTestModel.EchoShows(fault.Ohms));
    }

    /// <summary>A fault's share of the loop's resistance, beside another one; of two dry breaks each has half.</summary>
    public double PartOf(double ohms, double otherOhms) =>
        double.IsInfinity(ohms) ? (double.IsInfinity(otherOhms) ? 0.5 : 1) : ohms / (_physics.Budget.MeanOhms + ohms + otherOhms);

    /// <summary>What the readings of a pattern say of a fault's size, as far as other tests depend on it.</summary>
    private SizeMoments MomentsOf(SizeGrid sizes, double[] likelihood)
    {
        double all = 0, sum = 0, squares = 0, shows = 0, finite = 0, wet = 0, logs = 0;
        for (int j = 0; j < sizes.Count; j++)
        {
            double ohms = sizes.Centre[j], weight = sizes.Prior[j] * likelihood[j], part = PartOf(ohms, 0);
            all += weight;
            sum += weight * part;
            squares += weight * part * part;
            shows += weight * PlaceTestModel.EchoShows(ohms);
            if (!double.IsInfinity(sizes.High[j]))
            {
                finite += weight;
                wet += weight * PlaceTestModel.WetShare(ohms);
                logs += weight * Math.Log(ohms);
            }
        }

        double wetShare = finite > 0 ? wet / finite : 0;
        return all > 0 ? new(sum / all, Math.Sqrt(Math.Max(0, (squares / all) - Squared(sum / all))), shows / all, wetShare, finite > 0 ? Math.Exp(logs / finite) : double.PositiveInfinity) : new(1, 0, 0, 0, double.PositiveInfinity);
    }

    /// <summary>Probability that the wire leaks at a fault, after the readings to earth.</summary>
    private double SideLeakOf(CauseKind kind, int until)
    {
        double side = PlaceTestModel.SideLeak(kind), leaks = side, sound = 1 - side;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch <= until)
            {
                leaks *= Earth(item, 1);
                sound *= Earth(item, 0);
            }
        }

        return leaks + sound > 0 ? leaks / (leaks + sound) : side;
    }

    private CaseEvidence.Item[][] Until<T>()
        where T : Observation
    {
        CaseEvidence.Item[][] items = new CaseEvidence.Item[_never + 1][];
        for (int until = 0; until < items.Length; until++)
        {
            items[until] = [.. _evidence.PlaceTests.Where(item => item.Seen is T && item.Epoch <= until)];
        }

        return items;
    }

    private static bool IsAboutLeaks(Observation seen) =>
        seen is Observation.EarthResistance or Observation.Insulation or Observation.EarthRatio or Observation.EarthGradient or Observation.WireCrossing;

    /// <summary>Whether a test says how much leaks: an earth reading, or the sum of an earth ratio's voltages where there is none in the same state.</summary>
    private bool SaysWhatLeaks(CaseEvidence.Item item) => item.Seen is Observation.EarthResistance or Observation.Insulation
        || (item.Seen is Observation.EarthRatio { VoltsA: var a, VoltsB: var b } && a + b > 0
            && !Array.Exists(_evidence.PlaceTests, other => other.Epoch == item.Epoch && other.Seen is Observation.EarthResistance or Observation.Insulation));

    /// <summary>What a test says of how much leaks, where nothing is known to leak; 1 when it says nothing of it.</summary>
    private double Earth(CaseEvidence.Item item, double sideLeak)
    {
        if (!SaysWhatLeaks(item))
        {
            return 1;
        }

        if (!_earth.TryGetValue(item.Index, out (double Sound, double Leaks) known))
        {
            known = (PlaceTestModel.EarthLikelihood(item.Seen, double.PositiveInfinity, 0), PlaceTestModel.EarthLikelihood(item.Seen, double.PositiveInfinity, 1));
            _earth.Add(item.Index, known);
        }

        return item.Weighted(((1 - sideLeak) * known.Sound) + (sideLeak * known.Leaks));
    }

    private double EarthReadings(double leakOhms, int until)
    {
        double likelihood = 1;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch <= until && SaysWhatLeaks(item))
            {
                likelihood *= item.Weighted(PlaceTestModel.EarthLikelihood(item.Seen, leakOhms, 0));
            }
        }

        return likelihood;
    }

    private void AddElsewhere(CauseKind kind)
    {
        FaultGroup group = NewGroup(new Cause(kind));
        foreach ((Condition condition, double share) in Forms(kind))
        {
            foreach ((int until, double probability) in EndingsElsewhere(kind))
            {
                double wire = kind == CauseKind.Unmodelled ? UnmodelledWire(until) : WireIsSound();
                double weight = _priors[(int)kind] * wire * share * probability * SymptomsUntil(condition, until);
                if (until == _never)
                {
                    group.Add(weight, new(kind, Shown: condition));
                }
                else
                {
                    group.End(weight, until);
                }
            }
        }

        _running += group.Weight;
        Faults.Add(group);
    }

    /// <summary>The forms that a cause takes, with their shares: a supply is dead, or tired; a mower that does not charge starts, or is too flat to; what is
    /// not in the book looks like a deaf receiver, like a bad drive, like a locked mower, or like nothing else; each keeps to it.</summary>
    private static (Condition Condition, double Share)[] Forms(CauseKind kind)
    {
        Condition plain = Condition.Of(kind);
        return kind switch
        {
            CauseKind.Supply => [(plain, 1 - StatedProbabilities.SupplyIsTired), (plain with { Tired = true }, StatedProbabilities.SupplyIsTired)],
            CauseKind.Charging => [(plain, 1 - StatedProbabilities.FlatDoesNotStart), (plain with { Locked = true }, StatedProbabilities.FlatDoesNotStart)],
            CauseKind.Unmodelled =>
            [
                (plain, 1 - StatedProbabilities.UnmodelledLooksDeaf - StatedProbabilities.UnmodelledLooksLikeDrive - StatedProbabilities.UnmodelledIsLocked),
                (plain.With(Condition.Of(CauseKind.Receiver)), StatedProbabilities.UnmodelledLooksDeaf),
                (plain.With(Condition.Of(CauseKind.Drive)), StatedProbabilities.UnmodelledLooksLikeDrive),
                (plain with { Locked = true }, StatedProbabilities.UnmodelledIsLocked),
            ],
            _ => [(plain, 1)],
        };
    }

    /// <summary>What is not in the book mostly leaves a sound wire beside a mower that fails; else any reading is about as likely as any other.</summary>
    private double UnmodelledWire(int until)
    {
        const double Sound = StatedProbabilities.UnmodelledReadsSound;
        return (Sound * WireIsSound()) + ((1 - Sound) * AnyWire(until));
    }

    private double AnyWire(int until)
    {
        double likelihood = until == _never ? 1 : _soundAfter[until];
        foreach (OhmsReading reading in _evidence.Ohms)
        {
            // What was read since the trouble ended was read of a sound wire.
            double one = reading.Epoch > until ? UnsteadyContact.Likelihood(reading, false, _factorDeviation)
                : reading.Ohms is { } ohms ? 0.08 / Math.Max(Math.Abs(ohms), 1) : 0.3;
            likelihood *= Math.Pow(one, reading.Weight);
        }

        foreach (CaseEvidence.Item item in _evidence.PlaceTests.Where(item => item.Epoch <= until))
        {
            double sound = item.Seen switch
            {
                Observation.EarthResistance or Observation.Insulation => 0.06,
                Observation.ToneTrace => 0.33,
                Observation.Look => 1, // below, all together
                Observation.WireCrossing => 0.4,
                Observation.EarthRatio => SaysWhatLeaks(item) ? 0.06 : 0.6,
                Observation.AcRatio => 0.6,
                Observation.Reflection => 0.2,
                Observation.EndCapacitance => 0.2 / Math.Pow(_physics.LengthMetres * _physics.Yard.Loop.CapacitanceFaradPerMetre * 1e9, 2),
                _ => 0.4,
            };
            likelihood *= Math.Pow(sound, item.Weight);
        }

        CaseEvidence.Item[] looks = _looksUntil[until];
        return looks.Length > 0 ? likelihood * PlaceTestModel.LookLikelihood(looks, null) : likelihood;
    }

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
        double prior = companion is { } other
            ? 2 * StatedProbabilities.PairPenalty * _priors[(int)kind] * _priors[(int)other]
            : _priors[(int)kind];
        List<(int Until, double Probability)> companionEndings = companion is { } elsewhere ? EndingsElsewhere(elsewhere) : [(-1, 1)];
        Condition companionCondition = companion is { } present ? Condition.Of(present) : Condition.Healthy;
        FaultGroup group = NewGroup(new Cause(kind, companion));
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
            group.Add(companionOnly, new Part(left));
        }

        for (int state = companion is null ? 1 : 0; state < 2; state++)
        {
            Smear(finite[state]);
            Smear(infinite[state]);
            Part? second = state == 0 ? new(companion!.Value) : null;
            for (int i = 0; i < places.Length; i++)
            {
                double at = prior * placePrior[i];
                group.Add(at * finite[state][i], new Part(kind, places[i], i, spread[i], kind == CauseKind.Open), second);
                group.Add(at * infinite[state][i], new Part(kind, places[i], i, SizeSpread.Infinite), second);
            }
        }

        _running += group.Weight;
        Faults.Add(group);
    }

    private FaultGroup NewGroup(Cause cause) => new(cause, _weightsOnly ? double.PositiveInfinity : NegligibleShare * _running);

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

    private static double Squared(double x) => x * x;

    /// <summary>Two faults in series at two places.</summary>
    private void AddPairsOfWireFaults(PlaceGrid grid)
    {
        TwoFaultOhms two = new(_evidence.Ohms, _factorDeviation);
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

                    AddPairAtPlaces(group, two, faults, grid.Places[a], grid.Places[b], endings[a], endings[b], placePrior);
                }
            }
        }
    }

    private void AddPairAtPlaces(
        FaultGroup group, TwoFaultOhms two, TwoFaults faults, Place placeA, Place placeB,
        List<(int Until, double Probability)> endingsA, List<(int Until, double Probability)> endingsB, double prior)
    {
        (CauseKind kindA, CauseKind kindB, bool dryA, bool dryB) = (faults.First, faults.Second, faults.FirstIsDry, faults.SecondIsDry);
        TwoFaultOhms.Range rangeA = faults.FirstIsHarmless ? new(2, _mostHarmless) : TwoFaultOhms.Range.Of(kindA, dryA, _leastOfPair);
        foreach ((int untilA, double probabilityA) in endingsA)
        {
            foreach ((int untilB, double probabilityB) in endingsB)
            {
                TwoFaultOhms.Result result = two.Of(
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
                switch (untilA == _never && !faults.FirstIsHarmless, untilB == _never)
                {
                    case (true, true):
                        group.Add(weight, partA, partB);
                        break;
                    case (true, false):
                        group.Add(weight, partA);
                        break;
                    case (false, true):
                        group.Add(weight, partB);
                        break;
                    default:
                        group.End(weight, Math.Max(untilA, untilB));
                        break;
                }
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

    private void AddPairsElsewhere()
    {
        double wire = WireIsSound();
        for (int a = 0; a < Companions.Length; a++)
        {
            for (int b = a + 1; b < Companions.Length; b++)
            {
                CauseKind kindA = Companions[a], kindB = Companions[b];
                double prior = 2 * StatedProbabilities.PairPenalty * _priors[(int)kindA] * _priors[(int)kindB] * wire;
                FaultGroup group = NewGroup(new Cause(kindA, kindB));
                foreach ((int untilA, double probabilityA) in EndingsElsewhere(kindA))
                {
                    foreach ((int untilB, double probabilityB) in EndingsElsewhere(kindB))
                    {
                        double weight = prior * probabilityA * probabilityB * Symptoms2(Condition.Of(kindA), untilA, Condition.Of(kindB), untilB);
                        switch (untilA == _never, untilB == _never)
                        {
                            case (true, true):
                                group.Add(weight, new(kindA), new(kindB));
                                break;
                            case (true, false):
                                group.Add(weight, new(kindA));
                                break;
                            case (false, true):
                                group.Add(weight, new(kindB));
                                break;
                            default:
                                group.End(weight, Math.Max(untilA, untilB));
                                break;
                        }
                    }
                }

                Faults.Add(group);
            }
        }
    }

    /// <summary>Whatever was wrong is mended, and the work itself put the ends the wrong way round.</summary>
    private void AddSwappedByRepair()
    {
        int last = Array.FindLastIndex(_evidence.Repairs, change => change is Observation.RepairDone
        {
            Repair: StepKind.RemakeTerminals or StepKind.RenewLoop or StepKind.RelayLayout or StepKind.ReplaceStation
        });
        if (last < 0 || Array.Exists(_evidence.Repairs[(last + 1)..], change => change is Observation.RepairDone { Repair: StepKind.SwapEnds }))
        {
            return;
        }

        double sound = Since(Condition.Healthy), mended = Faults.Sum(fault => fault.MendedBy(last));
        if (sound > 0 && mended > 0)
        {
            Faults.Find(fault => fault.Cause == new Cause(CauseKind.EndsSwapped))!
                .Add(StatedProbabilities.SwappedByRepair * mended * Since(Condition.Of(CauseKind.EndsSwapped)) / sound, new(CauseKind.EndsSwapped));
        }

        // What was seen since then, under one condition.
        double Since(Condition condition)
        {
            double likelihood = 0;
            for (int node = 0; node < _physics.Profiles.Count; node++)
            {
                double log = 0;
                foreach (CaseEvidence.Item[] question in _evidence.Symptoms)
                {
                    foreach (CaseEvidence.Item item in question)
                    {
                        log += item.Epoch > last ? _symptoms.Logs(item, condition)[node] : 0;
                    }
                }

                likelihood += _physics.Profiles[node].Probability * Math.Exp(log);
            }

            return likelihood;
        }
    }

    /// <summary>Pairs that a workshop has met weigh as often as it met them.</summary>
    private void AddClosedCasePairs(CausePriors priors)
    {
        double singles = priors.Counts.Where(entry => entry.Key.Second is null && _priors[(int)entry.Key.First] > 0).Sum(entry => entry.Value);
        foreach ((Cause cause, double count) in priors.Counts)
        {
            FaultGroup? group = cause.Second is null ? null : Faults.Find(fault => fault.Cause == cause);
            group?.Scale(1 + (count / (singles * StatedProbabilities.PairPenalty * _priors[(int)cause.First] * _priors[(int)cause.Second!.Value])));
        }
    }

    /// <summary>Likelihood of the place tests for one place and one ending: of a fault that conducts, and of a dry break.</summary>
    private readonly record struct PlaceLikelihood(int Place, int Until, Int128 Pattern, double Finite, double Infinite);

    /// <summary>A fault's mean share of the loop's resistance, its standard deviation, the chance that its echo shows, and, if it conducts, the share
    /// of a capacitance reading that comes from beyond it and its middle size (Ω).</summary>
    private readonly record struct SizeMoments(double Part, double PartDeviation, double EchoShows, double WetShare, double MiddleOhms);

    /// <summary>Two faults in series. The first may be resistance that harms nobody: it shows in readings and need not be found.</summary>
    private readonly record struct TwoFaults(CauseKind First, CauseKind Second, bool FirstIsDry, bool SecondIsDry, double Prior)
    {
        public bool FirstIsHarmless { get; init; }
    }

    private sealed record SizeSums(double[] Finite, double[] Infinite, SizeSpread Spread);
}
