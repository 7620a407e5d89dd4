using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Surveying;
using Swardloop.Model.Checks;
using Swardloop.Model.Surveying;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop survey</c>: a plan from tapes between points, its errors, the tape that disagrees and the one to draw next.</summary>
internal sealed class SurveyCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("survey", "A plan from tapes between points: places, errors, the odd tape, what to tape next.")
    {
        Positionals = [new("TAPES", "A survey file; - reads standard input.")],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        SurveyFile file = call.ReadChecked<SurveyFile>(SurveyFile.Read);
        Checked<SurveyPlan> plan = file.Adjust();
        return plan.IsGood ? new SurveyCommandResult(file, plan.Value) : throw WrongInputException.Of(plan);
    }

    private sealed class SurveyCommandResult(SurveyFile file, SurveyPlan plan) : CommandResult
    {
        /// <summary>Half axis of a 90 % ellipse over one standard deviation, for two coordinates: √(−2 ln 0.1).</summary>
        private const double Ellipse90 = 2.1460;

        public override void WriteText(TextWriter text)
        {
            int width = Math.Max(5, plan.Points.Max(point => Name(point.Name).Length));
            text.WriteLine($"{"Point".PadRight(width)}     east    north   90 % within");
            foreach (SurveyedPoint point in plan.Points)
            {
                text.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{Name(point.Name).PadRight(width)} {point.Place.EastMetres,8:0.00} {point.Place.NorthMetres,8:0.00} m {LongHalfAxis(point),6:0.00} m"));
            }

            text.WriteLine();
            for (int t = 0; t < file.Tapes.Count; t++)
            {
                Tape tape = file.Tapes[t];
                string slip = plan.LeastSlipMetres[t] is double least
                    ? string.Create(CultureInfo.InvariantCulture, $"a slip of {least:0.00} m would show")
                    : t == plan.Odd ? "ODD" : "nothing checks it";
                text.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{t + 1,3}. {Name(tape.From)} to {Name(tape.To)} {tape.Metres:0.00} m: {plan.ResidualMetres[t]:+0.00;−0.00;0.00} m, {(t == plan.Odd ? "ODD, left out" : slip)}"));
            }

            text.WriteLine();
            if (plan.Odd is int odd)
            {
                double should = file.Tapes[odd].Metres + plan.ResidualMetres[odd];
                text.WriteWrapped(string.Create(CultureInfo.InvariantCulture,
                    $"Tape {odd + 1}, {Name(file.Tapes[odd].From)} to {Name(file.Tapes[odd].To)}, disagrees with the others: it read {file.Tapes[odd].Metres:0.00} m where they give {should:0.00} m. The plan is made without it. Draw it again."));
                if (plan.OddOneOf.Count > 1)
                {
                    text.WriteWrapped($"Less likely, but possible: {string.Join(", ", plan.OddOneOf.Where(t => t != odd).Select(t => $"tape {t + 1}"))} instead.");
                }
            }
            else if (plan.OddOneOf.Count > 0)
            {
                text.WriteWrapped($"Some tape is wrong, and these tapes cannot tell which: one of {string.Join(", ", plan.OddOneOf.Select(t => t + 1))}. Draw these again, or one more.");
            }
            else if (plan.Redundancy == 0)
            {
                text.WriteWrapped("No tape is checked by another: a slip would go unseen.");
            }
            else
            {
                text.WriteWrapped("The tapes agree.");
            }

            if (plan.Next is { } next)
            {
                text.WriteWrapped(string.Create(CultureInfo.InvariantCulture,
                    $"Next, tape {Name(next.From)} to {Name(next.To)} (about {next.Metres:0.0} m): the mean error falls from {next.MeanDeviationNowMetres:0.000} m to {next.MeanDeviationThenMetres:0.000} m."));
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteStartObject("points");
            foreach (SurveyedPoint point in plan.Points)
            {
                json.WriteStartObject(point.Name);
                json.WriteFigure("x", point.Place.EastMetres);
                json.WriteFigure("y", point.Place.NorthMetres);
                json.WriteFigure("sdX", point.EastDeviationMetres);
                json.WriteFigure("sdY", point.NorthDeviationMetres);
                json.WriteFigure("correlation", point.Correlation);
                json.WriteEndObject();
            }

            json.WriteEndObject();
            WriteNumbers(json, "residualsM", plan.ResidualMetres.Select(residual => (double?)residual));
            WriteNumbers(json, "leastSlipM", plan.LeastSlipMetres);
            if (plan.Odd is int odd)
            {
                json.WriteNumber("odd", odd);
            }
            else
            {
                json.WriteNull("odd");
            }

            json.WriteStartArray("oddOneOf");
            foreach (int tape in plan.OddOneOf)
            {
                json.WriteNumberValue(tape);
            }

            json.WriteEndArray();
            json.WriteFigure("chiSquare", plan.ChiSquare);
            json.WriteNumber("redundancy", plan.Redundancy);
            if (plan.Next is { } next)
            {
                json.WriteStartObject("next");
                json.WriteString("from", next.From);
                json.WriteString("to", next.To);
                json.WriteFigure("m", next.Metres);
                json.WriteEndObject();
            }
            else
            {
                json.WriteNull("next");
            }

            json.WriteEndObject();
        }

        private static void WriteNumbers(Utf8JsonWriter json, string name, IEnumerable<double?> values)
        {
            json.WriteStartArray(name);
            foreach (double? value in values)
            {
                if (value is double number)
                {
                    // A tape that agrees to the rounding of the arithmetic agrees: that rounding is not the same everywhere.
                    json.WriteNumberValue(Math.Round(number, 9) + 0.0);
                }
                else
                {
                    json.WriteNullValue();
                }
            }

            json.WriteEndArray();
        }

        private static double LongHalfAxis(SurveyedPoint point)
        {
            double east = point.EastDeviationMetres * point.EastDeviationMetres, north = point.NorthDeviationMetres * point.NorthDeviationMetres;
            double covariance = point.Correlation * point.EastDeviationMetres * point.NorthDeviationMetres;
            double half = Math.Sqrt(((east - north) * (east - north) / 4) + (covariance * covariance));
            return Ellipse90 * Math.Sqrt(((east + north) / 2) + half);
        }

        private static string Name(string name) => SafeText.OneLine(name, 20);
    }
}
