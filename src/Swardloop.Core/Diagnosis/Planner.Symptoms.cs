using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>Questions about lamp, mower and supply.</summary>
internal sealed partial class Planner
{
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
            Person? doer = AnswersTo(QuestionOf(outcomes[0])).Any() ? null : Doers(outcomes[0].Step).Cast<Person?>().FirstOrDefault();
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
        if (!supplyReadsWell)
        {
            yield return [new Observation.SupplyVoltage(1.05, 1), new Observation.SupplyVoltage(0, 1)];
        }

        // With the station on it a tired supply sags too: the reading that misses nothing.
        yield return [new Observation.SupplyVoltage(1, 1, true), new Observation.SupplyVoltage(0.6, 1, true), new Observation.SupplyVoltage(0, 1, true)];
        Observation.NotDone stands = new(new(StepKind.MowerStart));
        yield return [.. Enum.GetValues<StartOutcome>().Select(outcome => new Observation.MowerStart(StartPlace.MidLawn, outcome)), stands];
        yield return [.. Enum.GetValues<StartOutcome>().Select(outcome => new Observation.MowerStart(StartPlace.AtWire, outcome)), stands];
        yield return [.. ReachMiddles.Select(metres => new Observation.MowerReach(metres, false)), new Observation.MowerReach(0, true)];
        yield return [.. Enum.GetValues<FollowOutcome>().Select(outcome => new Observation.FollowWire(outcome)), stands];
        if (Weight(CauseKind.Charging) > 0.1 || _history.MowerCannotBeStarted || _history.SameAfterChange)
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
        _physics.Profiles.Sum(node => node.Under(condition.Has(CauseKind.Layout)) * _belief.Symptoms.Likelihood(outcome, condition, node.ReachFactor));

    /// <summary>What is seen over a contact that comes and goes: it is mostly as the same person met it last.</summary>
    private double UnsteadySymptom(Observation outcome, Condition condition)
    {
        double open = _belief.ContactIsOpen(outcome.By);
        Condition made = condition.Without(CauseKind.Unsteady);
        return ((1 - open) * Over(outcome, made)) + (open * Over(outcome, made.With(Condition.Of(CauseKind.Open, double.PositiveInfinity))));
    }

    /// <summary>The owner's one answer to a question that a technician on site may ask again, as an index among its outcomes: it fits badly with what is
    /// believed now, or a contact that comes and goes may be another way by now. −1: there is none.</summary>
    private int AnswerToAskAgain(Observation[] outcomes, Observation[] answers, Person by)
    {
        if (by != Person.Technician || !_onSite || answers is not [Observation.MowerStart or Observation.StationLamp or Observation.OutletCheck] || answers[0].By != Person.Owner)
        {
            return -1;
        }

        int index = Array.FindIndex(outcomes, outcome => outcome is not Observation.NotDone && SymptomModel.ValueOf(outcome) == SymptomModel.ValueOf(answers[0]));
        return index >= 0 && (IsDoubted(outcomes[index]) || MayHaveChanged(answers[0])) ? index : -1;
    }

    private bool IsDoubted(Observation answer)
    {
        const double Odd = 0.15, Doubted = 0.35;
        Dictionary<Condition, double> known = SymptomsOf(answer);
        return _plan.Atoms.Where(atom => Symptom(answer, known, atom.Condition) < Odd).Sum(atom => atom.Weight) > Doubted;
    }

    // Whoever arrives looks first whether it is still as bad as was said.
    private bool MayHaveChanged(Observation answer)
    {
        const double Unsteady = 0.05;
        return answer is Observation.MowerStart { Outcome: StartOutcome.NoSignal } or Observation.StationLamp { State: LampState.Alarm or LampState.Flicker } && Weight(CauseKind.Unsteady) > Unsteady;
    }

    /// <summary>The question that an outcome answers, whoever is asked.</summary>
    private static Step QuestionOf(Observation outcome) => new(outcome.Step)
    {
        Place = (outcome as Observation.MowerStart)?.Place,
        Loaded = outcome is Observation.SupplyVoltage { Loaded: true } ? true : null,
    };

    private void AddSymptomTests()
    {
        foreach (Observation[] outcomes in SymptomOutcomes())
        {
            foreach (Person by in Doers(outcomes[0].Step))
            {
                Step step = QuestionOf(outcomes[0]) with { By = by };
                Observation[] answers = [.. AnswersTo(step)];
                int before = AnswerToAskAgain(outcomes, answers, by);
                if (before < 0 && answers.Length > 0)
                {
                    continue;
                }

                Observation[] told = [.. outcomes.Select(outcome => outcome with { By = by })];
                Dictionary<Condition, double>[] known = [.. told.Select(SymptomsOf)];
                double[][] table = TableOf(told.Length, (outcome, atom) => Symptom(told[outcome], known[outcome], atom.Condition), outcome => Symptom(told[outcome], Condition.Healthy));
                Normalise(table, table[0].Length);
                if (before >= 0)
                {
                    // What was odd about the first answer and is the yard's will be there again: see PersistentAnswers. What a contact does now is another matter.
                    for (int o = 0; o < table.Length; o++)
                    {
                        double again = o == before ? PersistentAnswers.YardShare : 0;
                        table[o] = [.. table[o].Select((anew, i) => i < _plan.Atoms.Length && _plan.Atoms[i].Condition.Has(CauseKind.Unsteady) ? anew : again + ((1 - PersistentAnswers.YardShare) * anew))];
                    }
                }

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
                return Math.Clamp(
                    atom.Condition.Has(CauseKind.EndsSwapped) ? StatedProbabilities.CrossesWhenSwapped
                    : atom.Kind == CauseKind.Leak ? StatedProbabilities.CrossesAtLeak : StatedProbabilities.CrossesElsewhere,
                    wrong, 1 - wrong);
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
        double wrong = (by == Person.Owner ? StatedProbabilities.OwnerError : StatedProbabilities.TechnicianError) / 2, runs = _plan.Mended;
        for (int i = 0; i < _first.Length; i++)
        {
            // A mower that runs ends the case, whatever was wrong with it, if anything was.
            double same = Math.Min(1 - SymptomModel.Runs(_plan.Atoms[i].Condition), 1 - wrong);
            _first[i] = _second[i] = _plan.Atoms[i].Weight * same;
            runs += _plan.Atoms[i].Kind == CauseKind.None ? _plan.Atoms[i].Weight * (1 - same) : 0;
        }

        _found.Add(new(step, now, ToGo(_first, _second, _plan.Mended * (0.01 + wrong), _onSite || visits), runs, []));
    }
}
