using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>Causes that do not lie along the wire, alone and two at once, and what a repair itself put wrong.</summary>
internal sealed partial class Belief
{
    private void AddElsewhere(CauseKind kind)
    {
        FaultGroup group = NewGroup(new Cause(kind));
        foreach ((Condition condition, double share) in Forms(kind))
        {
            foreach ((int until, double probability) in EndingsElsewhere(kind))
            {
                double wire = kind == CauseKind.Unmodelled ? UnmodelledWire(until) : kind == CauseKind.EndsSwapped ? WireIsSound() * CrossingsWhenSwapped(until) : WireIsSound();
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

    /// <summary>The forms of one of two causes at once: a supply is dead then, a tired one comes out by itself.</summary>
    private static (Condition Condition, double Share)[] FormsOfTwo(CauseKind kind) => kind == CauseKind.Supply ? [(Condition.Of(kind), 1)] : Forms(kind);

    /// <summary>What is not in the book mostly leaves a sound wire beside a mower that fails; else any reading is about as likely as any other.</summary>
    private double UnmodelledWire(int until)
    {
        const double Sound = StatedProbabilities.UnmodelledReadsSound;
        return (Sound * WireIsSound()) + ((1 - Sound) * AnyWire(until));
    }

    /// <summary>Likelihood of the crossings seen while the ends were swapped, over that on a sound wire.</summary>
    private double CrossingsWhenSwapped(int until)
    {
        double ratio = 1;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Seen is Observation.WireCrossing crossing && item.Epoch <= until)
            {
                ratio *= item.Weighted(PlaceTestModel.Crossed(crossing, StatedProbabilities.CrossesWhenSwapped)) / item.Weighted(PlaceTestModel.Crossed(crossing, StatedProbabilities.CrossesElsewhere));
            }
        }

        return ratio;
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

    /// <summary>A cause that does not lie along the wire and comes out once another is mended; while both are there it is the other that is found.</summary>
    /// <param name="condition">The other.</param>
    /// <param name="kind">Its kind.</param>
    /// <param name="ended">Its weight by the repair that ended it, the symptoms left out.</param>
    private void AddBehindMended(Condition condition, CauseKind kind, double[] ended)
    {
        if (!_withPairs || !Array.Exists(ended, weight => weight > 0))
        {
            return;
        }

        foreach (CauseKind companion in Companions)
        {
            FaultGroup group = NewGroup(new Cause(kind, companion));
            double prior = 2 * StatedProbabilities.PairPenalty * _priors[(int)companion];
            foreach ((Condition form, double share) in FormsOfTwo(companion))
            {
                foreach ((int until, double probability) in EndingsElsewhere(companion))
                {
                    for (int repair = 0; repair < _never; repair++)
                    {
                        double weight = ended[repair] > 0 ? prior * share * probability * ended[repair] * Symptoms2(condition, repair, form, until) : 0;
                        if (until == _never)
                        {
                            group.Add(weight, new(companion, Shown: form));
                        }
                        else
                        {
                            group.End(weight, Math.Max(repair, until));
                        }
                    }
                }
            }

            Faults.Add(group);
        }
    }

    /// <summary>A wire fault that comes out once a cause that does not lie along the wire is mended: leaks behind a dead supply. While both were there people
    /// saw both; what was read of the wire is the wire's.</summary>
    private void AddBehindElsewhere(CauseKind kind)
    {
        if (_never == 0 || Faults.Find(fault => fault.Cause == new Cause(kind)) is not { Atoms.Count: > 0 } alone)
        {
            return;
        }

        foreach (CauseKind companion in Companions)
        {
            FaultGroup group = NewGroup(new Cause(kind, companion));
            foreach ((int until, double probability) in EndingsElsewhere(companion).Where(ending => ending.Until < _never))
            {
                double prior = 2 * StatedProbabilities.PairPenalty * _priors[(int)companion] * probability;
                foreach (FaultAtom atom in alone.Atoms)
                {
                    // So many symptoms may stand against it that nothing is left of either.
                    Condition condition = atom.Condition;
                    double seen = SymptomsUntil(condition, _never), by = seen > 0 ? FormsOfTwo(companion).Sum(form => form.Share * Symptoms2(condition, _never, form.Condition, until)) / seen : 0;
                    group.Add(prior * by * atom.Weight, atom.First, atom.Second);
                }
            }

            if (group.Weight > 0)
            {
                Faults.Add(group);
            }
        }
    }

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
                foreach ((Condition formA, double shareA) in FormsOfTwo(kindA))
                {
                    foreach ((Condition formB, double shareB) in FormsOfTwo(kindB))
                    {
                        AddPairElsewhere(group, new(kindA, Shown: formA), new(kindB, Shown: formB), prior * shareA * shareB);
                    }
                }

                Faults.Add(group);
            }
        }
    }

    private void AddPairElsewhere(FaultGroup group, in Part a, in Part b, double prior)
    {
        foreach ((int untilA, double probabilityA) in EndingsElsewhere(a.Kind))
        {
            foreach ((int untilB, double probabilityB) in EndingsElsewhere(b.Kind))
            {
                double weight = prior * probabilityA * probabilityB * Symptoms2(a.Condition, untilA, b.Condition, untilB);
                group.AddTwo(weight, untilA == _never ? a : null, untilB == _never ? b : null, Math.Max(untilA, untilB));
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

                likelihood += _physics.Profiles[node].WhereItWorked * Math.Exp(log);
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
}
