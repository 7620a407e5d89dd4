using System.Globalization;
using System.Text.RegularExpressions;
using Swardloop.Core.Geometry;
using Swardloop.Model.Checks;

namespace Swardloop.Drawing;

/// <summary>Something wrong in a drawing, and the spot where it is.</summary>
/// <param name="Problem">What is wrong.</param>
/// <param name="Part">The part it is in; null when it is in none that is drawn.</param>
/// <param name="At">Where it is; null when it has no spot.</param>
public sealed partial record DrawingFlaw(Problem Problem, DrawnPart? Part, PlanPoint? At)
{
    /// <summary>Finds the spot of a problem of the drawing's yard file.</summary>
    /// <param name="problem">The problem, with its place in the file.</param>
    /// <param name="drawing">The drawing.</param>
    public static DrawingFlaw Of(Problem problem, YardDrawing drawing)
    {
        Match place = PartPattern().Match(problem.Place);
        DrawnPart? part = !place.Success ? null : new DrawnPart(
            place.Groups["name"].Value switch
            {
                "lawn" => DrawnKind.Lawn,
                "holes" => DrawnKind.Island,
                "metal" => DrawnKind.Metal,
                "neighbours" => DrawnKind.Neighbour,
                "guides" => DrawnKind.Guide,
                "loop.joints" => DrawnKind.Joint,
                _ => DrawnKind.Wire,
            },
            place.Groups["name"].Value is "loop.path" or "riskSpots" || !place.Groups["index"].Success ? 0 : Number(place.Groups["index"]));
        if (part is not { } known || !drawing.Has(known))
        {
            return new(problem, null, problem.Spot);
        }

        IReadOnlyList<PlanPoint> corners = drawing.Corners(known);
        Group corner = known.Kind == DrawnKind.Wire ? place.Groups["index"] : place.Groups["corner"];
        PlanPoint? at = problem.Spot;
        if (at is null && corners.Count > 0)
        {
            at = corner.Success && Number(corner) < corners.Count ? corners[Number(corner)] : corners[0];
        }

        return new(problem, known, at);
    }

    private static int Number(Group digits) => int.Parse(digits.ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?<name>loop\.path|loop\.joints|lawn|holes|metal|neighbours|guides|riskSpots)(\[(?<index>\d{1,6})\])?(\.path)?(\[(?<corner>\d{1,6})\])?")]
    private static partial Regex PartPattern();
}
