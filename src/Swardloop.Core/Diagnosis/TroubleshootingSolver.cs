namespace Swardloop.Core.Diagnosis;

/// <summary>Expected cost to the finish of a <see cref="TroubleshootingProblem"/>, and the step that opens the best plan.</summary>
/// <remarks>
/// Full expectation–minimisation over tests and repairs, to a given depth of tests in a row; below it, the best order of repairs
/// alone (descending probability over cost: Kadane and Simon 1977). With a depth of as many tests as there are, the result is the
/// optimum over all adaptive plans in which repairs, once begun without cure, may be followed by tests again.
/// </remarks>
public sealed class TroubleshootingSolver
{
    /// <summary>What is this small a share of the whole problem no longer counts.</summary>
    private const double NegligibleShare = 1e-12;

    /// <summary>Room for a test's outcome in a state's key.</summary>
    private const int OutcomeBits = 4;

    private readonly TroubleshootingProblem _problem;
    private readonly TroubleshootingProblem.Test[] _tests;
    private readonly TroubleshootingProblem.Repair[] _allRepairs;
    private readonly int _causes;
    private readonly double _leastShare;

    // Of the causes that count in a search, in order: which they are, and their columns of the problem's tables, close together.
    private readonly int[] _active;
    private readonly int[] _repairs;
    private readonly int[] _firstOutcome;
    private readonly double[] _cost, _cures, _likelihood;
    private readonly double[][] _scratch;
    private readonly Dictionary<(ulong Done, UInt128 Outcomes), (double Cost, int Step)> _known = [];
    private int _activeCount, _repairCount, _used;
    private double _negligible;

    /// <summary>Prepares a solver; it is not safe for use by two threads at once.</summary>
    /// <param name="problem">What there is to choose from.</param>
    /// <param name="causes">How many causes.</param>
    /// <param name="leastShare">Causes up to this share of the weight are left out of a search; 0: none that has weight. Costs are too
    /// low by what those would have added.</param>
    public TroubleshootingSolver(TroubleshootingProblem problem, int causes, double leastShare = 0)
    {
        Guard.NotNegative(leastShare);
        _leastShare = leastShare;
        _problem = problem;
        (_tests, _allRepairs) = ([.. problem.Tests], [.. problem.Repairs]);
        _causes = causes;
        _active = new int[causes];
        _repairs = new int[_allRepairs.Length];
        (_cost, _cures) = (new double[_allRepairs.Length * causes], new double[_allRepairs.Length * causes]);
        _firstOutcome = new int[_tests.Length];
        int outcomes = 0;
        for (int t = 0; t < _tests.Length; t++)
        {
            _firstOutcome[t] = outcomes;
            outcomes += _tests[t].Likelihood.Length;
        }

        _likelihood = new double[outcomes * causes];
        _scratch = new double[64][];
        for (int i = 0; i < _scratch.Length; i++)
        {
            _scratch[i] = new double[causes];
        }
    }

    /// <summary>Expected cost to the finish and the first step of the best plan.</summary>
    /// <param name="weights">Probability of each cause, any positive scale.</param>
    /// <param name="onSite">Whether the visit is paid already.</param>
    /// <param name="testsAhead">How many tests and unsuccessful repairs in a row are looked through before falling back on repairs alone.</param>
    /// <returns>Cost (of the normalised problem) and step: 0…tests−1 a test, from there on a repair; −1 when no cause has weight.</returns>
    public (double Cost, int Step) Solve(ReadOnlySpan<double> weights, bool onSite, int testsAhead)
    {
        double total = 0;
        foreach (double weight in weights)
        {
            Guard.NotNegative(weight, nameof(weights));
            total += weight;
        }

        if (!(total > 0))
        {
            return (0, -1);
        }

        _used = 0;
        _known.Clear();
        _negligible = NegligibleShare * total;
        Activate(weights, _leastShare * total);
        Span<double> active = stackalloc double[_activeCount];
        for (int k = 0; k < active.Length; k++)
        {
            active[k] = weights[_active[k]];
        }

        (double cost, int step) = Value(active, onSite, 0ul, 0, testsAhead);
        return (cost / total, step);
    }

    /// <summary>Notes the causes that have weight and the repairs that end any of them.</summary>
    private void Activate(ReadOnlySpan<double> weights, double least)
    {
        _activeCount = _repairCount = 0;
        for (int c = 0; c < _causes; c++)
        {
            if (weights[c] > least)
            {
                _active[_activeCount++] = c;
            }
        }

        for (int r = 0; r < _allRepairs.Length; r++)
        {
            Gather(_allRepairs[r].Cures, _cures, _repairCount);
            if (Row(_cures, _repairCount).ContainsAnyExcept(0))
            {
                Gather(_allRepairs[r].Cost, _cost, _repairCount);
                _repairs[_repairCount++] = r;
            }
        }

        for (int t = 0; t < _tests.Length; t++)
        {
            for (int o = 0; o < _tests[t].Likelihood.Length; o++)
            {
                Gather(_tests[t].Likelihood[o], _likelihood, _firstOutcome[t] + o);
            }
        }
    }

    private void Gather(double[] byCause, double[] table, int row)
    {
        for (int k = 0; k < _activeCount; k++)
        {
            table[(row * _activeCount) + k] = byCause[_active[k]];
        }
    }

    private ReadOnlySpan<double> Row(double[] table, int row) => table.AsSpan(row * _activeCount, _activeCount);

    private static double Total(ReadOnlySpan<double> weights)
    {
        double total = 0;
        foreach (double weight in weights)
        {
            total += weight;
        }

        return total;
    }

    /// <summary>Weights, visit and depth all follow from what was done and what came of it: the same state, reached in another order, is looked up.</summary>
    private (double Cost, int Step) Value(ReadOnlySpan<double> weights, bool onSite, ulong done, UInt128 outcomes, int ahead)
    {
        if (done == 0 || ahead == 0)
        {
            // The first is met once; the last cost less to compute than to look up.
            return Compute(weights, onSite, done, outcomes, ahead);
        }

        if (!_known.TryGetValue((done, outcomes), out (double, int) value))
        {
            value = Compute(weights, onSite, done, outcomes, ahead);
            _known.Add((done, outcomes), value);
        }

        return value;
    }

    private (double Cost, int Step) Compute(ReadOnlySpan<double> weights, bool onSite, ulong done, UInt128 outcomes, int ahead)
    {
        double total = Total(weights);
        if (total <= _negligible)
        {
            return (0, -1);
        }

        (double best, int step) = RepairsOnly(weights, onSite, done);
        if (ahead == 0)
        {
            return (best, step);
        }

        int tests = _tests.Length;
        for (int t = 0; t < tests; t++)
        {
            if ((done & (1ul << t)) != 0)
            {
                continue;
            }

            TroubleshootingProblem.Test test = _tests[t];
            double cost = total * (test.Cost + (test.NeedsVisit && !onSite ? _problem.Travel : 0));
            if (cost >= best)
            {
                continue;
            }

            Span<double> after = Take();
            for (int o = 0; o < test.Likelihood.Length; o++)
            {
                ReadOnlySpan<double> likelihood = Row(_likelihood, _firstOutcome[t] + o);
                for (int k = 0; k < after.Length; k++)
                {
                    after[k] = weights[k] * likelihood[k];
                }

                cost += Value(after, onSite || test.NeedsVisit, done | (1ul << t), outcomes | ((UInt128)(uint)o << (OutcomeBits * t)), ahead - 1).Cost;
                if (cost >= best)
                {
                    break;
                }
            }

            Give();
            if (cost < best)
            {
                (best, step) = (cost, t);
            }
        }

        for (int i = 0; i < _repairCount; i++)
        {
            int r = _repairs[i];
            if ((done & (1ul << (tests + r))) != 0)
            {
                continue;
            }

            bool needsVisit = _allRepairs[r].NeedsVisit;
            double cost = needsVisit && !onSite ? total * _problem.Travel : 0;
            double cured = 0;
            Span<double> after = Take();
            ReadOnlySpan<double> costs = Row(_cost, i), cures = Row(_cures, i);
            for (int k = 0; k < after.Length; k++)
            {
                cost += weights[k] * costs[k];
                after[k] = weights[k] * (1 - cures[k]);
                cured += weights[k] * cures[k];
            }

            if (cured > _negligible && cost < best)
            {
                cost += Value(after, onSite || needsVisit, done | (1ul << (tests + r)), outcomes, ahead - 1).Cost;
                if (cost < best)
                {
                    (best, step) = (cost, tests + r);
                }
            }

            Give();
        }

        return (best, step);
    }

    /// <summary>Repairs one after the other, each time the one with the most cure for its money.</summary>
    private (double Cost, int Step) RepairsOnly(ReadOnlySpan<double> weights, bool onSite, ulong done)
    {
        int tests = _tests.Length;
        Span<double> left = Take();
        weights.CopyTo(left);

        // What each repair costs and cures on what is left. A repair that fails ends few causes: the sums are kept up by what those lose.
        Span<double> costs = stackalloc double[_repairCount], cures = stackalloc double[_repairCount];
        for (int i = 0; i < _repairCount; i++)
        {
            ReadOnlySpan<double> costRow = Row(_cost, i), cureRow = Row(_cures, i);
            double ofCost = 0, ofCure = 0;
            for (int k = 0; k < left.Length; k++)
            {
                ofCost += left[k] * costRow[k];
                ofCure += left[k] * cureRow[k];
            }

            (costs[i], cures[i]) = (ofCost, ofCure);
        }

        double cost = 0, total = Total(left);
        int firstStep = -1;
        while (total > _negligible)
        {
            int chosen = -1;
            double chosenRatio = 0, chosenCost = 0;
            for (int i = 0; i < _repairCount; i++)
            {
                int r = _repairs[i];
                if ((done & (1ul << (tests + r))) != 0)
                {
                    continue;
                }

                // Equal ratios keep the earlier repair, so that the answer does not hang on rounding.
                double repairCost = costs[i] + (_allRepairs[r].NeedsVisit && !onSite ? total * _problem.Travel : 0);
                if (cures[i] > _negligible && (chosen < 0 || cures[i] / repairCost > chosenRatio))
                {
                    (chosen, chosenRatio, chosenCost) = (i, cures[i] / repairCost, repairCost);
                }
            }

            if (chosen < 0)
            {
                // Nothing left ends what is left: the trouble goes on, at the price of trying everything once more.
                cost += total * _problem.Travel;
                break;
            }

            if (firstStep < 0)
            {
                firstStep = tests + _repairs[chosen];
            }

            cost += chosenCost;
            onSite |= _allRepairs[_repairs[chosen]].NeedsVisit;
            done |= 1ul << (tests + _repairs[chosen]);
            ReadOnlySpan<double> ended = Row(_cures, chosen);
            for (int k = 0; k < left.Length; k++)
            {
                if (ended[k] > 0 && left[k] > 0)
                {
                    double lost = left[k] * ended[k];
                    left[k] -= lost;
                    for (int i = 0; i < _repairCount; i++)
                    {
                        costs[i] -= lost * _cost[(i * _activeCount) + k];
                        cures[i] -= lost * _cures[(i * _activeCount) + k];
                    }
                }
            }

            total = Total(left);
        }

        Give();
        return (cost, firstStep);
    }

    private Span<double> Take() => _scratch[_used++].AsSpan(0, _activeCount);

    private void Give() => _used--;
}
