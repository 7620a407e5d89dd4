using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop steps</c>: the catalogue of tests and repairs.</summary>
internal sealed class StepsCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("steps", "List every test and repair: parameters, outcomes, who, minutes, how, cautions.");

    /// <inheritdoc/>
    public CommandResult Run(Invocation call) => new StepsResult();

    private sealed class StepsResult : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            foreach (StepFacts facts in StepCatalogue.All)
            {
                text.WriteLine($"{StepNames.Of(facts.Kind)}  {facts.Minutes} min");
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartArray();
            foreach (StepFacts facts in StepCatalogue.All)
            {
                json.WriteStartObject();
                json.WriteString("step", StepNames.Of(facts.Kind));
                json.WriteNumber("minutes", facts.Minutes);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }
    }
}
