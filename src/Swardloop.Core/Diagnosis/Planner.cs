namespace Swardloop.Core.Diagnosis;

/// <summary>Chooses the next step: every test and repair worth a thought, with the optimiser's own parameters, priced by what it costs now plus
/// what is expected afterwards.</summary>
internal sealed partial class Planner
{
    /// <summary>Repairs of things that do not lie along the wire, what they end, and whether only a technician may.</summary>
    public static readonly (StepKind Repair, CauseKind Cause, bool NeedsVisit)[] Replacements =
    [
        (StepKind.RestoreMains, CauseKind.NoMains, false),
        (StepKind.ReplaceSupply, CauseKind.Supply, true),
        (StepKind.ReplaceStation, CauseKind.Station, true),
        (StepKind.SwapEnds, CauseKind.EndsSwapped, false),
        (StepKind.RemakeTerminals, CauseKind.EndsSwapped, true),
        (StepKind.CleanContacts, CauseKind.Charging, false),
        (StepKind.ReplaceBattery, CauseKind.Charging, true),
        (StepKind.AskMaker, CauseKind.Unmodelled, false),
        (StepKind.RelayLayout, CauseKind.Layout, true),
        (StepKind.RecodeStation, CauseKind.Crosstalk, true),
        (StepKind.ServiceReceiver, CauseKind.Receiver, true),
        (StepKind.ServiceDrive, CauseKind.Drive, true),
    ];

    /// <summary>Bounds of the scale for costs that are shown: a step that tells much for nothing must not make the rest look free.</summary>
    private const double LeastScale = 0.7, MostScale = 2;

    /// <summary>So many steps nobody minds; each further one makes every question dearer by so much. Judgement, no source.</summary>
    private const int PatientSteps = 14;
    private const double PatienceLost = 1;

    /// <summary>Share of the best step's progress that a step must make where the estimate is too rosy for all of them.</summary>
    private const double LeastOfProgress = 0.5;

    /// <summary>Parts of a stretch that a look tells apart, and what the narrower looks after a find cost, as a share of the first.</summary>
    private const int LookPartCount = 1;
    private const double LookAgain = 0.75;

    /// <summary>So often anybody drives a mower at the wire to see whether it crosses. Judgement, no source.</summary>
    private const int MostCrossings = 5;

    /// <summary>So often a tone is listened for before a spade is taken: where it misleads once it misleads again. Judgement, no source.</summary>
    private const int MostTones = 8;

    /// <summary>So many times the stakes are set before a spade is taken. Judgement, no source.</summary>
    private const int MostGradients = 8;

    /// <summary>Sum over outcomes and hypotheses of how far a test's likelihoods lie from their mean; below this it is a question for its own sake.</summary>
    private const double LeastTold = 0.1;

    /// <summary>A repair that ends the trouble with less than this is made in hope.</summary>
    private const double LeastCure = 0.04;

    /// <summary>How many of an owner's questions are looked at more closely before a visit.</summary>
    private const int QuestionsBeforeVisit = 4;

    /// <summary>From this probability of "nothing is wrong" on it is worth asking whether the mower does not run after all.</summary>
    private const double NothingWrongShare = 0.002;

    private static readonly double[] ReachMiddles = [0.4, 1.2, 2, 3.2, 5, 8], ReachWidths = [0.8, 0.8, 0.8, 1.6, 2, 4];

    private readonly ServiceCase _case;
    private readonly YardPhysics _physics;
    private readonly Belief _belief;
    private readonly StepCosts _costs;
    private readonly PlanAtoms _plan;
    private readonly CostToGo _toGo;
    private readonly bool _onSite;
    private readonly CaseHistory _history;
    private readonly double[] _weights, _first, _second;
    private readonly CommonSense.Standing _standing;
    private readonly List<Evaluated> _found = [];
    private readonly Dictionary<Observation, Dictionary<Condition, double>> _symptoms = [];
    private readonly double _length;

    public Planner(ServiceCase serviceCase, CaseHistory history, YardPhysics physics, Belief belief)
    {
        (_case, _history, _physics, _belief) = (serviceCase, history, physics, belief);
        _length = physics.LengthMetres;
        _costs = new(serviceCase);
        WireSearchCosts[] wireCosts =
        [
            new(serviceCase, _costs, physics, CauseKind.SeriesResistance), new(serviceCase, _costs, physics, CauseKind.Open),
            new(serviceCase, _costs, physics, CauseKind.Unsteady, belief.ContactIsOpen(Person.Technician)), new(serviceCase, _costs, physics, CauseKind.ShortCircuit), new(serviceCase, _costs, physics, CauseKind.Leak), new(serviceCase, _costs, physics, CauseKind.LeakPair),
        ];
        _plan = PlanAtoms.Of(belief, wireCosts[0]);
        _onSite = _history.OnSite;
        _standing = new(
            Weight(CauseKind.NoMains) + Weight(CauseKind.Supply) + Weight(CauseKind.Station) + Weight(CauseKind.EndsSwapped) + Weight(CauseKind.Charging),
            _plan.Mended, Weight(CauseKind.Charging), Weight(CauseKind.Unsteady), Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair), _plan.Mended + Weight(CauseKind.None), belief.SaysLocked);
        _weights = [.. _plan.Atoms.Select(atom => atom.Weight)];
        _first = new double[_plan.Atoms.Length];
        _second = new double[_plan.Atoms.Length];
        _toGo = new(_plan, serviceCase, _costs, wireCosts, CauseTests(), physics.Guides.Count > 0 ? new(_plan, new(serviceCase, _costs, physics, CauseKind.Guide), _costs.Money(new(StepKind.RenewLoop)) + _costs.CheckAfter) : null);
    }

    /// <summary>Expected cost to the finish by the estimate alone, no step chosen; known once <see cref="Best"/> has run.</summary>
    public double EstimatedCost { get; private set; }

    /// <summary>The best steps, best first; equal costs keep the catalogue's order.</summary>
    public List<Evaluated> Best(int count)
    {
        AddSymptomTests();
        AddWireTests();
        AddGuideTests();
        AddRepairs();
        if (_found.Count == 0)
        {
            AddLastResorts();
        }

        // The estimate's scale is set so that the best step costs what the estimate says is to come: then it is neither too rosy, which
        // would put off real steps for cheap ones that change nothing, nor too dark.
        Estimated here = Here();
        double progress = _found.Count > 0 ? _found.Max(found => Progress(found, here)) : 1;
        double scale = progress > 0 ? 1 / progress : MostScale;
        double shown = Math.Clamp(scale, LeastScale, MostScale);
        EstimatedCost = here.At(shown);

        // Where no step brings what it costs even so, the estimate is far too rosy. Then a test must at least bring for its money what others do: else
        // one cheap question after another would be asked that changes nothing.
        double worth = scale > MostScale ? progress * LeastOfProgress : double.NegativeInfinity;
        List<Evaluated> ordered = InOrder(_found);
        if (!_onSite && ordered is [{ Step.By: Person.Technician, Table.Length: > 0 } visit, ..])
        {
            Evaluated[] questions = [.. ordered.Where(found => found.Step.By == Person.Owner && found.Table.Length > 0).DistinctBy(found => (found.Step.Kind, found.Step.Place)).Take(QuestionsBeforeVisit)];
            ordered = InOrder(ordered.Select(found => questions.Contains(found) ? found with { Foreseen = AfterThenVisit(found, visit, shown) } : found));
        }

        // One entry for each kind of step is enough for a person, whoever does it; the best of each kind comes first anyway. Never cheaper than the one before.
        // What tells nothing and mends hardly ever comes last, however little it costs.
        Evaluated[] idle = [.. ordered.Where(found => !(found.Table.Length == 0 ? found.Cure > LeastCure : Tells(found)))];
        ordered = [.. ordered.Except(idle), .. idle];
        List<Evaluated> chosen = [];
        double least = 0;
        foreach (Evaluated candidate in ordered)
        {
            if (chosen.Count < count && !chosen.Any(other => other.Step.Kind == candidate.Step.Kind))
            {
                least = Math.Max(least, Scaled(candidate, shown));
                chosen.Add(candidate with { Total = least });
            }
        }

        return chosen;

        List<Evaluated> InOrder(IEnumerable<Evaluated> steps) =>
            [.. steps.OrderBy(found => found.Table.Length > 0 && Progress(found, here) < worth).ThenBy(found => Scaled(found, shown))];
    }

    /// <summary>Expected cost to the finish after an owner's question when the best step of a visit may follow it: whether to ask before setting out
    /// must not hang on how well the estimate foresees what that step will do.</summary>
    private double AfterThenVisit(Evaluated question, Evaluated visit, double scale)
    {
        double[] weights = new double[_weights.Length];
        double sum = 0;
        foreach (double[] row in question.Table)
        {
            double mended = _plan.Mended * row[^1], probability = mended;
            for (int i = 0; i < weights.Length; i++)
            {
                weights[i] = _weights[i] * row[i];
                probability += weights[i];
            }

            Estimated without = ToGo(weights, weights, mended, false), with = After(weights, mended, visit.Table, visit.Cures, visit.FollowUp, true);
            sum += Math.Min(without.At(scale), (probability * (visit.Now + Overhead(visit))) + with.At(scale));
        }

        return sum;
    }

    /// <summary>Everything was asked and nothing that is understood is left: the maker is called; where that was done, the wire is renewed; where that
    /// was done too, the maker is called again, who has heard of all of it now.</summary>
    private void AddLastResorts()
    {
        StepKind last = _history.WasDone(StepKind.AskMaker) && _case.Can.Technician && !_history.WasDone(StepKind.RenewLoop) ? StepKind.RenewLoop : StepKind.AskMaker;
        foreach (Step step in Doers(last).Select(by => new Step(last) { By = by }).Where(step => _history.WasDone(last) || !IsFoolish(step)))
        {
            _found.Add(new(step, CostNow(step).Now, Here(), 0, []));
        }
    }

    /// <summary>How much of the price of not knowing a step takes away for each unit that it costs beyond what must be paid anyway; with an exact
    /// cost to go the best step has 1 and no other more.</summary>
    private double Progress(Evaluated found, Estimated here) =>
        (here.Unsure - found.After.Unsure) / Math.Max(found.Now + Overhead(found) + found.After.Sure - here.Sure, StepCosts.Overhead / 2);

    /// <summary>What a step costs beyond its minutes: a question costs more patience the more were asked.</summary>
    private double Overhead(Evaluated found) =>
        StepCosts.Overhead + (found.Table.Length > 0 ? PatienceLost * Math.Max(0, _case.Observations.Count - PatientSteps) : 0);

    /// <summary>Expected cost to the finish with the price of not knowing brought to scale.</summary>
    private double Scaled(Evaluated found, double scale) =>
        found.Now + Overhead(found) + (found.Foreseen ?? found.After.At(scale));

    private Estimated Here() => ToGo(_weights, _weights, _plan.Mended, _onSite);

    private Estimated ToGo(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double mended, bool onSite)
    {
        double sure = _toGo.Sure(first, second, mended, onSite), value = Math.Max(sure, _toGo.Value(first, second, mended, onSite));
        return new(sure, value - sure, Math.Max(value, _toGo.WithoutSearch(onSite)));
    }

    private bool Asked(Func<Observation, bool> same) => _history.Since(_history.AfterFind).Any(seen => seen.Wire is null && same(seen));

    /// <summary>The answers to a question that nothing done since has made new: what was odd about an answer is mostly there still.</summary>
    private IEnumerable<Observation> AnswersTo(Step question) => _history.Since(_history.AfterRenewalOf(question.Kind)).Where(seen => seen is not Observation.NotDone && seen switch
    {
        Observation.MowerStart start => question.Kind == StepKind.MowerStart && start.Place == question.Place,
        Observation.SupplyVoltage supply => question.Kind == StepKind.SupplyVoltage && supply.Loaded == (question.Loaded == true),
        _ => seen.Step == question.Kind,
    });

    private bool IsFoolish(Step step) => _history.Refused(step) || StepSafety.Forbids(step, _case) is not null || CommonSense.Speaks(step, _case, _history, _standing) is not null;

    private IEnumerable<Person> Doers(StepKind kind)
    {
        StepFacts facts = StepCatalogue.Of(kind);
        if (facts.OwnerMay && _case.Can.Owner && _case.Can.OwnerInstruments.HasFlag(facts.Needs) && !_history.Refused(kind, Person.Owner))
        {
            yield return Person.Owner;
        }

        if (_case.Can.Technician && _case.Can.TechnicianInstruments.HasFlag(facts.Needs) && !_history.Refused(kind, Person.Technician))
        {
            yield return Person.Technician;
        }
    }

    private (double Now, bool Visits) CostNow(Step step)
    {
        bool visits = step.By == Person.Technician && !_onSite;
        return (_costs.Money(step) + (visits ? _case.Rates.TravelPerVisit : 0), visits);
    }

    /// <summary>Prices a test by the likelihood of each outcome.</summary>
    private void AddTest(
        Step step, int outcomes, Func<int, PlanAtom, double> likelihood, Func<int, double> ifMended, Func<PlanAtom, int, double>? cures = null) =>
        AddTest(step, TableOf(outcomes, likelihood, ifMended), cures, 0);

    /// <summary>Likelihood of each outcome for each atom, mended last.</summary>
    private double[][] TableOf(int outcomes, Func<int, PlanAtom, double> likelihood, Func<int, double> ifMended)
    {
        PlanAtom[] atoms = _plan.Atoms;
        double[][] table = new double[outcomes][];
        for (int o = 0; o < outcomes; o++)
        {
            table[o] = new double[atoms.Length + 1];
            for (int i = 0; i < atoms.Length; i++)
            {
                table[o][i] = likelihood(o, atoms[i]);
            }

            table[o][atoms.Length] = ifMended(o);
        }

        return table;
    }

    /// <summary>Prices a test, if it is allowed: its cost now and the cost to go after each outcome.</summary>
    /// <param name="step">The test.</param>
    /// <param name="table">Likelihood of each outcome for each atom, mended last.</param>
    /// <param name="cures">Chance that the test itself ends an atom's first fault (0) or its second (1).</param>
    /// <param name="followUp">What every outcome but the last costs on top.</param>
    private void AddTest(Step step, double[][] table, Func<PlanAtom, int, double>? cures, double followUp)
    {
        if (IsFoolish(step))
        {
            return;
        }

        (double now, bool visits) = CostNow(step);
        Estimated after = After(_weights, _plan.Mended, table, cures, followUp, _onSite || visits);
        _found.Add(new(step, now, after, 0, table) { Cures = cures, FollowUp = followUp });
    }

    /// <summary>Cost to go after each outcome of a test, added up.</summary>
    private Estimated After(ReadOnlySpan<double> weights, double stillMended, double[][] table, Func<PlanAtom, int, double>? cures, double followUp, bool onSite)
    {
        PlanAtom[] atoms = _plan.Atoms;
        Estimated after = default;
        for (int o = 0; o < table.Length; o++)
        {
            double mended = stillMended * table[o][atoms.Length], probability = mended;
            for (int i = 0; i < atoms.Length; i++)
            {
                double weight = weights[i] * table[o][i];
                double firstCured = cures?.Invoke(atoms[i], 0) ?? 0, secondCured = cures?.Invoke(atoms[i], 1) ?? 0;
                _first[i] = weight * (1 - firstCured);
                _second[i] = weight * (1 - secondCured);
                mended += weight * firstCured * (atoms[i].OtherKind is null or CauseKind.LeakPair ? 1 : secondCured);
                probability += weight;
            }

            after += ToGo(_first, _second, mended, onSite);
            after = o < table.Length - 1 ? after.Plus(probability * followUp) : after;
        }

        return after;
    }

    private double Weight(CauseKind kind) => _plan.Atoms.Where(atom => atom.Kind == kind || atom.OtherKind == kind).Sum(atom => atom.Weight);

    /// <summary>A cost to go in two parts: what one who knows the truth would still pay, and the price of not knowing it; and what it costs at most, nothing
    /// searched for and one thing after the other replaced.</summary>
    internal readonly record struct Estimated(double Sure, double Unsure, double Most)
    {
        public static Estimated operator +(Estimated a, Estimated b) => new(a.Sure + b.Sure, a.Unsure + b.Unsure, a.Most + b.Most);

        /// <summary>With something on top that is paid in any case.</summary>
        public Estimated Plus(double paid) => this with { Sure = Sure + paid, Most = Most + paid };

        /// <summary>Both together, the price of not knowing brought to scale.</summary>
        public double At(double scale) => Math.Min(Sure + (scale * Unsure), Most);
    }

    /// <summary>A step with its price.</summary>
    /// <param name="Step">The step.</param>
    /// <param name="Now">Cost now, travel included.</param>
    /// <param name="After">What is expected to be paid after it.</param>
    /// <param name="Cure">Chance that it ends the trouble.</param>
    /// <param name="Table">Likelihood of each outcome for each atom, mended last; empty for repairs.</param>
    internal sealed record Evaluated(Step Step, double Now, Estimated After, double Cure, double[][] Table)
    {
        /// <summary>Chance that a test itself ends an atom's first fault (0) or its second (1); null: it ends none.</summary>
        public Func<PlanAtom, int, double>? Cures { get; init; }

        /// <summary>What every outcome of a test but the last costs on top.</summary>
        public double FollowUp { get; init; }

        /// <summary>What is expected to be paid after it, where that was looked at more closely.</summary>
        public double? Foreseen { get; init; }

        /// <summary>Expected cost to the finish, this step first; set for the steps that are shown.</summary>
        public double Total { get; init; }
    }
}
