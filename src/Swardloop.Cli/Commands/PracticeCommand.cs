using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Words;
using Swardloop.Practice;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop practice</c>: a hidden fault in one of the trial's yards answers what is asked; afterwards the learner's way stands beside the
/// printed card's, the advice's and that of somebody who knew.</summary>
internal sealed class PracticeCommand : ICommand
{
    private const int LongestLine = 4000;

    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("practice", "A yard with a hidden fault that answers what is asked, with money and minutes running.")
    {
        Options =
        [
            new("--level", "L", "How hard: " + string.Join(", ", Levels.Select(level => level.Key)) + " (default easy)."),
            new("--seed", "S", "Whole number; the same level and seed give the same yard (default: by chance)."),
        ],
    };

    private static IReadOnlyList<KeyValuePair<string, PracticeLevel>> Levels => WireName.Words<PracticeLevel>();

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        PracticeLevel level = PracticeLevel.Easy;
        if (call.Value("--level") is { } name)
        {
            level = Levels.Where(known => known.Key == name).Select(known => (PracticeLevel?)known.Value).FirstOrDefault()
                ?? throw call.Wrong("--level", $"{SafeText.Quoted(name)} is unknown", string.Join(", ", Levels.Select(known => known.Key)));
        }

        long seed = call.WholeNumber("--seed", 0, long.MaxValue) ?? Random.Shared.NextInt64(1L << 40);
        PracticeVisit visit = new(level, seed);
        ByteLines lines = new(call.Terminal.Input, LongestLine);
        CancellationToken cancellation = call.Terminal.OnCancel();
        return call.Json ? new JsonLinesResult(Answers(visit, lines, cancellation)) : new Conversation(visit, lines, cancellation);
    }

    /// <summary>A step per line in, a turn per line out; the end's line last, after a check that finds the mower running, <c>{"end":true}</c>, or the input's end.</summary>
    private static IEnumerable<Action<Utf8JsonWriter>> Answers(PracticeVisit visit, ByteLines lines, CancellationToken cancellation)
    {
        yield return json => visit.Case.WriteTo(json);
        while (!visit.IsOver && lines.Next(out ReadOnlyMemory<byte>? line))
        {
            cancellation.ThrowIfCancellationRequested();
            ProblemList problems = new("line");
            using JsonDocument? document = line is { } utf8 ? JsonText.Parse(utf8, problems) : null;
            if (document is { RootElement: { ValueKind: JsonValueKind.Object } root } && root.TryGetProperty("end", out _))
            {
                break;
            }

            Checked<Step>? read = document is null ? null : visit.Read(document.RootElement, "");
            if (read is { IsGood: true })
            {
                visit.Do(read.Value);
                PracticeTurn turn = visit.Turns[^1];
                yield return json => Turn(json, turn, visit);
            }
            else
            {
                string wrong = read is not null ? string.Join(" | ", read.Lines()) : line is null ? $"the line is longer than {LongestLine} bytes" : string.Join(" | ", problems.Kept);
                yield return json => Error(json, wrong);
            }
        }

        PracticeEnd end = PracticeEnding.Of(visit, EngineWhole(visit, cancellation), german: false);
        yield return json => JsonSerializer.Serialize(json, end, WorkshopJson.Default.PracticeEnd);
    }

    private static void Turn(Utf8JsonWriter json, PracticeTurn turn, PracticeVisit visit)
    {
        json.WriteStartObject();
        json.WritePropertyName("seen");
        turn.Seen.WriteTo(json);
        json.WriteFigure("money", Math.Round(turn.Money + turn.Travel, 2));
        json.WriteFigure("minutes", turn.Minutes);
        json.WriteFigure("moneySoFar", Math.Round(visit.Money, 2));
        json.WriteFigure("minutesSoFar", Math.Round(visit.Minutes, 1));
        json.WriteBoolean("over", visit.IsOver);
        json.WriteEndObject();
    }

    private static void Error(Utf8JsonWriter json, string wrong)
    {
        json.WriteStartObject();
        json.WriteString("error", wrong);
        json.WriteEndObject();
    }

    private static EngineWay EngineWhole(PracticeVisit visit, CancellationToken cancellation)
    {
        EngineWay way = EngineWay.Start(visit.Level, visit.Seed);
        while (!way.IsWhole)
        {
            way = way.Next(cancellation);
        }

        return way;
    }

    /// <summary>The same for people: a line is a step's name and its parameters, <c>split-resistance atM=31</c>.</summary>
    private sealed class Conversation(PracticeVisit visit, ByteLines lines, CancellationToken cancellation) : CommandResult
    {
        private static readonly (string Property, string Shown)[] Parameters =
            [("by", "by="), ("atM", "atM="), ("fromM", "fromM="), ("toM", "toM="), ("wire", "wire="), ("from", "from="), ("place", "place="), ("loaded", "loaded="), ("spacingM", "spacingM=")];

        public override void WriteJson(Utf8JsonWriter json) => throw new InvalidOperationException("A conversation has lines.");

        public override void WriteText(TextWriter text)
        {
            ServiceCase start = visit.CaseFile().Case;
            text.WriteWrapped($"A practice yard, {WireName.Of(visit.Level)}. The owner says: {SafeText.OneLine(start.Complaint, 200)}");
            text.WriteLine(Line($"Wire {start.Yard.Loop.LengthMetres:0} m, joints {(start.Yard.Loop.Joints.Count == 0 ? "none known" : string.Join(", ", start.Yard.Loop.Joints.Select(joint => Line($"{joint.AtMetres:0.0} m"))))}{(start.Yard.Guides.Count > 0 ? ", guide wire G1" : "")}{(start.Yard.Metal.Count > 0 ? ", a fence beside it" : "")}{(start.Yard.Neighbours.Count > 0 ? ", a neighbour's loop" : "")}."));
            foreach (Observation seen in start.Observations)
            {
                text.WriteWrapped($"Known: {ObservationWords.Describe(seen, start.Yard)}");
            }

            text.WriteWrapped("Type a step and its parameters, as in: station-lamp by=owner; split-resistance atM=31; mend-span fromM=30 toM=31. \"steps\" lists them; a mower-check that finds it running ends the practice, \"end\" gives up.");
            Ask(text);
            while (!visit.IsOver && lines.Next(out ReadOnlyMemory<byte>? line))
            {
                cancellation.ThrowIfCancellationRequested();
                string typed = line is { } utf8 ? Encoding.UTF8.GetString(utf8.Span).Trim() : "";
                if (typed is "end" or "quit")
                {
                    break;
                }

                Answer(typed, text);
                if (!visit.IsOver)
                {
                    Ask(text);
                }
            }

            text.WriteLine();
            text.WriteLine("The advice plays the same yard ...");
            text.Flush();
            End(text);
        }

        private void Answer(string typed, TextWriter text)
        {
            ServiceCase before = visit.CaseFile().Case;
            if (typed.Length == 0)
            {
                return;
            }

            if (typed is "steps" or "help" or "?")
            {
                foreach (StepFacts facts in StepCatalogue.All.Where(facts => StepSafety.Forbids(new(facts.Kind), before) is null))
                {
                    text.WriteLine($"  {WireName.Of(facts.Kind),-18} {Model.Steps.StepTexts.English[facts.Kind].Title}");
                }

                return;
            }

            using JsonDocument step = JsonDocument.Parse(Asked(typed).ToJsonString());
            Checked<Step> read = visit.Read(step.RootElement, "");
            if (!read.IsGood)
            {
                foreach (string wrong in read.Lines())
                {
                    text.WriteWrapped(SafeText.OneLine(wrong, 400));
                }

                return;
            }

            visit.Do(read.Value);
            PracticeTurn turn = visit.Turns[^1];
            ServiceCase after = visit.CaseFile().Case;
            text.WriteWrapped(SafeText.OneLine(ObservationWords.Describe(after.Observations[^1], after.Yard), 400));
            text.WriteLine(Line($"  {turn.Minutes:0.#} min, {turn.Money + turn.Travel:0.00} {after.Rates.Currency}{(turn.Travel > 0 ? ", the way there included" : "")}"));
        }

        private void Ask(TextWriter text)
        {
            text.Write(Line($"[{visit.Money:0.00} spent, {visit.Minutes:0} min] > "));
            text.Flush();
        }

        // A number where one can be read, else a word: the step's own reader says what is wrong with either.
        private static JsonObject Asked(string typed)
        {
            string[] parts = typed.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
            JsonObject asked = new() { ["step"] = parts[0] };
            foreach (string part in parts.Skip(1))
            {
                (string name, string value) = part.IndexOf('=', StringComparison.Ordinal) is >= 0 and var at ? (part[..at], part[(at + 1)..]) : (part, "");
                asked[name] = double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number
                    : value is "true" or "false" ? value == "true" : value;
            }

            return asked;
        }

        private void End(TextWriter text)
        {
            PracticeEnd end = PracticeEnding.Of(visit, EngineWhole(visit, cancellation), german: false);
            ServiceCase last = visit.CaseFile().Case;
            text.WriteLine();
            foreach (PracticeTruth truth in end.Truth)
            {
                string place = truth.AtM is { } at && truth.Wire is null ? ", " + PlaceWords.Describe(last.Yard, Math.Clamp(at, 0, last.Yard.Loop.LengthMetres)) : truth.AtM is { } on ? Line($", {on:0.0} m along {truth.Wire}") : "";
                text.WriteWrapped($"It was: {(WireName.TryReadCause(truth.Cause, out Cause cause) ? Phrasebook.English.Name(cause) : truth.Cause)}{SafeText.OneLine(place, 200)}{(truth.IsHarmful ? "" : " (harmless)")}");
            }

            Worth(end, text);
            string currency = last.Rates.Currency;
            Way("you", end.Learner);
            Way("printed card", end.Card);
            Way("advice", end.Engine);
            Way("who knew it", end.Known);
            text.WriteLine();
            text.WriteWrapped(Line($"The trial tells this yard again: swardloop trial --world {end.World} --yard 0 --seed {end.Seed}"));

            void Way(string who, PracticeWay way)
            {
                text.WriteLine();
                text.WriteLine(Line($"{who}: {way.Score:0.00} {currency}, {way.Minutes:0} min, {way.Turns.Count} steps{(way.Cured ? "" : "; the mower does not run, the card's cost is added")}"));
                if (who != "you")
                {
                    foreach (PracticeTurn turn in way.Turns)
                    {
                        text.WriteLine(Line($"  {turn.Money + turn.Travel,7:0.00}  {Words(turn.Step)}{(turn.Seen["value"] is { } value ? $": {(string?)value}" : "")}"));
                    }
                }
            }
        }

        // What the learner's steps were worth: by how much each brought the expected cost to the finish down, by the advice's own reckoning.
        private void Worth(PracticeEnd end, TextWriter text)
        {
            ServiceCase whole = visit.CaseFile().Case;
            int before = whole.Observations.Count - end.Learner.Turns.Count;
            StepWorth at = StepWorth.Of(whole, before, end.Left[0], cancellation);
            text.WriteLine();
            text.WriteLine("your steps                                      paid   worth   right cause   the advice would have");
            for (int i = 0; i < end.Learner.Turns.Count; i++)
            {
                PracticeTurn turn = end.Learner.Turns[i];
                StepWorth next = StepWorth.Of(whole, before + i + 1, end.Left[i + 1], cancellation);
                text.WriteLine(Line($"  {SafeText.OneLine(Words(turn.Step), 42),-42} {turn.Money + turn.Travel,7:0.00} {at.Outlook - next.Outlook,7:0}   {(end.Left[i].Count > 0 ? Line($"{100 * at.RightShare,3:0} → ") : "      ")}{(end.Left[i + 1].Count > 0 ? Line($"{100 * next.RightShare,3:0} %") : "mended"),-6}  {(at.Advised is { } advised ? Words(PracticeStepJson.Write(advised)) : "ended")}"));
                at = next;
            }
        }

        private static string Words(JsonObject step) => (string?)step["step"] + string.Concat(
            Parameters.Where(parameter => step[parameter.Property] is not null && (parameter.Property != "by" || (string?)step["by"] == "owner"))
                .Select(parameter => $" {parameter.Shown}{(step[parameter.Property] is JsonValue value && value.TryGetValue(out double number) ? Line($"{number:0.#}") : step[parameter.Property]!.ToString())}"));

        private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
