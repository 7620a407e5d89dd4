using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis.Drawn;

/// <summary>One fault with place and size, as a picture draws it: the likeliest of an advice, in the middle of what is believed.</summary>
/// <param name="Kind">What it is. Of two causes at once the first is drawn.</param>
/// <param name="AtMetres">Where along the wire (m from A); null for a fault that is at no place of it.</param>
/// <param name="OtherMetres">The second place of a leaking pair or the other wire of a short; null otherwise.</param>
/// <param name="Ohms">Its size (Ω): in series with the wire, across a break, or to earth or metal at each place of a leak; above zero.</param>
public sealed record SupposedFault(CauseKind Kind, double? AtMetres, double? OtherMetres, double Ohms)
{
    /// <summary>Metal this near a damaged place takes its current (m).</summary>
    public const double BesideMetres = 1.5;

    /// <summary>Damaged insulation in soil where no reading says more (Ω): some kilohms. Common practice, no source.</summary>
    public const double LeakOhms = 3000;

    // Places of a pair are further apart, and the wires of a double run nearer to each other, than this (m).
    private const double PairApartMetres = 2, DoubleRunMetres = 0.5;

    /// <summary>The fault that an advice believes in.</summary>
    /// <param name="serviceCase">The case: yard and readings.</param>
    /// <param name="likeliest">The likeliest cause.</param>
    /// <param name="location">Where a wire fault lies, when the advice names a place.</param>
    /// <param name="excessOhms">Ohms above a healthy loop, when they were measured.</param>
    /// <param name="density">Probability of the place.</param>
    public static SupposedFault Of(ServiceCase serviceCase, Cause likeliest, FaultLocation? location, double? excessOhms, IReadOnlyList<DensityBin> density)
    {
        CauseKind kind = likeliest.First;
        if (kind is not (CauseKind.SeriesResistance or CauseKind.Unsteady or CauseKind.Open or CauseKind.Leak or CauseKind.LeakPair or CauseKind.ShortCircuit))
        {
            return new(kind, null, null, 1);
        }

        Yard yard = serviceCase.Yard;
        double at = location?.AtMetres ?? Middle(density.MaxBy(bin => bin.Probability)) ?? yard.Loop.LengthMetres / 2;
        double toEarth = serviceCase.Observations.OfType<Observation.EarthResistance>().LastOrDefault()?.Ohms ?? LeakOhms;
        return kind switch
        {
            CauseKind.Open => new(kind, at, null, excessOhms is > 1000 ? excessOhms.Value : Circuits.WiringPractice.WetBreakOhms),
            CauseKind.Leak => new(kind, at, null, Math.Max(toEarth, 1)),
            CauseKind.LeakPair => new(kind, at, OtherOfPair(yard, at, density), Math.Max(toEarth, 1)),
            CauseKind.ShortCircuit => new(kind, at, OtherWire(yard.Loop.Path, at), 1),
            _ => new(kind, at, null, excessOhms is > 0 ? excessOhms.Value : 1),
        };
    }

    /// <summary>The metal object beside a place of the wire, by its index; null where none is near.</summary>
    public static int? MetalAt(Yard yard, double atMetres)
    {
        PlanPoint place = yard.Loop.Path.PointAt(atMetres);
        int nearest = Enumerable.Range(0, yard.Metal.Count).OrderBy(i => yard.Metal[i].Path.NearestTo(place).DistanceMetres).FirstOrDefault(-1);
        return nearest >= 0 && yard.Metal[nearest].Path.NearestTo(place).DistanceMetres <= BesideMetres ? nearest : null;
    }

    /// <summary>Whether practice tells something else than the network: of two damaged places beside the same metal, where it knows the mower to cross.</summary>
    public bool PracticeParts(Yard yard) =>
        Kind == CauseKind.LeakPair && AtMetres is { } at && OtherMetres is { } other && MetalAt(yard, at) is { } metal && MetalAt(yard, other) == metal;

    // The likeliest other place that is not the first one's own; without one, as far along the same metal as it goes.
    private static double OtherOfPair(Yard yard, double at, IReadOnlyList<DensityBin> density)
    {
        DensityBin? other = density.Where(bin => Math.Abs(((bin.FromMetres + bin.ToMetres) / 2) - at) > PairApartMetres && bin.Probability > 0).MaxBy(bin => bin.Probability);
        if (Middle(other) is { } believed && (MetalAt(yard, at) is not { } metal || MetalAt(yard, believed) == metal))
        {
            return believed;
        }

        return Enumerable.Range(0, 401).Select(i => yard.Loop.LengthMetres * i / 400)
            .Where(place => MetalAt(yard, at) is { } beside && MetalAt(yard, place) == beside)
            .DefaultIfEmpty(Middle(other) ?? Math.Min(yard.Loop.LengthMetres, at + PairApartMetres))
            .MaxBy(place => Math.Abs(place - at));
    }

    private static double? OtherWire(WirePath path, double at)
    {
        PlanPoint place = path.PointAt(at);
        double[] beside = [.. Enumerable.Range(0, 2001).Select(i => path.LengthMetres * i / 2000)
            .Where(other => Math.Abs(other - at) > PairApartMetres && path.PointAt(other).DistanceTo(place) <= DoubleRunMetres)];
        return beside.Length > 0 ? beside.MinBy(other => path.PointAt(other).DistanceTo(place)) : null;
    }

    private static double? Middle(DensityBin? bin) => bin is null ? null : (bin.FromMetres + bin.ToMetres) / 2;
}
