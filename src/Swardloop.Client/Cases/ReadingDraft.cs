using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Client.Device;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Cases;

/// <summary>What a person has typed into the form of one step, field by field, and the observation it makes.</summary>
public sealed class ReadingDraft
{
    private const string OverRange = "over-range";

    private readonly Dictionary<string, string> _typed = new(StringComparer.Ordinal);

    public ReadingDraft(StepKind kind, Step? advised, Speech say)
    {
        Kind = kind;
        if (advised is null)
        {
            return;
        }

        Put("atM", advised.AtMetres);
        Put("fromM", advised.FromMetres);
        Put("toM", advised.ToMetres);
        Put("testVolts", advised.TestVolts);
        Put("spacingM", advised.SpacingMetres);
        this["guide"] = advised.Guide ?? "";
        this["loaded"] = advised.Loaded is true ? "true" : "";
        Wire = advised.Wire;
        this["from"] = advised.From is { } end ? WireName.Of(end) : "";
        this["place"] = advised.Place is { } place ? WireName.Of(place) : "";
        this["nearMetal"] = advised.NearMetal is true ? "true" : "";
        By = advised.By;

        void Put(string name, double? value) => this[name] = value is { } number
            ? say.Typed(name is "testVolts" ? number : Math.Round(say.Shown(number), 2)) : "";
    }

    /// <summary>Which step.</summary>
    public StepKind Kind { get; }

    /// <summary>Who made it.</summary>
    public Person By { get; set; }

    /// <summary>Free words.</summary>
    public string Note { get; set; } = "";

    /// <summary>Whether it was asked for and could not be done: then only where it should have been done counts.</summary>
    public bool IsNotDone { get; set; }

    /// <summary>What was particular about the ground.</summary>
    public Conditions Conditions { get; set; }

    /// <summary>The guide wire that its places lie on; null: the loop.</summary>
    public string? Wire { get; set; }

    /// <summary>The meter's record; null for a plain one.</summary>
    public RecordState? Meter { get; set; }

    /// <summary>What is typed in a field; empty when nothing.</summary>
    public string this[string field]
    {
        get => _typed.GetValueOrDefault(field, "");
        set => _typed[field] = value;
    }

    /// <summary>The form of the step.</summary>
    public StepForm Form => StepForm.Of(Kind);

    /// <summary>The number typed in a field, in the field's own unit; null when there is none.</summary>
    public double? Number(StepField field, Speech say)
    {
        // Two readings with a semicolon between: their mean.
        string[] readings = this[field.Name].Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        double?[] numbers = [.. readings.Select(typed => NumberOf(typed, field, say))];
        return numbers.Length == 0 || numbers.Any(number => number is null) ? null : numbers.Average();
    }

    private static double? NumberOf(string typed, StepField field, Speech say)
    {
        if (TypedReading.TryRead(typed, IsLength(field) ? say.LengthUnit : field.Unit, out double number) || Speech.Read(typed) is { } plain && (number = plain) == plain)
        {
            return IsLength(field) ? say.Metres(number) : number;
        }

        return null;
    }

    /// <summary>Whether over-range is typed or ticked in a field that may be.</summary>
    public bool IsOver(StepField field) => field.MayBeOverRange && TypedReading.IsOverRange(this[field.Name]);

    /// <summary>All fields: where and how, what came of it, and last the meter, which is remembered from one reading to the next.</summary>
    public IEnumerable<StepField> Fields => Form.Parameters.Concat(Form.Entered).OrderBy(each => each.Type == StepFieldType.Meter || each.Name == "leadOhms");

    /// <summary>The fields to fill in: all, or where and how alone when it could not be done.</summary>
    public IEnumerable<StepField> Asked => IsNotDone ? Form.Parameters.Where(each => each.Type != StepFieldType.Meter && each.Name != "leadOhms") : Fields;

    /// <summary>Whether the step has a place along a wire.</summary>
    public bool HasPlace => Form.Parameters.Any(each => each.Type == StepFieldType.Place);

    /// <summary>Says whether something was particular about the ground.</summary>
    public void SetCondition(Conditions condition, bool isSo) => Conditions = isSo ? Conditions | condition : Conditions & ~condition;

    /// <summary>Says that the meter showed over-range.</summary>
    public void SetOverRange(string field, bool isOver) => this[field] = isOver ? OverRange : "";

    /// <summary>Whether it did.</summary>
    public bool IsOverRange(string field) => this[field] == OverRange;

    /// <summary>As texts to keep.</summary>
    public (string Field, string Text)[] ToFields() =>
    [
        ("step", WireName.Of(Kind)), ("by", WireName.Of(By)), ("note", Note),
        ("done", IsNotDone ? "no" : ""), ("conditions", Conditions == Conditions.None ? "" : ((int)Conditions).ToString(CultureInfo.InvariantCulture)), ("wire", Wire ?? ""),
        .. _typed.Where(each => each.Value.Length > 0).Select(each => ($"field {each.Key}", each.Value)),
    ];

    /// <summary>A draft from such texts; null when they are none.</summary>
    public static ReadingDraft? From(IReadOnlyDictionary<string, string> kept, Speech say)
    {
        string step = kept.GetValueOrDefault("step", "");
        if (WireName.Words<StepKind>().FirstOrDefault(word => word.Key == step) is not { Key: not null } known)
        {
            return null;
        }

        ReadingDraft draft = new(known.Value, null, say) { Note = kept.GetValueOrDefault("note", ""), By = kept.GetValueOrDefault("by") == WireName.Of(Person.Owner) ? Person.Owner : Person.Technician };
        draft.IsNotDone = kept.GetValueOrDefault("done") == "no";
        draft.Conditions = int.TryParse(kept.GetValueOrDefault("conditions"), NumberStyles.None, CultureInfo.InvariantCulture, out int conditions) ? (Conditions)conditions : Conditions.None;
        draft.Wire = kept.GetValueOrDefault("wire") is { Length: > 0 } wire ? wire : null;
        foreach (StepField field in draft.Fields)
        {
            draft[field.Name] = kept.GetValueOrDefault($"field {field.Name}", "");
        }

        return draft;
    }

    /// <summary>A draft of an observation that is to be corrected.</summary>
    public static ReadingDraft Of(JsonElement reading, StepKind kind, Speech say)
    {
        ReadingDraft draft = new(kind, null, say)
        {
            IsNotDone = reading.TryGetProperty("value", out JsonElement outcome) && outcome.ValueKind == JsonValueKind.String && outcome.ValueEquals(ObservationJson.NotDone),
            Wire = reading.TryGetProperty("wire", out JsonElement wire) ? wire.GetString() : null,
        };
        if (reading.TryGetProperty("conditions", out JsonElement conditions) && conditions.ValueKind == JsonValueKind.Array)
        {
            draft.Conditions = WireName.Words<Conditions>().Where(word => conditions.EnumerateArray().Any(each => each.ValueEquals(word.Key)))
                .Aggregate(Conditions.None, (all, word) => all | word.Value);
        }

        foreach (StepField field in draft.Asked)
        {
            if (reading.TryGetProperty(field.Name, out JsonElement value))
            {
                draft[field.Name] = value.ValueKind switch
                {
                    JsonValueKind.Number => say.Typed(IsLength(field) ? Math.Round(say.Shown(value.GetDouble()), 3) : value.GetDouble()),
                    JsonValueKind.String => value.GetString() ?? "",
                    JsonValueKind.True => "true",
                    _ => "",
                };
            }
            else if (field.MayBeOverRange)
            {
                draft[field.Name] = OverRange;
            }
        }

        foreach (ReversedPair pair in kind == StepKind.EarthRatio ? ReversedPair.EarthRatio : [])
        {
            // A reading of an earlier build holds the half difference alone.
            if (draft[pair.Forward].Length == 0 && reading.TryGetProperty(pair.Outcome, out JsonElement volts) && volts.ValueKind == JsonValueKind.Number)
            {
                (draft[pair.Forward], draft[pair.Reversed]) = (say.Typed(volts.GetDouble()), say.Typed(-volts.GetDouble()));
            }
        }

        draft.Note = reading.TryGetProperty("note", out JsonElement note) ? note.GetString() ?? "" : "";
        draft.By = reading.TryGetProperty("by", out JsonElement by) && by.ValueEquals("owner") ? Person.Owner : Person.Technician;
        return draft;
    }

    /// <summary>The observation as JSON, and what is wrong with it per field.</summary>
    /// <param name="say">How numbers were typed.</param>
    /// <param name="wireMetres">Length of the yard's wire; null when not known.</param>
    /// <param name="at">When it was made.</param>
    /// <param name="faults">Faults by the field's name; what belongs to none stands under "".</param>
    /// <param name="guides">The yard's guide wires; null when not known.</param>
    public JsonElement ToJson(
        Speech say, double? wireMetres, DateTimeOffset at, out IReadOnlyDictionary<string, string> faults, IReadOnlyList<GuideWire>? guides = null)
    {
        Dictionary<string, string> found = new(StringComparer.Ordinal);
        JsonObject json = new() { [StepCatalogue.Of(Kind).IsRepair ? "repair" : "test"] = WireName.Of(Kind) };
        foreach (StepField field in Asked)
        {
            string typed = this[field.Name].Trim();
            if (field.Type == StepFieldType.Meter)
            {
                PutMeter(json);
            }
            else if (typed.Length == 0)
            {
                if (field.Required && !IsNotDone)
                {
                    found[field.Name] = say.Texts.AnswerMissing;
                }
            }
            else if (IsOver(field))
            {
                if (field.Name == "ohms")
                {
                    json["value"] = OverRange;
                }
                else
                {
                    json[field.Name] = OverRange;
                }
            }
            else if (field.Type is StepFieldType.Number or StepFieldType.Place)
            {
                if (Number(field, say) is { } number)
                {
                    json[field.Name] = number;
                }
                else
                {
                    found[field.Name] = say.Texts.NotANumber;
                }
            }
            else if (field.Type == StepFieldType.Flag)
            {
                json[field.Name] = typed == "true";
            }
            else
            {
                json[field.Name] = typed;
            }
        }

        foreach (ReversedPair pair in Kind == StepKind.EarthRatio ? ReversedPair.EarthRatio : [])
        {
            if (Volts(pair.Forward) is { } forward && Volts(pair.Reversed) is { } reversed)
            {
                json[pair.Outcome] = ReversedPair.HalfDifference(forward, reversed);
            }

            decimal? Volts(string field) => json[field] is { } typed && Math.Abs((double)typed) <= 1000 ? (decimal)(double)typed : null;
        }

        if (IsNotDone)
        {
            json["value"] = ObservationJson.NotDone;
        }

        if (Wire is { } wire && HasPlace)
        {
            json["wire"] = wire;
        }

        if (Conditions != Conditions.None)
        {
            json["conditions"] = new JsonArray(
                [.. WireName.Words<Conditions>().Where(word => word.Value != Conditions.None && Conditions.HasFlag(word.Value)).Select(word => (JsonNode)JsonValue.Create(word.Key))]);
        }

        json["at"] = at.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture);
        if (By == Person.Owner)
        {
            json["by"] = "owner";
        }

        if (Note.Trim().Length > 0)
        {
            json["note"] = Note.Trim();
        }

        JsonElement made = Json.Of(json);
        if (found.Count == 0)
        {
            ProblemList problems = new("");
            _ = ObservationJson.Read(made, "", wireMetres, problems, guides);
            foreach (Problem problem in problems.Kept)
            {
                string allowed = problem.Allowed.Length > 0 ? say.Texts.Allowed(say.Texts.Problem(problem.Allowed)) : say.Texts.Problem(problem.Message);
                found[Fields.Any(field => field.Name == problem.Place) ? problem.Place : ""] = allowed;
            }
        }

        faults = found;
        return made;
    }

    /// <summary>Takes the meter used last on this device, with its leads, where the step has one.</summary>
    public void RememberMeter(ThisDevice device, Speech say)
    {
        if (Fields.Any(field => field.Type == StepFieldType.Meter || field.Name == "leadOhms"))
        {
            Meter ??= Guid.TryParse(device.Page.Remembered("meter"), out Guid id) ? device.Replica[id] : null;
            TakeLeads(say, overwrite: false);
        }
    }

    /// <summary>Takes the resistance of the meter's leads from its record.</summary>
    public void TakeLeads(Speech say, bool overwrite)
    {
        if (Meter?.Number("leadOhms") is { } ohms && (overwrite || this["leadOhms"].Length == 0) && Fields.Any(field => field.Name == "leadOhms"))
        {
            this["leadOhms"] = say.Typed(ohms);
        }
    }

    /// <summary>Whether a field's numbers are metres, which a person may type in feet.</summary>
    public static bool IsLength(StepField field) => field.Unit == "m";

    private void PutMeter(JsonObject json)
    {
        if (Meter is null)
        {
            return;
        }

        JsonObject meter = [];
        foreach (string name in (string[])["percent", "digits", "resolutionOhms"])
        {
            if (Meter.Number(name) is { } number)
            {
                meter[name] = number;
            }
        }

        if (meter.Count > 0)
        {
            json["meter"] = meter;
        }
    }
}
