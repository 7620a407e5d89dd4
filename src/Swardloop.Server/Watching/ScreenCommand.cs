using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Core.Diagnosis;
using Swardloop.Server.Serving;
using Swardloop.Storage;

namespace Swardloop.Server.Watching;

/// <summary><c>swardloop screen</c>: computes what changed of a workshop's yards, in parts that any scheduler may run beside each other.</summary>
internal sealed class ScreenCommand : ICommand
{
    private const int MostParts = 100_000;
    private static readonly TimeSpan BetweenProgress = TimeSpan.FromSeconds(5);

    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.Screen;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        (int part, int parts) = PartOf(call);
        CancellationToken cancellation = call.Terminal.OnCancel();
        (_, PooledDbContextFactory<WorkshopDatabase> databases) = WorkshopPlace.Of(call).OpenExistingAsync(cancellation).GetAwaiter().GetResult();
        using WriteTurn turn = new();
        Screening screening = new(databases, turn, Advisor.Advise);
        using TextWriter error = Terminal.TextOnto(call.Terminal.Error);
        ScreenReport report = screening.RunAsync(part - 1, parts, new Told(error), cancellation).GetAwaiter().GetResult();
        return new Screened(part, parts, report);
    }

    private static (int Part, int Parts) PartOf(Invocation call)
    {
        string text = call.Value("--part") ?? "1/1";
        string[] halves = text.Split('/');
        return halves.Length == 2
            && int.TryParse(halves[0], NumberStyles.None, CultureInfo.InvariantCulture, out int part) && int.TryParse(halves[1], NumberStyles.None, CultureInfo.InvariantCulture, out int parts)
            && parts is >= 1 and <= MostParts && part >= 1 && part <= parts
            ? (part, parts)
            : throw call.Wrong("--part", $"{SafeText.Quoted(text)} is no part", $"I/N such as 3/64, I from 1 to N, N from 1 to {MostParts}");
    }

    /// <summary>A line now and then while it runs: whoever looks on sees that it goes on, and a log of many parts stays short.</summary>
    private sealed class Told(TextWriter error) : IProgress<ScreenReport>
    {
        private readonly Lock _gate = new();
        private readonly System.Diagnostics.Stopwatch _since = System.Diagnostics.Stopwatch.StartNew();

        public void Report(ScreenReport value)
        {
            lock (_gate)
            {
                if (_since.Elapsed >= BetweenProgress)
                {
                    _since.Restart();
                    error.WriteLine($"{value.Done} of {value.Changed} yards");
                    error.Flush();
                }
            }
        }
    }

    private sealed class Screened(int part, int parts, ScreenReport report) : CommandResult
    {
        // What failed stays to be done: whoever runs the parts has to know.
        public override int ExitCode => report.Failed > 0 ? 1 : 0;

        private double PerHour => report.Seconds > 0 ? report.Done / report.Seconds * 3600 : 0;

        public override void WriteText(TextWriter text)
        {
            text.WriteLine($"Part {part} of {parts}: {report.Yards} yards, {report.Changed} of them changed");
            text.WriteLine($"Written: {report.Reach} reaches, {report.Forecasts} forecasts, {report.Advice} advices of open cases");
            text.WriteLine($"Overtaken by another run or a change: {report.Overtaken}");
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Took {report.Seconds:0.0} s: {PerHour:0} yards an hour"));
            if (report.Failed > 0)
            {
                text.WriteLine($"Could not be computed, and stay to be done: {report.Failed} yards");
                foreach (string fault in report.Faults)
                {
                    text.WriteLine($"  {SafeText.OneLine(fault, 200)}");
                }
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            foreach ((string name, int count) in ((string, int)[])
                [("part", part), ("parts", parts), ("yards", report.Yards), ("changed", report.Changed), ("done", report.Done), ("reach", report.Reach), ("forecasts", report.Forecasts),
                    ("advice", report.Advice), ("overtaken", report.Overtaken), ("failed", report.Failed)])
            {
                json.WriteNumber(name, count);
            }

            json.WriteNumber("seconds", Math.Round(report.Seconds, 3));
            json.WriteNumber("yardsPerHour", Math.Round(PerHour));
            json.WriteStartArray("faults");
            foreach (string fault in report.Faults)
            {
                json.WriteStringValue(fault);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }
    }
}
