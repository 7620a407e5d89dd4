using System.Text.Json;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Client.Records;

/// <summary>A workshop's pace in words, for its history and for conflicts.</summary>
public static class StepPaceWords
{
    /// <summary>The steps that differ, each with its numbers.</summary>
    public static string Of(JsonElement value, Speech say)
    {
        StepPace pace = StepPaceJson.Read(value, "", new ProblemList(""));
        return pace.Own.Count == 0 ? say.Texts.Cleared : string.Join("; ", pace.Own.Select(effort =>
            $"{say.Steps[effort.Kind].Title}: {string.Join(", ", StepPaceJson.Numbers.Where(number => number.Own(effort) is not null).Select(number => $"{say.Texts.PaceNumber(number.Name)} {say.Number(number.Own(effort)!.Value, 2)}"))}"));
    }

    /// <summary>Steps by the contract's names, parted by blanks, as people call them.</summary>
    public static string OfNames(string names, Speech say) => string.Join(", ", KindsOf(names).Select(kind => say.Steps[kind].Title));

    /// <summary>Those steps.</summary>
    public static IReadOnlyList<StepKind> KindsOf(string? names)
    {
        string[] parts = names?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [];
        return [.. WireName.Words<StepKind>().Where(word => parts.Contains(word.Key)).Select(word => word.Value)];
    }
}
