using System.Text.Json;
using Swardloop.Core.Geometry;
using Swardloop.Core.Surveying;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Surveying;

/// <summary>A survey file, <c>*.survey.json</c>: fixed points, and tapes from point to point in any order. Immutable.</summary>
public sealed class SurveyFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-survey/1";

    /// <summary>Most fixed points.</summary>
    public const int MostFixed = 100;

    /// <summary>Most points to be found.</summary>
    public const int MostPoints = 100;

    /// <summary>Most tapes.</summary>
    public const int MostTapes = 500;

    private static readonly NumberRange Metres = new(0.05, 1_000, "m");
    private static readonly NumberRange Deviation = new(0.001, 10, "m");
    private static readonly IReadOnlyList<KeyValuePair<string, TapeSide>> SideWords = [new("left", TapeSide.Left), new("right", TapeSide.Right)];

    private readonly string _source;

    private SurveyFile(string source, IReadOnlyList<(string Name, PlanPoint Place)> fixedPoints, IReadOnlyList<Tape> tapes) =>
        (_source, Fixed, Tapes) = (source, fixedPoints, tapes);

    /// <summary>Points whose places are known, in the file's order.</summary>
    public IReadOnlyList<(string Name, PlanPoint Place)> Fixed { get; }

    /// <summary>The tapes, in the file's order.</summary>
    public IReadOnlyList<Tape> Tapes { get; }

    /// <summary>Reads a survey file.</summary>
    /// <param name="utf8">The file's bytes; see <see cref="JsonText"/> for what is refused before it is looked into.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <returns>The file, or all its problems. Whether the tapes make a plan, <see cref="Adjust"/> tells.</returns>
    public static Checked<SurveyFile> Read(ReadOnlyMemory<byte> utf8, string sourceName) =>
        JsonFields.ReadFile(utf8, sourceName, Format, "a survey file", Read);

    /// <summary>Adjusts the survey.</summary>
    /// <returns>The plan, or the one problem that keeps the tapes from making one.</returns>
    public Checked<SurveyPlan> Adjust()
    {
        SurveyResult result = SurveyAdjustment.Adjust(Fixed, Tapes);
        if (result.IsGood)
        {
            return Checked<SurveyPlan>.Good(result.Plan);
        }

        ProblemList problems = new(_source);
        SurveyFlaw flaw = result.Flaw;
        string points = Listed(flaw.Points), lie = flaw.Points.Count == 1 ? "lies" : "lie";
        string suggested = flaw.Suggested is { } tape ? $", for instance {tape.From} to {tape.To}" : "";
        (string wrong, string allowed) = flaw.Kind switch
        {
            SurveyFlawKind.Undetermined => ($"{points} can still be moved without changing any tape", $"two tapes or more to each point, from different points{suggested}"),
            SurveyFlawKind.MirrorImage => ($"{points} may lie on either side of the line between the points they are taped from", $"one more tape{suggested}, or \"side\": \"left\" or \"right\" beside a tape to it"),
            SurveyFlawKind.InOneLine => ($"{points} {lie} in one line with all the points taped from, so that the place across that line stays open", "a tape from a point aside of that line"),
            SurveyFlawKind.NoAgreement => ($"most tapes disagree with each other by a quarter of their length or more ({points})", "tapes of one yard in metres, and fixed points in metres"),
            SurveyFlawKind.SideContradicted => ($"what \"side\" says of {points} contradicts the tapes", "the side seen along the line from the station of the point's first tape to that of its second"),
            var kind => throw new InvalidOperationException($"No words for {kind}."),
        };
        problems.Add("tapes", wrong, allowed);
        return Checked<SurveyPlan>.Bad(problems);
    }

    private static SurveyFile Read(JsonFields fields)
    {
        List<(string Name, PlanPoint Place)> fixedPoints = ReadFixed(fields);
        List<Tape> tapes = [];
        List<string> places = [];
        foreach ((JsonElement element, string place) in fields.Items("tapes", 1, MostTapes, required: true))
        {
            if (JsonFields.Of(element, place, fields.Problems) is { } tape && ReadTape(tape) is { } read)
            {
                tapes.Add(read);
                places.Add(place);
            }
        }

        CheckPoints(fields, fixedPoints, tapes, places);
        return new(fields.Problems.Source, fixedPoints, tapes);
    }

    private static List<(string Name, PlanPoint Place)> ReadFixed(JsonFields fields)
    {
        const string Allowed = "an object of at least two points, each \"name\": [x, y] in metres";
        List<(string Name, PlanPoint Place)> points = [];
        if (fields.Element("fixed", Allowed, required: true) is not { } element)
        {
            return points;
        }

        if (element.ValueKind != JsonValueKind.Object || element.EnumerateObject().Count() is < 2 or > MostFixed)
        {
            fields.Problems.Add("fixed", $"got {(element.ValueKind == JsonValueKind.Object ? $"{element.EnumerateObject().Count()} points" : JsonFields.Shown(element))}",
                $"{Allowed}, at most {MostFixed}");
            return points;
        }

        foreach (JsonProperty property in element.EnumerateObject())
        {
            string place = $"fixed.{JsonText.Shortened(property.Name)}";
            if (property.Name.Length is 0 or > YardLimits.NameCharacters)
            {
                fields.Problems.Add(place, $"got a name of {property.Name.Length} characters", $"1 to {YardLimits.NameCharacters}");
            }
            else if (YardReader.TryReadPoint(property.Value, out PlanPoint at))
            {
                if (points.Find(other => other.Place.DistanceTo(at) < 0.05) is { Name: { } other })
                {
                    fields.Problems.Add(place, $"lies where {JsonText.Shortened(other)} lies", "fixed points 0.05 m or more apart");
                }

                points.Add((property.Name, at));
            }
            else
            {
                fields.Problems.Add(place, $"got {JsonFields.Shown(property.Value)}", $"[x, y], each {YardLimits.Coordinate}");
            }
        }

        return points;
    }

    private static Tape? ReadTape(JsonFields tape)
    {
        string? from = tape.Text("from", YardLimits.NameCharacters, required: true), to = tape.Text("to", YardLimits.NameCharacters, required: true);
        double? metres = tape.Number("m", Metres, required: true), deviation = tape.Number("sdM", Deviation);
        TapeSide? side = tape.Word("side", SideWords);
        if (from is not null && from == to)
        {
            tape.Problems.Add(tape.PlaceOf("to"), $"\"{JsonText.Shortened(to)}\" is where the tape begins", "another point");
            return null;
        }

        return from is not null && to is not null && metres is double m ? new(from, to, m, deviation ?? Tape.DefaultDeviationMetres(m), side) : null;
    }

    private static void CheckPoints(JsonFields fields, List<(string Name, PlanPoint Place)> fixedPoints, List<Tape> tapes, List<string> places)
    {
        HashSet<string> known = [.. fixedPoints.Select(point => point.Name)];
        List<string> found = [.. tapes.SelectMany(tape => new[] { tape.From, tape.To }).Where(name => !known.Contains(name)).Distinct()];
        if (!fields.Problems.Any && found.Count is 0 or > MostPoints)
        {
            fields.Problems.Add("tapes", $"lead to {found.Count} points that are not fixed", $"1 to {MostPoints}");
        }

        for (int t = 0; t < tapes.Count && !fields.Problems.Any; t++)
        {
            string to = tapes[t].To;
            int stations = tapes.Where(tape => tape.From == to || tape.To == to).Select(tape => tape.From == to ? tape.To : tape.From).Distinct().Count();
            if (tapes[t].Side is not null && (known.Contains(to) || stations < 2))
            {
                fields.Problems.Add($"{places[t]}.side", known.Contains(to) ? $"{JsonText.Shortened(to)} is fixed" : $"{JsonText.Shortened(to)} is taped from one point only",
                    "the side of a point that is not fixed and is taped from two points");
            }
        }
    }

    private static string Listed(IReadOnlyList<string> names)
    {
        const int Most = 6;
        string shown = string.Join(", ", names.Take(Most).Select(JsonText.Shortened));
        return names.Count > Most ? $"{shown} and {names.Count - Most} more" : shown;
    }
}
