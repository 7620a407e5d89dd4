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
        { AtMetres: { } at } => At(yard, step.Wire, at, words),
        { FromMetres: { } from, ToMetres: { } to } => Stretch(yard, step.Wire, from, to, words),
        { Place: { } start } => (words ?? Phrasebook.English)[start == StartPlace.AtWire ? Phrase.AtWire : Phrase.MidLawn],
        _ => null,
    };

    /// <summary>What to do, line by line.</summary>
    public static IReadOnlyList<string> How(Step step, Yard yard, StepTexts? steps = null) =>
        (steps ?? StepTexts.English).How(step.Kind, step.By, step.AtMetres is not { } at || step.Wire is not null || IsJoint(yard, at));

    /// <summary>A place on the loop, or on a guide wire, in words.</summary>
    internal static string At(Yard yard, string? wire, double atMetres, Phrasebook? words) => wire is null
        ? PlaceWords.Describe(yard, atMetres, words)
        : (words ?? Phrasebook.English).Say(Phrase.OnGuide, (words ?? Phrasebook.English).Length(atMetres), PlaceWords.OneLine(wire));

    /// <summary>A stretch of the loop, or of a guide wire, in words.</summary>
    internal static string Stretch(Yard yard, string? wire, double fromMetres, double toMetres, Phrasebook? words) => wire is null
        ? PlaceWords.DescribeStretch(yard, fromMetres, toMetres, words)
        : (words ?? Phrasebook.English).Say(
            Phrase.StretchOnGuide, (words ?? Phrasebook.English).LengthNumber(fromMetres), (words ?? Phrasebook.English).Length(toMetres), PlaceWords.OneLine(wire));

    private static bool IsJoint(Yard yard, double at) =>
        yard.Loop.JointNear(at) is not null || at <= Loop.JointReachMetres || at >= yard.Loop.LengthMetres - Loop.JointReachMetres;
}
