using System.Text.Json;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Words;

namespace Swardloop.Client.Records;

/// <summary>A reading in words.</summary>
public static class ReadingWords
{
    /// <summary>A reading as a line; without its yard, which tells the places, only what was done.</summary>
    public static string Of(JsonElement reading, Yard? yard, Speech say)
    {
        ProblemList problems = new("");
        return ObservationJson.Read(reading, "", null, problems) is { } seen
            ? Of(seen, yard, say)
            : string.Join("; ", problems.Kept.Select(problem => say.Texts.Problem(problem.Message)));
    }

    /// <summary>The same, of what was read already.</summary>
    public static string Of(Observation seen, Yard? yard, Speech say) =>
        yard is null ? say.Steps[seen.Step].Title : Speech.Capital(ObservationWords.Describe(seen, yard, say.Phrases, say.Steps));
}
