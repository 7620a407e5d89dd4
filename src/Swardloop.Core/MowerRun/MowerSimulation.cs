using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;

namespace Swardloop.Core.MowerRun;

/// <summary>A mower that drives a yard: straight until it hears the wire behind it or nothing, then back in a new direction.</summary>
/// <remarks>
/// What it hears at each place is <see cref="LoopReach.SideAt"/>, nothing else. After a turn its direction follows the cosine law about the way back, as if every straight line
/// through the mowable ground were equally likely; for such lines the mean leg is π × area / perimeter (Cauchy–Crofton; Santaló, Integral Geometry and Geometric Probability,
/// 1976, chapter 3, from memory). Real mowers turn by rules of their own: the picture is a statistical one. Figures of driving: <see cref="MowerHabits"/>.
/// <para>Only roots and the four operations, in one order, and draws from a seed: the same bits on every machine, with any number of threads.</para>
/// <para>Things in the lawn without a wire round them are taken as solid. Charging, rain and slopes are left out.</para>
/// </remarks>
public sealed class MowerSimulation
{
    private const double ShortestStepMetres = 0.1, LongestStepMetres = 1, StepNearSilenceMetres = 0.2, AheadMetres = 0.3;
    private const int Halvings = 5, TurnTries = 24, CurvePoints = 24;

    private static readonly double Half = Math.Sqrt(0.5);
    private static readonly (double East, double North)[] Round = [(1, 0), (Half, Half), (0, 1), (-Half, Half), (-1, 0), (-Half, -Half), (0, -1), (Half, -Half)];

    private readonly LoopReach _reach;
    private readonly double _required;
    private readonly MowerHabits _habits;
    private readonly bool _heardEverywhere;
    private readonly WirePath[] _rings, _holes;
    private readonly MownCells _cells;

    /// <summary>Prepares a yard.</summary>
    /// <param name="reach">Its map.</param>
    /// <param name="requiredFieldPerAmpere">The field the mower needs (1/m), above zero: <see cref="SignalBudget.RequiredFieldPerAmpere"/> at the loop's resistance.</param>
    /// <param name="habits">How it drives; null for the defaults.</param>
    /// <exception cref="ArgumentOutOfRangeException">The field is not above zero.</exception>
    public MowerSimulation(LoopReach reach, double requiredFieldPerAmpere, MowerHabits? habits = null)
    {
        Guard.Positive(requiredFieldPerAmpere);
        (_reach, _required, _habits) = (reach, requiredFieldPerAmpere, habits ?? new());
        _heardEverywhere = reach.Weakest.FieldPerAmpere >= requiredFieldPerAmpere;
        _rings = [.. reach.Yard.Lawn.Rings.Select(Closed)];
        _holes = [.. reach.Yard.Lawn.Holes.Select(Closed)];
        _cells = MownCells.Of(reach.Yard.Lawn, _habits.CutWidthMetres);

        static WirePath Closed(IReadOnlyList<PlanPoint> ring) => new([.. ring, ring[0]]);
    }

    /// <summary>Simulates runs.</summary>
    /// <param name="hours">Hours of mowing each, above zero.</param>
    /// <param name="runs">How many runs, at least one.</param>
    /// <param name="seed">What the draws start from.</param>
    /// <param name="cancellation">Ends the work between runs.</param>
    /// <exception cref="ArgumentOutOfRangeException">Hours or runs outside their range.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public RunOutcome Simulate(double hours, int runs, long seed, CancellationToken cancellation = default)
    {
        Guard.Positive(hours);
        ArgumentOutOfRangeException.ThrowIfLessThan(runs, 1);
        Drive[] drives = new Drive[runs];
        RowWork.Run(runs, long.MaxValue, run => drives[run] = DriveOnce(hours, seed, run, null), null, cancellation);
        List<MownShare> mown = [];
        for (int k = 0; k <= CurvePoints; k++)
        {
            double[] shares = [.. drives.Select(drive => drive.Shares[k]).Order()];
            mown.Add(new(hours * k / CurvePoints, Quantile(shares, 0.05), Quantile(shares, 0.5), Quantile(shares, 0.95)));
        }

        long legs = drives.Sum(drive => drive.Legs);
        return new()
        {
            Mown = mown,
            Stuck = StuckOf(drives),
            Runs = runs,
            Legs = legs,
            MeanLegMetres = legs > 0 ? drives.Sum(drive => drive.LegMetres) / legs : 0,
            TurnedEarlyShare = legs > 0 ? (double)drives.Sum(drive => drive.Early) / legs : 0,
        };
    }

    /// <summary>Follows one run step by step.</summary>
    /// <param name="hours">Hours of mowing, above zero.</param>
    /// <param name="seed">What the draws start from.</param>
    /// <param name="run">Which of the runs that <see cref="Simulate"/> makes from this seed, from 0.</param>
    /// <param name="step">Hears every step.</param>
    public void Follow(double hours, long seed, int run, Action<RunStep> step)
    {
        Guard.Positive(hours);
        _ = DriveOnce(hours, seed, run, step);
    }

    private Drive DriveOnce(double hours, long seed, int run, Action<RunStep>? step)
    {
        RunDraws draws = new(unchecked(((ulong)seed * 0x9E3779B97F4A7C15) + ((ulong)run * 0xD1B54A32D192ED03) + 1));
        MownCells cells = _cells.Fresh();
        Drive drive = new() { Shares = new double[CurvePoints + 1] };
        double seconds = 0, end = hours * 3600;
        int next = 1;
        if (Start(ref draws) is not (PlanPoint at, PlanPoint ahead))
        {
            drive.StuckAt = _reach.Yard.Loop.Path.Points[0];
            drive.Reason = StuckReason.NoSignalAtStart;
            return drive;
        }

        PlanPoint spot = at;
        int turns = 0;
        while (seconds < end)
        {
            Leg leg = LegFrom(at, ahead, step);
            double roll = leg.IsSolid ? 0 : draws.Next() * _habits.MostOvershootMetres;
            PlanPoint stop = new(leg.End.EastMetres + (roll * ahead.EastMetres), leg.End.NorthMetres + (roll * ahead.NorthMetres));
            double length = at.DistanceTo(leg.End);
            MowTo(length + roll, stop);
            drive.Legs++;
            drive.LegMetres += length;
            drive.Early += leg.IsSilent ? 1 : 0;
            seconds += _habits.TurnSeconds;
            at = leg.End;
            if (leg.IsAstray)
            {
                (drive.StuckAt, drive.Reason) = (at, StuckReason.LeftTheLawn);
                break;
            }

            if (at.DistanceTo(spot) > _habits.SpotMetres)
            {
                (spot, turns) = (at, 0);
            }

            PlanPoint? turned = TurnAt(at, leg, ref draws);
            turns++;
            if (turns >= _habits.TurnsUntilStuck)
            {
                (drive.StuckAt, drive.Reason) = (at, StuckReason.KeepsTurning);
                break;
            }

            ahead = turned ?? ahead;
        }

        for (; next <= CurvePoints; next++)
        {
            drive.Shares[next] = cells.Share;
        }

        return drive;

        // Mows a leg, and notes the share at each hour of the curve that passes meanwhile.
        void MowTo(double metres, PlanPoint stop)
        {
            double takes = metres / _habits.SpeedMetresPerSecond, from = 0;
            for (; next <= CurvePoints && seconds + takes >= end * next / CurvePoints; next++)
            {
                double share = takes > 0 ? Math.Clamp(((end * next / CurvePoints) - seconds) / takes, from, 1) : 1;
                cells.Mow(at.Towards(stop, from), at.Towards(stop, share), _habits.CutWidthMetres);
                drive.Shares[next] = cells.Share;
                from = share;
            }

            cells.Mow(at.Towards(stop, from), stop, _habits.CutWidthMetres);
            seconds += takes;
        }
    }

    /// <summary>The first place along the wire, from the station on, beside which the mower hears itself inside on the lawn, and a way from there.</summary>
    private (PlanPoint At, PlanPoint Ahead)? Start(ref RunDraws draws)
    {
        WirePath wire = _reach.Yard.Loop.Path;
        for (double along = 0; along <= wire.LengthMetres; along += 0.5)
        {
            PlanPoint beside = wire.PointAt(along);
            int first = (int)(draws.Next() * Round.Length);
            for (int way = 0; way < Round.Length; way++)
            {
                (double east, double north) = Round[(first + way) % Round.Length];
                PlanPoint at = new(beside.EastMetres + (0.5 * east), beside.NorthMetres + (0.5 * north));
                if (IsGood(at) && IsGood(Ahead(at, new(east, north))))
                {
                    return (at, new(east, north));
                }
            }
        }

        return null;
    }

    private bool IsGood(PlanPoint place) => _reach.Yard.Lawn.Contains(place) && _reach.SideAt(place, _required) == HeardSide.Inside;

    private static PlanPoint Ahead(PlanPoint at, PlanPoint way) => new(at.EastMetres + (AheadMetres * way.EastMetres), at.NorthMetres + (AheadMetres * way.NorthMetres));

    private Leg LegFrom(PlanPoint at, PlanPoint ahead, Action<RunStep>? step)
    {
        PlanPoint good = at;
        while (true)
        {
            double length = StepMetres(good);
            Spot spot = Look(good, ahead, length);
            if (spot.IsGood)
            {
                good = spot.Place;
                step?.Invoke(new(good, spot.Heard, false));
                continue;
            }

            if (!spot.IsAstray)
            {
                // The turn comes where it hears the change: between the last good place and this one.
                PlanPoint start = good;
                double low = 0, high = length;
                for (int i = 0; i < Halvings; i++)
                {
                    Spot middle = Look(start, ahead, (low + high) / 2);
                    (low, high, good, spot) = middle.IsGood ? ((low + high) / 2, high, middle.Place, spot) : (low, (low + high) / 2, good, middle);
                }
            }

            step?.Invoke(new(spot.Place, spot.Heard, true));
            return new(good, spot.Heard == HeardSide.Silent && !spot.IsSolid, spot.IsSolid, spot.IsAstray);
        }
    }

    private Spot Look(PlanPoint from, PlanPoint ahead, double metres)
    {
        PlanPoint place = new(from.EastMetres + (metres * ahead.EastMetres), from.NorthMetres + (metres * ahead.NorthMetres));
        HeardSide heard = _reach.SideAt(place, _required);
        bool onLawn = _reach.Yard.Lawn.Contains(place);
        bool solid = !onLawn && Array.Exists(_holes, hole => Lawn.Inside(hole.Points, place));
        bool astray = !onLawn && !solid && heard == HeardSide.Inside && Array.TrueForAll(_rings, ring => ring.NearestTo(place).DistanceMetres > _habits.MostAstrayMetres);
        return new(place, heard, solid, astray);
    }

    /// <summary>How far the mower may go without anything changing under way: not past a wire or a solid thing, and only a little where part of the lawn is silent.</summary>
    private double StepMetres(PlanPoint at)
    {
        if (!_heardEverywhere)
        {
            return StepNearSilenceMetres;
        }

        double clear = _reach.Yard.Loop.Path.NearestTo(at).DistanceMetres - (2 * _reach.HeightMetres);
        foreach (WirePath hole in _holes)
        {
            clear = Math.Min(clear, hole.NearestTo(at).DistanceMetres);
        }

        return Math.Clamp(clear, ShortestStepMetres, LongestStepMetres);
    }

    /// <summary>A new way from the end of a leg, by the cosine law about the way back; null when no way leads on.</summary>
    private PlanPoint? TurnAt(PlanPoint at, Leg leg, ref RunDraws draws)
    {
        (double backEast, double backNorth) = leg.IsSolid ? AwayFromSolid(at) : FieldRises(at);
        for (int i = 0; i < TurnTries; i++)
        {
            double sine = (2 * draws.Next()) - 1, cosine = Math.Sqrt(1 - (sine * sine));
            PlanPoint way = new((cosine * backEast) - (sine * backNorth), (cosine * backNorth) + (sine * backEast));
            PlanPoint ahead = Ahead(at, way), near = at.Towards(ahead, 0.2);
            if (_reach.SideAt(ahead, _required) == HeardSide.Inside && _reach.SideAt(near, _required) == HeardSide.Inside
                && (!leg.IsSolid || _reach.Yard.Lawn.Contains(ahead)))
            {
                return way;
            }
        }

        return null;
    }

    /// <summary>Direction in which the inside is heard better, of length one.</summary>
    private (double East, double North) FieldRises(PlanPoint at)
    {
        const double Aside = 0.03;
        double east = _reach.FieldPerAmpereAt(new(at.EastMetres + Aside, at.NorthMetres)) - _reach.FieldPerAmpereAt(new(at.EastMetres - Aside, at.NorthMetres));
        double north = _reach.FieldPerAmpereAt(new(at.EastMetres, at.NorthMetres + Aside)) - _reach.FieldPerAmpereAt(new(at.EastMetres, at.NorthMetres - Aside));
        return OfLengthOne(_reach.Inward * east, _reach.Inward * north);
    }

    private (double East, double North) AwayFromSolid(PlanPoint at)
    {
        double east = 0, north = 0;
        foreach ((double wayEast, double wayNorth) in Round)
        {
            if (_reach.Yard.Lawn.Contains(Ahead(at, new(wayEast, wayNorth))))
            {
                east += wayEast;
                north += wayNorth;
            }
        }

        return OfLengthOne(east, north);
    }

    private static (double East, double North) OfLengthOne(double east, double north)
    {
        double length = Math.Sqrt((east * east) + (north * north));
        return length > 0 ? (east / length, north / length) : (1, 0);
    }

    private static double Quantile(double[] sorted, double share)
    {
        double at = share * (sorted.Length - 1);
        int below = (int)at;
        return below + 1 < sorted.Length ? sorted[below] + ((at - below) * (sorted[below + 1] - sorted[below])) : sorted[^1];
    }

    private static List<StuckPlace> StuckOf(Drive[] drives)
    {
        const double OnePlaceMetres = 2;
        List<(List<PlanPoint> Places, StuckReason Reason)> groups = [];
        foreach (Drive drive in drives)
        {
            if (drive.StuckAt is PlanPoint at)
            {
                List<PlanPoint>? near = groups.Find(group => group.Reason == drive.Reason && group.Places[0].DistanceTo(at) <= OnePlaceMetres).Places;
                if (near is null)
                {
                    groups.Add(([at], drive.Reason));
                }
                else
                {
                    near.Add(at);
                }
            }
        }

        return [.. groups.OrderByDescending(group => group.Places.Count).Select(group => new StuckPlace(
            new(group.Places.Average(place => place.EastMetres), group.Places.Average(place => place.NorthMetres)),
            (double)group.Places.Count / drives.Length,
            group.Reason))];
    }

    /// <summary>What the mower met at a place.</summary>
    private readonly record struct Spot(PlanPoint Place, HeardSide Heard, bool IsSolid, bool IsAstray)
    {
        public bool IsGood => Heard == HeardSide.Inside && !IsSolid && !IsAstray;
    }

    /// <summary>Where a leg ended, and on what.</summary>
    private readonly record struct Leg(PlanPoint End, bool IsSilent, bool IsSolid, bool IsAstray);

    /// <summary>One run.</summary>
    private sealed class Drive
    {
        public required double[] Shares { get; init; }

        public long Legs { get; set; }

        public long Early { get; set; }

        public double LegMetres { get; set; }

        public PlanPoint? StuckAt { get; set; }

        public StuckReason Reason { get; set; }
    }
}
