using System.Globalization;
using NetTopologySuite.Geometries;
using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Lawns;
using Swardloop.Model.Yards;

namespace Swardloop.Planning;

/// <summary>Lays a loop on a lawn, in the ways that are worth comparing.</summary>
/// <remarks>
/// The wire follows <see cref="WireSpace"/> and <see cref="WireTree"/>. A middle out of reach is met by a second or third turn in the same slit: n turns make n times the field, and the
/// reactance rises with n² while R0 stays (textbook; the same field and budget as everywhere compute it). Reception is judged at the end of the wire's life, by
/// <see cref="LayoutRules.EndOfLifeWireFactor"/> and <see cref="LayoutRules.EndOfLifeJointOhms"/>.
/// </remarks>
public static class LoopPlanner
{
    /// <summary>Margin that is asked for when nobody says (dB).</summary>
    public const double DefaultMarginDecibels = 6;

    private const int MostTurns = 3, MostPlans = 3, StationPlacesTried = 2;

    /// <summary>Plans, best first: full ones by cost, then the others by how little they lack. None when no wire fits or the lawn is too odd for a valid yard.</summary>
    /// <param name="file">The lawn.</param>
    /// <param name="marginDecibels">Least margin everywhere at the end of the loop's life (dB), zero or more.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static IReadOnlyList<PlannedLoop> Plan(LawnFile file, double marginDecibels = DefaultMarginDecibels, CancellationToken cancellation = default)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(marginDecibels);
        GeometryFactory factory = new();
        WireSpace space = WireSpace.Of(file, factory);
        if (space.Parts.Count == 0)
        {
            return [];
        }

        List<Polygon> unreached = [];
        WireTree tree = WireTree.Of(space, file, factory, unreached);
        List<string> notes = [.. space.Dropped.Concat(unreached.Select(part => (WireSpace.PlanPointOf(part.InteriorPoint.Coordinate), part.Area)))
            .Select(left => Text($"About {left.Item2:0.0} m² near {left.Item1.EastMetres:0.0} m east, {left.Item1.NorthMetres:0.0} m north lie beyond a passage too narrow for two wires {file.Rules.ApartMetres:0.0} m apart and the mower: no wire goes round them."))];
        Lawn lawn = LawnWithWire(file, space, unreached);
        List<PlannedLoop> plans = [];
        foreach (StationSpot spot in StationSpots(file, tree).Take(StationPlacesTried))
        {
            for (int turns = 1; turns <= MostTurns; turns++)
            {
                cancellation.ThrowIfCancellationRequested();
                if (Lay(file, lawn, tree, spot, turns, marginDecibels, notes) is { } plan)
                {
                    plans.Add(plan);
                    if (plan.IsFull)
                    {
                        break; // more turns cost more and are not needed
                    }
                }
            }
        }

        return [.. plans.OrderByDescending(plan => plan.IsFull).ThenBy(plan => plan.IsFull ? plan.Cost : -plan.WeakestMarginDecibels).Take(MostPlans)];
    }

    /// <summary>Where the wire begins and ends.</summary>
    /// <param name="Ring">On which ring.</param>
    /// <param name="Metres">Where on it (m along it).</param>
    /// <param name="Place">Where the station stands.</param>
    /// <param name="LeadMetres">Length of the pair that leads to it (m); 0 when it stands on the wire.</param>
    /// <param name="Penalty">How bad the place is, in metres of wire.</param>
    private sealed record StationSpot(int Ring, double Metres, Coordinate Place, double LeadMetres, double Penalty);

    private static IEnumerable<StationSpot> StationSpots(LawnFile file, WireTree tree)
    {
        List<StationSpot> spots = [];
        IEnumerable<PlanPoint> places = file.StationPlaces.Count > 0 ? file.StationPlaces : [LongestStraight(tree.Rings[0])];
        foreach (PlanPoint place in places)
        {
            Coordinate at = WireSpace.At(place);
            StationSpot? best = null;
            for (int ring = 0; ring < tree.Rings.Count; ring++)
            {
                WireRing wire = tree.Rings[ring];
                if (wire.IsIsland)
                {
                    continue;
                }

                // The nearest place, or one a little along where the wire is straight on both sides.
                double nearest = wire.Nearest(at);
                for (double aside = -3; aside <= 3; aside += 0.25)
                {
                    double metres = wire.Around(nearest + aside), lead = wire.PlaceAt(metres).Distance(at);
                    double bent = Math.Max(0, file.Rules.StraightMetres - wire.StraightMetres(metres));
                    double pair = lead > file.Rules.StationReachMetres ? lead : 0, penalty = (2 * pair) + (0.5 * lead) + (3 * bent);
                    if (best is null || penalty < best.Penalty - 1e-9)
                    {
                        best = new(ring, metres, pair > 0 ? at : wire.PlaceAt(metres), pair, penalty);
                    }
                }
            }

            if (best is not null)
            {
                spots.Add(best);
            }
        }

        return spots.OrderBy(spot => spot.Penalty);
    }

    private static PlanPoint LongestStraight(WireRing ring)
    {
        int longest = 0;
        for (int i = 0; i + 1 < ring.Line.NumPoints; i++)
        {
            longest = Length(i) > Length(longest) + 1e-9 ? i : longest;
        }

        Coordinate a = ring.Line.GetCoordinateN(longest), b = ring.Line.GetCoordinateN(longest + 1);
        return new((a.X + b.X) / 2, (a.Y + b.Y) / 2);

        double Length(int i) => ring.Line.GetCoordinateN(i).Distance(ring.Line.GetCoordinateN(i + 1));
    }

    private static PlannedLoop? Lay(LawnFile file, Lawn lawn, WireTree tree, StationSpot spot, int turns, double margin, List<string> lawnNotes)
    {
        List<Coordinate> lap = tree.Lap(spot.Ring, spot.Metres);
        List<Coordinate> path = spot.LeadMetres > 0 ? [spot.Place] : [];
        for (int turn = 0; turn < turns; turn++)
        {
            path.AddRange(turn == 0 ? lap : lap.Skip(1));
        }

        if (spot.LeadMetres > 0)
        {
            path.Add(spot.Place);
        }

        LayoutRules rules = file.Rules;
        WirePath wire = new(WithoutRepeats(path));
        List<Joint> joints = [];
        for (double at = rules.SpoolMetres; at < wire.LengthMetres - 1; at += rules.SpoolMetres)
        {
            joints.Add(new(Math.Round(at, 1), JointStyle.Gel));
        }

        Yard yard = new()
        {
            Name = file.Name,
            Lawn = lawn,
            Loop = new() { Path = wire, Conductor = file.Conductor ?? UnknownConductor.StandIn, ConductorIsKnown = file.Conductor is not null, Joints = joints },
            Station = file.Station,
            Mower = file.Mower,
            Soil = file.Soil,
            Neighbours = file.Neighbours,
        };
        Checked<YardFile> read = YardFile.Read(YardFile.Create(yard).ToUtf8(), file.Name);
        if (!read.IsGood)
        {
            return null;
        }

        LoopBudget budget = LoopBudget.For(read.Value.Yard);
        double endOfLife = (rules.EndOfLifeWireFactor * budget.ExpectedOhms.High) + (rules.EndOfLifeJointOhms * (joints.Count + 2));
        SignalBudget signal = new(yard.Mower.ReachConstantOhmMetres, yard.Station.SourceOhms, budget.ReactanceOhms);
        WeakestPlace weakest = new LoopReach(read.Value.Yard, againstNeighbours: file.Neighbours.Any(neighbour => neighbour.SameCoding)).Weakest;
        double weakestMargin = signal.MarginDecibels(weakest.FieldPerAmpere, endOfLife);
        int crossings = Crossings(file, lap, out double slotMetres, out double slotCost);
        double slit = tree.SlitMetres + spot.LeadMetres, length = Math.Ceiling(wire.LengthMetres * 1.03);
        List<PlannedPart> parts =
        [
            new("wire", length, "m", length * rules.PricePerMetre),
            new("terminals", 1, "piece", rules.PriceOfTerminals),
        ];
        if (joints.Count > 0)
        {
            parts.Add(new("joint", joints.Count, "piece", joints.Count * rules.PricePerJoint));
        }

        if (slotMetres > 0)
        {
            parts.Add(new("slot", slotMetres, "m", slotCost));
        }

        double minutes = rules.Minutes + (rules.MinutesPerMetre * slit);
        bool full = weakestMargin >= margin;
        return new()
        {
            Yard = read.Value,
            Turns = turns,
            Budget = budget,
            EndOfLifeOhms = endOfLife,
            Weakest = weakest,
            WeakestMarginDecibels = weakestMargin,
            OhmsToSpare = signal.OhmsToSpare(weakest.FieldPerAmpere, budget.ExpectedOhms.Nominal),
            IsFull = full,
            Parts = parts,
            SlitMetres = slit,
            PavedCrossings = crossings,
            Minutes = minutes,
            Cost = (minutes / 60 * rules.LabourPerHour) + parts.Sum(part => part.Cost),
            Notes = [.. PlanNotes(weakest, weakestMargin, margin, turns, spot), .. lawnNotes],
        };
    }

    private static IEnumerable<string> PlanNotes(WeakestPlace weakest, double weakestMargin, double margin, int turns, StationSpot spot)
    {
        if (turns > 1)
        {
            yield return Text($"The wire goes round {turns} times in the same slit: one turn would leave the middle short of signal.");
        }

        if (weakestMargin < margin)
        {
            yield return Text($"Near {weakest.Point.EastMetres:0.0} m east, {weakest.Point.NorthMetres:0.0} m north the margin is {weakestMargin:0.0} dB at the end of the wire's life, where {margin:0.#} dB are wanted: take more turns, or two loops with a station each.");
        }

        if (spot.LeadMetres > 0)
        {
            yield return Text($"A pair of {spot.LeadMetres:0.0} m leads from the station to the wire.");
        }
    }

    private static PlanPoint[] WithoutRepeats(List<Coordinate> path)
    {
        List<PlanPoint> points = [];
        foreach (Coordinate at in path)
        {
            PlanPoint point = new(Math.Round(at.X, 3) + 0.0, Math.Round(at.Y, 3) + 0.0);
            if (points.Count == 0 || points[^1] != point)
            {
                points.Add(point);
            }
        }

        return [.. points];
    }

    private static int Crossings(LawnFile file, List<Coordinate> lap, out double metres, out double cost)
    {
        int count = 0;
        (metres, cost) = (0, 0);
        HashSet<(Coordinate, Coordinate)> met = [];
        for (int i = 0; i + 1 < lap.Count; i++)
        {
            // A pair lies in one slot.
            if (met.Contains((lap[i + 1], lap[i])) || !met.Add((lap[i], lap[i + 1])))
            {
                continue;
            }

            LineString piece = new([lap[i], lap[i + 1]]);
            foreach (LawnCrossing crossing in file.Crossings)
            {
                int here = piece.Intersection(new LineString([.. crossing.Path.Points.Select(WireSpace.At)])).NumPoints;
                count += here;
                metres += here * crossing.WidthMetres;
                cost += here * crossing.WidthMetres * crossing.CostPerMetre;
            }
        }

        return count;
    }

    /// <summary>The lawn as far as wire goes round it.</summary>
    private static Lawn LawnWithWire(LawnFile file, WireSpace space, List<Polygon> unreached)
    {
        if (space.Dropped.Count == 0 && unreached.Count == 0)
        {
            return file.Lawn;
        }

        double strip = file.Rules.InsetMetres.Max() + Math.Max(file.Rules.BendMetres, file.Rules.ApartMetres / 2);
        Geometry wired = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(space.Parts.Except(unreached).Select(part => part.Buffer(strip)));
        Polygon[] kept = [.. WireSpace.Polygons(space.Lawn.Intersection(wired)).Where(part => part.Area > 0.5)];
        return new(kept.Select(part => Corners(part.ExteriorRing)), kept.SelectMany(part => part.InteriorRings).Select(Corners));

        static PlanPoint[] Corners(LineString ring) => WithoutRepeats([.. ring.Coordinates[..^1]]);
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
