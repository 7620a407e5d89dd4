using System.Globalization;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Geo;

/// <summary>Makes a yard file of imported drawings.</summary>
public static class SketchYard
{
    /// <summary>Coordinates are rounded to this many decimals (0.1 mm).</summary>
    private const int Decimals = 4;

    /// <summary>A joint drawn farther than this from the wire is not on it (m).</summary>
    private const double JointOffWireMetres = 1;

    /// <summary>Makes the file and checks it as if it had been read.</summary>
    /// <param name="sketch">What was drawn. Longitude and latitude are laid on a plane with its origin at the loop's first corner and
    /// north up, unless the sketch brings its datum.</param>
    /// <param name="name">The yard's name.</param>
    /// <param name="conductor">The wire, where the sketch does not say; null: nobody knows.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    public static Checked<YardFile> Make(Sketch sketch, string name, Conductor? conductor, string sourceName)
    {
        ProblemList problems = new(sourceName);
        SketchShape[] loops = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Loop)];
        if (loops.Length != 1)
        {
            problems.Add(loops.Length > 1 ? loops[1].Place : "", loops.Length == 0 ? "no loop is drawn" : "a second loop is drawn", "exactly one line for the loop; others with a role");
            return Checked<YardFile>.Bad(problems);
        }

        Datum? datum = sketch.IsGeographic ? sketch.Datum ?? new Datum(loops[0].Lines[0][0].Y, loops[0].Lines[0][0].X) : null;
        LocalPlane? plane = datum is null ? null : new(datum.LatitudeDegrees, datum.LongitudeDegrees, datum.BearingDegrees);
        List<Problem> notes = [];
        PlanPoint[] Line(SketchShape shape, SketchPoint[] line) => sketch.IsOwn ? Points(line, plane) : Simplified(Points(line, plane), shape.Place, sourceName, notes);
        PlanPoint[] Ring(SketchShape shape, SketchPoint[] line) => Line(shape, line) is var ring && ring[0] == ring[^1] ? ring[..^1] : ring;
        WirePath Path(SketchShape shape) => new(Line(shape, shape.Lines[0]));

        WirePath loop = Path(loops[0]);
        SketchShape[] lawns = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Lawn)];
        PlanPoint[][] rings = [.. lawns.Select(lawn => Ring(lawn, lawn.Lines[0]))];
        PlanPoint[][] holes = [.. lawns.SelectMany(lawn => lawn.Lines.Skip(1).Select(hole => Ring(lawn, hole)))];
        if (rings.Concat(holes).Any(ring => ring.Length < 3))
        {
            problems.Add("", "a ring of the lawn has fewer than 3 corners", "3 or more");
            return Checked<YardFile>.Bad(problems);
        }

        Lawn? lawn = rings.Length > 0 ? new Lawn(rings, holes) : LawnFromWire.Lawn(loop);
        if (lawn is null)
        {
            YardGeometry.Check(loop, null, "", problems);
            problems.Add(loops[0].Place, "the loop encloses no area, and no lawn is drawn", "a loop round the lawn, or a lawn");
            return Checked<YardFile>.Bad(problems);
        }

        Conductor? wire = loops[0].Conductor ?? (loops[0].IsConductorUnknown ? null : conductor);
        SketchShape[] joints = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Joint)];
        YardFile made = YardFile.Create(new Yard
        {
            Name = name,
            Datum = datum,
            Lawn = lawn,
            Loop = new Loop
            {
                Path = loop,
                Conductor = wire ?? UnknownConductor.StandIn,
                ConductorIsKnown = wire is not null,
                Course = loops[0].Course,
                CourseToleranceMetres = loops[0].CourseToleranceMetres ?? 0,
                LengthToleranceMetres = loops[0].LengthToleranceMetres ?? YardLimits.DefaultLengthToleranceMetres,
                Joints = Joints(joints.Where(joint => joint.Wire is null), loop, plane, problems),
            },
            Guides = Guides(sketch, joints, loop, plane, problems),
            Metal = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Metal)
                .Select(metal => new MetalObject(metal.Kind ?? YardLimits.DefaultMetalKind, Path(metal), metal.Ohms ?? YardLimits.DefaultEarthOhms))],
            Neighbours = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Neighbour)
                .Select(neighbour => new NeighbourLoop(Path(neighbour), neighbour.SameCoding ?? false, neighbour.Ohms ?? YardLimits.DefaultNeighbourOhms))],
        });
        if (problems.Any)
        {
            return Checked<YardFile>.Bad(problems);
        }

        Checked<YardFile> read = YardFile.Read(made.ToUtf8(), sourceName);
        return read.IsGood && notes.Count > 0 ? Checked<YardFile>.Good(read.Value.WithNotes(notes)) : read;
    }

    private static List<GuideWire> Guides(Sketch sketch, SketchShape[] joints, WirePath loop, LocalPlane? plane, ProblemList problems)
    {
        SketchShape[] drawn = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Guide)];
        List<GuideWire> guides = [];
        foreach (SketchShape shape in drawn)
        {
            string name = shape.Wire ?? Enumerable.Range(1, drawn.Length).Select(number => FormattableString.Invariant($"G{number}"))
                .First(free => guides.TrueForAll(guide => guide.Name != free) && drawn.All(other => other.Wire != free));
            WirePath path = new(Points(shape.Lines[0], plane));
            (double at, double distance) = loop.NearestTo(path.Points[^1]);
            if (distance > JointOffWireMetres && shape.JoinsAtMetres is null)
            {
                problems.Add(shape.Place, FormattableString.Invariant($"the guide wire ends {distance:0.0} m off the wire"),
                    $"a line from the station that ends at most {JointOffWireMetres} m off the wire, or where it joins as joinsAtM");
            }

            guides.Add(new(name, shape.JoinsAtMetres ?? Math.Round(at, 3), path, shape.Conductor) { Joints = Joints(joints.Where(joint => joint.Wire == name), path, plane, problems) });
        }

        foreach (SketchShape lost in joints.Where(joint => joint.Wire is not null && guides.TrueForAll(guide => guide.Name != joint.Wire)))
        {
            problems.Add(lost.Place, $"the joint is in the guide wire \"{JsonText.Shortened(lost.Wire!)}\"", guides.Count > 0 ? string.Join(", ", guides.Select(guide => guide.Name)) : "no wire; no guide wire is drawn");
        }

        return guides;
    }

    private static Joint[] Joints(IEnumerable<SketchShape> shapes, WirePath wire, LocalPlane? plane, ProblemList problems)
    {
        List<Joint> joints = [];
        foreach (SketchShape shape in shapes)
        {
            (double at, double distance) = wire.NearestTo(Points(shape.Lines[0], plane)[0]);
            if (distance > JointOffWireMetres && shape.AtMetres is null)
            {
                problems.Add(shape.Place, FormattableString.Invariant($"the joint lies {distance:0.0} m off the wire"), $"at most {JointOffWireMetres} m, or its place as atM");
            }

            joints.Add(new(shape.AtMetres ?? Math.Round(at, 3), shape.Style ?? JointStyle.Unknown));
        }

        return [.. joints.OrderBy(joint => joint.AtMetres)];
    }

    /// <summary>A receiver writes a place every second, however straight the way: what the shape does not need is left out, and said.</summary>
    private static PlanPoint[] Simplified(PlanPoint[] line, string place, string sourceName, List<Problem> notes)
    {
        if (line.Length <= YardLimits.DrawnPoints)
        {
            return line;
        }

        PlanPoint[] kept = [.. TrackSimplifier.Simplified(line, YardLimits.TrackToleranceMetres)];
        if (kept.Length < line.Length)
        {
            notes.Add(new(
                sourceName, place,
                string.Create(CultureInfo.InvariantCulture, $"the track is simplified: {kept.Length} of its {line.Length} corners stay, all others lie within {100 * YardLimits.TrackToleranceMetres:0} cm of it; its length is {new WirePath(kept).LengthMetres:0.0} m, as read {new WirePath(line).LengthMetres:0.0} m"),
                ""));
        }

        return kept;
    }

    private static PlanPoint[] Points(SketchPoint[] line, LocalPlane? plane) => [.. line.Select(point =>
    {
        PlanPoint plan = plane?.ToPlan(point.Y, point.X) ?? new(point.X, point.Y);
        return new PlanPoint(Math.Round(plan.EastMetres, Decimals) + 0.0, Math.Round(plan.NorthMetres, Decimals) + 0.0);
    })];
}
