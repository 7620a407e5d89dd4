namespace Swardloop.Core.Diagnosis;

/// <summary>Least expected cost of finding and ending one fault that lies in one of several places in a row, with tests that
/// divide the row, points that can be opened, and repairs of whole stretches.</summary>
/// <remarks>
/// Exact dynamic programming over intervals, the optimal search tree of Knuth (Acta Informatica 1, 14, 1971) widened by unequal
/// costs, by stretches that are repaired without knowing more, and by tests that stand between places. Tests are taken as
/// certain. With unit costs it is the optimal binary search tree of Cormen et al., Introduction to Algorithms, §15.5.
/// Cost in time n³, in memory n².
/// </remarks>
public sealed class LineSearch
{
    private readonly int _count;
    private readonly double[] _weight;
    private readonly double[] _cost;
    private readonly Choice[] _choice;

    // What mending each stretch and opening each point costs: asked for again and again.
    private readonly double[] _mend, _open;

    /// <summary>Solves one row.</summary>
    /// <param name="weights">Probability of each place, in row order; any positive scale. Zero is allowed.</param>
    /// <param name="costs">What each test and repair costs; all in one currency.</param>
    public LineSearch(ReadOnlySpan<double> weights, ILineSearchCosts costs)
    {
        _count = weights.Length;
        _weight = new double[_count + 1];
        for (int i = 0; i < _count; i++)
        {
            Guard.NotNegative(weights[i], nameof(weights));
            _weight[i + 1] = _weight[i] + weights[i];
        }

        _cost = new double[(_count + 1) * (_count + 1)];
        _choice = new Choice[(_count + 1) * (_count + 1)];
        _mend = new double[_cost.Length];
        _open = new double[_count];
        for (int first = 0; first < _count; first++)
        {
            _open[first] = costs.Open(first);
            for (int last = first; last < _count; last++)
            {
                _mend[Cell(first, last)] = costs.Mend(first, last);
            }
        }

        for (int length = 1; length <= _count; length++)
        {
            for (int first = 0; first + length <= _count; first++)
            {
                Solve(first, first + length - 1, costs);
            }
        }
    }

    /// <summary>What a place or boundary is chosen for.</summary>
    public enum Act
    {
        /// <summary>Repair the whole stretch.</summary>
        Mend,

        /// <summary>Repair the first part, up to and including the index, and see.</summary>
        MendFirst,

        /// <summary>Repair the last part, from the index on, and see.</summary>
        MendLast,

        /// <summary>Test between the index and the next.</summary>
        Divide,

        /// <summary>Open the point at the index: left of it, right of it, or it.</summary>
        Open,
    }

    /// <summary>Expected cost for the whole row, times the sum of the weights.</summary>
    public double WeightedCost => _count == 0 ? 0 : _cost[Cell(0, _count - 1)];

    /// <summary>Expected cost for the whole row, given that the fault is in it; null when no place has weight.</summary>
    public double? ExpectedCost => _weight[_count] > 0 ? WeightedCost / _weight[_count] : null;

    /// <summary>The best first act for places <paramref name="first"/> to <paramref name="last"/>.</summary>
    public Choice Best(int first, int last) => _choice[Cell(first, last)];

    private int Cell(int first, int last) => (first * (_count + 1)) + last + 1;

    private double CostOf(int first, int last) => first > last ? 0 : _cost[Cell(first, last)];

    private void Solve(int first, int last, ILineSearchCosts costs)
    {
        double all = _weight[last + 1] - _weight[first];
        if (!(all > 0))
        {
            // Nothing lies here and nothing is paid; what cannot be done must not make it 0·∞.
            _choice[Cell(first, last)] = new(Act.Mend, last);
            return;
        }

        double best = all * _mend[Cell(first, last)];
        Choice choice = new(Act.Mend, last);
        for (int k = first; k <= last; k++)
        {
            double open = _open[k];
            if (open < double.PositiveInfinity)
            {
                double found = _weight[k + 1] - _weight[k];
                Consider(
                    (all * open) + (found * costs.AfterOpening(k)) + CostOf(first, k - 1) + CostOf(k + 1, last), new(Act.Open, k));
            }

            if (k < last)
            {
                double parts = CostOf(first, k) + CostOf(k + 1, last);
                Consider((all * costs.Divide(first, k, last)) + parts, new(Act.Divide, k));
                Consider((all * _mend[Cell(first, k)]) + CostOf(k + 1, last), new(Act.MendFirst, k));
                Consider((all * _mend[Cell(k + 1, last)]) + CostOf(first, k), new(Act.MendLast, k + 1));
            }
        }

        _cost[Cell(first, last)] = best;
        _choice[Cell(first, last)] = choice;

        void Consider(double cost, Choice candidate)
        {
            if (cost < best)
            {
                best = cost;
                choice = candidate;
            }
        }
    }

    /// <summary>An act and the place it is at.</summary>
    public readonly record struct Choice(Act Act, int Index);
}

/// <summary>What the acts of a <see cref="LineSearch"/> cost. Infinity: cannot be done.</summary>
public interface ILineSearchCosts
{
    /// <summary>Repairing places first to last as one piece, checking included.</summary>
    double Mend(int first, int last);

    /// <summary>A test that tells first…left from left+1…last.</summary>
    double Divide(int first, int left, int last);

    /// <summary>Opening a point, which tells left from right and ends a fault at the point itself.</summary>
    double Open(int place);

    /// <summary>What is still owed when the opened point was the fault.</summary>
    double AfterOpening(int place);
}
