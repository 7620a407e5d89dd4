using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;

namespace Swardloop.Practice;

/// <summary>A step that is asked for, as an advice spells it: <c>{"step": "split-resistance", "atM": 31, "by": "technician"}</c>.</summary>
public static class PracticeStepJson
{
    /// <summary>Reads it by the rules of a case's observations.</summary>
    /// <param name="asked">What was asked for.</param>
    /// <param name="place">What problems name as its place.</param>
    /// <param name="yard">The yard, for the ends of its wires.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns>Null, with problems noted, when something is wrong.</returns>
    public static Step? Read(JsonElement asked, string place, Yard yard, ProblemList problems)
    {
        if (JsonFields.Of(asked, place, problems) is not { } fields || fields.Word("step", WireName.Words<StepKind>(), required: true) is not { } kind)
        {
            return null;
        }

        // Read as the observation it will be, not yet done: one reader for places, ends and words.
        JsonObject observation = new() { [StepCatalogue.Of(kind).IsRepair ? "repair" : "test"] = WireName.Of(kind) };
        foreach (JsonProperty property in asked.EnumerateObject().Where(property => property.Name is not ("step" or "test" or "repair" or "value")))
        {
            observation[property.Name] = JsonNode.Parse(property.Value.GetRawText());
        }

        observation["value"] = "not-done";
        using JsonDocument document = JsonDocument.Parse(observation.ToJsonString());
        Observation? read = ObservationJson.Read(document.RootElement, place, yard.Loop.LengthMetres, problems, yard.Guides);
        foreach (StepField missing in StepForm.Of(kind).Parameters.Where(field => field.Required && !asked.TryGetProperty(field.Name, out _)))
        {
            problems.Add(place.Length == 0 ? missing.Name : $"{place}.{missing.Name}", "missing", missing.Meaning);
        }

        return read is Observation.NotDone notDone && !problems.Any ? notDone.Asked with { By = read.By } : null;
    }

    /// <summary>Writes it as it is kept, every number as it was read.</summary>
    public static JsonObject Write(Step step)
    {
        JsonObject json = new() { ["step"] = WireName.Of(step.Kind), ["by"] = WireName.Of(step.By) };
        Put("atM", step.AtMetres);
        Put("fromM", step.FromMetres);
        Put("toM", step.ToMetres);
        Put("testVolts", step.TestVolts);
        Put("spacingM", step.SpacingMetres);
        Put("wire", step.Wire);
        Put("guide", step.Guide);
        Put("from", step.From is { } end ? WireName.Of(end) : null);
        Put("place", step.Kind == StepKind.MowerStart ? WireName.Of(step.Place ?? StartPlace.AtWire) : null);
        Put("loaded", step.Loaded);
        Put("nearMetal", step.NearMetal);
        return json;

        void Put<T>(string name, T? value)
        {
            if (value is not null)
            {
                json[name] = JsonValue.Create(value);
            }
        }
    }
}
