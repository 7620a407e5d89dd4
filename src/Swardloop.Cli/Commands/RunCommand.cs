using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Budget;
using Swardloop.Core.MowerRun;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop run</c>: what a mower does on a yard at a resistance: how much it mows in how many hours, and where it gets stuck.</summary>
internal sealed class RunCommand : ICommand
{
    private const double DefaultHours = 24, MostHours = 1000, MostOhms = 1e9;
    private const int Runs = 24;

    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("run", "A mower that drives the yard: share mown against hours, where it gets stuck.")
    {
        Positionals = [new("YARD", "The yard file.")],
        Options =
        [
            new("--ohms", "R", "Resistance of the whole loop, in ohms (default: what the loop should measure)."),
            new("--hours", "H", "Hours of mowing, charging not counted (default 24)."),
            new("--seed", "S", "What chance starts from (default 1); the same seed gives the same answer."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        double? givenOhms = call.Number("--ohms", 0, MostOhms, "Ω");
        double hours = call.Number("--hours", 0.01, MostHours, "h") ?? DefaultHours;
        long seed = call.WholeNumber("--seed", 0, long.MaxValue) ?? 1;
        Yard yard = call.ReadChecked<YardFile>(YardFile.Read).Yard;
        LoopBudget budget = LoopBudget.For(yard);
        double ohms = givenOhms ?? budget.ExpectedOhms.Nominal;
        SignalBudget signal = SignalBudget.Of(yard, budget.InductanceHenry);
        CancellationToken cancellation = call.Terminal.OnCancel();
        LoopReach reach = new(yard, cancellation: cancellation);
        double required = signal.RequiredFieldPerAmpere(ohms);
        RunOutcome outcome = new MowerSimulation(reach, required).Simulate(hours, Runs, seed, cancellation);
        return new RunResult(yard.Name, ohms, reach.HeardShare(required), outcome);
    }

    private sealed class RunResult(string name, double ohms, double heardShare, RunOutcome outcome) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            text.WriteWrapped(SafeText.OneLine(name, 200));
            text.WriteLine(Line($"Loop          {ohms:0.##} Ω, heard on {100 * heardShare:F1} % of the lawn"));
            text.WriteLine(Line($"Legs          {outcome.MeanLegMetres:0.0} m on average; {100 * outcome.TurnedEarlyShare:0} % end for want of signal"));
            text.WriteLine();
            text.WriteLine("Hours of mowing   mown (9 runs of 10)");
            for (int k = 0; k < outcome.Mown.Count; k += 4)
            {
                MownShare mown = outcome.Mown[k];
                text.WriteLine(Line($"{mown.Hours,15:0.##}   {100 * mown.Median,3:0} % ({100 * mown.Low:0} to {100 * mown.High:0} %)"));
            }

            text.WriteLine();
            foreach (StuckPlace stuck in outcome.Stuck.Take(5))
            {
                text.WriteWrapped(Line($"{100 * stuck.Share:0} % of runs end at {stuck.Place.EastMetres:0.0} m east, {stuck.Place.NorthMetres:0.0} m north: {Words(stuck.Reason)}."));
            }

            if (outcome.Stuck.Count > 5)
            {
                text.WriteLine(Line($"{outcome.Stuck.Count - 5} more places have {100 * outcome.Stuck.Skip(5).Sum(stuck => stuck.Share):0} % together."));
            }

            text.WriteWrapped(Line($"A statistical picture of {outcome.Runs} runs of a mower that turns at random, without charging; a mower with turning rules of its own mows faster or slower."));
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteFigure("ohms", ohms);
            json.WriteFigure("heardShare", heardShare);
            json.WriteNumber("runs", outcome.Runs);
            json.WriteFigure("meanLegM", outcome.MeanLegMetres);
            json.WriteFigure("turnedEarlyShare", outcome.TurnedEarlyShare);
            json.WriteStartArray("mown");
            foreach (MownShare mown in outcome.Mown)
            {
                json.WriteStartObject();
                json.WriteFigure("hours", mown.Hours);
                json.WriteFigure("low", mown.Low);
                json.WriteFigure("median", mown.Median);
                json.WriteFigure("high", mown.High);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("stuck");
            foreach (StuckPlace stuck in outcome.Stuck)
            {
                json.WriteStartObject();
                json.WriteFigure("x", stuck.Place.EastMetres);
                json.WriteFigure("y", stuck.Place.NorthMetres);
                json.WriteFigure("share", stuck.Share);
                json.WriteString("reason", WireName.Of(stuck.Reason));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        private static string Words(StuckReason reason) => reason switch
        {
            StuckReason.NoSignalAtStart => "no signal where it starts",
            StuckReason.KeepsTurning => "it turns again and again on one spot",
            StuckReason.LeftTheLawn => "it leaves the lawn, no wire turns it back",
            _ => throw new InvalidOperationException($"No words for {reason}."),
        };

        private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
