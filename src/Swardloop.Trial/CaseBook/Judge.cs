using System.Text.Json;

namespace Swardloop.Trial.CaseBook;

/// <summary>Holds an advice against what the case book expects. Of the advice only what the contract promises is read, as text, so
/// that judge and judged share no code.</summary>
public static class Judge
{
    private static readonly string[] Known =
    [
        "nextIn", "nextAlso", "nextNotIn", "neverAnywhere", "somewhere", "causesAtLeast", "causesAtMost", "locationWithin", "intervalWidthAtMost",
        "intervalWidthAtLeast", "disagreementNamed", "firstStepSettles", "finished", "numbersFinite", "nextInOrderOfCost", "eachStepOnce", "refused", "play",
    ];

    /// <summary>Asks for advice and judges it.</summary>
    /// <param name="situation">The case and what is expected.</param>
    /// <param name="advise">Gives the advice's JSON for a case's JSON; throws <see cref="FormatException"/> with the reason when the case is refused.</param>
    /// <exception cref="FormatException">The situation's own expectations are not in the book's words.</exception>
    public static Verdict Of(Situation situation, Func<string, string> advise)
    {
        JsonElement expect = situation.Expect;
        if (expect.EnumerateObject().FirstOrDefault(property => !Known.Contains(property.Name)) is { Value.ValueKind: not JsonValueKind.Undefined } strange)
        {
            throw new FormatException($"{situation.Slug}: expect has no \"{strange.Name}\"; allowed: {string.Join(", ", Known)}");
        }

        List<string> failures = [], played = [];
        try
        {
            using JsonDocument document = JsonDocument.Parse(advise(situation.Case.GetRawText()));
            JsonElement advice = document.RootElement;
            if (expect.TryGetProperty("refused", out _))
            {
                failures.Add("refused: the case was taken");
            }

            string? stance = First(advice, expect, failures);
            Whole(advice, failures);
            Causes(advice, expect, failures);
            Place(advice, expect, failures);
            Flags(situation, advice, expect, failures);
            if (expect.TryGetProperty("play", out JsonElement play))
            {
                failures.AddRange(new PlayedDialogue(play, advise).Run(situation.Case, played));
            }

            return new(situation, failures, stance, TopCauses(advice), NextLines(advice), played);
        }
        catch (Exception fault) when (fault is FormatException or JsonException or KeyNotFoundException or InvalidOperationException)
        {
            if (expect.TryGetProperty("refused", out JsonElement part))
            {
                return fault.Message.Contains(part.GetString()!, StringComparison.Ordinal)
                    ? new(situation, [], null, [], [], [])
                    : new(situation, [$"refused: the reason names no \"{part.GetString()}\": {fault.Message}"], null, [], [], []);
            }

            return new(situation, [.. failures, $"no advice: {fault.Message}"], null, [], [], played);
        }
    }

    /// <summary>One line for a step of an advice: what, where, who, cost.</summary>
    internal static string Line(JsonElement step) =>
        string.Join(' ', step.EnumerateObject()
            .Where(property => property.Name is "step" or "atM" or "fromM" or "toM" or "from" or "place" or "guide" or "by" or "costNow" or "expectedCostToFinish")
            .Select(property => property.Name == "step" ? property.Value.GetString()! : property.Name + " " + property.Value));

    // The first step: on a good list, and on no foolish one.
    private static string? First(JsonElement advice, JsonElement expect, List<string> failures)
    {
        IReadOnlyList<StepPattern> good = StepPattern.List(expect, "nextIn"), also = StepPattern.List(expect, "nextAlso");
        JsonElement[] next = [.. advice.GetProperty("next").EnumerateArray()];
        string? stance = null;
        if (next.Length > 0)
        {
            stance = good.Any(pattern => pattern.Matches(next[0])) ? "good" : also.Any(pattern => pattern.Matches(next[0])) ? "acceptable" : null;
            foreach (StepPattern foolish in StepPattern.List(expect, "nextNotIn").Where(pattern => pattern.Matches(next[0])))
            {
                failures.Add($"nextNotIn: first is {Line(next[0])}, which is {foolish}");
            }
        }

        if (good.Count > 0 && stance is null)
        {
            failures.Add($"nextIn: first is {(next.Length > 0 ? Line(next[0]) : "nothing")}; good: {string.Join("; ", good)}{(also.Count > 0 ? "; acceptable: " + string.Join("; ", also) : "")}");
        }

        foreach (StepPattern foolish in StepPattern.List(expect, "neverAnywhere"))
        {
            foreach (JsonElement step in next.Where(foolish.Matches).Take(1))
            {
                failures.Add($"neverAnywhere: offers {Line(step)}, which is {foolish}");
            }
        }

        foreach (StepPattern wanted in StepPattern.List(expect, "somewhere").Where(pattern => !next.Any(pattern.Matches)))
        {
            failures.Add($"somewhere: {wanted} is not offered at all");
        }

        return stance;
    }

    // What holds of every advice: probabilities add up, no step costs less than nothing.
    private static void Whole(JsonElement advice, List<string> failures)
    {
        double sum = advice.GetProperty("causes").EnumerateArray().Sum(cause => cause.GetProperty("probability").GetDouble());
        if (!(Math.Abs(sum - 1) < 1e-6))
        {
            failures.Add(FormattableString.Invariant($"causes add up to {sum}"));
        }

        foreach (JsonElement step in advice.GetProperty("next").EnumerateArray())
        {
            if (!(step.GetProperty("costNow").GetDouble() >= 0 && step.GetProperty("expectedCostToFinish").GetDouble() >= 0))
            {
                failures.Add($"cost: {Line(step)}");
            }
        }
    }

    private static void Causes(JsonElement advice, JsonElement expect, List<string> failures)
    {
        foreach ((string property, int sign) in new[] { ("causesAtLeast", 1), ("causesAtMost", -1) })
        {
            if (!expect.TryGetProperty(property, out JsonElement bounds))
            {
                continue;
            }

            foreach (JsonElement bound in bounds.EnumerateArray())
            {
                string[] any = [.. bound.GetProperty("any").EnumerateArray().Select(cause => cause.GetString()!)];
                double limit = bound.GetProperty("probability").GetDouble(), sum = advice.GetProperty("causes").EnumerateArray()
                    .Where(cause => cause.GetProperty("cause").GetString()!.Split('+').Any(any.Contains))
                    .Sum(cause => cause.GetProperty("probability").GetDouble());
                if (!(sign * (sum - limit) >= 0))
                {
                    failures.Add(FormattableString.Invariant($"{property}: {string.Join(" or ", any)} has {sum:F3}, wanted at {(sign > 0 ? "least" : "most")} {limit}"));
                }
            }
        }
    }

    private static void Place(JsonElement advice, JsonElement expect, List<string> failures)
    {
        JsonElement location = advice.GetProperty("location");
        bool placed = location.ValueKind != JsonValueKind.Null;
        double width = placed ? location.GetProperty("highM").GetDouble() - location.GetProperty("lowM").GetDouble() : double.PositiveInfinity;
        string told = placed ? FormattableString.Invariant($"{location.GetProperty("atM")} m, {location.GetProperty("lowM")}–{location.GetProperty("highM")} m") : "no place";
        if (expect.TryGetProperty("locationWithin", out JsonElement within)
            && !(placed && location.GetProperty("atM").GetDouble() >= within.GetProperty("fromM").GetDouble() && location.GetProperty("atM").GetDouble() <= within.GetProperty("toM").GetDouble()))
        {
            failures.Add($"locationWithin: {told}, wanted {within.GetProperty("fromM")}–{within.GetProperty("toM")} m");
        }

        if (expect.TryGetProperty("intervalWidthAtMost", out JsonElement most) && !(width <= most.GetDouble()))
        {
            failures.Add($"intervalWidthAtMost: {told}, wanted {most} m");
        }

        if (expect.TryGetProperty("intervalWidthAtLeast", out JsonElement least) && !(width >= least.GetDouble()))
        {
            failures.Add($"intervalWidthAtLeast: {told}, wanted {least} m");
        }
    }

    private static void Flags(Situation situation, JsonElement advice, JsonElement expect, List<string> failures)
    {
        JsonElement[] next = [.. advice.GetProperty("next").EnumerateArray()];
        JsonElement disagreement = advice.GetProperty("disagreement");
        if (expect.TryGetProperty("disagreementNamed", out JsonElement named))
        {
            int? said = disagreement.ValueKind == JsonValueKind.Null ? null : disagreement.GetProperty("observation").GetInt32();
            bool met = named.ValueKind switch
            {
                JsonValueKind.False => said is null,
                JsonValueKind.True => said is not null,
                _ => named.EnumerateArray().Any(index => index.GetInt32() == said),
            };
            if (!met)
            {
                failures.Add($"disagreementNamed: {(said is null ? "none" : $"observation {said}")}, wanted {named}");
            }
        }

        if (expect.TryGetProperty("firstStepSettles", out JsonElement settles))
        {
            string[] tests = [.. settles.EnumerateArray().Select(index => situation.Case.GetProperty("observations")[index.GetInt32()].GetProperty("test").GetString()!)];
            if (next.Length == 0 || !tests.Contains(next[0].GetProperty("step").GetString()))
            {
                failures.Add($"firstStepSettles: first is {(next.Length > 0 ? Line(next[0]) : "nothing")}, wanted {string.Join(" or ", tests)} again");
            }
        }

        if (expect.TryGetProperty("finished", out JsonElement finished) && finished.GetBoolean() != advice.GetProperty("finished").GetBoolean())
        {
            failures.Add($"finished: {advice.GetProperty("finished")}, wanted {finished}");
        }

        if (expect.TryGetProperty("numbersFinite", out _) && !Finite(advice))
        {
            failures.Add("numbersFinite: a number is none, or missing");
        }

        if (expect.TryGetProperty("nextInOrderOfCost", out _))
        {
            double[] costs = [.. next.Select(step => step.GetProperty("expectedCostToFinish").GetDouble())];
            if (!costs.SequenceEqual(costs.Order()))
            {
                failures.Add($"nextInOrderOfCost: {string.Join(", ", costs.Select(cost => cost.ToString(System.Globalization.CultureInfo.InvariantCulture)))}");
            }
        }

        if (expect.TryGetProperty("eachStepOnce", out _)
            && next.GroupBy(step => PlayedDialogue.Question(step, withDoer: false)).FirstOrDefault(group => group.Count() > 1) is { } twice)
        {
            failures.Add($"eachStepOnce: {twice.Key} has {twice.Count()} lines");
        }
    }

    private static bool Finite(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Number => double.IsFinite(value.GetDouble()),
        JsonValueKind.Array => value.EnumerateArray().All(Finite),
        JsonValueKind.Object => value.EnumerateObject().All(property => Finite(property.Value)),
        JsonValueKind.String => value.GetString() is not ("NaN" or "Infinity" or "-Infinity"),
        _ => true,
    };

    private static string[] TopCauses(JsonElement advice) =>
        [.. advice.GetProperty("causes").EnumerateArray().Take(4).Select(cause =>
            FormattableString.Invariant($"{cause.GetProperty("cause").GetString()} {cause.GetProperty("probability").GetDouble():F3}"))];

    private static string[] NextLines(JsonElement advice) =>
        [.. advice.GetProperty("next").EnumerateArray().Take(3).Select(step => $"{Line(step)}: {step.GetProperty("why").GetString()}")];
}
