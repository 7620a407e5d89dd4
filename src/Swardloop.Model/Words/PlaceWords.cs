using System.Text;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Words;

/// <summary>A place on the wire, in words that a person can walk to: joints, corners by compass, the station, islands, and
/// things beside the wire.</summary>
public static class PlaceWords
{
    /// <summary>Metal this near is named (m).</summary>
    private const double BesideMetres = 1.5;

    /// <summary>A joint this near is named too (m).</summary>
    private const double NearJointMetres = 5;

    /// <summary>Along the wire and as the crow flies count as the same within this share.</summary>
    private const double StraightShare = 0.97;

    /// <summary>Words for one place.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="atMetres">Place along the wire (m); beyond an end, that end.</param>
    /// <param name="words">Wording; English when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">The place is not finite.</exception>
    public static string Describe(Yard yard, double atMetres, Phrasebook? words = null)
    {
        words ??= Phrasebook.English;
        return new Finder(yard, words).Describe(atMetres) + Heard(yard, words);
    }

    /// <summary>Words for a stretch of wire.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="fromMetres">Start along the wire (m).</param>
    /// <param name="toMetres">End along the wire (m).</param>
    /// <param name="words">Wording; English when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">A place is not finite.</exception>
    public static string DescribeStretch(Yard yard, double fromMetres, double toMetres, Phrasebook? words = null)
    {
        words ??= Phrasebook.English;
        return new Finder(yard, words).DescribeStretch(fromMetres, toMetres) + Heard(yard, words);
    }

    private static string Heard(Yard yard, Phrasebook words) => yard.Loop is { Course: WireCourse.Heard, CourseToleranceMetres: > 0 and var beside }
        ? words.Say(Phrase.CourseHeard, words.Length(beside)) : "";

    private sealed class Finder(Yard yard, Phrasebook words)
    {
        private readonly Landmarks _landmarks = new(yard, words);
        private readonly WirePath _path = yard.Loop.Path;

        public string Describe(double atMetres, bool withThings = true)
        {
            double at = OnWire(atMetres);
            string? here = Exactly(at);
            bool isJoint = here is not null && at > Loop.JointReachMetres && at < _path.LengthMetres - Loop.JointReachMetres;
            if (yard.Loop.Course == WireCourse.Unknown)
            {
                // Corners and compass of a stand-in would send people astray.
                string along = words.Say(Phrase.AlongFromA, words.Length(at));
                return isJoint ? $"{here}, {along}" : here ?? along;
            }

            string beside = withThings ? Beside(at) : "";
            if (isJoint)
            {
                return $"{here}, {FromLandmark(at, withJoint: false)}{beside}";
            }

            return (here ?? FromLandmark(at, withJoint: true)) + beside;
        }

        public string DescribeStretch(double fromMetres, double toMetres)
        {
            double from = OnWire(fromMetres), to = OnWire(toMetres);
            if (yard.Loop.Course == WireCourse.Unknown)
            {
                return words.Say(Phrase.StretchAlongFromA, words.LengthNumber(from), words.Length(to));
            }

            double middle = (from + to) / 2;
            Landmark near = Nearest(middle, out bool straight);
            double a = Math.Abs(from - near.AtMetres), b = Math.Abs(to - near.AtMetres);
            bool oneSide = from >= near.AtMetres - 0.05 || to <= near.AtMetres + 0.05;
            if (straight && oneSide && IsStraight(near.AtMetres, from) && IsStraight(near.AtMetres, to))
            {
                string compass = _landmarks.Compass(_path.PointAt(near.AtMetres), _path.PointAt(middle));
                return words.Say(Phrase.StretchFrom, words.LengthNumber(Math.Min(a, b)), words.Length(Math.Max(a, b)), compass, near.Name) + Beside(middle);
            }

            return words.Say(Phrase.Stretch, Describe(from, withThings: false), Describe(to, withThings: false));
        }

        private double OnWire(double atMetres) =>
            double.IsFinite(atMetres)
                ? Math.Clamp(atMetres, 0, _path.LengthMetres)
                : throw new ArgumentOutOfRangeException(nameof(atMetres), atMetres, "Needs a finite place.");

        /// <summary>A terminal or a joint that is the place itself.</summary>
        private string? Exactly(double at)
        {
            if (at <= Loop.JointReachMetres || at >= _path.LengthMetres - Loop.JointReachMetres)
            {
                string terminal = words[at <= Loop.JointReachMetres ? Phrase.TerminalA : Phrase.TerminalB];
                return _landmarks.EndsMeet ? words.Say(Phrase.At, terminal, words[Phrase.Station]) : terminal;
            }

            return yard.Loop.JointNear(at) is { } joint ? words.Say(Phrase.Joint, NumberOf(joint)) : null;
        }

        private int NumberOf(Joint joint)
        {
            // Joints are numbered along the wire from A, whatever order the file has.
            return 1 + yard.Loop.Joints.Count(other => other.AtMetres < joint.AtMetres);
        }

        private string FromLandmark(double at, bool withJoint)
        {
            int detour = _landmarks.DetourAt(at);
            if (detour >= 0 && Landmarks.IsOnLink(at, _landmarks.Detours[detour]))
            {
                Detour visit = _landmarks.Detours[detour];
                bool leaving = at - visit.FromMetres <= visit.ToMetres - at;
                double length = leaving ? at - visit.FromMetres : visit.ToMetres - at;
                return words.Say(leaving ? Phrase.LinkOut : Phrase.LinkBack, words.Length(length), _landmarks.IslandName(detour));
            }

            Landmark near = Nearest(at, out bool straight);
            double distance = Math.Abs(at - near.AtMetres);
            if (distance <= Loop.JointReachMetres)
            {
                return words.Say(Phrase.AtLandmark, near.Name);
            }

            string place;
            if (straight)
            {
                string compass = _landmarks.Compass(_path.PointAt(near.AtMetres), _path.PointAt(at));
                place = words.Say(Phrase.StraightFrom, words.Length(distance), compass, near.Name);
            }
            else if (detour >= 0)
            {
                place = words.Say(at > near.AtMetres ? Phrase.AlongPast : Phrase.AlongBefore, words.Length(distance), near.Name);
            }
            else
            {
                bool counterClockwise = at > near.AtMetres == _landmarks.IsCounterClockwise;
                place = words.Say(
                    counterClockwise ? Phrase.AlongCounterClockwise : Phrase.AlongClockwise, words.Length(distance), near.Name);
            }

            return withJoint ? place + NearJoint(at, near) : place;
        }

        private string NearJoint(double at, Landmark near)
        {
            Joint? joint = yard.Loop.Joints
                .Where(candidate => Math.Abs(candidate.AtMetres - at) <= NearJointMetres && IsStraight(candidate.AtMetres, at)
                    && candidate.AtMetres > near.AtMetres == at > near.AtMetres)
                .MinBy(candidate => Math.Abs(candidate.AtMetres - at));
            if (joint is null)
            {
                return "";
            }

            bool beyond = Math.Abs(joint.AtMetres - near.AtMetres) < Math.Abs(at - near.AtMetres);
            return words.Say(
                beyond ? Phrase.BeyondJoint : Phrase.ShortOfJoint, words.Length(Math.Abs(joint.AtMetres - at)), NumberOf(joint));
        }

        /// <summary>The landmark to walk from: the nearest one along a straight stretch, else the nearest along the wire.</summary>
        private Landmark Nearest(double at, out bool straight)
        {
            int detour = _landmarks.DetourAt(at);
            List<Landmark> sameRun = [.. _landmarks.All.Where(landmark => landmark.Island == detour)];
            if (sameRun.Count == 0)
            {
                sameRun = [.. _landmarks.All];
            }

            Landmark? inLine = sameRun.Where(landmark => IsStraight(landmark.AtMetres, at))
                .MinBy(landmark => Math.Abs(landmark.AtMetres - at));
            straight = inLine is not null;
            return inLine ?? sameRun.MinBy(landmark => Math.Abs(landmark.AtMetres - at))!;
        }

        private bool IsStraight(double from, double to) =>
            _path.PointAt(from).DistanceTo(_path.PointAt(to)) >= StraightShare * Math.Abs(from - to);

        private string Beside(double at)
        {
            PlanPoint here = _path.PointAt(at);
            string? kind = yard.Metal
                .Select(metal => (metal.Kind, Distance: metal.Path.NearestTo(here).DistanceMetres))
                .Where(metal => metal.Distance <= BesideMetres)
                .OrderBy(metal => metal.Distance)
                .Select(metal => metal.Kind)
                .FirstOrDefault();
            kind ??= yard.RiskSpots.FirstOrDefault(spot => at >= spot.FromMetres && at <= spot.ToMetres)?.Kind;
            return string.IsNullOrWhiteSpace(kind) ? "" : words.Say(Phrase.Beside, OneLine(kind));
        }
    }

    /// <summary>A file's own words, made safe for one short line.</summary>
    internal static string OneLine(string text, int longest = 40)
    {
        StringBuilder line = new(Math.Min(text.Length, longest));
        foreach (char c in text.Trim())
        {
            if (line.Length == longest)
            {
                line[^1] = '…';
                break;
            }

            line.Append(char.IsControl(c) || char.IsSurrogate(c) ? ' ' : c);
        }

        return line.ToString();
    }
}
