using System.Numerics;
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

    // The ways a descent tries.
    private static readonly double[] WaysEast = [1, -1, 0, 0, 0.7, -0.7, 0.7, -0.7], WaysNorth = [0, 0, 1, -1, 0.7, 0.7, -0.7, -0.7];

    // Eight directions about a spot of the wire, of length one: aside, ahead and between.
    private static readonly double Half = Math.Sqrt(0.5);
    private static readonly double[] RoundAhead = [0, 0, Half, Half, -Half, -Half, 1, -1], RoundAside = [1, -1, Half, -Half, Half, -Half, 0, 0];

    private readonly PolylineField _field;
    private readonly FieldSource? _other;
    private readonly Complex _perAmpere;
    private readonly WireDistance _wire;
    private readonly List<Neighbour> _against = [];
    private readonly LawnSamples _samples;
    private readonly double[] _strength;
    private readonly double[] _distance;
    private readonly Lazy<AreaByField> _areas;
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
        : this(yard, null, Complex.One, cellMetres, againstNeighbours, progress, cancellation)
    {
    }

    /// <summary>Computes the map of a field that is not the sound loop's.</summary>
    /// <param name="yard">The yard, whose wire says where the wire zone is.</param>
    /// <param name="field">The field that there is.</param>
    /// <param name="perAmpere">What it is multiplied with to be a field per ampere: 1 over the sound loop's current (1/A).</param>
    /// <param name="cellMetres">Largest spacing of the map (m), above zero; null: <see cref="DefaultCellMetres"/>.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cell or the height is not above zero.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public LoopReach(Yard yard, FieldSource field, Complex perAmpere, double? cellMetres = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
        : this(yard, field, perAmpere, cellMetres, againstNeighbours: false, progress, cancellation)
    {
    }

    private LoopReach(
        Yard yard, FieldSource? other, Complex perAmpere, double? cellMetres, bool againstNeighbours, IProgress<double>? progress, CancellationToken cancellation)
    {
        (_other, _perAmpere) = (other, perAmpere);
        Yard = yard;
        Inward = Math.Sign(Lawn.SignedArea(yard.Loop.Path.Points));
        CellMetres = cellMetres ?? DefaultCellMetres(yard.Lawn);
        _field = new PolylineField(yard.Loop.Path, yard.Loop.DepthMetres + yard.Mower.SensorHeightMetres);
        foreach (NeighbourLoop neighbour in yard.Neighbours)
        {
            if (againstNeighbours && neighbour.SameCoding)
            {
                _against.Add(new(new(neighbour.Path, HeightMetres), yard.Mower.ReachConstantOhmMetres / (yard.Station.SourceOhms + neighbour.Ohms)));
            }
        }

        _samples = LawnSamples.Of(yard.Lawn, CellMetres);
        _strength = new double[_samples.Count];
        _distance = new double[_samples.Count];
        _wire = new WireDistance(_field);
        (PlanPoint southWest, PlanPoint northEast) = yard.Lawn.Bounds;
        FarFieldTree? tree = _other is not null ? null : _field.TreeFor(southWest, northEast, _samples.Count, cancellation);
        RowWork.Run(
            _samples.RowNorthMetres.Length,
            (long)_samples.Count * _field.SegmentCount,
            row =>
            {
                int start = _samples.RowStart[row], count = _samples.RowStart[row + 1] - start;
                FillRow(tree, _samples.RowNorthMetres[row], _samples.EastMetres.AsSpan(start, count), _strength.AsSpan(start, count), _distance.AsSpan(start, count));
            },
            progress,
            cancellation);
        _areas = new(() => new AreaByField(_strength, _samples.AreaSquareMetres));
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
    public double AreaSquareMetres => _areas.Value.WholeSquareMetres;

    /// <summary>How far from the wire a mower runs, for any field it may need.</summary>
    public ReachProfile Profile => _profile.Value;

    /// <summary>The weakest place of the lawn, refined beyond the map's spacing: all of the lawn's inside and edges are searched, outside the wire
    /// zone or with the value stated there. Found by descent from each of the map's deep places; accurate to a millimetre or to where the field is level within 1e-9.</summary>
    public WeakestPlace Weakest => _weakest.Value;

    /// <summary>Sign of the field within the loop as drawn: 1 when it was laid to the left, −1 to the right, 0 when it encloses nothing.</summary>
    internal int Inward { get; }

    /// <summary>Spacing that gives a lawn a map neither too coarse nor wastefully fine: <see cref="OrdinaryCellMetres"/>, less on small lawns,
    /// more on large ones (m).</summary>
    public static double DefaultCellMetres(Lawn lawn) =>
        Math.Clamp(OrdinaryCellMetres, Math.Sqrt(lawn.AreaSquareMetres / MostCells), Math.Sqrt(lawn.AreaSquareMetres / FewestCells));

    /// <summary>Vertical field for one ampere (1/m) at a place, as it stands: positive up, on the wire zone too.</summary>
    /// <param name="point">The place in plan (m), on the lawn or off it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public double FieldPerAmpereAt(PlanPoint point) =>
        _other is null ? _field.VerticalFieldPerAmpere(point) : (_other.VerticalFieldAmperesPerMetre(point) * _perAmpere).Real;

    /// <summary>|g| (1/m) that counts at a place: as it stands or, in the wire zone, what the mower hears beside the wire; less what neighbours take,
    /// when the map is against them.</summary>
    /// <inheritdoc cref="FieldPerAmpereAt" path="/param"/>
    /// <exception cref="ArgumentOutOfRangeException">A coordinate is not finite.</exception>
    public double StrengthAt(PlanPoint point) => StrengthAt(point, null);

    // The field's size at the place itself, where it is known already, is not summed again.
    private double StrengthAt(PlanPoint point, double? size)
    {
        double strength = OwnStrengthAt(point, size), taken = 0;
        foreach (Neighbour other in _against)
        {
            taken += other.PerField * Math.Abs(other.Field.VerticalFieldPerAmpere(point));
        }

        return strength / (1 + taken);
    }

    /// <summary>|g| (1/m) that counts, see <see cref="StrengthAt(PlanPoint)"/>, on every place of a grid, row by row from the south; on the lawn or off it.</summary>
    /// <param name="grid">Where.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work between rows.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public double[] StrengthOn(PlanGrid grid, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        double[] strength = new double[grid.Count], east = [.. Enumerable.Range(0, grid.Columns).Select(column => grid[column, 0].EastMetres)];
        FarFieldTree? tree = _other is not null ? null : _field.TreeFor(grid[0, 0], grid[grid.Columns - 1, grid.Rows - 1], grid.Count, cancellation);
        RowWork.Run(
            grid.Rows,
            (long)grid.Count * _field.SegmentCount,
            row => FillRow(tree, grid[0, row].NorthMetres, east, strength.AsSpan(row * grid.Columns, grid.Columns), new double[grid.Columns]),
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
        return !(StrengthAt(point, _other is null ? Math.Abs(field) : null) >= requiredFieldPerAmpere) ? HeardSide.Silent
            : field * Inward > 0 ? HeardSide.Inside
            : HeardSide.Outside;
    }

    /// <summary>Share of the lawn's area, 0 to 1, where |g| is at least a given field.</summary>
    /// <param name="requiredFieldPerAmpere">The field (1/m), above zero: <see cref="SignalBudget.RequiredFieldPerAmpere"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not above zero.</exception>
    public double HeardShare(double requiredFieldPerAmpere)
    {
        Guard.Positive(requiredFieldPerAmpere);
        return 1 - _areas.Value.ShareBelow(requiredFieldPerAmpere);
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

        return _areas.Value.FieldAt(share);
    }

    /// <summary>A neighbour's field for one ampere, and how much each 1/m of it takes from the yard's own.</summary>
    private sealed record Neighbour(PolylineField Field, double PerField);

    private double OwnStrengthAt(PlanPoint point, double? size = null)
    {
        WireDistance.Foot foot = _wire.Nearest(point);
        if (foot.DistanceMetres >= HeightMetres)
        {
            return size ?? SizeAt(point);
        }

        // Which way the mower comes does not matter: round a bend, or where a run leaves, some ways are quiet. Ahead, aside and the ways
        // between them, by roots instead of sines, which are not the same to the last bit on every machine.
        double strongest = 0;
        for (int way = 0; way < RoundAhead.Length; way++)
        {
            PlanPoint beside = new(
                foot.Place.EastMetres + (HeightMetres * ((RoundAhead[way] * foot.AlongEast) - (RoundAside[way] * foot.AlongNorth))),
                foot.Place.NorthMetres + (HeightMetres * ((RoundAhead[way] * foot.AlongNorth) + (RoundAside[way] * foot.AlongEast))));
            strongest = Math.Max(strongest, SizeAt(beside));
        }

        return strongest;
    }

    // A mower responds to the field's size, whatever its phase.
    private double SizeAt(PlanPoint point) =>
        _other is null ? Math.Abs(_field.VerticalFieldPerAmpere(point)) : (_other.VerticalFieldAmperesPerMetre(point) * _perAmpere).Magnitude;

    private void FillRow(FarFieldTree? tree, double north, ReadOnlySpan<double> east, Span<double> strength, Span<double> distance)
    {
        if (_other is not null)
        {
            double[] quadrature = new double[east.Length];
            _other.FillRow(north, east, strength, quadrature);
            for (int i = 0; i < strength.Length; i++)
            {
                strength[i] = (new Complex(strength[i], quadrature[i]) * _perAmpere).Magnitude;
            }
        }
        else if (tree is not null)
        {
            tree.FillRow(north, east, strength);
        }
        else
        {
            _field.FillRow(north, east, strength);
        }

        _wire.FillRow(north, east, distance);
        int count = east.Length;
        for (int i = 0; i < count; i++)
        {
            strength[i] = distance[i] < HeightMetres ? OwnStrengthAt(new(east[i], north)) : Math.Abs(strength[i]);
        }

        if (_against.Count > 0)
        {
            double[] taken = new double[count], theirs = new double[count];
            foreach (Neighbour other in _against)
            {
                other.Field.FillRow(north, east, theirs);
                for (int i = 0; i < count; i++)
                {
                    taken[i] += other.PerField * Math.Abs(theirs[i]);
                }
            }

            for (int i = 0; i < count; i++)
            {
                strength[i] /= 1 + taken[i];
            }
        }
    }

    private WeakestPlace FindWeakest()
    {
        // The map's deep places, each at a distance from the deeper ones, are the starts of the descents; so are places along the edges, where
        // a lawn that reaches beyond its loop may be weakest.
        const int Starts = 8;
        (PlanPoint southWest, PlanPoint northEast) = Yard.Lawn.Bounds;
        double apart = Math.Max(3 * CellMetres, 0.05 * southWest.DistanceTo(northEast));
        List<WeakestPlace> candidates = new(_samples.Count);
        for (int row = 0; row < _samples.RowNorthMetres.Length; row++)
        {
            for (int i = _samples.RowStart[row]; i < _samples.RowStart[row + 1]; i++)
            {
                candidates.Add(new(new(_samples.EastMetres[i], _samples.RowNorthMetres[row]), _strength[i]));
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
                    candidates.Add(new(point, StrengthAt(point)));
                }
            }
        }

        candidates.Sort((a, b) => a.FieldPerAmpere.CompareTo(b.FieldPerAmpere));
        List<WeakestPlace> starts = [];
        WeakestPlace best = candidates[0];
        foreach (WeakestPlace candidate in candidates)
        {
            if (starts.Count == Starts)
            {
                break;
            }

            if (starts.TrueForAll(start => start.Point.DistanceTo(candidate.Point) > apart))
            {
                starts.Add(candidate);
                WeakestPlace found = Descend(candidate);
                best = found.FieldPerAmpere < best.FieldPerAmpere ? found : best;
            }
        }

        return best;
    }

    private WeakestPlace Descend(WeakestPlace from)
    {
        WeakestPlace best = from;
        for (double step = CellMetres / 2; step > 5e-4;)
        {
            WeakestPlace next = best;
            for (int way = 0; way < WaysEast.Length; way++)
            {
                PlanPoint point = new(best.Point.EastMetres + (WaysEast[way] * step), best.Point.NorthMetres + (WaysNorth[way] * step));
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
