using Swardloop.Core.Diagnosis.Tests;

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
            _plan.Mended, Weight(CauseKind.Charging), Weight(CauseKind.Unsteady), Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair), belief.SaysLocked);
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

    /// <summary>Everything was asked and nothing that is understood is left: the maker is called; where that was done, the wire is renewed.</summary>
    private void AddLastResorts()
    {
        Estimated here = Here();
        StepKind last = _history.WasDone(StepKind.AskMaker) && _case.Can.Technician ? StepKind.RenewLoop : StepKind.AskMaker;
        foreach (Step step in Doers(last).Select(by => new Step(last) { By = by }).Where(step => !IsFoolish(step)))
        {
            _found.Add(new(step, CostNow(step).Now, here, 0, []));
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

    /// <summary>Whether a test tells anything that a person would act on: moves some cause's odds, or narrows the place.</summary>
    private bool Tells(Evaluated test)
    {
        if (test.Cure > 0.02 || (test.Step.Kind == StepKind.LoopResistance && !_history.LoopWasMeasured))
        {
            return true;
        }

        // By the atoms: a test moves something when some outcome's odds differ by more than a little between what is likely.
        double moved = 0;
        foreach (double[] row in test.Table)
        {
            double probability = _plan.Mended * row[^1];
            for (int i = 0; i < _weights.Length; i++)
            {
                probability += _weights[i] * row[i];
            }

            for (int i = 0; i < _weights.Length; i++)
            {
                moved += _weights[i] * Math.Abs(row[i] - probability);
            }

            moved += _plan.Mended * Math.Abs(row[^1] - probability);
        }

        return moved > LeastTold;
    }

    /// <summary>Why a step is worth taking, as facts.</summary>
    public StepReason Reason(Evaluated step, double saves)
    {
        int causes = (int)CauseKind.None + 1;
        double[] before = new double[causes], moved = new double[causes];
        double expectedWidth = 0;
        double width = Width(_ => 1);
        AddKinds(before, _ => 1, _plan.Mended);
        for (int o = 0; o < step.Table.Length; o++)
        {
            double[] row = step.Table[o];
            double[] after = new double[causes];
            AddKinds(after, i => row[i], _plan.Mended * row[^1]);
            double probability = after.Sum();
            if (probability > 1e-9)
            {
                for (int c = 0; c < causes; c++)
                {
                    moved[c] += Math.Abs(after[c] - (before[c] * probability));
                }

                expectedWidth += probability * Width(i => row[i]);
            }
        }

        Cause[] apart = [.. Enumerable.Range(0, causes).Where(c => moved[c] > 0.05).OrderByDescending(c => moved[c]).Take(3).Select(c => new Cause((CauseKind)c))];
        bool narrows = step.Table.Length > 0 && width > 0 && expectedWidth < 0.9 * width;
        return new(step.Cure, apart, narrows ? width : null, narrows ? expectedWidth : null, saves);

        void AddKinds(double[] target, Func<int, double> likelihood, double mended)
        {
            for (int i = 0; i < _plan.Atoms.Length; i++)
            {
                target[(int)_plan.Atoms[i].Kind] += _plan.Atoms[i].Weight * likelihood(i);
            }

            target[(int)CauseKind.None] += mended;
        }
    }

    /// <summary>Metres of wire, densest first, that hold 90 % of a wire fault's probability.</summary>
    private double Width(Func<int, double> likelihood)
    {
        double[] mass = new double[_plan.Cells.Length];
        for (int i = 0; i < _plan.Atoms.Length; i++)
        {
            foreach ((int cell, double share) in _plan.Atoms[i].Spread)
            {
                mass[cell] += share * _plan.Atoms[i].Weight * likelihood(i);
            }
        }

        double left = 0.9 * mass.Sum(), width = 0;
        foreach (int cell in Enumerable.Range(0, mass.Length).OrderByDescending(c => mass[c] / Math.Max(Length(c), 0.6)))
        {
            if (left <= 0)
            {
                break;
            }

            width += Math.Max(Length(cell), 0.6) * Math.Min(1, left / Math.Max(mass[cell], 1e-300));
            left -= mass[cell];
        }

        return width;

        double Length(int cell) => _plan.Cells[cell].ToMetres - _plan.Cells[cell].FromMetres;
    }

    private Estimated Here() => ToGo(_weights, _weights, _plan.Mended, _onSite);

    private Estimated ToGo(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double mended, bool onSite)
    {
        double sure = _toGo.Sure(first, second, mended, onSite);
        return new(sure, Math.Max(0, _toGo.Value(first, second, mended, onSite) - sure));
    }

    private bool Asked(Func<Observation, bool> same) => _history.Since(_history.AfterFind).Any(seen => seen.Wire is null && same(seen));

    /// <summary>Whether anybody answered a question that nothing done since has made new: what was odd about an answer is mostly there still.</summary>
    private bool IsAnswered(Observation question) => _history.Since(_history.AfterRenewalOf(question.Step)).Any(seen => seen is not Observation.NotDone && question switch
    {
        Observation.MowerStart start => seen is Observation.MowerStart other && other.Place == start.Place,
        Observation.SupplyVoltage supply => seen is Observation.SupplyVoltage other && other.Loaded == supply.Loaded,
        _ => seen.Step == question.Step,
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

    /// <summary>Tests over causes for the cost to go: the cheapest doer of each, at the faults' typical sizes.</summary>
    private List<TroubleshootingProblem.Test> CauseTests()
    {
        int causes = (int)CauseKind.None + 1;
        Condition[] conditions = new Condition[causes];
        for (int c = 0; c < causes; c++)
        {
            CauseKind kind = (CauseKind)c;
            PlanAtom? typical = _plan.Atoms.FirstOrDefault(atom => atom.Kind == kind && atom.OtherKind is null);
            conditions[c] = kind == CauseKind.None ? Condition.Healthy
                : typical?.Condition ?? Condition.Of(kind, kind switch { CauseKind.SeriesResistance => 300, CauseKind.Open => double.PositiveInfinity, _ => 0 });
        }

        List<TroubleshootingProblem.Test> tests = [];
        foreach (Observation[] outcomes in SymptomOutcomes())
        {
            Person? doer = IsAnswered(outcomes[0]) ? null : Doers(outcomes[0].Step).Cast<Person?>().FirstOrDefault();
            if (doer is not { } by || outcomes[0] is Observation.MowerReach)
            {
                continue;
            }

            double[][] likelihood = [.. outcomes.Select(outcome => conditions.Select(condition => Symptom(outcome with { By = by }, condition)).ToArray())];
            Normalise(likelihood, causes);
            tests.Add(new(StepCosts.Overhead + _costs.Money(new(outcomes[0].Step) { By = by }), by == Person.Technician, likelihood));
        }

        if (Doers(StepKind.LoopResistance).Cast<Person?>().FirstOrDefault() is { } meter && !_history.Since(_history.AfterChange).Any(seen => seen is Observation.LoopResistance))
        {
            double[][] likelihood = [.. Enumerable.Range(0, _physics.IslandRuns.Count > 0 ? 4 : 3).Select(_ => new double[causes])];
            for (int c = 0; c < causes; c++)
            {
                double over = OverRange.Probability(conditions[c].ExtraOhms), high = (1 - over) * NormalDistribution.Cumulative((conditions[c].ExtraOhms - 3) / 1.5);
                (likelihood[0][c], likelihood[1][c], likelihood[2][c]) = (1 - over - high, high, over);
                if (likelihood.Length > 3)
                {
                    double less = ReadsLess(-Math.Min(0, conditions[c].ExtraOhms));
                    (likelihood[0][c], likelihood[3][c]) = ((1 - less) * likelihood[0][c], less * likelihood[0][c]);
                }
            }

            tests.Add(new(StepCosts.Overhead + _costs.Money(new(StepKind.LoopResistance) { By = meter }), meter == Person.Technician, likelihood));
        }

        if (Doers(StepKind.EarthResistance).Any() && !Asked(seen => seen.Step is StepKind.EarthResistance or StepKind.Insulation))
        {
            PlanAtom?[] leaks = [.. Enumerable.Range(0, causes).Select(c => _plan.Atoms.FirstOrDefault(atom => atom.Kind == (CauseKind)c && atom.OtherKind is null or CauseKind.LeakPair))];
            tests.Add(new(
                StepCosts.Overhead + _costs.Money(new(StepKind.EarthResistance)), true,
                [.. Enumerable.Range(0, 3).Select(outcome => leaks.Select(leak => EarthOutcome(outcome, leak)).ToArray())]));
        }

        if (GuideCauseTest(conditions) is { } guide)
        {
            tests.Add(guide);
        }

        return tests;
    }

    private static void Normalise(double[][] likelihood, int columns)
    {
        for (int c = 0; c < columns; c++)
        {
            double total = likelihood.Sum(row => row[c]);
            foreach (double[] row in likelihood)
            {
                row[c] /= total;
            }
        }
    }

    /// <summary>The outcomes of each question about symptoms.</summary>
    private IEnumerable<Observation[]> SymptomOutcomes()
    {
        yield return [new Observation.OutletCheck(true), new Observation.OutletCheck(false)];
        yield return [.. Enum.GetValues<LampState>().Select(state => new Observation.StationLamp(state))];
        bool supplyReadsWell = _history.Since(_history.AfterRenewalOf(StepKind.SupplyVoltage)).OfType<Observation.SupplyVoltage>().Any(seen => seen.Volts > 0.9 * seen.NominalVolts);
        yield return supplyReadsWell
            ? [new Observation.SupplyVoltage(1, 1, true), new Observation.SupplyVoltage(0.6, 1, true)]
            : [new Observation.SupplyVoltage(1.05, 1), new Observation.SupplyVoltage(0, 1)];
        Observation.NotDone stands = new(new(StepKind.MowerStart));
        yield return [.. Enum.GetValues<StartOutcome>().Select(outcome => new Observation.MowerStart(StartPlace.MidLawn, outcome)), stands];
        yield return [.. Enum.GetValues<StartOutcome>().Select(outcome => new Observation.MowerStart(StartPlace.AtWire, outcome)), stands];
        yield return [.. ReachMiddles.Select(metres => new Observation.MowerReach(metres, false)), new Observation.MowerReach(0, true)];
        yield return [.. Enum.GetValues<FollowOutcome>().Select(outcome => new Observation.FollowWire(outcome)), stands];
        if (Weight(CauseKind.Charging) > 0.1 || _history.MowerCannotBeStarted)
        {
            yield return [new Observation.ChargeCheck(true), new Observation.ChargeCheck(false)];
        }

        if (_case.Yard.Neighbours.Count > 0 || _belief.NamesNeighbour)
        {
            yield return [new Observation.NeighbourOff(true), new Observation.NeighbourOff(false)];
        }

        yield return [new Observation.SubstituteLoop(true), new Observation.SubstituteLoop(false), stands];
        yield return [new Observation.SubstituteMower(true), new Observation.SubstituteMower(false)];
    }

    private double Symptom(Observation outcome, Condition condition) => Symptom(outcome, SymptomsOf(outcome), condition);

    private Dictionary<Condition, double> SymptomsOf(Observation outcome)
    {
        if (!_symptoms.TryGetValue(outcome, out Dictionary<Condition, double>? byCondition))
        {
            byCondition = [];
            _symptoms.Add(outcome, byCondition);
        }

        return byCondition;
    }

    private double Symptom(Observation outcome, Dictionary<Condition, double> byCondition, Condition condition)
    {
        if (!byCondition.TryGetValue(condition, out double likelihood))
        {
            likelihood = condition.Has(CauseKind.Unsteady) && outcome is not Observation.MowerCheck ? UnsteadySymptom(outcome, condition) : Over(outcome, condition);
            if (outcome is Observation.MowerReach { AtLeast: false } reach)
            {
                likelihood *= ReachWidths[Array.IndexOf(ReachMiddles, reach.DistanceMetres)];
            }

            byCondition.Add(condition, likelihood);
        }

        return likelihood;
    }

    private double Over(Observation outcome, Condition condition) =>
        _physics.Profiles.Sum(node => node.Probability * _belief.Symptoms.Likelihood(outcome, condition, node.ReachFactor));

    /// <summary>What is seen over a contact that comes and goes: it is mostly as the same person met it last.</summary>
    private double UnsteadySymptom(Observation outcome, Condition condition)
    {
        double open = _belief.ContactIsOpen(outcome.By);
        Condition made = condition.Without(CauseKind.Unsteady);
        return ((1 - open) * Over(outcome, made)) + (open * Over(outcome, made.With(Condition.Of(CauseKind.Open, double.PositiveInfinity))));
    }

    private void AddSymptomTests()
    {
        foreach (Observation[] outcomes in SymptomOutcomes())
        {
            foreach (Person by in Doers(outcomes[0].Step))
            {
                if (IsAnswered(outcomes[0]))
                {
                    continue;
                }

                Step step = new(outcomes[0].Step) { By = by, Place = (outcomes[0] as Observation.MowerStart)?.Place, Loaded = outcomes[0] is Observation.SupplyVoltage { Loaded: true } ? true : null };
                Observation[] told = [.. outcomes.Select(outcome => outcome with { By = by })];
                Dictionary<Condition, double>[] known = [.. told.Select(SymptomsOf)];
                double[][] table = TableOf(told.Length, (outcome, atom) => Symptom(told[outcome], known[outcome], atom.Condition), outcome => Symptom(told[outcome], Condition.Healthy));
                Normalise(table, table[0].Length);
                AddTest(step, table, null, 0);
            }
        }

        if (_plan.Mended > 0.01 || Weight(CauseKind.None) > NothingWrongShare)
        {
            foreach (Person by in Doers(StepKind.MowerCheck))
            {
                if (!_history.Since(_history.AfterChange).Any(seen => seen is Observation.MowerCheck && seen.By == by))
                {
                    AddMowerCheck(by);
                }
            }
        }

        bool metal = _belief.Grid.NearMetal.Any(near => near);
        if (_history.Since(_history.AfterFind).Count(seen => seen is Observation.WireCrossing) >= MostCrossings)
        {
            return;
        }

        foreach (Person by in Doers(StepKind.WireCrossing))
        {
            if (!Asked(seen => seen is Observation.WireCrossing { AtMetres: null }))
            {
                AddCrossing(by, null, metal);
            }

            AddIslandCrossings(by);

            if (metal && Weight(CauseKind.LeakPair) > 0.1)
            {
                foreach (double at in PlacesBesideMetal())
                {
                    if (!Asked(seen => seen is Observation.WireCrossing { AtMetres: { } there } && Math.Abs(there - at) < 2))
                    {
                        AddCrossing(by, at, metal);
                    }
                }
            }
        }
    }

    private void AddCrossing(Person by, double? atMetres, bool metal)
    {
        double wrong = (by == Person.Owner ? StatedProbabilities.OwnerError : StatedProbabilities.TechnicianError) / 2;
        double Crosses(PlanAtom atom)
        {
            if (atom.Kind == CauseKind.ShortCircuit)
            {
                return Math.Clamp(ShortedRun.Crosses(atMetres, RunOf(atom.Place)), wrong, 1 - wrong);
            }

            if (atom.Kind != CauseKind.LeakPair && atom.OtherKind != CauseKind.LeakPair)
            {
                return Math.Clamp(atom.Kind == CauseKind.Leak ? StatedProbabilities.CrossesAtLeak : StatedProbabilities.CrossesElsewhere, wrong, 1 - wrong);
            }

            (double anywhere, double near) = PlaceTestModel.CrossesAtLeakPair(
                atMetres, metal, atom.Place, atom.OtherSpread.Length > 0 ? atom.OtherPlace : atom.Place, metal && (IsNearMetal(atom.Place) || IsNearMetal(atom.OtherPlace)), _length);
            return Math.Clamp((StatedProbabilities.CrossesAllAlongMetal * anywhere) + ((1 - StatedProbabilities.CrossesAllAlongMetal) * near), wrong, 1 - wrong);
        }

        AddTest(
            new(StepKind.WireCrossing) { By = by, AtMetres = atMetres, NearMetal = metal }, 2,
            (outcome, atom) => outcome == 0 ? Crosses(atom) : 1 - Crosses(atom),
            outcome => outcome == 0 ? wrong : 1 - wrong);
    }

    private bool IsNearMetal(Place place) => _belief.Grid.NearMetal[_belief.Grid.IndexAt(place.AtMetres)];

    /// <summary>Places along the metal that part the probability of where a pair leaks.</summary>
    private IEnumerable<double> PlacesBesideMetal()
    {
        double[] mass = new double[_plan.Cells.Length];
        foreach (PlanAtom atom in _plan.Atoms.Where(atom => atom.OtherKind == CauseKind.LeakPair))
        {
            foreach ((int cell, double share) in atom.Spread.Concat(atom.OtherSpread))
            {
                mass[cell] += share * atom.Weight;
            }
        }

        double all = mass.Sum(), below = 0;
        int next = 1;
        const int Parts = 7;
        for (int i = 0; i < mass.Length && next < Parts; i++)
        {
            below += mass[i];
            if (below >= all * next / Parts && mass[i] > 0)
            {
                yield return Math.Round((_plan.Cells[i].FromMetres + _plan.Cells[i].ToMetres) / 2, 1);
                while (next < Parts && below >= all * next / Parts)
                {
                    next++;
                }
            }
        }
    }

    private void AddMowerCheck(Person by)
    {
        Step step = new(StepKind.MowerCheck) { By = by };
        if (IsFoolish(step))
        {
            return;
        }

        (double now, bool visits) = CostNow(step);
        double wrong = (by == Person.Owner ? StatedProbabilities.OwnerError : StatedProbabilities.TechnicianError) / 2;
        for (int i = 0; i < _first.Length; i++)
        {
            // A mower that runs ends the case, whatever was wrong with it.
            double same = Math.Min(1 - SymptomModel.Runs(_plan.Atoms[i].Condition), 1 - wrong);
            _first[i] = _second[i] = _plan.Atoms[i].Weight * same;
        }

        _found.Add(new(step, now, ToGo(_first, _second, _plan.Mended * (0.01 + wrong), _onSite || visits), _plan.Mended, []));
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
            after = o < table.Length - 1 ? after with { Sure = after.Sure + (probability * followUp) } : after;
        }

        return after;
    }

    private void AddWireTests()
    {
        double wire = _plan.Atoms.Where(atom => atom.InWire || atom.OtherSpread.Length > 0).Sum(atom => atom.Weight);
        AddLoopResistance();
        AddEarthReadings();
        if (wire < 0.02)
        {
            return;
        }

        List<int> edges = Edges(out double[] below);
        AddCapacitance();
        AddRatio();
        AddAcRatio();
        AddGradients();
        AddTerminalLook();
        AddWiggles();
        AddReflections();
        double series = _plan.Atoms.Where(atom => SeriesPart(atom) is not null).Sum(atom => atom.Weight);
        bool meter = _case.Can.Technician && _case.Can.TechnicianInstruments.HasFlag(Instruments.Multimeter);
        if (series > 0.02 && meter)
        {
            AddSplits(Middlemost(edges, below, 4));
            AddPinProbes(Middlemost(edges, below, 6));
            AddJointDrops();
            AddBypasses(edges, below);
        }

        if (_case.Can.Technician && _case.Can.TechnicianInstruments.HasFlag(Instruments.ToneSender))
        {
            foreach (int edge in Middlemost(edges, below, 8))
            {
                double at = EdgeMetres(edge);
                if (at > 0.5 && at < _length - 0.5)
                {
                    AddTone(at, WireEnd.A);
                    AddTone(at, WireEnd.B);
                }
            }
        }

        AddLooks();
    }

    private static double? SeriesPart(PlanAtom atom) =>
        atom.Kind is CauseKind.SeriesResistance or CauseKind.Open or CauseKind.Unsteady || atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : null;

    /// <summary>Probability of each cell; where two faults are in question, of either.</summary>
    private double[] CellMass()
    {
        double[] mass = new double[_plan.Cells.Length];
        foreach (PlanAtom atom in _plan.Atoms)
        {
            foreach ((int cell, double share) in atom.Spread)
            {
                mass[cell] += share * atom.Weight;
            }

            foreach ((int cell, double share) in atom.OtherSpread)
            {
                mass[cell] += share * atom.Weight;
            }
        }

        return mass;
    }

    /// <summary>Cell edges with probability on both sides, and the probability below each.</summary>
    private List<int> Edges(out double[] below)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        double[] mass = CellMass();

        double all = mass.Sum(), sum = 0;
        below = new double[cells.Length];
        List<int> edges = [];
        for (int i = 0; i < cells.Length; i++)
        {
            sum += mass[i];
            below[i] = sum / all;
            if (i + 1 < cells.Length && below[i] > 0.02 && below[i] < 0.98)
            {
                edges.Add(i);
            }
        }

        return edges;
    }

    /// <summary>Where to probe between a cell and the next: off joints by more than a joint's reach.</summary>
    private double EdgeMetres(int cell)
    {
        const double Off = 0.6;
        WireSearchCosts.Cell left = _plan.Cells[cell], right = _plan.Cells[cell + 1];
        double at = left.ToMetres;
        if (left.Kind != PlaceKind.Span)
        {
            at = Math.Min(at + Off, (left.ToMetres + right.ToMetres) / 2);
        }
        else if (right.Kind != PlaceKind.Span)
        {
            at = Math.Max(at - Off, (left.FromMetres + right.FromMetres) / 2);
        }

        at = Math.Round(at, 1);
        if (_case.Yard.Loop.JointNear(at) is { } joint)
        {
            at = joint.AtMetres + (at >= joint.AtMetres ? 0.4 : -0.4);
        }

        return Math.Clamp(Math.Round(at, 2), 0, _length);
    }

    private void AddLoopResistance()
    {
        double[] edges = [2.5, 12, 40, 150, 600, 3000];
        foreach (Person by in Doers(StepKind.LoopResistance))
        {
            if (_history.LoopReading is not null)
            {
                continue;
            }

            double wrong = by == Person.Owner ? StatedProbabilities.OwnerReadingWrong : StatedProbabilities.TechnicianReadingWrong;
            double floor = 0.4 + _physics.Budget.StandardDeviationOhms;
            double Outcome(int outcome, double extra)
            {
                double over = OverRange.Probability(extra), sound;
                if (outcome == edges.Length + 1)
                {
                    sound = over;
                }
                else if (double.IsInfinity(extra))
                {
                    sound = outcome == edges.Length ? 1 - over : 0;
                }
                else
                {
                    double deviation = floor + (0.05 * extra);
                    double low = outcome == 0 ? double.NegativeInfinity : (edges[outcome - 1] - extra) / deviation;
                    double high = outcome == edges.Length ? double.PositiveInfinity : (edges[outcome] - extra) / deviation;
                    sound = (1 - over) * (NormalDistribution.Cumulative(high) - NormalDistribution.Cumulative(low));
                }

                return ((1 - wrong) * sound) + (wrong / (edges.Length + 2));
            }

            if (Weight(CauseKind.ShortCircuit) < 0.003)
            {
                AddTest(new(StepKind.LoopResistance) { By = by }, edges.Length + 2, (outcome, atom) => Outcome(outcome, atom.Condition.ExtraOhms), outcome => Outcome(outcome, 0));
                continue;
            }

            // Where a part of the loop may be cut short, less than the budget is an outcome of its own, the last.
            double OrLess(int outcome, double extra, double less) => outcome == edges.Length + 2 ? less * Outcome(0, extra) : outcome == 0 ? (1 - less) * Outcome(0, extra) : Outcome(outcome, extra);
            AddTest(
                new(StepKind.LoopResistance) { By = by }, edges.Length + 3, (outcome, atom) => OrLess(outcome, Math.Max(0, atom.Condition.ExtraOhms), ReadsLess(atom)), outcome => OrLess(outcome, 0, ReadsLess(0)));
        }
    }

    private static double EarthOutcome(int outcome, PlanAtom? atom)
    {
        if (atom is null || !(atom.Kind is CauseKind.Leak or CauseKind.LeakPair))
        {
            double sideLeak = PlaceTestModel.SideLeak(atom?.Kind);
            ReadOnlySpan<double> sound = [0.01, 0.07, 0.92], leaking = [0.5, 0.47, 0.03];
            return ((1 - sideLeak) * sound[outcome]) + (sideLeak * leaking[outcome]);
        }

        double Below(double ohms) => NormalDistribution.Cumulative(Math.Log(ohms / (atom.Ohms + 60)) / 0.5);
        double low = Below(3e4), middle = Below(5e5) - low;
        return outcome switch { 0 => low, 1 => middle, _ => 1 - low - middle };
    }

    private void AddEarthReadings()
    {
        foreach (StepKind kind in (ReadOnlySpan<StepKind>)[StepKind.EarthResistance, StepKind.Insulation])
        {
            if (Doers(kind).Any() && !Asked(seen => seen.Step is StepKind.EarthResistance or StepKind.Insulation))
            {
                Step step = new(kind) { TestVolts = kind == StepKind.Insulation ? StepSafety.AdvisedTestVolts : null };
                AddTest(step, 3, EarthOutcome, outcome => EarthOutcome(outcome, null));
            }
        }
    }

    /// <summary>Bins of a place along the loop, as shares of it.</summary>
    private static double ShareBin(int bin, int bins, double mean, double deviation)
    {
        double low = bin == 0 ? double.NegativeInfinity : ((double)bin / bins) - mean, high = bin == bins - 1 ? double.PositiveInfinity : ((double)(bin + 1) / bins) - mean;
        return NormalDistribution.Cumulative(high / deviation) - NormalDistribution.Cumulative(low / deviation);
    }

    private double Share(Place place) => place.AtMetres / _length;

    private double ShareDeviation(Place place) => place.LengthMetres / (_length * Math.Sqrt(12));

    private void AddCapacitance()
    {
        const int Bins = 20;
        if (!Doers(StepKind.EndCapacitance).Any() || Asked(seen => seen is Observation.EndCapacitance) || Weight(CauseKind.Open) < 0.02)
        {
            return;
        }

        double floor = 0.1e-9 / (_length * _case.Yard.Loop.CapacitanceFaradPerMetre);
        AddTest(
            new(StepKind.EndCapacitance), Bins + 1,
            (outcome, atom) =>
            {
                return atom.PlaceOf(CauseKind.Open) is not { } place
                    ? (outcome == Bins ? 0.95 : 0.05 / Bins)
                    : outcome == Bins ? 0.02 : 0.98 * ShareBin(outcome, Bins, Share(place), 0.005 + floor + ShareDeviation(place) + (atom.Wet ? PlaceTestModel.WetShare(atom.Ohms) / 4 : 0));
            },
            outcome => outcome == Bins ? 0.95 : 0.05 / Bins);
    }

    /// <summary>From where on an earth ratio says something about leaks: after the fault in series that drowned it, where there was one.</summary>
    private int RatioCounts()
    {
        double beside = _belief.Faults.Where(fault => fault.Cause.Second is CauseKind.Leak or CauseKind.LeakPair).Sum(fault => fault.Weight);
        if (beside < 0.1 * _belief.Total)
        {
            return _history.AfterFind;
        }

        return Math.Max(_history.AfterFind, _history.After(seen => seen is Observation.RepairDone ? CaseHistory.Finds(seen) : CaseHistory.ChangesWire(seen, _case.Yard.Loop)));
    }

    private void AddRatio()
    {
        const int Bins = 16;
        double leaks = Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair), series = Weight(CauseKind.SeriesResistance) + Weight(CauseKind.Open);
        if (!Doers(StepKind.EarthRatio).Any() || _history.Since(RatioCounts()).Any(seen => seen is Observation.EarthRatio) || leaks + series < 0.02)
        {
            return;
        }

        // Outcomes: where it points, each once with all of the battery's volts, as over something that leaks, and once with less.
        const double Deviation = 0.013;
        double[][] table = [.. Enumerable.Range(0, 2 * Bins).Select(_ => new double[_plan.Atoms.Length + 1])];
        double[] sound = Bars(share => (0.6 * Below(share, 0.5, 0.1)) + (0.4 * share));
        for (int i = 0; i < _plan.Atoms.Length; i++)
        {
            PlanAtom atom = _plan.Atoms[i];
            switch (atom.Kind)
            {
                case CauseKind.Leak or CauseKind.LeakPair:
                    (double mean, double deviation) = atom.OtherSpread.Length == 0 ? (Share(atom.Place), 0.012 + ShareDeviation(atom.Place))
                        : ((Share(atom.Place) + Share(atom.OtherPlace)) / 2, 0.015 + (0.25 * Math.Abs(Share(atom.Place) - Share(atom.OtherPlace))));
                    double[] pointed = Bars(share => (0.97 * Below(share, mean, deviation)) + (0.03 * share));
                    Fill(i, 1, pointed, pointed);
                    break;

                case CauseKind.SeriesResistance or CauseKind.Open when !(atom.OtherKind is CauseKind.Leak or CauseKind.LeakPair):
                    Fill(i, PlaceTestModel.SideLeak(atom.Kind), AcrossFaults(atom, 1), AcrossFaults(atom, 0));
                    break;

                default:
                    Fill(i, StatedProbabilities.SoundWireLeaks, sound, sound);
                    break;
            }
        }

        Fill(_plan.Atoms.Length, StatedProbabilities.SoundWireLeaks, sound, sound);
        AddTest(new(StepKind.EarthRatio), table, null, 0);

        static double Below(double share, double mean, double deviation) => NormalDistribution.Cumulative((share - mean) / deviation);

        // From a probability of a reading below each share of the battery's volts to one of each bin.
        static double[] Bars(Func<double, double> below)
        {
            double[] bars = new double[Bins];
            double before = 0;
            for (int bin = 0; bin < Bins; bin++)
            {
                double upTo = bin < Bins - 1 ? below((bin + 1.0) / Bins) : 1;
                bars[bin] = upTo - before;
                before = upTo;
            }

            return bars;
        }

        void Fill(int column, double leaks, double[] ifLeaking, double[] ifSound)
        {
            const double Right = 0.9;
            for (int bin = 0; bin < Bins; bin++)
            {
                table[2 * bin][column] = (Right * leaks * ifLeaking[bin]) + ((1 - Right) * (1 - leaks) * ifSound[bin]);
                table[(2 * bin) + 1][column] = ((1 - Right) * leaks * ifLeaking[bin]) + (Right * (1 - leaks) * ifSound[bin]);
            }
        }

        double[] AcrossFaults(PlanAtom atom, double leaks)
        {
            double other = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
            (double At, double Part) first = (Share(atom.Place), _belief.PartOf(atom.Ohms, other)), second = (other > 0 ? Share(atom.OtherPlace) : 0, other > 0 ? _belief.PartOf(other, atom.Ohms) : 0);
            double spread = Deviation + (ShareDeviation(atom.Place) * first.Part);
            return Bars(share => PlaceTestModel.RatioMixture(leaks, first, second, spread, (mean, deviation) => Below(share, mean, deviation), share));
        }
    }

    private double Weight(CauseKind kind) => _plan.Atoms.Where(atom => atom.Kind == kind || atom.OtherKind == kind).Sum(atom => atom.Weight);

    private void AddReflections()
    {
        const int Bins = 14;
        if (!Doers(StepKind.Reflection).Any() || Weight(CauseKind.Open) + Weight(CauseKind.SeriesResistance) < 0.02)
        {
            return;
        }

        foreach (WireEnd from in Enum.GetValues<WireEnd>())
        {
            if (Asked(seen => seen is Observation.Reflection other && other.From == from))
            {
                continue;
            }

            AddTest(
                new(StepKind.Reflection) { From = from }, Bins + 1,
                (outcome, atom) => atom.PlaceOf(CauseKind.Open) is { } open ? Echo(outcome, from, open, 0.93, 0.07)
                    : atom.PlaceOf(CauseKind.SeriesResistance) is { } place && PlaceTestModel.EchoShows(atom.Ohms) is var shows
                        ? (shows * Echo(outcome, from, place, 1, 0)) + ((1 - shows) * Sound(outcome))
                    : Sound(outcome),
                Sound);
        }

        double Sound(int outcome) => outcome == Bins ? 0.6 : 0.4 * ShareBin(outcome, Bins, 1, 0.13);

        double Echo(int outcome, WireEnd from, Place place, double seen, double none)
        {
            // An echo from the other end has told the velocity, if the fault is there.
            double share = from == WireEnd.A ? Share(place) : 1 - Share(place);
            double? other = _history.Since(_history.AfterFind).OfType<Observation.Reflection>().LastOrDefault(echo => echo.From != from && echo.Kind == EchoKind.Open)?.DelaySeconds;
            double apparent = other is > 0 and { } delay ? share * PlaceTestModel.EchoMetres(delay) / (_length * Math.Max(1 - share, 0.01)) : share;
            return outcome == Bins ? none : seen * ShareBin(outcome, Bins, Math.Min(apparent, 1.5), 0.01 + ((other is > 0 ? 0.05 : 0.13) * share) + ShareDeviation(place));
        }
    }

    /// <summary>Probability that a fault of so many ohms shows in a reading.</summary>
    private double Shows(double ohms, double pathMetres) =>
        double.IsInfinity(ohms) ? 0.995
        : 0.995 * NormalDistribution.Cumulative((ohms / (0.35 + (_physics.Budget.RelativeDeviation * pathMetres * _physics.OhmsPerMetre))) - 2.5);

    private void AddSplits(IEnumerable<int> edges)
    {
        foreach (Yards.Joint joint in _case.Yard.Loop.Joints)
        {
            AddSplit(joint.AtMetres, true);
        }

        foreach (int edge in edges)
        {
            double at = EdgeMetres(edge);
            if (at > 1 && at < _length - 1)
            {
                AddSplit(at, false);
            }
        }
    }

    private void AddSplit(double at, bool joint)
    {
        if (Asked(seen => seen is Observation.SplitResistance other && Math.Abs(other.AtMetres - at) < 0.31))
        {
            return;
        }

        bool Here(Place place) => joint && place.Kind == PlaceKind.Joint && Math.Abs(place.FromMetres - at) < 0.31;
        AddTest(
            new(StepKind.SplitResistance) { AtMetres = at }, 4, (outcome, atom) => TwoSides(outcome, atom, at, Here), outcome => FourWays(outcome, 0.004, 0.004, 0, 0),
            joint ? (atom, part) => Here(part == 0 ? atom.Place : atom.OtherPlace) ? StatedProbabilities.RepairWorks : 0 : null);
    }

    /// <summary>A needle through the insulation divides the wire as a cut does, and leaves no joint.</summary>
    private void AddPinProbes(IEnumerable<int> edges)
    {
        foreach (double at in edges.Select(EdgeMetres).Where(at => at > 1 && at < _length - 1))
        {
            if (!Asked(seen => (seen is Observation.PinProbe other && Math.Abs(other.AtMetres - at) < 0.5) || (seen is Observation.SplitResistance split && Math.Abs(split.AtMetres - at) < 0.31)))
            {
                AddTest(new(StepKind.PinProbe) { AtMetres = at }, 4, (outcome, atom) => TwoSides(outcome, atom, at, _ => false), outcome => FourWays(outcome, 0.004, 0.004, 0, 0));
            }
        }
    }

    /// <summary>What both sides of a divided wire show; outcomes as in <see cref="FourWays"/>.</summary>
    private double TwoSides(int outcome, PlanAtom atom, double at, Func<Place, bool> opened)
    {
        (double A, double B) Sides(CauseKind? kind, Place place, double ohms)
        {
            if (kind is not (CauseKind.SeriesResistance or CauseKind.Open or CauseKind.Unsteady) || opened(place))
            {
                return (0.004, 0.004);
            }

            double left = PlaceTestModel.Overlap(place, -9, at);
            return kind == CauseKind.Unsteady
                ? (left * _belief.ContactIsOpen(Person.Technician), (1 - left) * _belief.ContactIsOpen(Person.Technician))
                : (left * Shows(ohms, at), (1 - left) * Shows(ohms, _length - at));
        }

        double ohms = atom.Kind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : 0;
        (double a1, double b1) = Sides(atom.Kind, atom.Place, ohms);
        double other = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
        (double a2, double b2) = Sides(atom.OtherKind, atom.OtherPlace, other);
        return FourWays(outcome, a1, b1, a2, b2);
    }

    /// <summary>Volts across each likely joint at a known current.</summary>
    private void AddJointDrops()
    {
        if (!Doers(StepKind.JointDrop).Any())
        {
            return;
        }

        foreach (double at in LikelyPoints(PlaceKind.Joint, 0.03))
        {
            if (Asked(seen => seen is Observation.JointDrop other && Math.Abs(other.AtMetres - at) < 0.31))
            {
                continue;
            }

            double Drops(PlanAtom atom) => 1 - ((1 - Drop(atom.Kind, atom.Place)) * (1 - Drop(atom.OtherKind, atom.OtherPlace)));
            double Drop(CauseKind? kind, Place place) => place.Kind == PlaceKind.Joint && Math.Abs(place.FromMetres - at) < 0.31
                ? kind switch { CauseKind.SeriesResistance => 0.98, CauseKind.Open => 0.93, CauseKind.Unsteady => Math.Max(0.005, _belief.ContactIsOpen(Person.Technician)), _ => 0.005 }
                : 0.005;
            AddTest(new(StepKind.JointDrop) { AtMetres = at }, 2, (outcome, atom) => outcome == 0 ? Drops(atom) : 1 - Drops(atom), outcome => outcome == 0 ? 0.005 : 0.995);
        }
    }

    /// <summary>Joints or terminals that hold some of the probability, likeliest first.</summary>
    private IEnumerable<double> LikelyPoints(PlaceKind kind, double leastShare)
    {
        double[] mass = CellMass();
        return [.. Enumerable.Range(0, mass.Length).Where(i => _plan.Cells[i].Kind == kind && mass[i] > leastShare)
            .OrderByDescending(i => mass[i]).Take(4).Select(i => _plan.Cells[i].FromMetres)];
    }

    private void AddAcRatio()
    {
        const int Bins = 24;
        if (!Doers(StepKind.AcRatio).Any() || Asked(seen => seen is Observation.AcRatio) || Weight(CauseKind.SeriesResistance) + Weight(CauseKind.Open) + (_belief.ContactIsOpen(Person.Technician) * Weight(CauseKind.Unsteady)) < 0.05)
        {
            return;
        }

        double Bin(int bin, double mean, double spread) =>
            (bin == Bins - 1 ? 1 : AcRatioTest.Below((bin + 1.0) / Bins, mean, spread)) - (bin == 0 ? 0 : AcRatioTest.Below((double)bin / Bins, mean, spread));
        AddTest(
            new(StepKind.AcRatio), Bins,
            (outcome, atom) =>
            {
                if (atom.Kind == CauseKind.Unsteady)
                {
                    double open = _belief.ContactIsOpen(Person.Technician);
                    return (open * Bin(outcome, 1 - Share(atom.Place), 0.03 + ShareDeviation(atom.Place))) + ((1 - open) * Bin(outcome, 0.5, 0.004));
                }

                double first = atom.Kind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : 0, second = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
                if (atom.Kind == CauseKind.Open)
                {
                    first = double.PositiveInfinity;
                }

                double mean = AcRatioTest.Share(_physics, (Share(atom.Place), first), (Share(atom.OtherPlace), second));
                return Bin(outcome, mean, first + second > 0 ? ShareDeviation(atom.Place) * _belief.PartOf(first, second) : 0.004);
            },
            outcome => Bin(outcome, 0.5, 0.004));
    }

    /// <summary>Two stakes in line with the wire, where the probability of a leak divides.</summary>
    private void AddGradients()
    {
        const double Spacing = 1;
        double leaks = Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair);
        if (leaks < 0.05 || !Doers(StepKind.EarthGradient).Any() || _history.Since(_history.AfterFind).Count(seen => seen is Observation.EarthGradient) >= MostGradients)
        {
            return;
        }

        double[] mass = new double[_plan.Cells.Length];
        foreach (PlanAtom atom in _plan.Atoms.Where(atom => atom.Kind is CauseKind.Leak or CauseKind.LeakPair))
        {
            foreach ((int cell, double share) in atom.Spread.Concat(atom.OtherSpread))
            {
                mass[cell] += share * atom.Weight;
            }
        }

        const int Parts = 8;
        double all = mass.Sum(), below = 0;
        int next = 1;
        for (int i = 0; i < mass.Length && next < Parts; i++)
        {
            below += mass[i];
            if (below < all * next / Parts || !(mass[i] > 0))
            {
                continue;
            }

            while (next < Parts && below >= all * next / Parts)
            {
                next++;
            }

            double at = Math.Round((_plan.Cells[i].FromMetres + _plan.Cells[i].ToMetres) / 2, 1);
            if (Asked(seen => seen is Observation.EarthGradient other && Math.Abs(other.AtMetres - at) < 1))
            {
                continue;
            }

            Observation[] outcomes = [.. Enum.GetValues<GradientOutcome>().Select(outcome => new Observation.EarthGradient(at, Spacing, outcome, null))];
            AddTest(
                new(StepKind.EarthGradient) { AtMetres = at, SpacingMetres = Spacing }, outcomes.Length,
                (outcome, atom) => atom.Kind is not (CauseKind.Leak or CauseKind.LeakPair) ? Of(outcome, null, default)
                    : atom.OtherSpread.Length > 0 ? 0.5 * (Of(outcome, CauseKind.Leak, atom.Place) + Of(outcome, CauseKind.Leak, atom.OtherPlace))
                    : Of(outcome, CauseKind.Leak, atom.Place),
                outcome => Of(outcome, null, default));

            double Of(int outcome, CauseKind? kind, Place place) => _belief.PlaceTests.Likelihood(outcomes[outcome], kind, place, true);
        }
    }

    private void AddTerminalLook()
    {
        double atTerminals = _plan.Atoms.Where(atom => AtTerminal(atom)).Sum(atom => atom.Weight);
        if (atTerminals < 0.01 || Asked(seen => seen is Observation.TerminalLook))
        {
            return;
        }

        foreach (Person by in Doers(StepKind.TerminalLook))
        {
            TerminalState[] states = Enum.GetValues<TerminalState>();
            AddTest(
                new(StepKind.TerminalLook) { By = by }, states.Length, (outcome, atom) => TerminalLookTest.Probability(states[outcome], AtTerminal(atom)),
                outcome => TerminalLookTest.Probability(states[outcome], false));
        }

        static bool AtTerminal(PlanAtom atom) => (atom.InWire && atom.Place.Kind == PlaceKind.Terminal) || (atom.OtherSpread.Length > 0 && atom.OtherPlace.Kind == PlaceKind.Terminal);
    }

    private void AddWiggles()
    {
        if (Weight(CauseKind.Unsteady) < 0.1 || !Doers(StepKind.Wiggle).Any())
        {
            return;
        }

        foreach (double at in LikelyPoints(PlaceKind.Joint, 0.03).Concat(LikelyPoints(PlaceKind.Terminal, 0.03)))
        {
            if (Asked(seen => seen is Observation.Wiggle other && Math.Abs(other.AtMetres - at) < 0.31))
            {
                continue;
            }

            double Jumps(PlanAtom atom) => WiggleTest.Jumps(atom.Kind, atom.InWire && atom.Place.Kind != PlaceKind.Span && Math.Abs(atom.Place.FromMetres - at) < 0.31);
            AddTest(new(StepKind.Wiggle) { AtMetres = at }, 2, (outcome, atom) => outcome == 0 ? Jumps(atom) : 1 - Jumps(atom), outcome => outcome == 0 ? 0.03 : 0.97);
        }
    }

    /// <summary>Outcome 0: both sides well; 1: A high; 2: B high; 3: both. Each fault shows on one side or on none.</summary>
    private static double FourWays(int outcome, double a1, double b1, double a2, double b2)
    {
        double none1 = Math.Max(0, 1 - a1 - b1), none2 = Math.Max(0, 1 - a2 - b2);
        double well = none1 * none2, a = (a1 * (none2 + a2)) + (none1 * a2), b = (b1 * (none2 + b2)) + (none1 * b2);
        return outcome switch { 0 => well, 1 => a, 2 => b, _ => Math.Max(0, 1 - well - a - b) };
    }

    private void AddBypasses(List<int> edges, double[] below)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        int firstCell = Array.FindIndex(below, share => share > 0.004), lastCell = Array.FindIndex(below, share => share > 0.996);
        double start = firstCell <= 0 ? 0 : Math.Max(0, EdgeMetres(firstCell - 1) - 0.3), end = lastCell < 0 || lastCell + 1 >= cells.Length ? _length : Math.Min(_length, EdgeMetres(lastCell) + 0.3);
        foreach (int edge in Middlemost(edges, below, 10))
        {
            AddBypass(start, EdgeMetres(edge));
            AddBypass(EdgeMetres(edge), end);
        }

        IEnumerable<(int A, int B)> windows =
            from a in edges from b in edges where b > a && below[b] - below[a] is > 0.35 and < 0.65 orderby Math.Abs(below[b] - below[a] - 0.5) select (a, b);
        foreach ((int a, int b) in windows.Take(12))
        {
            AddBypass(EdgeMetres(a), EdgeMetres(b));
        }
    }

    /// <summary>The edges nearest to having half of the probability on either side, in order along the wire.</summary>
    private static IEnumerable<int> Middlemost(List<int> edges, double[] below, int count) =>
        edges.OrderBy(edge => Math.Abs(below[edge] - 0.5)).Take(count).Order();

    private void AddBypass(double from, double to)
    {
        (from, to) = (Math.Round(from, 2), Math.Round(to, 2));
        if (to - from < 0.8 || to - from > _length - 1
            || Asked(seen => seen is Observation.Bypass other && Math.Abs(other.FromMetres - from) < 0.5 && Math.Abs(other.ToMetres - to) < 0.5))
        {
            return;
        }

        double Outside(CauseKind? kind, Place place, double ohms) =>
            kind == CauseKind.Unsteady ? _belief.ContactIsOpen(Person.Technician) * (1 - PlaceTestModel.Overlap(place, from, to))
            : kind is CauseKind.SeriesResistance or CauseKind.Open
                ? (1 - PlaceTestModel.Overlap(place, from, to)) * Shows(ohms, _length)
                : 0;
        double Well(PlanAtom atom) => 0.996 * (1 - Outside(atom.Kind, atom.Place, atom.Ohms)) * (1 - Outside(atom.OtherKind, atom.OtherPlace, atom.OtherOhms));
        AddTest(
            new(StepKind.Bypass) { FromMetres = from, ToMetres = to }, 2,
            (outcome, atom) => outcome == 0 ? Well(atom) : 1 - Well(atom), outcome => outcome == 0 ? 0.996 : 0.004);
    }

    private void AddTone(double at, WireEnd from)
    {
        if (Weight(CauseKind.Open) + Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair) < 0.05
            || _history.Since(_history.AfterFind).Count(seen => seen is Observation.ToneTrace) >= MostTones
            || Asked(seen => seen is Observation.ToneTrace other && Math.Abs(other.AtMetres - at) < 1))
        {
            return;
        }

        Observation[] outcomes = [.. Enum.GetValues<ToneStrength>().Select(strength => new Observation.ToneTrace(at, from, strength))];
        double Tone(int outcome, PlanAtom atom)
        {
            if (atom.Kind == CauseKind.LeakPair && atom.OtherSpread.Length > 0)
            {
                return 0.5 * (_belief.PlaceTests.Likelihood(outcomes[outcome], CauseKind.Leak, atom.Place, true)
                    + _belief.PlaceTests.Likelihood(outcomes[outcome], CauseKind.Leak, atom.OtherPlace, true));
            }

            (CauseKind kind, Place place) = atom.PlaceOf(CauseKind.Open) is { } open ? (CauseKind.Open, open) : (atom.Kind, atom.Place);
            return _belief.PlaceTests.Likelihood(outcomes[outcome], kind, place, atom.Wet);
        }

        AddTest(
            new(StepKind.ToneTrace) { AtMetres = at, From = from }, outcomes.Length, Tone,
            outcome => _belief.PlaceTests.Likelihood(outcomes[outcome], null, default, false));
    }

    private void AddLooks()
    {
        CaseEvidence.Item[] looks = [.. _history.Since(_history.AfterFind).OfType<Observation.Look>().Where(look => look.Wire is null).Select(look => new CaseEvidence.Item(look, 0, 0, 1))];
        Dictionary<(Place, Place?), double> visibility = [];
        double Visible(PlanAtom atom)
        {
            (Place, Place?) key = (atom.Place, atom.OtherKind == CauseKind.LeakPair ? atom.OtherPlace : null);
            if (!visibility.TryGetValue(key, out double probability))
            {
                probability = PlaceTestModel.VisibleProbability(looks, key.Item1, key.Item2);
                visibility.Add(key, probability);
            }

            return probability;
        }

        PlanAtom[] atoms = _plan.Atoms;
        double[] mass = CellMass();
        foreach ((double from, double to) in LookWindows())
        {
            if (LookedAt(looks, from, to) > 0.1)
            {
                continue;
            }

            double misled = PlaceTestModel.FalseMark(to - from);
            double[] edges = LookParts(mass, from, to);
            int parts = edges.Length - 1;
            double[][] first = new double[parts][], second = new double[parts][];
            for (int p = 0; p < parts; p++)
            {
                first[p] = [.. atoms.Select(atom => atom.InWire ? PlaceTestModel.Overlap(atom.Place, edges[p], edges[p + 1]) : 0)];
                second[p] = [.. atoms.Select(atom => atom.OtherSpread.Length > 0 ? PlaceTestModel.Overlap(atom.OtherPlace, edges[p], edges[p + 1]) : 0)];
            }

            foreach (Person by in Doers(StepKind.Look))
            {
                Step step = new(StepKind.Look) { FromMetres = from, ToMetres = to, By = by };

                // Outcome p: damage is seen, first in part p; the last: nothing.
                double found = by == Person.Owner ? StatedProbabilities.VisibleDamageIsFoundByOwner : StatedProbabilities.VisibleDamageIsFound;
                double[][] table = [.. Enumerable.Range(0, parts + 1).Select(_ => new double[atoms.Length + 1])];
                for (int i = 0; i < atoms.Length; i++)
                {
                    double visible = Visible(atoms[i]), missed = 1;
                    for (int p = 0; p < parts; p++)
                    {
                        double passed = missed * (1 - (found * first[p][i])) * (1 - (found * second[p][i]));
                        table[p][i] = visible * (missed - passed);
                        missed = passed;
                    }

                    double seen = visible * (1 - missed);
                    table[parts][i] = (1 - seen) * (1 - misled);
                    for (int p = 0; p < parts; p++)
                    {
                        table[p][i] += (1 - seen) * misled / parts;
                    }
                }

                for (int p = 0; p <= parts; p++)
                {
                    table[p][^1] = p == parts ? 1 - misled : misled / parts;
                }

                // Whoever sees damage knows where: the narrower looks that say so cost about as much again.
                AddTest(step, table, null, parts > 1 ? LookAgain * _costs.Money(step) : 0);
            }
        }
    }

    /// <summary>Edges of the parts of a stretch in which damage may be seen: about equally likely ones.</summary>
    private double[] LookParts(double[] mass, double from, double to)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        int[] inside = [.. Enumerable.Range(0, cells.Length).Where(i => cells[i].ToMetres > from && cells[i].FromMetres < to)];
        double all = inside.Sum(i => mass[i]), sum = 0;
        List<double> edges = [from];
        foreach (int i in inside)
        {
            sum += mass[i];
            if (sum >= all / LookPartCount && cells[i].ToMetres > edges[^1] + 0.5 && cells[i].ToMetres < to - 0.5)
            {
                edges.Add(cells[i].ToMetres);
                sum = 0;
            }
        }

        edges.Add(to);
        return [.. edges];
    }

    /// <summary>Stretches worth walking, of every length: of each the likeliest.</summary>
    private IEnumerable<(double From, double To)> LookWindows()
    {
        return Windows(0.04, 24).Where(window => window.Cells is 1 or 2 or 3 or 5 or 8 or 12 or 18 or 24).GroupBy(window => window.Cells)
            .SelectMany(group => group.OrderByDescending(window => window.Share / Math.Max(2, 0.3 * (window.To - window.From))).Take(3))
            .Select(window => (window.From, window.To));
    }

    /// <summary>Share of a stretch that was walked already: nobody walks it twice.</summary>
    private static double LookedAt(CaseEvidence.Item[] looks, double from, double to)
    {
        const int Samples = 20;
        int walked = 0;
        for (int i = 0; i < Samples; i++)
        {
            double at = from + ((to - from) * (i + 0.5) / Samples);
            walked += looks.Any(item => item.Seen is Observation.Look other && at >= other.FromMetres && at <= other.ToMetres) ? 1 : 0;
        }

        return (double)walked / Samples;
    }

    /// <summary>Stretches of neighbouring cells worth walking or mending, with their probability.</summary>
    private List<(int Cells, double From, double To, double Share)> Windows(double leastShare, int mostCells)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        double[] mass = CellMass();

        List<(int Cells, double From, double To, double Share)> windows = [];
        for (int i = 0; i < cells.Length; i++)
        {
            double share = 0;
            for (int j = i; j < Math.Min(cells.Length, i + mostCells); j++)
            {
                share += mass[j];
                double from = Math.Max(0, Math.Round(cells[i].FromMetres - WireSearchCosts.MarginMetres, 1)), to = Math.Min(Math.Round(_length, 2), Math.Round(cells[j].ToMetres + WireSearchCosts.MarginMetres, 1));
                if (share >= leastShare && to - from >= 0.5)
                {
                    windows.Add((j - i + 1, from, to, share));
                }
            }
        }

        return windows;
    }

    private void AddRepairs()
    {
        foreach ((StepKind repair, CauseKind cause, bool _) in Replacements)
        {
            if (Weight(cause) < 0.003 && repair is not (StepKind.RemakeTerminals or StepKind.AskMaker))
            {
                continue;
            }

            foreach (Person by in Doers(repair))
            {
                Observation.RepairDone done = new(repair, null, null, null, null);
                AddRepair(new(repair) { By = by }, done);
            }
        }

        if (!_case.Can.Technician)
        {
            return;
        }

        foreach (Yards.Joint joint in _case.Yard.Loop.Joints)
        {
            AddRepair(new(StepKind.RemakeJoint) { AtMetres = joint.AtMetres }, new(StepKind.RemakeJoint, joint.AtMetres, null, null, null));
        }

        foreach ((int _, double from, double to, double _) in Windows(0.08, 30).OrderByDescending(window => window.Share / (14 + (4.5 * (window.To - window.From)))).Take(24))
        {
            AddRepair(new(StepKind.MendSpan) { FromMetres = from, ToMetres = to }, new(StepKind.MendSpan, null, from, to, null));
        }

        AddRepair(new(StepKind.RenewLoop), new(StepKind.RenewLoop, null, null, null, null));
    }

    private void AddRepair(Step step, Observation.RepairDone done)
    {
        if (IsFoolish(step))
        {
            return;
        }

        (double now, bool visits) = CostNow(step);
        PlanAtom[] atoms = _plan.Atoms;
        double cured = 0, mends = 0;
        for (int i = 0; i < atoms.Length; i++)
        {
            double first = CuresPart(done, atoms[i].Kind, atoms[i].Place, atoms[i].InWire);
            double second = atoms[i].OtherKind is { } kind ? CuresPart(done, kind, atoms[i].OtherPlace, atoms[i].OtherSpread.Length > 0) : 0;
            if (atoms[i].OtherKind == CauseKind.LeakPair)
            {
                first = StatedProbabilities.OneLeakOfTwoSuffices * (1 - ((1 - first) * (1 - second)));
                second = first;
            }

            _first[i] = atoms[i].Weight * (1 - first);
            _second[i] = atoms[i].Weight * (1 - second);
            cured += atoms[i].Weight * (atoms[i].OtherKind is null or CauseKind.LeakPair ? first : first * second);
            mends += atoms[i].Weight * (1 - ((1 - first) * (1 - second)));
        }

        // Of two faults the one that is mended is one less, though the mower does not run yet.
        if (mends < 0.002)
        {
            return;
        }

        // The check that follows is part of the repair's price, and a running mower ends the case.
        Estimated after = ToGo(_first, _second, 0.01 * _plan.Mended, _onSite || visits);
        _found.Add(new(step, now, after with { Sure = after.Sure + _costs.CheckAfter }, cured, []));
    }

    private double CuresPart(Observation.RepairDone done, CauseKind kind, Place place, bool inWire) =>
        kind == CauseKind.Guide ? GuideRepairs.Cures(done, place, _physics) : inWire ? _belief.Repairs.Cures(done, place) : RepairModel.Cures(done.Repair, kind);

    /// <summary>A cost to go in two parts: what one who knows the truth would still pay, and the price of not knowing it.</summary>
    internal readonly record struct Estimated(double Sure, double Unsure)
    {
        public static Estimated operator +(Estimated a, Estimated b) => new(a.Sure + b.Sure, a.Unsure + b.Unsure);

        /// <summary>Both together, the price of not knowing brought to scale.</summary>
        public double At(double scale) => Sure + (scale * Unsure);
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
