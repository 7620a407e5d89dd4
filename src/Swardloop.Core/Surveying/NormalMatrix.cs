namespace Swardloop.Core.Surveying;

/// <summary>A symmetric, positive matrix of normal equations, factored by Cholesky.</summary>
/// <remarks>Source: Golub and Van Loan, Matrix Computations, 4th ed., section 4.2 (from memory).</remarks>
internal sealed class NormalMatrix(int size)
{
    // A pivot this small beside its diagonal entry has lost all its digits but three.
    private const double LeastPivotShare = 1e-11;

    private readonly double[] _entries = new double[size * size];
    private readonly double[] _diagonal = new double[size];

    public double this[int row, int column]
    {
        get => _entries[(row * size) + column];
        set => _entries[(row * size) + column] = value;
    }

    /// <summary>Factors in place. Gives −1, or the first unknown that the others determine only to noise.</summary>
    public int Factor(double damping = 0)
    {
        for (int i = 0; i < size; i++)
        {
            this[i, i] *= 1 + damping;
            _diagonal[i] = this[i, i];
        }

        for (int i = 0; i < size; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = this[i, j];
                for (int k = 0; k < j; k++)
                {
                    sum -= this[i, k] * this[j, k];
                }

                if (i != j)
                {
                    this[i, j] = sum / this[j, j];
                }
                else if (!(sum > LeastPivotShare * _diagonal[i]))
                {
                    return i;
                }
                else
                {
                    this[i, i] = Math.Sqrt(sum);
                }
            }
        }

        return -1;
    }

    /// <summary>Solves for one right side, in place; only after <see cref="Factor"/>.</summary>
    public void Solve(double[] right)
    {
        for (int i = 0; i < size; i++)
        {
            for (int k = 0; k < i; k++)
            {
                right[i] -= this[i, k] * right[k];
            }

            right[i] /= this[i, i];
        }

        for (int i = size - 1; i >= 0; i--)
        {
            for (int k = i + 1; k < size; k++)
            {
                right[i] -= this[k, i] * right[k];
            }

            right[i] /= this[i, i];
        }
    }

    /// <summary>The inverse, column by column; only after <see cref="Factor"/>.</summary>
    public double[][] Inverse()
    {
        double[][] columns = new double[size][];
        for (int i = 0; i < size; i++)
        {
            columns[i] = new double[size];
            columns[i][i] = 1;
            Solve(columns[i]);
        }

        return columns;
    }
}
