using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Swardloop.Trial.CaseBook;

/// <summary>A case played on: the first step advised is done each time, answered from a script, and written into the case as the contract says.</summary>
/// <param name="play">The situation's <c>play</c>.</param>
/// <param name="advise">Gives the advice's JSON for a case's JSON.</param>
internal sealed class PlayedDialogue(JsonElement play, Func<string, string> advise)
{
    private static readonly string[] Known = ["steps", "answers", "answersOnceCured", "cures", "ends", "never", "must", "costAtMost", "repeatsAtMost"];

    // What a step says that belongs into its observation too.
    private static readonly string[] Parameters = ["atM", "fromM", "toM", "from", "place", "nearMetal", "testVolts", "guide", "wire", "loaded", "spacingM", "hertz"];

    /// <summary>What makes two questions the same: the step, its place and parameters, and who is asked.</summary>
    public static string Question(JsonElement step, bool withDoer) =>
        string.Join(' ', Parameters.Prepend("step").Concat(withDoer ? ["by"] : []).Where(name => step.TryGetProperty(name, out _)).Select(name => name + " " + step.GetProperty(name)));

    /// <summary>Plays it to its end.</summary>
    /// <param name="start">The case at the beginning.</param>
    /// <param name="told">Gets one line for each step done.</param>
    /// <returns>What was not as expected.</returns>
    public IReadOnlyList<string> Run(JsonElement start, List<string> told)
    {
        if (play.EnumerateObject().FirstOrDefault(property => !Known.Contains(property.Name)) is { Value.ValueKind: not JsonValueKind.Undefined } strange)
        {
            throw new FormatException($"play has no \"{strange.Name}\"; allowed: {string.Join(", ", Known)}");
        }

        int most = play.GetProperty("steps").GetInt32(), repeats = 0;
        IReadOnlyList<StepPattern> cures = StepPattern.List(play, "cures"), ends = StepPattern.List(play, "ends"), never = StepPattern.List(play, "never");
        List<StepPattern> must = [.. StepPattern.List(play, "must")];
        JsonObject played = JsonObject.Create(start)!;
        Dictionary<int, int> used = [];
        HashSet<string> asked = [];
        List<string> failures = [];
        double cost = 0;
        bool cured = false, ended = false;
        for (int step = 0; step <= most && !ended; step++)
        {
            using JsonDocument document = JsonDocument.Parse(advise(played.ToJsonString()));
            JsonElement advice = document.RootElement, next = advice.GetProperty("next");
            if (advice.GetProperty("finished").GetBoolean() || next.GetArrayLength() == 0)
            {
                ended = advice.GetProperty("finished").GetBoolean();
                break;
            }

            if (step == most)
            {
                break;
            }

            JsonElement first = next[0];
            told.Add(Judge.Line(first));
            cost += first.GetProperty("costNow").GetDouble();
            failures.AddRange(never.Where(pattern => pattern.Matches(first)).Select(pattern => $"play, step {step + 1}: {Judge.Line(first)}, which is {pattern}"));
            must.RemoveAll(pattern => pattern.Matches(first));
            bool repair = StepPattern.Repairs.Contains(first.GetProperty("step").GetString()!);
            repeats += asked.Add(Question(first, withDoer: true)) ? 0 : 1;
            if (repair)
            {
                asked.Clear();
            }

            cured |= cures.Any(pattern => pattern.Matches(first));
            ended = ends.Any(pattern => pattern.Matches(first));
            Write(played, first, repair, cured, used);
        }

        failures.AddRange(must.Select(pattern => $"play: {pattern} was never advised"));
        if (!ended)
        {
            failures.Add($"play: not at its end after {told.Count} steps");
        }

        if (repeats > (play.TryGetProperty("repeatsAtMost", out JsonElement allowed) ? allowed.GetInt32() : 0))
        {
            failures.Add($"play: {repeats} questions asked again of the same person, nothing having changed");
        }

        if (play.TryGetProperty("costAtMost", out JsonElement limit) && !(cost <= limit.GetDouble()))
        {
            failures.Add(string.Create(CultureInfo.InvariantCulture, $"play: cost {cost:F0}, wanted at most {limit}"));
        }

        return failures;
    }

    private void Write(JsonObject played, JsonElement step, bool repair, bool cured, Dictionary<int, int> used)
    {
        string name = step.GetProperty("step").GetString()!, by = step.GetProperty("by").GetString()!;
        JsonObject done = new() { [repair ? "repair" : "test"] = name, ["by"] = by };
        foreach (string parameter in Parameters)
        {
            if (step.TryGetProperty(parameter, out JsonElement value))
            {
                done[parameter] = JsonNode.Parse(value.GetRawText());
            }
        }

        foreach (JsonProperty property in Answer(step, name, cured, used))
        {
            done[property.Name] = JsonNode.Parse(property.Value.GetRawText());
        }

        if (!repair && done.Count == 2 + Parameters.Count(parameter => done.ContainsKey(parameter)))
        {
            done["value"] = name == "mower-check" ? cured ? "runs" : "same" : "not-done";
        }

        if (played["observations"] is not JsonArray observations)
        {
            played["observations"] = observations = [];
        }

        observations.Add(done);
        if (by == "technician")
        {
            played["onSite"] = true;
        }
    }

    // The first scripted answer that fits; a list is gone through, and its last stays.
    private JsonProperty[] Answer(JsonElement step, string name, bool cured, Dictionary<int, int> used)
    {
        if (name == "mower-check" && cured)
        {
            return [];
        }

        // The turns of a list are counted by its place among all answers; the ones for afterwards come first and shift none.
        int index = cured ? -Scripted("answersOnceCured").Count() : 0;
        foreach (JsonElement scripted in (cured ? Scripted("answersOnceCured") : []).Concat(Scripted("answers")))
        {
            if (StepPattern.Of(scripted).Matches(step))
            {
                JsonElement answer = scripted.GetProperty("answer");
                if (answer.ValueKind == JsonValueKind.Array)
                {
                    int turn = used.GetValueOrDefault(index);
                    used[index] = turn + 1;
                    answer = answer[Math.Min(turn, answer.GetArrayLength() - 1)];
                }

                return [.. answer.EnumerateObject()];
            }

            index++;
        }

        return [];

        IEnumerable<JsonElement> Scripted(string property) => play.TryGetProperty(property, out JsonElement list) ? list.EnumerateArray() : [];
    }
}
