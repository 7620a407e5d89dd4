using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Reach;

/// <summary>Where a yard's mower hears its loop: one map of the field per ampere, and closed forms for every loop resistance.</summary>
/// <remarks>
/// <para><b>The wire zone.</b> Right above a wire the vertical field passes through zero: that is how the mower knows the wire, not a silence. The
/// field beside a long wire peaks at a distance equal to the height <c>h</c> of the sensor above it. Nearer than <c>h</c> to a wire (in plan) a
/// place therefore counts with the strongest field at that distance <c>h</c> round the nearest spot of the wire: what the mower hears as it comes to it.
/// The two wires of a run to an island lie in one trench, cancel each other, and are no wire in this sense, nor for the distances of
/// <see cref="Profile"/>. Everywhere else |g| counts as it stands, so a place where the field turns over away from any wire (an island
/// wired the wrong way round) is silent, as it should be.</para>
/// <para><b>Neighbours.</b> A loop of the same coding adds its field with a sign and phase that nobody knows, so at worst takes away its size: heard where
/// |g|/|Z| − Σ|g'|/|Z'| ≥ 1/T. That is the lone loop's rule with |g| divided by 1 + T·Σ|g'|/|Z'|, and such strengths fill the map when it is asked to be
/// against them; every closed form holds with them. The neighbour's station is taken to be like the yard's own, its depth like the loop's and its
/// reactance as nothing, which makes its current the larger: the worse case again. The best case is the map without them, or better.</para>
/// <para>Answers have the same bits on every machine and with any number of threads. Instances are immutable and safe to share.</para>
/// <para>Accuracy of areas: about half a cell times the length of the line between heard and silent. Source: references of <see cref="SegmentField"/>
/// and <see cref="SignalBudget"/>; the wire zone: none, our own convention.</para>
/// </remarks>
public sealed class LoopReach
{
    /// <summary>Spacing of the map when nothing else is asked (m), on lawns of ordinary size.</summary>
    public const double OrdinaryCellMetres = 0.25;

    private const double FewestCells = 2_500, MostCells = 40_000;

    private readonly PolylineField _field;
    private readonly WireDistance _wire;
    private readonly (PolylineField Field, double PerField)[] _against;
    private readonly LawnSamples _samples;
    private readonly double[] _strength;
    private readonly double[] _distance;
    private readonly Lazy<(double[] Fields, double[] AreaBelow)> _sorted;
    private readonly Lazy<ReachProfile> _profile;
    private readonly Lazy<WeakestPlace> _weakest;

    /// <summary>Computes the map.</summary>
    /// <param name="yard">The yard; its wire's depth and mower's sensor height must add up to more than zero.</param>
    /// <param name="cellMetres">Largest spacing of the map (m), above zero; <see langword="null"/>: <see cref="DefaultCellMetres"/>.</param>
    /// <param name="againstNeighbours">Whether the strengths are what is left at worst beside the yard's neighbours of the same coding; see the remarks.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cell or the height is not above zero.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public LoopReach(
        Yard yard,
        double? cellMetres = null,
        bool againstNeighbours = false,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        Yard = yard;
        CellMetres = cellMetres ?? DefaultCellMetres(yard.Lawn);
        _field = new PolylineField(yard.Loop.Path, yard.Loop.DepthMetres + yard.Mower.SensorHeightMetres);
        _against = againstNeighbours ? [.. yard.Neighbours.Where(neighbour => neighbour.SameCoding).Select(Against)] : [];
        _samples = LawnSamples.Of(yard.Lawn, CellMetres);
        _strength = new double[_samples.Count];
        _distance = new double[_samples.Count];
        _wire = new WireDistance(_field);
        RowWork.Run(
            _samples.RowNorthMetres.Length,
            row =>
            {
                int start = _samples.RowStart[row], count = _samples.RowStart[row + 1] - start;
                FillRow(_samples.RowNorthMetres[row], _samples.EastMetres.AsSpan(start, count), _strength.AsSpan(start, count), _distance.AsSpan(start, count));
            },
            progress,
            cancellation);
        _sorted = new(Sort);
        _profile = new(() => new ReachProfile(_distance.Zip(_strength), HeightMetres, CellMetres));
        _weakest = new(FindWeakest);
    }

    /// <summary>The yard.</summary>
    public Yard Yard { get; }

    /// <summary>Largest spacing of the map's places (m).</summary>
    public double CellMetres { get; }

    /// <summary>Height of the sensor above the wire (m): depth plus sensor height. It is also the width of the wire zone.</summary>
    public double HeightMetres => _field.HeightMetres;

    /// <summary>Area of the lawn the map covers (m²).</summary>
    public double AreaSquareMetres => _sorted.Value.AreaBelow[^1];

    /// <summary>How far from the wire a mower runs, for any field it may need.</summary>
    public ReachProfile Profile => _profile.Value;

    /// <summary>The weakest place of the lawn, refined beyond the map's spacing: all of the lawn's inside and edges are searched, outside the wire
    /// zone or with the value stated there. Found by descent from each of the map's deep places; accurate to a millimetre or to where the field is level within 1e-9.</summary>
    public WeakestPlace Weakest => _weakest.Value;

    /// <summary>Spacing that gives a lawn a map neither too coarse nor wastefully fine: <see cref="OrdinaryCellMetres"/>, less on small lawns,
    /// more on large ones (m).</summary>
    public static double DefaultCellMetres(Lawn lawn) =>
        Math.Clamp(OrdinaryCellMetres, Math.Sqrt(lawn.AreaSquareMetres / MostCells), Math.Sqrt(lawn.AreaSquareMetres / FewestCells));

    /// <summary>Vertical field for one ampere (1/m) at a place, as it stands: positive up, on the wire zone too.</summary>
    /// <param name="point">The place in plan (m), on the lawn or off it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public double FieldPerAmpereAt(PlanPoint point) => _field.VerticalFieldPerAmpere(point);

    /// <summary>|g| (1/m) that counts at a place: as it stands or, in the wire zone, what the mower hears beside the wire; less what neighbours take,
    /// when the map is against them.</summary>
    /// <inheritdoc cref="FieldPerAmpereAt" path="/param"/>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public double StrengthAt(PlanPoint point) => OwnStrengthAt(point) / (1 + _against.Sum(other => Taken(other, point)));

    /// <summary>|g| (1/m) that counts, see <see cref="StrengthAt"/>, on every place of a grid, row by row from the south; on the lawn or off it.</summary>
    /// <param name="grid">Where.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work between rows.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public double[] StrengthOn(PlanGrid grid, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        double[] strength = new double[grid.Count], east = [.. Enumerable.Range(0, grid.Columns).Select(column => grid[column, 0].EastMetres)];
        RowWork.Run(
            grid.Rows,
            row => FillRow(grid[0, row].NorthMetres, east, strength.AsSpan(row * grid.Columns, grid.Columns), new double[grid.Columns]),
            progress,
            cancellation);
        return strength;
    }

    /// <summary>Which side of the wire a mower takes itself to be on, from the sign of the field.</summary>
    /// <param name="point">The place in plan (m).</param>
    /// <param name="requiredFieldPerAmpere">The field it needs (1/m), above zero: <see cref="SignalBudget.RequiredFieldPerAmpere"/>.</param>
    /// <returns>Inside is the sign that prevails within the loop as drawn, whichever way round it was laid; a station with swapped ends turns the two about.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite, or the field is not above zero.</exception>
    public HeardSide SideAt(PlanPoint point, double requiredFieldPerAmpere)
    {
        Guard.Positive(requiredFieldPerAmpere);
        double field = FieldPerAmpereAt(point);
        return !(StrengthAt(point) >= requiredFieldPerAmpere) ? HeardSide.Silent
            : field * Lawn.SignedArea(Yard.Loop.Path.Points) > 0 ? HeardSide.Inside
            : HeardSide.Outside;
    }

    /// <summary>Share of the lawn's area, 0 to 1, where |g| is at least a given field.</summary>
    /// <param name="requiredFieldPerAmpere">The field (1/m), above zero: <see cref="SignalBudget.RequiredFieldPerAmpere"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public double HeardShare(double requiredFieldPerAmpere)
    {
        Guard.Positive(requiredFieldPerAmpere);
        (double[] fields, double[] below) = _sorted.Value;
        int silent = FirstAtLeast(fields, requiredFieldPerAmpere);
        return 1 - (below[silent] / below[^1]);
    }

    /// <summary>The field per ampere (1/m) that a given share of the lawn's area falls short of: what must be heard for that share to be silent.</summary>
    /// <param name="share">Share of the area, 0 to 1; 0 gives the map's weakest place, unrefined.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 1.</exception>
    public double FieldQuantile(double share)
    {
        if (!(share is >= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "Needs a share of the area, 0 to 1.");
        }

        // The least field up to which so much area has come together; the last figure of the sum is rounding.
        (double[] fields, double[] below) = _sorted.Value;
        return fields[Math.Clamp(FirstAtLeast(below, share * below[^1] * (1 - 1e-12)) - 1, 0, fields.Length - 1)];
    }

    private (PolylineField Field, double PerField) Against(NeighbourLoop neighbour) =>
        (new(neighbour.Path, HeightMetres), Yard.Mower.ReachConstantOhmMetres / (Yard.Station.SourceOhms + neighbour.Ohms));

    private static double Taken((PolylineField Field, double PerField) other, PlanPoint point) =>
        other.PerField * Math.Abs(other.Field.VerticalFieldPerAmpere(point));

    private double OwnStrengthAt(PlanPoint point)
    {
        (PlanPoint foot, double distance, (double east, double north)) = _wire.Nearest(point);
        if (distance >= HeightMetres)
        {
            return Math.Abs(FieldPerAmpereAt(point));
        }

        // Which way the mower comes does not matter: round a bend, or where a run leaves, some ways are quiet. Ahead, aside and the ways
        // between them, by roots instead of sines, which are not the same to the last bit on every machine.
        double strongest = 0, half = Math.Sqrt(0.5);
        foreach ((double ahead, double aside) in new[] { (0, 1), (0, -1), (half, half), (half, -half), (-half, half), (-half, -half), (1, 0), (-1, 0) })
        {
            PlanPoint beside = new(
                foot.EastMetres + (HeightMetres * ((ahead * east) - (aside * north))),
                foot.NorthMetres + (HeightMetres * ((ahead * north) + (aside * east))));
            strongest = Math.Max(strongest, Math.Abs(FieldPerAmpereAt(beside)));
        }

        return strongest;
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

    private void FillRow(double north, ReadOnlySpan<double> east, Span<double> strength, Span<double> distance)
    {
        _field.FillRow(north, east, strength);
        _wire.FillRow(north, east, distance);
        int count = east.Length;
        for (int i = 0; i < count; i++)
        {
            strength[i] = distance[i] < HeightMetres ? OwnStrengthAt(new(east[i], north)) : Math.Abs(strength[i]);
        }

        if (_against.Length > 0)
        {
            double[] taken = new double[count], other = new double[count];
            foreach ((PolylineField field, double perField) in _against)
            {
                field.FillRow(north, east, other);
                for (int i = 0; i < count; i++)
                {
                    taken[i] += perField * Math.Abs(other[i]);
                }
            }

            for (int i = 0; i < count; i++)
            {
                strength[i] /= 1 + taken[i];
            }
        }
    }

    private (double[] Fields, double[] AreaBelow) Sort()
    {
        double[] fields = [.. _strength], areas = [.. _samples.AreaSquareMetres];
        Array.Sort(fields, areas);
        double[] below = new double[fields.Length + 1];
        for (int i = 0; i < areas.Length; i++)
        {
            below[i + 1] = below[i] + areas[i];
        }

        return (fields, below);
    }

    private WeakestPlace FindWeakest()
    {
        // The map's deep places, each at a distance from the deeper ones, are the starts of the descents; so are places along the edges, where
        // a lawn that reaches beyond its loop may be weakest.
        const int Starts = 8;
        (PlanPoint southWest, PlanPoint northEast) = Yard.Lawn.Bounds;
        double apart = Math.Max(3 * CellMetres, 0.05 * southWest.DistanceTo(northEast));
        List<(double Strength, PlanPoint Point)> candidates = [];
        for (int row = 0; row < _samples.RowNorthMetres.Length; row++)
        {
            for (int i = _samples.RowStart[row]; i < _samples.RowStart[row + 1]; i++)
            {
                candidates.Add((_strength[i], new(_samples.EastMetres[i], _samples.RowNorthMetres[row])));
            }
        }

        foreach (IReadOnlyList<PlanPoint> ring in Yard.Lawn.Rings.Concat(Yard.Lawn.Holes))
        {
            for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
            {
                int pieces = (int)Math.Max(1, Math.Ceiling(ring[j].DistanceTo(ring[i]) / CellMetres));
                for (int k = 0; k < pieces; k++)
                {
                    PlanPoint point = ring[j].Towards(ring[i], (double)k / pieces);
                    candidates.Add((StrengthAt(point), point));
                }
            }
        }

        candidates.Sort((a, b) => a.Strength.CompareTo(b.Strength));
        List<PlanPoint> starts = [];
        WeakestPlace best = new(candidates[0].Point, candidates[0].Strength);
        foreach ((double strength, PlanPoint point) in candidates)
        {
            if (starts.Count == Starts)
            {
                break;
            }

            if (starts.TrueForAll(start => start.DistanceTo(point) > apart))
            {
                starts.Add(point);
                WeakestPlace found = Descend(new(point, strength));
                best = found.FieldPerAmpere < best.FieldPerAmpere ? found : best;
            }
        }

        return best;
    }

    private WeakestPlace Descend(WeakestPlace from)
    {
        ReadOnlySpan<(double East, double North)> ways = [(1, 0), (-1, 0), (0, 1), (0, -1), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7), (-0.7, -0.7)];
        WeakestPlace best = from;
        for (double step = CellMetres / 2; step > 5e-4;)
        {
            WeakestPlace next = best;
            foreach ((double east, double north) in ways)
            {
                PlanPoint point = new(best.Point.EastMetres + (east * step), best.Point.NorthMetres + (north * step));
                if (Yard.Lawn.Contains(point))
                {
                    double strength = StrengthAt(point);
                    next = strength < next.FieldPerAmpere ? new(point, strength) : next;
                }
            }

            if (next.FieldPerAmpere < best.FieldPerAmpere)
            {
                best = next;
            }
            else
            {
                step /= 2;
            }
        }

        return best;
    }
}
