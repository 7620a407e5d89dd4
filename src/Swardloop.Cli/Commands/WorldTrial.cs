using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Trial;
using Swardloop.Worlds;

namespace Swardloop.Cli.Commands;

/// <summary>The judge's worlds: the advice is met only as text, as another program would meet it.</summary>
internal static class WorldTrial
{
    /// <summary>Names for the usage.</summary>
    public static string Names => string.Join(", ", World.All.Select(world => world.Name));

    /// <summary>Plays the named worlds.</summary>
    public static CommandResult Run(Invocation call, string names, int yards, ulong seed, int threads, AdviserProcess? process)
    {
        World[] worlds = names == "all" ? [.. World.All] : [.. names.Split(',').Select(name => Named(call, "--worlds", name))];
        using TextWriter error = Terminal.TextOnto(call.Terminal.Error);
        Func<string, string> adviser = process is null ? InProcess : process.Answer;
        CancellationToken cancellation = call.Terminal.OnCancel();
        List<(World, IReadOnlyList<Verdict>)> played = [];
        foreach (World world in worlds)
        {
            played.Add((world, Judge.Play(adviser, world, seed, yards, threads, done => Tell(error, world, done, yards), cancellation)));
        }

        return new TableResult(seed, played);
    }

    /// <summary>Tells one yard step by step.</summary>
    public static CommandResult Show(Invocation call, string name, int yard, ulong seed, AdviserProcess? process) =>
        new DialogueResult(Judge.Play(process is null ? InProcess : process.Answer, Scene.Of(Named(call, "--world", name), seed, yard)));

    private static World Named(Invocation call, string option, string name) =>
        World.Find(name) ?? throw call.Wrong(option, $"\"{name}\" is no world", Names);

    private static void Tell(TextWriter error, World world, int done, int yards)
    {
        if (done % Math.Max(1, yards / 5) == 0 || done == yards)
        {
            lock (error)
            {
                error.WriteLine($"{world.Name}: {done} of {yards} yards");
                error.Flush();
            }
        }
    }

    private static string InProcess(string caseJson)
    {
        Checked<CaseFile> read = CaseFile.Read(Encoding.UTF8.GetBytes(caseJson), "case", _ => null);
        if (!read.IsGood)
        {
            throw new InvalidOperationException(string.Join(" | ", read.Lines()));
        }

        ArrayBufferWriter<byte> answer = new();
        using (Utf8JsonWriter json = new(answer))
        {
            AdviceJson.Write(Advisor.Advise(read.Value.Case, CausePriors.Default), read.Value.Case, json);
        }

        return Encoding.UTF8.GetString(answer.WrittenSpan);
    }

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed class TableResult(ulong seed, IReadOnlyList<(World World, IReadOnlyList<Verdict> Verdicts)> played) : CommandResult
    {
        private IEnumerable<Tally> Worlds => played.Select(pair => Tally.Of(pair.World.Name, pair.Verdicts));

        private IEnumerable<Tally> Causes => played.SelectMany(pair => pair.Verdicts).GroupBy(Cause)
            .OrderByDescending(group => group.Count()).ThenBy(group => group.Key, StringComparer.Ordinal).Select(group => Tally.Of(group.Key, [.. group]));

        public override void WriteText(TextWriter text)
        {
            text.WriteLine(Line($"judge's worlds, seed {seed}; money in the case's currency; excess 0 knows cause and place, 1 is the printed card"));
            Table(text, "world", Worlds);
            Table(text, "true cause", Causes);
            Verdict[] all = [.. played.SelectMany(pair => pair.Verdicts)];
            text.WriteLine();
            text.WriteLine("mean money per yard by step      advice    card");
            foreach (string step in all.SelectMany(v => v.Visit.Money.Keys.Concat(v.Card.Money.Keys)).Distinct().Order(StringComparer.Ordinal))
            {
                text.WriteLine(Line($"  {step,-28} {all.Average(v => v.Visit.Money.GetValueOrDefault(step)),8:F2} {all.Average(v => v.Card.Money.GetValueOrDefault(step)),8:F2}"));
            }

            text.WriteLine();
            text.WriteLine("not cured");
            foreach (Verdict verdict in all.Where(v => !v.Cured).Take(30))
            {
                text.WriteLine(Line($"  {verdict.Scene.World.Name} yard {verdict.Scene.Index}, {Cause(verdict)}: {verdict.Trouble}"));
            }

            text.WriteLine();
            text.WriteLine("dearest against who knows the truth           cost   card  truth");
            foreach (Verdict verdict in all.OrderByDescending(v => v.Cost - v.TruthCost).Take(12))
            {
                text.WriteLine(Line($"  {verdict.Scene.World.Name + " yard " + verdict.Scene.Index + ", " + Cause(verdict),-42} {verdict.Cost,6:F0} {verdict.Card.Cost,6:F0} {verdict.TruthCost,6:F0}"));
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteString("format", "swardloop-worlds/1");
            json.WriteNumber("seed", seed);
            Rows(json, "worlds", Worlds);
            Rows(json, "causes", Causes);
            json.WriteEndObject();
        }

        private static string Cause(Verdict verdict) => string.Join('+', verdict.Scene.Troubles.Where(trouble => trouble.Harmful).Select(trouble => trouble.Cause));

        private static void Table(TextWriter text, string title, IEnumerable<Tally> rows)
        {
            text.WriteLine();
            text.WriteLine(Line($"{title,-32} yards  cured failed  steps  wrong repeat   dear   cost   card  truth excess    top  Brier  place"));
            foreach (Tally row in rows)
            {
                text.WriteLine(Line($"{row.Name,-32} {row.Yards,5} {Percent(row.CuredShare),6} {Percent(row.FailedShare),6} {row.Steps,6:F1} {row.WrongRepairs,6:F2} {row.Repeats,6:F2} {row.DearParts,6:F2} {row.Cost,6:F0} {row.CardCost,6:F0} {row.TruthCost,6:F0} {row.Excess,6:F2} {Percent(row.TopRightShare),6} {row.Brier,6:F3} {Percent(row.PlaceHeldShare),6}"));
            }
        }

        private static string Percent(double? share) => share is { } value ? Line($"{100 * value:F0}%") : "–";

        private static void Rows(Utf8JsonWriter json, string property, IEnumerable<Tally> rows)
        {
            json.WriteStartArray(property);
            foreach (Tally row in rows)
            {
                JsonObject line = new()
                {
                    ["name"] = row.Name,
                    ["yards"] = row.Yards,
                    ["curedShare"] = row.CuredShare,
                    ["failedShare"] = row.FailedShare,
                    ["steps"] = row.Steps,
                    ["wrongRepairs"] = row.WrongRepairs,
                    ["repeats"] = row.Repeats,
                    ["dearParts"] = row.DearParts,
                    ["cost"] = row.Cost,
                    ["cardCost"] = row.CardCost,
                    ["cardCuredShare"] = row.CardCuredShare,
                    ["truthCost"] = row.TruthCost,
                    ["excess"] = row.Excess,
                    ["topRightShare"] = row.TopRightShare,
                    ["brier"] = row.Brier,
                    ["places"] = row.Places,
                    ["placeHeldShare"] = row.PlaceHeldShare,
                };
                line.WriteTo(json);
            }

            json.WriteEndArray();
        }
    }

    private sealed class DialogueResult(Verdict verdict) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            Scene scene = verdict.Scene;
            text.WriteLine(Line($"{scene.World.Name} yard {scene.Index}: wire {scene.Plan.Length:F1} m (file: {scene.FiledLength:F1} m), joints {string.Join(", ", scene.Joints)} (file: {string.Join(", ", scene.FiledJoints)})"));
            foreach (Trouble trouble in scene.Troubles)
            {
                text.WriteLine(Line($"  true: {trouble.Cause}{(trouble.At is { } at ? Line($" at {at:F1} m, {trouble.Ohms:G3} ohm{(trouble.AtJoint ? ", in a joint" : "")}{(trouble.Shows ? ", shows" : "")}") : "")}{(trouble.Harmful ? "" : " (harmless)")}"));
            }

            text.WriteLine($"  said: {(string?)verdict.Visit.Case["complaint"]}");
            JsonArray observations = (JsonArray)verdict.Visit.Case["observations"]!;
            foreach (JsonNode? seen in observations.Take(observations.Count - verdict.Turns.Count))
            {
                text.WriteLine($"  before the call: {seen!.ToJsonString()}");
            }

            int number = 0;
            foreach (Turn turn in verdict.Turns)
            {
                text.WriteLine(Line($"{++number,2}. [{turn.Tops}]"));
                JsonObject step = new(turn.Step.Where(part => part.Key is not ("why" or "how" or "cautions" or "minutes")).Select(part => KeyValuePair.Create(part.Key, part.Value?.DeepClone())));
                text.WriteLine(Line($"    {step.ToJsonString()}  paid {turn.Cost:F2}"));
                text.WriteLine($"    why: {turn.Step["why"]}");
                text.WriteLine($"    seen: {turn.Seen.ToJsonString()}");
            }

            text.WriteLine(Line($"{(verdict.Cured ? "cured" : "not cured: " + verdict.Trouble)}; paid {verdict.Cost:F1}, card {verdict.Card.Cost:F1} ({verdict.Card.Steps} steps), truth {verdict.TruthCost:F1}; {verdict.Visit.WrongRepairs} wrong repairs, {verdict.Visit.Repeats} repeats"));
            JsonArray card = (JsonArray)verdict.Card.Case["observations"]!;
            foreach (JsonNode? seen in card.Skip(card.Count - verdict.Card.Steps))
            {
                text.WriteLine($"  card: {seen!.ToJsonString()}");
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartArray();
            foreach (Turn turn in verdict.Turns)
            {
                new JsonObject { ["step"] = turn.Step.DeepClone(), ["seen"] = turn.Seen.DeepClone(), ["cost"] = turn.Cost, ["causes"] = turn.Tops }.WriteTo(json);
            }

            json.WriteEndArray();
        }
    }
}
