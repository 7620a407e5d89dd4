using System.Text.Encodings.Web;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;

namespace Swardloop.Model.Advising;

/// <summary>Writes an advice as the contract's JSON object. The same advice gives the same bytes on every machine:
/// properties stand in one order, numbers are rounded (metres, minutes and money to 2 decimals, bits to 4, ohms to 6
/// significant digits, probabilities as <see cref="Rounding.Probability"/> says), nothing depends on culture or hashing.</summary>
public static class AdviceJson
{
    /// <summary>What the object's <c>format</c> says.</summary>
    public const string Format = "swardloop-advice/1";

    private static readonly JsonWriterOptions Form = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The bytes that <c>swardloop advise --json</c> prints.</summary>
    /// <inheritdoc cref="Write" path="/param[@name='advice' or @name='serviceCase' or @name='words' or @name='steps']|/exception"/>
    public static byte[] ToUtf8(Advice advice, ServiceCase serviceCase, Phrasebook? words = null, StepTexts? steps = null)
    {
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes, Form))
        {
            Write(advice, serviceCase, json, words, steps);
        }

        bytes.WriteByte((byte)'\n');
        return bytes.ToArray();
    }

    /// <summary>Writes the object.</summary>
    /// <param name="advice">What to write.</param>
    /// <param name="serviceCase">The case it was given for: its yard names the places, its rates the currency.</param>
    /// <param name="json">Where to.</param>
    /// <param name="words">Wording of places and reasons; English, as promised to other programs, when null.</param>
    /// <param name="steps">Wording of instructions and cautions; English when null.</param>
    /// <exception cref="ArgumentException">A number of the advice is not finite.</exception>
    public static void Write(Advice advice, ServiceCase serviceCase, Utf8JsonWriter json, Phrasebook? words = null, StepTexts? steps = null)
    {
        json.WriteStartObject();
        json.WriteString("format", Format);
        WriteCauses(advice.Causes, json);
        WriteExcess(advice.ExcessOhms, json);
        WriteLocation(advice.Location, serviceCase, json, words);
        WriteDensity(advice.Density, json);
        WriteEvidence(advice.Evidence, json);
        if (advice.ComplaintBits.Count > 0)
        {
            json.WriteStartObject("complaint");
            WriteBits(advice.ComplaintBits, json);
            json.WriteEndObject();
        }

        json.WriteStartArray("next");
        foreach (AdvisedStep step in advice.Next)
        {
            WriteStep(step, serviceCase, json, words, steps);
        }

        json.WriteEndArray();
        WriteDisagreement(advice.Disagreement, json);
        json.WriteBoolean("finished", advice.Finished);
        if (!serviceCase.Yard.Loop.ConductorIsKnown)
        {
            Strings(json, "notes", [(words ?? Phrasebook.English)[Phrase.SheetConductorUnknown]]);
        }

        json.WriteEndObject();
    }

    private static void WriteCauses(IReadOnlyList<CauseProbability> causes, Utf8JsonWriter json)
    {
        json.WriteStartArray("causes");
        foreach (CauseProbability cause in causes)
        {
            json.WriteStartObject();
            json.WriteString("cause", WireName.Of(cause.Cause));
            Number(json, "probability", Rounding.Probability(cause.Probability));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteExcess(Interval? ohms, Utf8JsonWriter json)
    {
        if (ohms is null)
        {
            json.WriteNull("excessOhms");
            return;
        }

        json.WriteStartObject("excessOhms");
        Number(json, "low", Rounding.Significant(ohms.Low, 6));
        Number(json, "median", Rounding.Significant(ohms.Median, 6));
        Number(json, "high", Rounding.Significant(ohms.High, 6));
        json.WriteEndObject();
    }

    private static void WriteLocation(FaultLocation? location, ServiceCase serviceCase, Utf8JsonWriter json, Phrasebook? words)
    {
        if (location is null)
        {
            json.WriteNull("location");
            return;
        }

        json.WriteStartObject("location");
        json.WriteString("cause", WireName.Of(location.Cause));
        Metres(json, "atM", location.AtMetres);
        Metres(json, "lowM", location.LowMetres);
        Metres(json, "highM", location.HighMetres);
        Number(json, "credibility", Rounding.Probability(location.Credibility));
        json.WriteString("words", PlaceWords.Describe(serviceCase.Yard, location.AtMetres, words));
        json.WriteEndObject();
    }

    private static void WriteDensity(IReadOnlyList<DensityBin> density, Utf8JsonWriter json)
    {
        json.WriteStartArray("density");
        foreach (DensityBin bin in density)
        {
            json.WriteStartObject();
            Metres(json, "fromM", bin.FromMetres);
            Metres(json, "toM", bin.ToMetres);
            Number(json, "probability", Rounding.Probability(bin.Probability));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteEvidence(IReadOnlyList<EvidenceWeight> evidence, Utf8JsonWriter json)
    {
        json.WriteStartArray("evidence");
        foreach (EvidenceWeight weight in evidence)
        {
            json.WriteStartObject();
            json.WriteNumber("observation", weight.Observation);
            WriteBits(weight.Bits, json);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteBits(IReadOnlyList<CauseBits> weights, Utf8JsonWriter json)
    {
        json.WriteStartObject("bits");
        foreach (CauseBits bits in weights)
        {
            Number(json, WireName.Of(bits.Cause), Rounding.Decimals(bits.Bits, 4));
        }

        json.WriteEndObject();
    }

    private static void WriteStep(AdvisedStep advised, ServiceCase serviceCase, Utf8JsonWriter json, Phrasebook? words, StepTexts? steps)
    {
        json.WriteStartObject();
        WriteParameters(advised.Step, json);
        Number(json, "minutes", Rounding.Decimals(advised.Minutes, 2));
        Number(json, "costNow", Rounding.Decimals(advised.CostNow, 2));
        Number(json, "expectedCostToFinish", Rounding.Decimals(advised.ExpectedCostToFinish, 2));
        if (StepWords.Place(advised.Step, serviceCase.Yard, words) is { } place)
        {
            json.WriteString("words", place);
        }

        json.WriteString("why", WhyWords.Say(advised.Reason, serviceCase.Rates.Currency, words));
        Strings(json, "how", StepWords.How(advised.Step, serviceCase.Yard, steps));
        Strings(json, "cautions", (steps ?? StepTexts.English).Cautions(advised.Step.Kind));
        json.WriteEndObject();
    }

    private static void WriteParameters(Step step, Utf8JsonWriter json)
    {
        json.WriteString("step", WireName.Of(step.Kind));
        OptionalMetres(json, "atM", step.AtMetres);
        if (step.Wire is { } wire)
        {
            json.WriteString("wire", wire);
        }

        OptionalMetres(json, "fromM", step.FromMetres);
        OptionalMetres(json, "toM", step.ToMetres);
        if (step.From is { } from)
        {
            json.WriteString("from", WireName.Of(from));
        }

        if (step.Place is { } place)
        {
            json.WriteString("place", WireName.Of(place));
        }

        if (step.NearMetal is { } nearMetal)
        {
            json.WriteBoolean("nearMetal", nearMetal);
        }

        if (step.TestVolts is { } volts)
        {
            Number(json, "testVolts", Rounding.Decimals(volts, 2));
        }

        if (step.Guide is { } guide)
        {
            json.WriteString("guide", guide);
        }

        if (step.Loaded is { } loaded)
        {
            json.WriteBoolean("loaded", loaded);
        }

        OptionalMetres(json, "spacingM", step.SpacingMetres);
        json.WriteString("by", WireName.Of(step.By));
    }

    private static void WriteDisagreement(Disagreement? disagreement, Utf8JsonWriter json)
    {
        if (disagreement is null)
        {
            json.WriteNull("disagreement");
            return;
        }

        json.WriteStartObject("disagreement");
        json.WriteNumber("observation", disagreement.Observation);
        json.WriteStartObject("repeat");
        WriteParameters(disagreement.Repeat, json);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void Strings(Utf8JsonWriter json, string name, IReadOnlyList<string> lines)
    {
        json.WriteStartArray(name);
        foreach (string line in lines)
        {
            json.WriteStringValue(line);
        }

        json.WriteEndArray();
    }

    private static void OptionalMetres(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } metres)
        {
            Metres(json, name, metres);
        }
    }

    private static void Metres(Utf8JsonWriter json, string name, double value) => Number(json, name, Rounding.Decimals(value, 2));

    private static void Number(Utf8JsonWriter json, string name, double value)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentException($"The advice's {name} is {value}: no advice may say so.");
        }

        json.WriteNumber(name, value);
    }
}
