using System.Globalization;
using System.Text;
using System.Text.Json;
using Swardloop.Model.Lawns;
using Swardloop.Planning;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop plan</c>: ways to lay a loop on a lawn, side by side.</summary>
internal sealed class PlanCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("plan", "Ways to lay a loop on a lawn: wire, reception at the end of its life, parts, price.")
    {
        Positionals = [new("LAWN", "A lawn file; - reads standard input.")],
        Options = [new("--margin-db", "D", "Least margin of reception everywhere, in dB, when the wire is old (default 6).")],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        double margin = call.Number("--margin-db", 0, 40, "dB") ?? LoopPlanner.DefaultMarginDecibels;
        LawnFile file = call.ReadChecked<LawnFile>(LawnFile.Read);
        IReadOnlyList<PlannedLoop> plans = LoopPlanner.Plan(file, margin, call.Terminal.OnCancel());
        return plans.Count > 0
            ? new PlanResult(file, plans, margin)
            : throw new WrongInputException(call.Positionals[0] == "-" ? "standard input" : call.Positionals[0], "lawn",
                "no loop fits on it", string.Create(CultureInfo.InvariantCulture, $"a lawn with a part of {file.Rules.LeastPartSquareMetres:0.#} m² or more that is wide enough for the insets of its edges and {file.Rules.ApartMetres:0.0} m between wires"));
    }

    private sealed class PlanResult(LawnFile file, IReadOnlyList<PlannedLoop> plans, double margin) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            text.WriteWrapped(SafeText.OneLine(file.Name, 200));
            for (int i = 0; i < plans.Count; i++)
            {
                PlannedLoop plan = plans[i];
                text.WriteLine();
                text.WriteLine(Line($"Plan {i + 1}: {plan.Yard.Yard.Loop.LengthMetres:0.0} m of wire, {(plan.Turns == 1 ? "one turn" : Line($"{plan.Turns} turns"))}"));
                text.WriteLine(Line($"  Station     {plan.Yard.Yard.Loop.Path.Points[0].EastMetres:0.0} m east, {plan.Yard.Yard.Loop.Path.Points[0].NorthMetres:0.0} m north"));
                text.WriteLine(Line($"  Loop        {plan.Budget.ExpectedOhms.Nominal:0.00} Ω new ({plan.Budget.ExpectedOhms.Low:0.00} to {plan.Budget.ExpectedOhms.High:0.00}), {plan.EndOfLifeOhms:0} Ω when old"));
                text.WriteLine(Line($"  Reception   {(plan.IsFull ? "everywhere" : "NOT everywhere")} with {margin:0.#} dB when old; weakest {plan.WeakestMarginDecibels:0.0} dB at {plan.Weakest.Point.EastMetres:0.0} m east, {plan.Weakest.Point.NorthMetres:0.0} m north"));
                text.WriteLine(plan.OhmsToSpare is double spare ? Line($"  To spare    {spare:0} Ω beyond the new loop") : "  To spare    nothing");
                text.WriteLine(Line($"  Work        {plan.SlitMetres:0} m of slit, {plan.PavedCrossings} slots in paving, {plan.Minutes:0} minutes"));
                text.WriteLine(Line($"  Parts       {string.Join(", ", plan.Parts.Select(Words))}"));
                text.WriteLine(Line($"  Price       {plan.Cost:0} in the workshop's currency"));
                foreach (string note in plan.Notes)
                {
                    text.WriteWrapped(note, "  ");
                }
            }

            text.WriteLine();
            text.WriteWrapped("Before digging have buried services located; switch the mower off and take its key or battery out; the mains side of the station is an electrician's.");
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteFigure("marginDb", margin);
            json.WriteStartArray("plans");
            foreach (PlannedLoop plan in plans)
            {
                json.WriteStartObject();
                json.WritePropertyName("yard");
                json.WriteRawValue(Encoding.UTF8.GetString(plan.Yard.ToUtf8()).Trim());
                json.WriteNumber("turns", plan.Turns);
                json.WriteFigure("lengthM", plan.Yard.Yard.Loop.LengthMetres);
                json.WriteStartObject("expectedOhms");
                json.WriteFigure("low", plan.Budget.ExpectedOhms.Low);
                json.WriteFigure("nominal", plan.Budget.ExpectedOhms.Nominal);
                json.WriteFigure("high", plan.Budget.ExpectedOhms.High);
                json.WriteEndObject();
                json.WriteFigure("endOfLifeOhms", plan.EndOfLifeOhms);
                json.WriteBoolean("full", plan.IsFull);
                json.WriteFigure("weakestMarginDb", plan.WeakestMarginDecibels);
                json.WriteStartObject("weakest");
                json.WriteFigure("x", Math.Round(plan.Weakest.Point.EastMetres, 2));
                json.WriteFigure("y", Math.Round(plan.Weakest.Point.NorthMetres, 2));
                json.WriteEndObject();
                json.WriteFigure("ohmsToSpare", plan.OhmsToSpare);
                json.WriteStartArray("parts");
                foreach (PlannedPart part in plan.Parts)
                {
                    json.WriteStartObject();
                    json.WriteString("name", part.Name);
                    json.WriteFigure("quantity", part.Quantity);
                    json.WriteString("unit", part.Unit);
                    json.WriteFigure("cost", part.Cost);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                json.WriteFigure("slitM", plan.SlitMetres);
                json.WriteNumber("pavedCrossings", plan.PavedCrossings);
                json.WriteFigure("minutes", plan.Minutes);
                json.WriteFigure("cost", plan.Cost);
                json.WriteStartArray("notes");
                foreach (string note in plan.Notes)
                {
                    json.WriteStringValue(note);
                }

                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        private static string Words(PlannedPart part) => part.Unit == "m" ? Line($"{part.Quantity:0} m of {part.Name}") : part.Name == "terminals" ? "terminals" : Line($"{part.Quantity:0} joints");

        private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
