namespace Swardloop.Core.Circuits;

/// <summary>A small dense system of real linear equations, solved by elimination with partial pivoting and then refined with
/// residuals in twice the working precision, until every unknown is right to about its last digit.</summary>
/// <remarks>Source: Golub and Van Loan, Matrix Computations, 4th ed., sections 3.4 and 3.5.3 (from memory).
/// Refinement converges while condition × 1e-16 stays well below 1; when it does not, there is no answer, and the result says at which unknown.</remarks>
internal sealed class DenseSystem
{
    // A first correction above this share of the answer means that the elimination kept fewer than about three sure digits.
    private const double WeakestFirstCorrection = 1e-3;
    private const int MostRefinements = 12;

    private readonly int _size;
    private readonly double[] _matrix;
    private readonly double[] _right;

    public DenseSystem(int size)
    {
        _size = size;
        _matrix = new double[size * size];
        _right = new double[size];
    }

    public void Add(int row, int column, double value) => _matrix[(row * _size) + column] += value;

    public void AddRight(int row, double value) => _right[row] += value;

    /// <summary>Solves; <paramref name="weakUnknown"/> is −1 and the answer true, or the index of an unknown that is not determined.</summary>
    public bool TrySolve(double[] solution, out int weakUnknown)
    {
        double[] factors = (double[])_matrix.Clone();
        int[] order = new int[_size];
        weakUnknown = Factor(factors, order);
        if (weakUnknown >= 0)
        {
            return false;
        }

        double[] low = new double[_size], residual = (double[])_right.Clone(), correction = new double[_size];
        BackSubstitute(factors, order, residual, solution);
        double previous = double.PositiveInfinity;
        for (int round = 0; round < MostRefinements; round++)
        {
            Residual(solution, low, residual);
            BackSubstitute(factors, order, residual, correction);
            double size = LargestMagnitude(solution, out _), change = LargestMagnitude(correction, out int weakest);
            if (!double.IsFinite(change) || (round == 0 && change > WeakestFirstCorrection * size))
            {
                weakUnknown = weakest;
                return false;
            }

            bool settled = true;
            for (int i = 0; i < _size; i++)
            {
                settled &= Math.Abs(correction[i]) <= Math.Max(1e-17 * Math.Abs(solution[i]), 1e-32 * size);
                (solution[i], low[i]) = AddTo(solution[i], low[i], correction[i]);
            }

            if (settled || change >= previous / 2)
            {
                // Stagnation above the last digit means that the refinement never bit.
                weakUnknown = change > 1e-12 * size ? weakest : -1;
                return weakUnknown < 0;
            }

            previous = change;
        }

        return true;
    }

    // Elimination in place, rows exchanged; returns −1, or the column left without a pivot.
    private int Factor(double[] m, int[] order)
    {
        for (int column = 0; column < _size; column++)
        {
            int pivotRow = column;
            double pivot = Math.Abs(m[(column * _size) + column]);
            for (int row = column + 1; row < _size; row++)
            {
                double candidate = Math.Abs(m[(row * _size) + column]);
                if (candidate > pivot)
                {
                    (pivot, pivotRow) = (candidate, row);
                }
            }

            if (!(pivot > 0 && double.IsFinite(pivot)))
            {
                return column;
            }

            order[column] = pivotRow;
            Span<double> top = m.AsSpan(column * _size, _size);
            if (pivotRow != column)
            {
                Span<double> other = m.AsSpan(pivotRow * _size, _size);
                for (int i = 0; i < _size; i++)
                {
                    (top[i], other[i]) = (other[i], top[i]);
                }
            }

            for (int row = column + 1; row < _size; row++)
            {
                Span<double> line = m.AsSpan(row * _size, _size);
                if (line[column] == 0)
                {
                    continue;
                }

                double factor = line[column] /= top[column];
                for (int i = column + 1; i < line.Length; i++)
                {
                    line[i] -= factor * top[i];
                }
            }
        }

        return -1;
    }

    private void BackSubstitute(double[] m, int[] order, double[] right, double[] answer)
    {
        right.CopyTo(answer, 0);
        for (int i = 0; i < _size; i++)
        {
            (answer[i], answer[order[i]]) = (answer[order[i]], answer[i]);
        }

        for (int row = 1; row < _size; row++)
        {
            ReadOnlySpan<double> line = m.AsSpan(row * _size, row);
            double sum = answer[row];
            for (int i = 0; i < line.Length; i++)
            {
                sum -= line[i] * answer[i];
            }

            answer[row] = sum;
        }

        for (int row = _size - 1; row >= 0; row--)
        {
            double sum = answer[row];
            for (int i = row + 1; i < _size; i++)
            {
                sum -= m[(row * _size) + i] * answer[i];
            }

            answer[row] = sum / m[(row * _size) + row];
        }
    }

    // right − matrix × (high + low), each product exact and the sum kept in two words.
    private void Residual(double[] high, double[] low, double[] residual)
    {
        for (int row = 0; row < _size; row++)
        {
            double sum = _right[row], rest = 0;
            for (int i = 0; i < _size; i++)
            {
                double a = -_matrix[(row * _size) + i];
                if (a == 0)
                {
                    continue;
                }

                double product = a * high[i], error = Math.FusedMultiplyAdd(a, high[i], -product);
                (sum, rest) = AddTo(sum, rest, product);
                rest += error + (a * low[i]);
            }

            residual[row] = sum + rest;
        }
    }

    private static (double High, double Low) AddTo(double high, double low, double term)
    {
        double sum = high + term, shadow = sum - high;
        double carry = (high - (sum - shadow)) + (term - shadow) + low;
        double result = sum + carry;
        return (result, carry - (result - sum));
    }

    private static double LargestMagnitude(double[] values, out int index)
    {
        double largest = 0;
        index = 0;
        for (int i = 0; i < values.Length; i++)
        {
            double magnitude = Math.Abs(values[i]);
            if (double.IsNaN(magnitude))
            {
                index = i;
                return double.NaN;
            }

            if (magnitude > largest)
            {
                (largest, index) = (magnitude, i);
            }
        }

        return largest;
    }
}
