using System.Globalization;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing;

/// <summary>Guide wires on the drawing. Each ends at a joint of the loop: drawn with it, moved with it, and taken away with it as long as nothing
/// more than its place is known of it.</summary>
public sealed partial record YardDrawing
{
    /// <summary>A guide wire's joint is the loop's joint no further than this from where it joins (m).</summary>
    private const double SameJointMetres = 0.02;

    /// <summary>Guide wires.</summary>
    public IReadOnlyList<DrawnGuide> Guides { get; init; } = [];

    /// <summary>Changes a guide wire.</summary>
    public YardDrawing WithGuide(int index, DrawnGuide guide) => this with { Guides = [.. Guides.Select((old, i) => i == index ? guide : old)] };

    /// <summary>Lets a guide wire join the loop at another place; its joint and its end come along.</summary>
    /// <param name="index">Which guide wire.</param>
    /// <param name="atMetres">Along the loop from A (m).</param>
    public YardDrawing WithGuideJoin(int index, double atMetres)
    {
        DrawnGuide guide = Guides[index];
        YardDrawing changed = WithGuide(index, guide with { JoinsAtMetres = atMetres });
        if (WirePath is not { } path)
        {
            return changed;
        }

        changed = EndsAt(guide, path) ? changed.WithGuideEnd(index, path.PointAt(atMetres)) : changed;
        return JointOf(guide, except: index) is { } joint
            ? changed with { Joints = Sorted([.. Joints.Select((old, i) => i == joint ? old with { AtMetres = atMetres } : old)]) }
            : changed;
    }

    /// <summary>Adds a joint to a guide wire.</summary>
    /// <param name="index">Which guide wire.</param>
    /// <param name="atMetres">Place from the station (m).</param>
    /// <param name="style">How it was made.</param>
    public YardDrawing WithGuideJointAt(int index, double atMetres, JointStyle style = JointStyle.Unknown) =>
        WithGuide(index, Guides[index] with { Joints = Sorted([.. Guides[index].Joints, new(Rounded(atMetres), style)]) });

    /// <summary>Takes a joint of a guide wire away.</summary>
    public YardDrawing WithoutGuideJoint(int index, int joint) => WithGuide(index, Guides[index] with { Joints = Without(Guides[index].Joints, joint) });

    private static DrawnGuide Of(GuideWire guide) => new(guide.Name, guide.Path.Points, guide.JoinsAtMetres, guide.Conductor, guide.Joints);

    private static GuideWire Made(DrawnGuide guide) => new(guide.Name, guide.JoinsAtMetres, new(guide.Points), guide.Conductor) { Joints = guide.Joints };

    // Drawn from the loop to the station, it is the same wire: it is kept the way it is read, from the station.
    private YardDrawing WithNewGuide(IReadOnlyList<PlanPoint> corners)
    {
        int number = Enumerable.Range(1, Guides.Count + 1).First(n => Guides.All(guide => guide.Name != GuideName(n)));
        if (WirePath is not { } path)
        {
            return this with { Guides = [.. Guides, new(GuideName(number), corners, 0, null, [])] };
        }

        bool fromLoop = Math.Min(corners[^1].DistanceTo(Wire[0]), corners[^1].DistanceTo(Wire[^1])) + SameJointMetres
            < Math.Min(corners[0].DistanceTo(Wire[0]), corners[0].DistanceTo(Wire[^1]));
        corners = fromLoop ? [.. corners.Reverse()] : corners;
        DrawnGuide guide = new(GuideName(number), corners, Rounded(path.NearestTo(corners[^1]).AtMetres), null, []);
        YardDrawing drawn = this with { Guides = [.. Guides, guide] };
        return Joints.Any(joint => Math.Abs(joint.AtMetres - guide.JoinsAtMetres) <= Loop.JointReachMetres) || guide.JoinsAtMetres <= Loop.JointReachMetres
            || guide.JoinsAtMetres >= path.LengthMetres - Loop.JointReachMetres ? drawn : drawn.WithJointAt(guide.JoinsAtMetres);
    }

    private YardDrawing WithoutGuide(int index)
    {
        DrawnGuide guide = Guides[index];
        YardDrawing left = this with { Guides = Without(Guides, index) };
        return JointOf(guide, except: index) is { } joint && Joints[joint].Style == JointStyle.Unknown ? left with { Joints = Without(Joints, joint) } : left;
    }

    // The far end of a guide wire says where it joins: dragged along the loop, the joint goes with it.
    private YardDrawing WithGuideCorners(int index, IReadOnlyList<PlanPoint> corners, Func<int, int?> newIndex)
    {
        DrawnGuide guide = Guides[index];
        YardDrawing changed = WithGuide(index, guide with { Points = corners, Joints = Carried(guide.Points, corners, newIndex, guide.Joints) });
        if (WirePath is not { } path || corners[^1] == guide.Points[^1])
        {
            return changed;
        }

        double at = Rounded(path.NearestTo(corners[^1]).AtMetres);
        changed = changed.WithGuide(index, changed.Guides[index] with { JoinsAtMetres = at });
        return JointOf(guide, except: index) is { } joint
            ? changed with { Joints = Sorted([.. Joints.Select((old, i) => i == joint ? old with { AtMetres = at } : old)]) }
            : changed;
    }

    // Guide wires follow the loop they hang on: an end on the joint stays on it, a beginning at the station stays there.
    private IReadOnlyList<DrawnGuide> GuidesOn(WirePath before, WirePath after, Func<double, double> carried) =>
    [
        .. Guides.Select(guide =>
        {
            double at = carried(guide.JoinsAtMetres);
            PlanPoint[] points = [.. guide.Points];
            points[^1] = EndsAt(guide, before) ? after.PointAt(at) : points[^1];
            points[0] = points[0].DistanceTo(before.Points[0]) <= OnePlaceMetres ? after.Points[0]
                : points[0].DistanceTo(before.Points[^1]) <= OnePlaceMetres ? after.Points[^1] : points[0];
            return guide with { JoinsAtMetres = at, Points = points, Joints = Carried(guide.Points, points, i => i, guide.Joints) };
        }),
    ];

    private IReadOnlyList<DrawnGuide> GuidesWith(Func<double, double> place) => [.. Guides.Select(guide => guide with { JoinsAtMetres = place(guide.JoinsAtMetres) })];

    private YardDrawing WithGuideEnd(int index, PlanPoint to)
    {
        DrawnGuide guide = Guides[index];
        PlanPoint[] points = [.. guide.Points.SkipLast(1), new(Rounded(to.EastMetres), Rounded(to.NorthMetres))];
        return WithGuide(index, guide with { Points = points, Joints = Carried(guide.Points, points, i => i, guide.Joints) });
    }

    private static bool EndsAt(DrawnGuide guide, WirePath path) =>
        guide.JoinsAtMetres <= path.LengthMetres && guide.Points[^1].DistanceTo(path.PointAt(guide.JoinsAtMetres)) <= 5 * OnePlaceMetres;

    // The loop's joint in which this guide wire ends and no other does.
    private int? JointOf(DrawnGuide guide, int except)
    {
        int joint = Enumerable.Range(0, Joints.Count).FirstOrDefault(i => Math.Abs(Joints[i].AtMetres - guide.JoinsAtMetres) <= SameJointMetres, -1);
        return joint < 0 || Guides.Where((_, i) => i != except).Any(other => Math.Abs(other.JoinsAtMetres - Joints[joint].AtMetres) <= SameJointMetres) ? null : joint;
    }

    private static Joint[] Carried(IReadOnlyList<PlanPoint> from, IReadOnlyList<PlanPoint> to, Func<int, int?> newIndex, IReadOnlyList<Joint> joints)
    {
        if (joints.Count == 0 || from.Count < 2 || to.Count < 2)
        {
            return [.. joints];
        }

        Func<double, double> kept = Kept(new(from), new(to), newIndex);
        return Sorted(joints.Select(joint => joint with { AtMetres = kept(joint.AtMetres) }));
    }

    private static string GuideName(int number) => string.Create(CultureInfo.InvariantCulture, $"G{number}");
}
