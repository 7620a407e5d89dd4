using System.Globalization;
using System.Text.Json;
using Swardloop.Client.Wording;
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
    public static string Of(RecordKind kind, string name, JsonElement value, Speech say, Replica replica)
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
            FieldType.Observation => ReadingWords.Of(value, null, say),
            FieldType.YardFile or FieldType.BenchFile => say.Texts.AFile,
            FieldType.StepPace => StepPaceWords.Of(value, say),
            FieldType.Steps => StepPaceWords.OfNames(value.GetString() ?? "", say),
            FieldType.Capabilities or FieldType.Position => value.GetRawText(),
            _ => value.ValueKind == JsonValueKind.String ? value.GetString() ?? "" : value.GetRawText(),
        };
    }
}
