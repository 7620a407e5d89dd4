using System.Numerics;

namespace Swardloop.Worlds;

/// <summary>Nodal analysis of a small network against earth (node −1): admittances stamped one by one, solved by elimination with pivoting.</summary>
/// <param name="nodes">How many nodes besides earth.</param>
internal sealed class Network(int nodes)
{
    private readonly Complex[,] _admittance = new Complex[nodes, nodes];
    private readonly Complex[] _current = new Complex[nodes];

    /// <summary>An admittance (S) between two nodes.</summary>
    public void Join(int from, int to, Complex siemens)
    {
        Stamp(from, from, siemens);
        Stamp(to, to, siemens);
        Stamp(from, to, -siemens);
        Stamp(to, from, -siemens);
    }

    /// <summary>A current (A) driven out of one node into another.</summary>
    public void Drive(int outOf, int into, Complex ampere)
    {
        if (outOf >= 0)
        {
            _current[outOf] -= ampere;
        }

        if (into >= 0)
        {
            _current[into] += ampere;
        }
    }

    /// <summary>A voltage source (V) with its own resistance (Ω), as its Norton equivalent.</summary>
    public void Source(int minus, int plus, Complex volts, double ohms)
    {
        Join(minus, plus, 1 / ohms);
        Drive(minus, plus, volts / ohms);
    }

    /// <summary>Volts of every node against earth.</summary>
    public Complex[] Solve()
    {
        Complex[,] a = (Complex[,])_admittance.Clone();
        Complex[] x = (Complex[])_current.Clone();
        for (int column = 0; column < nodes; column++)
        {
            int pivot = column;
            for (int row = column + 1; row < nodes; row++)
            {
                if (Complex.Abs(a[row, column]) > Complex.Abs(a[pivot, column]))
                {
                    pivot = row;
                }
            }

            if (pivot != column)
            {
                for (int k = column; k < nodes; k++)
                {
                    (a[column, k], a[pivot, k]) = (a[pivot, k], a[column, k]);
                }

                (x[column], x[pivot]) = (x[pivot], x[column]);
            }

            for (int row = column + 1; row < nodes; row++)
            {
                if (a[row, column] == Complex.Zero)
                {
                    continue;
                }

                Complex factor = a[row, column] / a[column, column];
                for (int k = column; k < nodes; k++)
                {
                    a[row, k] -= factor * a[column, k];
                }

                x[row] -= factor * x[column];
            }
        }

        for (int row = nodes - 1; row >= 0; row--)
        {
            for (int k = row + 1; k < nodes; k++)
            {
                x[row] -= a[row, k] * x[k];
            }

            x[row] /= a[row, row];
        }

        return x;
    }

    private void Stamp(int row, int column, Complex siemens)
    {
        if (row >= 0 && column >= 0)
        {
            _admittance[row, column] += siemens;
        }
    }
}
