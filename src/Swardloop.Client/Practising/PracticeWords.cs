using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Client.Device;
using Swardloop.Client.Records;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Words;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Practising;

/// <summary>What a practice's JSON says, in words.</summary>
public static class PracticeWords
{
    /// <summary>The case as it stands, read like any other.</summary>
    /// <exception cref="HttpRequestException">It is none: not our server's answer.</exception>
    public static CaseFile CaseOf(PracticeState state) =>
        CaseFile.Read(Encoding.UTF8.GetBytes(state.Case.ToJsonString()), "case", _ => null).Value ?? throw new HttpRequestException("The answer is not the workshop's.");

    /// <summary>What was seen, as a line.</summary>
    public static string Seen(JsonObject seen, Yard yard, Speech say) => ReadingWords.Of(Json.Of(seen), yard, say);

    /// <summary>A step's title, and where it is done.</summary>
    public static string Step(Step step, Yard yard, Speech say) => StepWords.Place(step, yard, say.Phrases) is { } place ? $"{say.Steps[step.Kind].Title}: {place}" : say.Steps[step.Kind].Title;

    /// <summary>The cause's name and its place.</summary>
    public static string Truth(PracticeTruth truth, Yard yard, Speech say)
    {
        string cause = Speech.Capital(WireName.TryReadCause(truth.Cause, out Cause read) ? say.Phrases.Name(read) : truth.Cause);
        IEnumerable<string> places = new[] { truth.AtM, truth.OtherM }.OfType<double>().Select(at => truth.Wire is { } wire
            ? say.Texts.MetresOnWire(say.Length(at), wire) : PlaceWords.Describe(yard, Math.Clamp(at, 0, yard.Loop.LengthMetres), say.Phrases));
        return string.Join("; ", [cause, .. places]) + (truth.IsHarmful ? "" : $" ({say.Texts.Harmless})");
    }

    /// <summary>Spent as a multiple of what somebody spends who knew it; null before the end.</summary>
    public static double? Against(PracticeEntry entry) => entry is { Score: { } score, KnownMoney: > 0 and var known } ? score / known : null;
}
