using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Steps;

/// <summary>A number that reads well, may be, and is yet worth the question whether it is right: a slip of a prefix weighs as much as a reading.</summary>
/// <param name="Kind">Why.</param>
/// <param name="Most">What the number stays under when nothing is out of the ordinary, in the field's unit.</param>
public sealed record ReadingDoubt(ReadingDoubtKind Kind, double Most)
{
    /// <summary>A loop that is whole, or bad at a joint, stays under this (Ω); above it a meter on a broken wire shows over-range, or somebody typed
    /// the wrong prefix. Common practice, no source.</summary>
    public const double MostLoopOhms = 100_000;

    /// <summary>The doubt about a number; null for none.</summary>
    /// <param name="step">Which step.</param>
    /// <param name="field">The field's name.</param>
    /// <param name="value">The number, in the field's unit.</param>
    /// <param name="yard">The yard; null when it is not known.</param>
    public static ReadingDoubt? Of(StepKind step, string field, double value, Yard? yard)
    {
        if (step is StepKind.LoopResistance or StepKind.Bypass && field == "ohms" && value > MostLoopOhms)
        {
            return new(ReadingDoubtKind.TooManyOhms, MostLoopOhms);
        }

        return field == "distanceM" && yard is not null && AcrossMetres(yard) is var across && value > across ? new(ReadingDoubtKind.TooFar, across) : null;
    }

    /// <summary>From one end of a lawn to the other (m): the diagonal of the box around it.</summary>
    private static double AcrossMetres(Yard yard)
    {
        (PlanPoint southWest, PlanPoint northEast) = yard.Lawn.Bounds;
        return double.Hypot(northEast.EastMetres - southWest.EastMetres, northEast.NorthMetres - southWest.NorthMetres);
    }
}
