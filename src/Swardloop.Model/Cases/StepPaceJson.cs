using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Cases;

/// <summary>A workshop's pace as JSON: an object with a member for each step that differs from the catalogue.</summary>
public static class StepPaceJson
{
    /// <summary>What a step may take (min), for itself, per metre or at a joint.</summary>
    public static NumberRange Minutes { get; } = new(0, 1440, "min");

    /// <summary>What its parts may cost, for itself, per metre or at a joint.</summary>
    public static NumberRange Parts { get; } = new(0, 1e6, "");

    /// <summary>The members of a step, with what they are called and where the catalogue has such a number at all.</summary>
    public static IReadOnlyList<StepNumber> Numbers { get; } =
    [
        new("minutes", true, facts => facts.Minutes, effort => effort.Minutes, (effort, value) => effort with { Minutes = value }),
        new("minutesPerM", true, facts => facts.MinutesPerMetre > 0 ? facts.MinutesPerMetre : null, effort => effort.MinutesPerMetre, (effort, value) => effort with { MinutesPerMetre = value }),
        new("jointMinutes", true, facts => facts.JointMinutes, effort => effort.JointMinutes, (effort, value) => effort with { JointMinutes = value }),
        new("parts", false, facts => facts.Parts, effort => effort.Parts, (effort, value) => effort with { Parts = value }),
        new("partsPerM", false, facts => facts.PartsPerMetre > 0 ? facts.PartsPerMetre : null, effort => effort.PartsPerMetre, (effort, value) => effort with { PartsPerMetre = value }),
        new("jointParts", false, facts => facts.JointParts, effort => effort.JointParts, (effort, value) => effort with { JointParts = value }),
    ];

    /// <summary>Reads a pace.</summary>
    /// <param name="element">The object.</param>
    /// <param name="place">Where it stands.</param>
    /// <param name="problems">Takes what is wrong: a step that is none, a number out of range, one per metre for a step without a length.</param>
    public static StepPace Read(JsonElement element, string place, ProblemList problems)
    {
        List<StepEffort> own = [];
        if (JsonFields.Of(element, place, problems) is { } steps)
        {
            foreach (JsonProperty step in element.EnumerateObject())
            {
                KeyValuePair<string, StepKind> word = WireName.Words<StepKind>().FirstOrDefault(word => step.NameEquals(word.Key));
                if (word.Key is null)
                {
                    problems.Add(steps.PlaceOf(step.Name), "is no step", string.Join(", ", WireName.Words<StepKind>().Select(known => known.Key)));
                }
                else if (JsonFields.Of(step.Value, steps.PlaceOf(word.Key), problems) is { } numbers)
                {
                    own.Add(ReadStep(numbers, word.Value));
                }
            }
        }

        return StepPace.With(own);
    }

    /// <summary>Writes a pace; a step that is as in the catalogue is left out.</summary>
    public static JsonObject ToJson(StepPace pace)
    {
        JsonObject json = [];
        foreach (StepEffort effort in pace.Own)
        {
            json[WireName.Of(effort.Kind)] = new JsonObject(Numbers.Where(number => number.Own(effort) is not null)
                .Select(number => KeyValuePair.Create(number.Name, (JsonNode?)JsonValue.Create(number.Own(effort)))));
        }

        return json;
    }

    private static StepEffort ReadStep(JsonFields fields, StepKind kind)
    {
        StepFacts facts = StepCatalogue.Of(kind);
        StepEffort effort = new(kind);
        foreach (StepNumber number in Numbers.Where(number => fields.Given(number.Name)))
        {
            if (number.Default(facts) is null)
            {
                fields.Problems.Add(fields.PlaceOf(number.Name), "this step has no such number", string.Join(", ", Numbers.Where(known => known.Default(facts) is not null).Select(known => known.Name)));
            }
            else if (fields.Number(number.Name, number.IsMinutes ? Minutes : Parts) is { } value)
            {
                effort = number.With(effort, value);
            }
        }

        return effort;
    }
}

/// <summary>One number of a step that a workshop may set.</summary>
/// <param name="Name">Its member in a file.</param>
/// <param name="IsMinutes">Minutes; otherwise money.</param>
/// <param name="Default">The catalogue's; null where the step has no such number.</param>
/// <param name="Own">The workshop's; null: as in the catalogue.</param>
/// <param name="With">Sets it.</param>
public sealed record StepNumber(string Name, bool IsMinutes, Func<StepFacts, double?> Default, Func<StepEffort, double?> Own, Func<StepEffort, double?, StepEffort> With);
