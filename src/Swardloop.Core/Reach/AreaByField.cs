namespace Swardloop.Core.Reach;

/// <summary>How much of a lawn has how much field: the places of a map in order of their field, and the area that has come together up to each.</summary>
internal sealed class AreaByField
{
    private readonly double[] _fields;
    private readonly double[] _areaBelow;

    /// <summary>Puts the places in order.</summary>
    /// <param name="fields">|g| (1/m) of each place; at least one.</param>
    /// <param name="areasSquareMetres">The area each stands for (m²).</param>
    public AreaByField(double[] fields, double[] areasSquareMetres)
    {
        int[] order = new int[fields.Length];
        for (int i = 0; i < order.Length; i++)
        {
            order[i] = i;
        }

        // Not the library's sort of pairs: it would have to be compiled for numbers at every start.
        Array.Sort(order, (a, b) => fields[a].CompareTo(fields[b]));
        _fields = new double[order.Length];
        _areaBelow = new double[order.Length + 1];
        for (int i = 0; i < order.Length; i++)
        {
            _fields[i] = fields[order[i]];
            _areaBelow[i + 1] = _areaBelow[i] + areasSquareMetres[order[i]];
        }
    }

    /// <summary>All of the area (m²).</summary>
    public double WholeSquareMetres => _areaBelow[^1];

    /// <summary>Share of the area, 0 to 1, whose field is less than a given one (1/m).</summary>
    public double ShareBelow(double field) => _areaBelow[FirstAtLeast(_fields, field)] / WholeSquareMetres;

    /// <summary>The least field (1/m) up to which a share of the area, 0 to 1, has come together.</summary>
    public double FieldAt(double share)
    {
        // The last figure of the sum is rounding.
        int first = FirstAtLeast(_areaBelow, share * WholeSquareMetres * (1 - 1e-12));
        return _fields[Math.Clamp(first - 1, 0, _fields.Length - 1)];
    }

    private static int FirstAtLeast(double[] sorted, double value)
    {
        int low = 0, high = sorted.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (sorted[middle] >= value)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }
}
