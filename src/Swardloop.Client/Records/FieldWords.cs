using System.Globalization;
using System.Text.Json;
using Swardloop.Client.Cases;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Records;

/// <summary>A field's value as a person reads it.</summary>
public static class FieldWords
{
    /// <summary>The value shown of a field; null when it has none.</summary>
    public static string? Of(RecordState record, string field, Speech say, Replica replica) =>
        record.Value(field) is { } value ? Of(record.Kind, field, value, say, replica) : null;

    /// <summary>A value of a field.</summary>
    /// <param name="kind">Of which kind of record.</param>
    /// <param name="name">Which field.</param>
    /// <param name="value">Its value.</param>
    /// <param name="say">How it is said.</param>
    /// <param name="replica">Names other records.</param>
    /// <param name="yard">The yard by which places are told; null to tell none.</param>
    public static string Of(RecordKind kind, string name, JsonElement value, Speech say, Replica replica, Yard? yard = null)
    {
        if (value.ValueKind is JsonValueKind.Null or JsonValueKind.Undefined)
        {
            return say.Texts.Cleared;
        }

        RecordField? field = RecordFields.Of(kind).GetValueOrDefault(name);
        return field?.Type switch
        {
            FieldType.Number when value.ValueKind == JsonValueKind.Number => field.Unit == "m" && !name.EndsWith("PerM", StringComparison.Ordinal)
                ? say.Length(value.GetDouble(), 2)
                : $"{say.Number(value.GetDouble(), 3)}{(field.Unit.Length > 0 ? " " + field.Unit : "")}",
            FieldType.Flag => value.ValueKind == JsonValueKind.True ? say.Texts.Yes : say.Texts.No,
            FieldType.Day when DateOnly.TryParseExact(value.GetString(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) => say.Day(day),
            FieldType.Moment when value.TryGetDateTimeOffset(out DateTimeOffset at) => say.Moment(at),
            FieldType.Word => say.Fields.Word(kind, name, value.GetString() ?? ""),
            FieldType.Reference when value.TryGetGuid(out Guid id) => replica[id]?.Text("name") ?? say.Texts.ARecord,
            FieldType.Observation => ReadingWords.Of(value, yard, say),
            FieldType.YardFile => YardWords(value, say),
            FieldType.BenchFile => say.Texts.AFile,
            FieldType.StepPace => StepPaceWords.Of(value, say),
            FieldType.Steps => StepPaceWords.OfNames(value.GetString() ?? "", say),
            FieldType.Capabilities => Abilities.Words(value, say),
            FieldType.Position => PositionWords(value, say),
            _ when kind == RecordKind.OwnerLink && name is "ask" or "cannot" => StepPaceWords.OfNames(value.GetString() ?? "", say),
            _ when name == "foundCause" => WireName.TryReadCause(value.GetString() ?? "", out Cause cause) ? Speech.Capital(say.Phrases.Name(cause)) : value.GetString() ?? "",
            _ => value.ValueKind == JsonValueKind.String ? value.GetString() ?? "" : say.Texts.ARecord,
        };
    }

    private static string YardWords(JsonElement value, Speech say)
    {
        ProblemList problems = new("");
        return YardFile.Read(value, "", problems) is { } file
            ? say.Texts.DrawingFacts(say.Length(file.Yard.Loop.LengthMetres), file.Yard.Loop.Joints.Count, say.Number(file.Yard.Lawn.AreaSquareMetres, 0))
            : say.Texts.AFile;
    }

    private static string PositionWords(JsonElement value, Speech say) =>
        value.ValueKind == JsonValueKind.Object && value.TryGetProperty("latitude", out JsonElement latitude) && value.TryGetProperty("longitude", out JsonElement longitude)
            ? $"{say.Number(latitude.GetDouble(), 5)}°, {say.Number(longitude.GetDouble(), 5)}°"
            : say.Texts.ARecord;
}
