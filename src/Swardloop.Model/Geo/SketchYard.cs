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
    /// <param name="conductor">The wire, where the sketch does not say.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    public static Checked<YardFile> Make(Sketch sketch, string name, Conductor conductor, string sourceName)
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
        WirePath Path(SketchShape shape) => new(Points(shape.Lines[0], plane));

        WirePath loop = Path(loops[0]);
        SketchShape[] lawns = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Lawn)];
        PlanPoint[][] rings = [.. lawns.Select(lawn => Ring(lawn.Lines[0], plane))];
        PlanPoint[][] holes = [.. lawns.SelectMany(lawn => lawn.Lines.Skip(1)).Select(hole => Ring(hole, plane))];
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

        YardFile made = YardFile.Create(new Yard
        {
            Name = name,
            Datum = datum,
            Lawn = lawn,
            Loop = new Loop
            {
                Path = loop,
                Conductor = loops[0].Conductor ?? conductor,
                Joints = [.. Joints(sketch, loop, plane, problems).OrderBy(joint => joint.AtMetres)],
            },
            Metal = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Metal)
                .Select(metal => new MetalObject(metal.Kind ?? YardLimits.DefaultMetalKind, Path(metal), metal.Ohms ?? YardLimits.DefaultEarthOhms))],
            Neighbours = [.. sketch.Shapes.Where(shape => shape.Role == SketchRole.Neighbour)
                .Select(neighbour => new NeighbourLoop(Path(neighbour), neighbour.SameCoding ?? false, neighbour.Ohms ?? YardLimits.DefaultNeighbourOhms))],
        });
        return problems.Any ? Checked<YardFile>.Bad(problems) : YardFile.Read(made.ToUtf8(), sourceName);
    }

    private static IEnumerable<Joint> Joints(Sketch sketch, WirePath loop, LocalPlane? plane, ProblemList problems)
    {
        foreach (SketchShape shape in sketch.Shapes.Where(shape => shape.Role == SketchRole.Joint))
        {
            (double at, double distance) = loop.NearestTo(Points(shape.Lines[0], plane)[0]);
            if (distance > JointOffWireMetres && shape.AtMetres is null)
            {
                problems.Add(shape.Place, FormattableString.Invariant($"the joint lies {distance:0.0} m off the wire"), $"at most {JointOffWireMetres} m, or its place as atM");
            }

            yield return new Joint(shape.AtMetres ?? Math.Round(at, 3), shape.Style ?? JointStyle.Unknown);
        }
    }

    private static PlanPoint[] Ring(SketchPoint[] line, LocalPlane? plane)
    {
        PlanPoint[] ring = Points(line, plane);
        return ring[0] == ring[^1] ? ring[..^1] : ring;
    }

    private static PlanPoint[] Points(SketchPoint[] line, LocalPlane? plane) => [.. line.Select(point =>
    {
        PlanPoint plan = plane?.ToPlan(point.Y, point.X) ?? new(point.X, point.Y);
        return new PlanPoint(Math.Round(plan.EastMetres, Decimals) + 0.0, Math.Round(plan.NorthMetres, Decimals) + 0.0);
    })];
}
