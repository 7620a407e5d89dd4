using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Steps;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop steps</c>: the catalogue of tests and repairs.</summary>
internal sealed class StepsCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("steps", "List every test and repair; with a name, how it is done and with which cautions.")
    {
        Positionals = [new("STEP", "A step's name; several may be given. None: all of them, in short.") { Required = false, Repeats = true }],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        IReadOnlyList<KeyValuePair<string, StepKind>> known = WireName.Words<StepKind>();
        List<StepFacts> chosen = [];
        foreach (string name in call.Positionals)
        {
            KeyValuePair<string, StepKind> step = known.FirstOrDefault(step => step.Key == name);
            chosen.Add(step.Key is not null
                ? StepCatalogue.Of(step.Value)
                : throw call.Wrong(SafeText.Quoted(name), "no such step", string.Join(", ", known.Select(step => step.Key))));
        }

        return chosen.Count == 0 ? new StepsResult(StepCatalogue.All, inFull: false) : new StepsResult(chosen, inFull: true);
    }
}

/// <summary>Steps of the catalogue; the JSON form always tells all of them.</summary>
internal sealed class StepsResult(IReadOnlyList<StepFacts> steps, bool inFull) : CommandResult
{
    private const string Format = "swardloop-steps/1";

    private static readonly StepTexts Words = StepTexts.English;

    /// <inheritdoc/>
    public override void WriteText(TextWriter text)
    {
        if (inFull)
        {
            foreach (StepFacts facts in steps)
            {
                WriteCard(text, facts);
            }

            return;
        }

        WriteList(text, "Tests", steps.Where(facts => !facts.IsRepair));
        text.WriteLine();
        WriteList(text, "Repairs", steps.Where(facts => facts.IsRepair));
        text.WriteLine();
        text.WriteLine("o: an owner may do it too, in twice the time.");
        text.WriteLine("Parts are money, in the case's currency.");
        text.WriteLine("More of one: swardloop steps loop-resistance");
    }

    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("format", Format);
        json.WriteString("language", Words.Language);
        json.WriteStartArray("steps");
        foreach (StepFacts facts in steps)
        {
            WriteStep(json, facts);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteList(TextWriter text, string heading, IEnumerable<StepFacts> listed)
    {
        text.WriteLine(heading);
        foreach (StepFacts facts in listed)
        {
            string needs = facts.JointMinutes is { } atJoint
                ? $"{Number(atJoint)} to {Number(facts.Minutes)} min; parts {Number(facts.JointParts ?? facts.Parts)} to {Number(facts.Parts)}"
                : MinutesAndParts(facts);
            text.WriteLine($"  {WireName.Of(facts.Kind),-17}{(facts.OwnerMay ? "o" : " ")} {needs}");
        }
    }

    private static void WriteCard(TextWriter text, StepFacts facts)
    {
        StepText words = Words[facts.Kind];
        text.WriteLine($"{WireName.Of(facts.Kind)}: {words.Title}");
        text.WriteWrapped($"Takes {MinutesAndParts(facts)}.", "  ");
        if (facts.Needs != Instruments.None)
        {
            text.WriteLine($"  Needs {string.Join(", ", InstrumentNames(facts.Needs))}.");
        }

        text.WriteLine();
        text.WriteLine("  Before you start:");
        foreach (string caution in Words.Cautions(facts.Kind))
        {
            text.WriteWrapped(caution, "  ! ");
        }

        WriteHow(text, "How", words.How);
        WriteHow(text, "How, where there is no joint", words.HowInPlainWire);
        WriteHow(text, "How, in the owner's words", words.HowForOwner);
        text.WriteLine();
    }

    private static void WriteHow(TextWriter text, string heading, IReadOnlyList<string>? lines)
    {
        if (lines is null)
        {
            return;
        }

        text.WriteLine();
        text.WriteLine($"  {heading}");
        for (int i = 0; i < lines.Count; i++)
        {
            text.WriteWrapped(lines[i], string.Create(CultureInfo.InvariantCulture, $"  {i + 1}. "));
        }
    }

    private static string MinutesAndParts(StepFacts facts) =>
        Parts(facts) is { } parts ? $"{Minutes(facts)}; parts {parts}" : Minutes(facts);

    private static string Minutes(StepFacts facts)
    {
        List<string> parts = [];
        if (facts.JointMinutes is { } atJoint)
        {
            return $"{Number(atJoint)} min at a joint, {Number(facts.Minutes)} elsewhere";
        }

        if (facts.Minutes > 0)
        {
            parts.Add(facts.MinutesPerMetre > 0 ? Number(facts.Minutes) : $"{Number(facts.Minutes)} min");
        }

        if (facts.MinutesPerMetre > 0)
        {
            parts.Add($"{Number(facts.MinutesPerMetre)} min per m");
        }

        string time = string.Join(" + ", parts);
        return facts.LeastMinutes > 0 ? $"{time}, at least {Number(facts.LeastMinutes)} min" : time;
    }

    private static string? Parts(StepFacts facts)
    {
        if (facts.JointParts is { } atJoint)
        {
            return $"{Number(atJoint)} at a joint, {Number(facts.Parts)} elsewhere";
        }

        List<string> parts = [];
        if (facts.Parts > 0)
        {
            parts.Add(Number(facts.Parts));
        }

        if (facts.PartsPerMetre > 0)
        {
            parts.Add($"{Number(facts.PartsPerMetre)} per m");
        }

        return parts.Count == 0 ? null : string.Join(" + ", parts);
    }

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static IEnumerable<string> InstrumentNames(Instruments needs) =>
        Enum.GetValues<Instruments>().Where(one => one != Instruments.None && needs.HasFlag(one)).Select(one => WireName.Of(one));

    private static void WriteStep(Utf8JsonWriter json, StepFacts facts)
    {
        StepForm form = StepForm.Of(facts.Kind);
        StepText words = Words[facts.Kind];
        json.WriteStartObject();
        json.WriteString("name", WireName.Of(facts.Kind));
        json.WriteString("kind", facts.IsRepair ? "repair" : "test");
        json.WriteString("title", words.Title);
        WriteFields(json, "parameters", form.Parameters);
        WriteFields(json, "outcomes", form.Outcomes);
        WriteStrings(json, "by", facts.OwnerMay ? ["technician", "owner"] : ["technician"]);
        WriteStrings(json, "instruments", InstrumentNames(facts.Needs));
        json.WriteNumber("minutes", facts.Minutes);
        json.WriteNumber("minutesPerM", facts.MinutesPerMetre);
        json.WriteNumber("leastMinutes", facts.LeastMinutes);
        WriteIfThere(json, "minutesAtJoint", facts.JointMinutes);
        if (facts.OwnerMay)
        {
            json.WriteNumber("ownerTimesMinutes", StepFacts.OwnerSlowness);
        }

        json.WriteNumber("parts", facts.Parts);
        json.WriteNumber("partsPerM", facts.PartsPerMetre);
        WriteIfThere(json, "partsAtJoint", facts.JointParts);
        WriteStrings(json, "how", words.How);
        WriteStringsIfThere(json, "howInPlainWire", words.HowInPlainWire);
        WriteStringsIfThere(json, "howForOwner", words.HowForOwner);
        WriteStrings(json, "cautions", Words.Cautions(facts.Kind));
        WriteStrings(json, "cautionIds", StepCautions.Required(facts.Kind).Select(caution => WireName.Of(caution)));
        json.WriteEndObject();
    }

    private static void WriteFields(Utf8JsonWriter json, string name, IReadOnlyList<StepField> fields)
    {
        json.WriteStartArray(name);
        foreach (StepField field in fields)
        {
            json.WriteStartObject();
            json.WriteString("name", field.Name);
            json.WriteString("type", WireName.Of(field.Type));
            if (field.Unit is { } unit)
            {
                json.WriteString("unit", unit);
            }

            WriteIfThere(json, "least", field.Least);
            WriteIfThere(json, "most", field.Most);
            if (field.Words.Count > 0)
            {
                WriteStrings(json, "words", field.Words);
            }

            if (field.MayBeOverRange)
            {
                json.WriteBoolean("mayBeOverRange", true);
            }

            json.WriteBoolean("required", field.Required);
            json.WriteString("meaning", field.Meaning);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteIfThere(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, number);
        }
    }

    private static void WriteStringsIfThere(Utf8JsonWriter json, string name, IReadOnlyList<string>? values)
    {
        if (values is not null)
        {
            WriteStrings(json, name, values);
        }
    }

    private static void WriteStrings(Utf8JsonWriter json, string name, IEnumerable<string> values)
    {
        json.WriteStartArray(name);
        foreach (string value in values)
        {
            json.WriteStringValue(value);
        }

        json.WriteEndArray();
    }
}
