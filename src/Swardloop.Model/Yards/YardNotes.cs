using System.Globalization;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>What a yard may have but a person should know.</summary>
internal static class YardNotes
{
    /// <summary>What every answer on a yard says whose conductor is not known.</summary>
    public const string ConductorUnknown =
        "the conductor is not known: taken as any copper wire of 0.5 mm² to 2.5 mm², and what depends on it is as wide as that";

    /// <summary>What is said of a yard whose wire only its length is known of.</summary>
    public const string CourseUnknown =
        "nobody knows where the wire lies: a square of its length stands in for it, places are told along the wire only, and reception and the lawn are a guess";

    /// <summary>A guide wire drawn to end further than this from its joint is worth a look (m). Common practice, no source.</summary>
    private const double MostOffJointMetres = 2;

    public static IReadOnlyList<Problem> Of(Yard yard, string source) => [.. Conductor(yard.Loop, source), .. Course(yard.Loop, source), .. Joints(yard.Loop, source), .. Guides(yard, source), .. Islands(yard.Loop.Path, source)];

    private static IEnumerable<Problem> Conductor(Loop loop, string source) => loop.ConductorIsKnown ? [] :
        [new(source, "loop.conductor", ConductorUnknown, "")];

    private static IEnumerable<Problem> Course(Loop loop, string source) => loop.Course switch
    {
        WireCourse.Unknown => [new(source, "loop.course", CourseUnknown, "")],
        WireCourse.Heard when loop.CourseToleranceMetres == 0 => [new(source, "loop.course", "where the wire lies was heard; how far beside the line it may lie is not said", "")],
        WireCourse.Heard => [new(source, "loop.course", Text($"where the wire lies was heard: within {loop.CourseToleranceMetres:0.#} m of the line, 19 times in 20"), "")],
        _ => [],
    };

    private static IEnumerable<Problem> Guides(Yard yard, string source)
    {
        foreach (GuideWire guide in yard.Guides)
        {
            double apart = guide.Path.Points[^1].DistanceTo(yard.Loop.Path.PointAt(guide.JoinsAtMetres));
            if (apart > MostOffJointMetres)
            {
                yield return new(source, "guides", Text($"{guide.Name} ends {apart:0.0} m from the place on the wire where it is said to join it, {guide.JoinsAtMetres:0.##} m from A"), "");
            }
        }
    }

    private static IEnumerable<Problem> Joints(Loop loop, string source)
    {
        double[] places = new double[loop.Joints.Count + 2];
        places[^1] = loop.LengthMetres;
        for (int i = 0; i < loop.Joints.Count; i++)
        {
            places[i + 1] = loop.Joints[i].AtMetres;
        }

        for (int i = 1; i < places.Length; i++)
        {
            if (places[i] - places[i - 1] <= Loop.JointReachMetres)
            {
                string first = i == 1 ? "terminal A" : Text($"the joint at {places[i - 1]:0.##} m");
                string second = i == places.Length - 1 ? "terminal B" : Text($"the joint at {places[i]:0.##} m");
                yield return new(source, "loop.joints", Text($"{first} and {second} lie within {Loop.JointReachMetres} m of each other: readings can hardly tell them apart"), "");
            }
        }
    }

    private static IEnumerable<Problem> Islands(WirePath path, string source)
    {
        List<PlanPoint[]> rings = LawnFromWire.Rings(path);
        if (rings.Count == 0)
        {
            yield break;
        }

        PieceTree outer = new(rings[0], closed: true);
        bool outerTurnsLeft = Lawn.SignedArea(rings[0]) > 0;

        // A ring that lies on the outer one all along is another turn of it, no island.
        foreach (PlanPoint[] ring in rings.Skip(1).Where(ring => Lawn.SignedArea(ring) > 0 == outerTurnsLeft
            && Array.Exists(ring, corner => outer.DistanceTo(corner) > CrossingSearch.RunMetres && outer.Holds(corner))))
        {
            yield return new(source, "loop.path",
                Text($"the island at ({ring[0].EastMetres:0.00}, {ring[0].NorthMetres:0.00}) is wound the same way as the lawn: its field does not turn over, and the mower takes it for lawn"),
                "");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
