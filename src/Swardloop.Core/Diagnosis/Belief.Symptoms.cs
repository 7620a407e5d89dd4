namespace Swardloop.Core.Diagnosis;

/// <summary>What people saw, and when each cause may have ended.</summary>
internal sealed partial class Belief
{
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
        SymptomsWhere(
            item => (item.Epoch <= firstUntil ? first : Condition.Healthy).With(item.Epoch <= secondUntil ? second : Condition.Healthy),
            first.Has(CauseKind.Layout) || second.Has(CauseKind.Layout))

            // The complaint came before everything that was done.
            * _symptoms.Complaint.Likelihood(firstUntil >= 0 ? first.With(secondUntil >= 0 ? second : Condition.Healthy) : second);

    /// <summary>Likelihood of all symptoms, the complaint apart, when what is wrong at the time of each is given.</summary>
    private double SymptomsWhere(Func<CaseEvidence.Item, Condition> at, bool layout = false)
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
                    done = Together(question[i], question[start], condition);
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
                        if (Together(question[i], question[start], condition))
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
            likelihood += _physics.Profiles[node].Under(layout) * Math.Exp(sum[node]);
        }

        return likelihood;

        // A mower that still does the same after another thing was done has something: that nothing is wrong with it is no oddness that persists.
        bool Together(CaseEvidence.Item one, CaseEvidence.Item first, Condition condition) =>
            at(one) == condition && (one.Epoch == first.Epoch || one.Seen is not Observation.MowerCheck || condition.Present is not (0 or 1 << (int)CauseKind.None));
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

    private List<(int Until, double Probability)> EndingsAt(Place place) => Endings(change => _repairs.Cures(change, place));

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
}
