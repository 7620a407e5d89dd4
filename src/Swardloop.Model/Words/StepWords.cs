using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Steps;

namespace Swardloop.Model.Words;

/// <summary>A step with its place, in a line and in full.</summary>
public static class StepWords
{
    /// <summary>Where a step is done, in words; null where it has no place.</summary>
    public static string? Place(Step step, Yard yard, Phrasebook? words = null) => step switch
    {
        { AtMetres: { } at } => PlaceWords.Describe(yard, at, words),
        { FromMetres: { } from, ToMetres: { } to } => PlaceWords.DescribeStretch(yard, from, to, words),
        { Place: { } start } => (words ?? Phrasebook.English)[start == StartPlace.AtWire ? Phrase.AtWire : Phrase.MidLawn],
        _ => null,
    };

    /// <summary>What to do, line by line.</summary>
    public static IReadOnlyList<string> How(Step step, Yard yard, StepTexts? steps = null) =>
        (steps ?? StepTexts.English).How(step.Kind, step.By, step.AtMetres is not { } at || IsJoint(yard, at));

    private static bool IsJoint(Yard yard, double at) =>
        yard.Loop.JointNear(at) is not null || at <= Loop.JointReachMetres || at >= yard.Loop.LengthMetres - Loop.JointReachMetres;
}
