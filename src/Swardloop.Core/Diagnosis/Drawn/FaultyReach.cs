using System.Numerics;
using Swardloop.Core.Budget;
using Swardloop.Core.Circuits;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis.Drawn;

/// <summary>Where a mower hears a loop that has a fault: currents of wire and metal from the network, then the same field sum as for a sound one.</summary>
/// <remarks>The map's strengths are those with which a sound loop would be heard as well: the field, over the current that the sound loop would carry. So all
/// closed forms of <see cref="LoopReach"/> hold at the sound loop's expected resistance. Validity: that of <see cref="LoopNetwork"/>; induction between wire
/// and metal is not in it. What practice knows is drawn, not computed: with two damaged places beside one metal object all current takes the metal between them.</remarks>
public sealed class FaultyReach
{
    // Contacts by which practice's picture is drawn (Ω): the metal takes all.
    private const double PracticeContactOhms = 1e-3;

    private FaultyReach(LoopReach reach, double? metalShare) => (Reach, MetalShare) = (reach, metalShare);

    /// <summary>The map.</summary>
    public LoopReach Reach { get; }

    /// <summary>Current that flows through metal, as a share of what the station gives; null when the fault touches no metal or no current flows.</summary>
    public double? MetalShare { get; }

    /// <summary>Computes it.</summary>
    /// <param name="yard">The yard; its wire's depth and mower's sensor height must add up to more than zero.</param>
    /// <param name="fault">The fault.</param>
    /// <param name="state">What is asked for; practice is as now where it tells nothing else.</param>
    /// <param name="cellMetres">As for <see cref="LoopReach"/>.</param>
    /// <param name="progress">Hears the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static FaultyReach Of(
        Yard yard, SupposedFault fault, LoopState state, double? cellMetres = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        bool isNeighbour = fault.Kind == CauseKind.Crosstalk && state != LoopState.Sound;
        if (state == LoopState.Sound || isNeighbour || !ChangesCurrents(fault.Kind))
        {
            // Which neighbour is coded alike is not known; so all are.
            Yard shown = isNeighbour ? yard with { Neighbours = [.. yard.Neighbours.Select(neighbour => neighbour with { SameCoding = true })] } : yard;
            return new(new(shown, cellMetres, isNeighbour, progress, cancellation), null);
        }

        (IReadOnlyList<CurrentSegment> segments, Complex soundAmperes, double? share) = Currents(yard, fault, state);
        FieldSource source = new(segments, Math.Max(yard.Mower.SensorHeightMetres, 1e-3));
        return new(new(yard, source, 1 / soundAmperes, cellMetres, progress, cancellation), share);
    }

    /// <summary>Whether a fault of this kind changes what a mower hears; one of the mower, of a guide wire or outside the book does not.</summary>
    public static bool Changes(CauseKind kind) => kind == CauseKind.Crosstalk || ChangesCurrents(kind);

    private static bool ChangesCurrents(CauseKind kind) => kind is CauseKind.NoMains or CauseKind.Supply or CauseKind.Station or CauseKind.EndsSwapped
        or CauseKind.SeriesResistance or CauseKind.Unsteady or CauseKind.Open or CauseKind.Leak or CauseKind.LeakPair or CauseKind.ShortCircuit;

    private static (IReadOnlyList<CurrentSegment> Segments, Complex SoundAmperes, double? MetalShare) Currents(Yard yard, SupposedFault fault, LoopState state)
    {
        LoopBudget budget = LoopBudget.For(yard);
        WireLine line = WireLine.Of(yard.Loop, budget);
        DriveSetup station = new DriveSetup.Station(1, yard.Station.SourceOhms, yard.Station.FrequencyHertz);
        Complex sound = CurrentsOf(new(line, [], yard.Metal), yard.Loop.Path).DriveAmperes;
        switch (fault.Kind)
        {
            case CauseKind.NoMains or CauseKind.Supply or CauseKind.Station:
                return ([], sound, null);
            case CauseKind.EndsSwapped:
                return ([.. CurrentsOf(new(line, [], yard.Metal), yard.Loop.Path).Segments.Select(piece => piece with { CurrentAmperes = -piece.CurrentAmperes })], sound, null);
            case CauseKind.ShortCircuit when fault is { AtMetres: { } one, OtherMetres: { } two }:
                // The wire beyond the short carries nothing; what is left is a shorter loop.
                WirePath left = Without(yard.Loop.Path, Math.Min(one, two), Math.Max(one, two));
                double share = left.LengthMetres / yard.Loop.LengthMetres;
                WireLine shorter = new(left.LengthMetres, line.OhmsPerMetre, line.InductanceHenry * share, line.CapacitanceFaradPerMetre);
                return (CurrentsOf(new(shorter, []), left).Segments, sound, null);
            default:
                WireFault[] faults = [.. Faults(yard, fault, state)];
                LoopCurrents now = CurrentsOf(new(line, faults, yard.Metal), yard.Loop.Path);
                return (now.Segments, sound, faults.Any(each => each is WireFault.MetalContact) ? now.MetalShare : null);
        }

        LoopCurrents CurrentsOf(LoopNetwork network, WirePath path) => network.CurrentsAlong(station, path, yard.Loop.DepthMetres)
            ?? throw new InvalidOperationException("The network with this fault has no single answer.");
    }

    private static IEnumerable<WireFault> Faults(Yard yard, SupposedFault fault, LoopState state)
    {
        double at = fault.AtMetres ?? 0;
        switch (fault.Kind)
        {
            case CauseKind.SeriesResistance or CauseKind.Unsteady:
                yield return new WireFault.SeriesResistance(at, fault.Ohms);
                break;
            case CauseKind.Open:
                yield return new WireFault.Open(at, fault.Ohms);
                break;
            case CauseKind.Leak or CauseKind.LeakPair:
                double ohms = state == LoopState.Practice && fault.PracticeParts(yard) ? PracticeContactOhms : fault.Ohms;
                foreach (double place in new[] { at, fault.OtherMetres ?? at }.Distinct())
                {
                    yield return SupposedFault.MetalAt(yard, place) is { } metal ? new WireFault.MetalContact(place, metal, ohms) : new WireFault.Leak(place, ohms);
                }

                break;
        }
    }

    private static WirePath Without(WirePath path, double from, double to) =>
        new([
            .. path.Points.Where((_, i) => path.CornerMetres[i] < from), path.PointAt(from), path.PointAt(to),
            .. path.Points.Where((_, i) => path.CornerMetres[i] > to),
        ]);
}
