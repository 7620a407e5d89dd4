namespace Swardloop.Core.Reach;

/// <summary>How far from the wire a mower runs, for any field it may need: a monotone table that answers in a look-up.</summary>
/// <remarks>
/// Reach is the least distance to the nearest wire (the cancelling pair of a run to an island left out) among all silent places of the lawn:
/// where a mower that walks inward at the least favourable spot first hears nothing. On a rectangle that spot is the middle of a long side.
/// The table holds, against distance, the least field met up to it; between its rows the field is taken as linear in d/(d² + h²), the field at
/// distance d beside a long wire under a sensor at height h. Accuracy: a tenth of the cell of the map it was made from, measured on rectangles.
/// </remarks>
public sealed class ReachProfile
{
    private readonly double[] _distances, _fields;
    private readonly double _farthest, _zoneMetres;

    /// <summary>Makes the table.</summary>
    /// <param name="samples">Distance to the nearest wire (m) and |g| (1/m) of places that cover the lawn; at least one.</param>
    /// <param name="zoneMetres">Width of the wire zone (m), the sensor's height above the wire: nearer places count as at this distance.</param>
    /// <param name="stepMetres">Width of the bands of distance (m), about the spacing of the places.</param>
    internal ReachProfile(IEnumerable<(double DistanceMetres, double FieldPerAmpere)> samples, double zoneMetres, double stepMetres)
    {
        _zoneMetres = zoneMetres;

        // The least field in each band of distance. Without bands, places at nearly one distance beside a weaker and a stronger side of the lawn
        // would make steps of the table.
        SortedDictionary<int, (double Distance, double Field)> bands = [];
        foreach ((double distance, double field) in samples)
        {
            double counted = Math.Max(distance, zoneMetres);
            _farthest = Math.Max(_farthest, counted);
            int band = (int)(counted / stepMetres);
            if (!bands.TryGetValue(band, out (double Distance, double Field) least) || field < least.Field)
            {
                bands[band] = (counted, field);
            }
        }

        List<double> distances = [], fields = [];
        foreach ((double distance, double field) in bands.Values)
        {
            if (fields.Count == 0 || field < fields[^1])
            {
                distances.Add(distance);
                fields.Add(field);
            }
        }

        (_distances, _fields) = ([.. distances], [.. fields]);
    }

    /// <summary>How far a mower runs that needs a given field per ampere.</summary>
    /// <param name="requiredFieldPerAmpere">The field it needs (1/m), above zero: <see cref="SignalBudget.RequiredFieldPerAmpere"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public ReachDistance At(double requiredFieldPerAmpere)
    {
        Guard.Positive(requiredFieldPerAmpere);
        if (_fields[^1] >= requiredFieldPerAmpere)
        {
            return new(_farthest, true);
        }

        // First row below the required field; fields fall strictly along the table.
        int low = 0, high = _fields.Length - 1;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_fields[middle] < requiredFieldPerAmpere)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        // Nearer than the nearest sample nothing is known but that the mower stands at the wire: reach runs out there.
        if (low == 0)
        {
            return new(0, false);
        }

        double share = (_fields[low - 1] - requiredFieldPerAmpere) / (_fields[low - 1] - _fields[low]);
        double near = Beside(_distances[low - 1]), far = Beside(_distances[low]);
        return new(DistanceBeside(near + (share * (far - near))), false);
    }

    /// <summary>Field (1/m, but for a factor) at a distance beside a long wire; falls strictly from the wire zone outward.</summary>
    private double Beside(double distanceMetres) => distanceMetres / ((distanceMetres * distanceMetres) + (_zoneMetres * _zoneMetres));

    /// <summary>The inverse, outside the wire zone. At its edge the root is of nothing, which rounding may make less than nothing.</summary>
    private double DistanceBeside(double field)
    {
        double twice = 2 * _zoneMetres * field;
        return (1 + Math.Sqrt(Math.Max(0, 1 - (twice * twice)))) / (2 * field);
    }
}
