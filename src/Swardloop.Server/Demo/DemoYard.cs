using System.Text.Json.Nodes;

namespace Swardloop.Server.Demo;

/// <summary>One yard of the demo workshop: who has it, and what its lawn and wire are like.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Owner">Whose it is.</param>
/// <param name="Address">Where.</param>
/// <param name="Corners">Corners of the lawn, from the south-west one anticlockwise (m).</param>
internal sealed record DemoYard(string Name, string Owner, string Address, (double East, double North)[] Corners)
{
    private const double BesideEdge = 0.3;

    /// <summary>A bed inside the lawn, by its south-west and north-east corners (m); the wire runs round it.</summary>
    public (double West, double South, double East, double North)? Bed { get; init; }

    /// <summary>Cross-section of the copper wire (mm²).</summary>
    public double AreaMm2 { get; init; } = 0.75;

    /// <summary>Joints: metres along the wire from A, and their style.</summary>
    public (double AtM, string Style)[] Joints { get; init; } = [];

    /// <summary>Whether a fence stands along the eastern edge.</summary>
    public bool HasFence { get; init; }

    /// <summary>When it was laid, in days before today.</summary>
    public int LaidDaysAgo { get; init; } = 1100;

    /// <summary>What its joints gain every year beyond what a sound loop has (Ω).</summary>
    public double OhmsPerYear { get; init; } = 0.1;

    /// <summary>The yard as a file.</summary>
    public JsonObject File()
    {
        List<(double East, double North)> path = Path();
        JsonObject loop = new()
        {
            ["path"] = Points(path),
            ["conductor"] = new JsonObject { ["material"] = "copper", ["areaMm2"] = AreaMm2 },
            ["depthM"] = 0.05,
        };
        if (Joints.Length > 0)
        {
            loop["joints"] = new JsonArray([.. Joints.Select(joint => new JsonObject { ["atM"] = joint.AtM, ["style"] = joint.Style })]);
        }

        JsonObject file = new()
        {
            ["format"] = "swardloop-yard/1",
            ["name"] = Name,
            ["lawn"] = new JsonArray(Points(Corners)),
        };
        if (Bed is { } bed)
        {
            file["holes"] = new JsonArray(Points([(bed.West, bed.South), (bed.East, bed.South), (bed.East, bed.North), (bed.West, bed.North)]));
        }

        file["loop"] = loop;
        if (HasFence)
        {
            double east = Corners.Max(corner => corner.East) + 1, north = Corners.Max(corner => corner.North);
            file["metal"] = new JsonArray(new JsonObject
            {
                ["kind"] = "fence",
                ["path"] = Points([(east, 0), (east, north)]),
                ["earthOhms"] = 40,
            });
        }

        return file;
    }

    /// <summary>From the middle of the first side round the lawn, a step inside its edge, with a run to the bed and back where there is one.</summary>
    private List<(double East, double North)> Path()
    {
        int count = Corners.Length;
        List<(double East, double North)> inside = [.. Enumerable.Range(0, count).Select(i => Inset(Corners[(i + count - 1) % count], Corners[i], Corners[(i + 1) % count]))];
        (double East, double North) start = ((inside[0].East + inside[1].East) / 2, (inside[0].North + inside[1].North) / 2);
        List<(double East, double North)> path = [start];
        if (Bed is { } bed)
        {
            // Out to the bed's nearer corner from a spot of the first side, round the bed, and back along the same run.
            (double East, double North) corner = (bed.West - BesideEdge, bed.South - BesideEdge);
            double share = Math.Clamp((corner.East - inside[0].East) / (inside[1].East - inside[0].East), 0.55, 0.95);
            (double East, double North) leave = (
                inside[0].East + (share * (inside[1].East - inside[0].East)), inside[0].North + (share * (inside[1].North - inside[0].North)));
            path.AddRange([
                leave, corner, (bed.West - BesideEdge, bed.North + BesideEdge), (bed.East + BesideEdge, bed.North + BesideEdge),
                (bed.East + BesideEdge, bed.South - BesideEdge), corner, leave]);
        }

        path.AddRange(inside.Skip(1));
        path.AddRange([inside[0], start]);
        return path;
    }

    private static (double East, double North) Inset((double East, double North) before, (double East, double North) corner, (double East, double North) after)
    {
        (double x, double y) first = Left(before, corner), second = Left(corner, after);
        // Where the two sides, each moved inwards, meet.
        double scale = BesideEdge / (1 + (first.x * second.x) + (first.y * second.y));
        return (Math.Round(corner.East + (scale * (first.x + second.x)), 2), Math.Round(corner.North + (scale * (first.y + second.y)), 2));
    }

    private static (double X, double Y) Left((double East, double North) from, (double East, double North) to)
    {
        double east = to.East - from.East, north = to.North - from.North, length = Math.Sqrt((east * east) + (north * north));
        return (-north / length, east / length);
    }

    private static JsonArray Points(IEnumerable<(double East, double North)> points) =>
        [.. points.Select(point => new JsonArray(Math.Round(point.East, 2), Math.Round(point.North, 2)))];
}
