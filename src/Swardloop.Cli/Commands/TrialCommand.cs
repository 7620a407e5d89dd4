using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Trial;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop trial</c>: the blind trial of the advice on simulated yards, with the practice routine and the oracle beside it.</summary>
internal sealed class TrialCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("trial", "Try the advice blind on simulated yards, beside a printed card and one who knows the truth.")
    {
        Options =
        [
            new("--yards", "N", "How many yards, 1 to 1000000 (default 200)."),
            new("--seed", "S", "Whole number; the same seed gives the same yards (default 1)."),
            new("--style", "NAME", "One world only: " + string.Join(", ", WorldStyle.All.Select(style => style.Name)) + " (default: all in turn)."),
            new("--show", "I", "Tell yard I step by step instead."),
            new("--program", "FILE", "Try this program, started as FILE advise --stream, instead of the advice in this process."),
            new("--casebook", "DIR", "Hold the advice against the situations of a case book instead."),
            new("--situation", "TEXT", "Of the case book only the situations with this in their name."),
            new("--worlds", "NAMES", "The judge's worlds instead, all or some by commas: " + WorldTrial.Names + "; --yards of each."),
            new("--world", "NAME", "With --yard: the judge's world whose yard is told."),
            new("--yard", "I", "Tell yard I of the judge's world --world step by step."),
            new("--threads", "T", "Yards played at once, 1 to 64 (default 2); the result does not depend on it."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        if (call.Value("--casebook") is { } book)
        {
            return CaseBookTrial.Run(call, book, call.Value("--situation"));
        }

        int yards = (int)(call.WholeNumber("--yards", 1, 1_000_000) ?? 200);
        ulong seed = (ulong)(call.WholeNumber("--seed", 0, long.MaxValue) ?? 1);
        int threads = (int)(call.WholeNumber("--threads", 1, 64) ?? 2);
        WorldStyle? style = call.Value("--style") is { } name
            ? WorldStyle.All.FirstOrDefault(known => known.Name == name)
                ?? throw call.Wrong("--style", $"\"{name}\" is no world", string.Join(", ", WorldStyle.All.Select(known => known.Name)))
            : null;
        using AdviserProcess? process = call.Value("--program") is { } program ? new(program, ["advise", "--stream"]) : null;
        IAdviceSource source = process is null ? new CoreAdviceSource(CausePriors.Default) : new LineAdviceSource(process.Answer);
        if (call.Value("--worlds") is { } worlds)
        {
            return WorldTrial.Run(call, worlds, yards, seed, threads, process);
        }

        if (call.WholeNumber("--yard", 0, 1_000_000) is { } told)
        {
            return WorldTrial.Show(call, call.Value("--world") ?? "plain", (int)told, seed, process);
        }

        if (call.WholeNumber("--show", 0, 1_000_000) is { } shown)
        {
            return new StoryResult(TrialRun.Play(source, TrialYards.Generate(seed, (int)shown, style)));
        }

        using TextWriter error = Terminal.TextOnto(call.Terminal.Error);
        IReadOnlyList<YardResult> results = TrialRun.Play(source, yards, seed, style, threads, new Progress(error, yards), call.Terminal.OnCancel());
        return new ReportResult(seed, TrialReport.Of(results));
    }

    /// <summary>A line on standard error now and then; <see cref="System.Progress{T}"/> would report late, from other threads.</summary>
    private sealed class Progress(TextWriter error, int yards) : IProgress<int>
    {
        public void Report(int value)
        {
            int every = Math.Max(1, yards / 20);
            if (value % every == 0 || value == yards)
            {
                lock (error)
                {
                    error.WriteLine($"{value} of {yards} yards");
                    error.Flush();
                }
            }
        }
    }

    private sealed class StoryResult(YardResult result) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            foreach (string line in TrialStory.Tell(result).Concat(TrialStory.TellRoutine(result)))
            {
                text.WriteLine(line);
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartArray();
            foreach (string line in TrialStory.Tell(result))
            {
                json.WriteStringValue(line);
            }

            json.WriteEndArray();
        }
    }

    private sealed class ReportResult(ulong seed, TrialReport report) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            TrialRow all = report.Whole;
            text.WriteLine(Line($"{all.Yards} yards, seed {seed}"));
            text.WriteLine(Line($"cured within {TrialRun.MostSteps} steps  {Percent(all.CuredShare)}   in {all.Steps:F1} steps, {all.WrongRepairs:F2} wrong repairs"));
            text.WriteLine(Line($"money  {all.Cost:F1}; practice routine {all.RoutineCost:F1} ({Percent(all.RoutineCuredShare)} cured, {all.RoutineSteps:F1} steps); oracle {all.OracleCost:F1}"));
            text.WriteLine(Line($"excess {all.Excess:F3}   (0 knows the truth, 1 is the printed card)"));
            text.WriteLine(Line($"last advice before the cure: right cause on top {Percent(all.TopRightShare)}, Brier {all.Brier:F3}"));
            text.WriteLine(Line($"90 % intervals of place hold the truth in {Percent(all.PlaceHeldShare)} of {all.Places}, median length {all.PlaceMetres:F1} m"));
            text.WriteLine();
            text.WriteLine("likeliest cause, all advices before the cure");
            text.WriteLine("  said        advices   mean    right");
            foreach (ReliabilityBin bin in report.Reliability)
            {
                text.WriteLine(Line($"  {bin.From:F1}–{bin.To:F1}  {bin.Advices,9}  {bin.MeanProbability,6:F3}  {bin.RightShare,6:F3}"));
            }

            Table(text, "true cause", report.Causes);
            Table(text, "world", report.Styles);
            Money(text, report.Money);
            text.WriteLine();
            text.WriteLine("dearest against the oracle            cost   card  oracle");
            foreach ((int yard, string cause, double cost, double routine, double oracle) in report.Dearest)
            {
                text.WriteLine(Line($"  yard {yard}, {cause,-28} {cost,5:F0}  {routine,5:F0}  {oracle,6:F0}"));
            }

            if (report.Troubles.Count > 0)
            {
                text.WriteLine();
                text.WriteLine("not cured");
                foreach ((int yard, string cause, string trouble) in report.Troubles.Take(30))
                {
                    text.WriteLine(Line($"  yard {yard}, {cause}: {trouble}"));
                }
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteString("format", "swardloop-trial/1");
            json.WriteNumber("seed", seed);
            Row(json, report.Whole, "all");
            Rows(json, "causes", report.Causes);
            Rows(json, "styles", report.Styles);
            json.WriteStartArray("reliability");
            foreach (ReliabilityBin bin in report.Reliability)
            {
                json.WriteStartObject();
                json.WriteNumber("from", bin.From);
                json.WriteNumber("to", bin.To);
                json.WriteNumber("advices", bin.Advices);
                json.WriteNumber("meanProbability", bin.MeanProbability);
                json.WriteNumber("rightShare", bin.RightShare);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("notCured");
            foreach ((int yard, string cause, string trouble) in report.Troubles)
            {
                json.WriteStartObject();
                json.WriteNumber("yard", yard);
                json.WriteString("cause", cause);
                json.WriteString("trouble", trouble);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        private static void Table(TextWriter text, string title, IReadOnlyList<TrialRow> rows)
        {
            text.WriteLine();
            text.WriteLine(Line($"{title,-36} yards  cured  steps  wrong   cost  card  oracle  excess  top   Brier  place"));
            foreach (TrialRow row in rows)
            {
                text.WriteLine(Line(
                    $"{row.Name,-36} {row.Yards,5}  {Percent(row.CuredShare),5}  {row.Steps,5:F1}  {row.WrongRepairs,5:F2}  {row.Cost,5:F0} {row.RoutineCost,5:F0}  {row.OracleCost,6:F0}  {row.Excess,6:F2}  {Percent(row.TopRightShare),5} {row.Brier,5:F3}  {Percent(row.PlaceHeldShare),5}"));
            }
        }

        private static void Money(TextWriter text, IReadOnlyList<MoneyRow> rows)
        {
            Purpose[] purposes = Enum.GetValues<Purpose>();
            text.WriteLine();
            text.WriteLine(Line($"{"money by purpose, advice/card",-36} {"travel",9}") + string.Concat(purposes.Select(purpose => Line($" {purpose.ToString().ToLowerInvariant(),11}"))));
            foreach (MoneyRow row in rows)
            {
                text.WriteLine(Line($"{row.Name,-36} {Two(row.Travel),9}") + string.Concat(purposes.Select(purpose => Line($" {Two(row.Purposes[purpose]),11}"))));
            }

            static string Two((double Adviser, double Routine) money) => Line($"{money.Adviser:F1}/{money.Routine:F1}");
        }

        private static void Rows(Utf8JsonWriter json, string property, IReadOnlyList<TrialRow> rows)
        {
            json.WriteStartArray(property);
            foreach (TrialRow row in rows)
            {
                Row(json, row, null);
            }

            json.WriteEndArray();
        }

        private static void Row(Utf8JsonWriter json, TrialRow row, string? property)
        {
            if (property is null)
            {
                json.WriteStartObject();
                json.WriteString("name", row.Name);
            }
            else
            {
                json.WriteStartObject(property);
            }

            json.WriteNumber("yards", row.Yards);
            Number(json, "curedShare", row.CuredShare);
            Number(json, "steps", row.Steps);
            Number(json, "wrongRepairs", row.WrongRepairs);
            Number(json, "cost", row.Cost);
            Number(json, "routineCost", row.RoutineCost);
            Number(json, "oracleCost", row.OracleCost);
            Number(json, "excess", row.Excess);
            Number(json, "routineCuredShare", row.RoutineCuredShare);
            Number(json, "routineSteps", row.RoutineSteps);
            Number(json, "topRightShare", row.TopRightShare);
            Number(json, "brier", row.Brier);
            Number(json, "placeHeldShare", row.PlaceHeldShare);
            json.WriteNumber("places", row.Places);
            Number(json, "placeM", row.PlaceMetres);
            json.WriteEndObject();
        }

        private static void Number(Utf8JsonWriter json, string property, double? value)
        {
            if (value is { } number)
            {
                json.WriteNumber(property, number);
            }
            else
            {
                json.WriteNull(property);
            }
        }

        private static string Percent(double? share) => share is { } value ? Line($"{100 * value:F1}%") : "–";

        private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
