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

    private static readonly CauseKind[] BehindElsewhere = [CauseKind.LeakPair, CauseKind.Unsteady, CauseKind.ShortCircuit, CauseKind.Guide];

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
    private readonly bool _weightsOnly, _withPairs;
    private readonly SizeGrid _seriesSizes, _breakSizes, _leakSizes;
    private readonly OhmsEvidence _seriesOhms, _breakOhms;
    private readonly TwoFaultOhms _twoOhms;
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
        (_physics, _evidence, Grid, _weightsOnly, _withPairs) = (physics, evidence, grid, weightsOnly, withPairs);
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
        _twoOhms = new(evidence.Ohms, _factorDeviation);
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
        AddShortCircuits();
        AddLeakPairs(leakGrid);
        if (withPairs)
        {
            AddPairsOfWireFaults(pairGrid);
            AddGuidesBesideWireFaults(pairGrid);
            AddPairsElsewhere();
            foreach (CauseKind kind in BehindElsewhere)
            {
                AddBehindElsewhere(kind);
            }

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
    private static double CoverRisk(YardPhysics physics) => physics.Profiles.Sum(node => node.Probability * physics.FallsShort(0, node.ReachFactor));

    /// <summary>Probability that a resistance leaves part of a lawn without signal that had it before.</summary>
    private static double FailsToCover(YardPhysics physics, double extraOhms) => physics.Profiles.Sum(node => node.WhereItWorked * physics.FallsShort(extraOhms, node.ReachFactor));

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

    private FaultGroup NewGroup(Cause cause) => new(cause, _weightsOnly ? double.PositiveInfinity : NegligibleShare * _running);

    private static double Squared(double x) => x * x;
}
