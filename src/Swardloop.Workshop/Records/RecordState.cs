using System.Text.Json;
using System.Text.Json.Serialization;

namespace Swardloop.Workshop.Records;

/// <summary>A record as all changes so far have left it. Immutable.</summary>
/// <param name="Id">The record.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Version">Number of the last change that the server took in; grows with every change of the workshop; 0 while the server has none.</param>
/// <param name="Fields">The fields that were ever set.</param>
public sealed record RecordState(Guid Id, RecordKind Kind, long Version, IReadOnlyDictionary<string, FieldState> Fields)
{
    /// <summary>A record that no change has touched yet.</summary>
    public static RecordState New(Guid id, RecordKind kind) => new(id, kind, 0, new Dictionary<string, FieldState>());

    /// <summary>Fields that hold more than one value, in order of their names.</summary>
    [JsonIgnore]
    public IEnumerable<string> Conflicts =>
        Fields.Where(named => named.Value.IsInConflict).Select(named => named.Key).Order(StringComparer.Ordinal);

    /// <summary>A field; empty when nobody has set it.</summary>
    public FieldState this[string field] => Fields.TryGetValue(field, out FieldState? state) ? state : FieldState.Empty;

    /// <summary>The value shown of a field; null when it is not set or was cleared.</summary>
    public JsonElement? Value(string field) =>
        this[field].Shown?.Value is { ValueKind: not JsonValueKind.Null and not JsonValueKind.Undefined } value ? value : null;

    /// <summary>A text; null when not set.</summary>
    public string? Text(string field) => Value(field) is { ValueKind: JsonValueKind.String } value ? value.GetString() : null;

    /// <summary>A number; null when not set.</summary>
    public double? Number(string field) => Value(field) is { ValueKind: JsonValueKind.Number } value ? value.GetDouble() : null;

    /// <summary>Whether a flag is set and true.</summary>
    public bool Flag(string field) => Value(field) is { ValueKind: JsonValueKind.True };

    /// <summary>The record that a field names; null when not set.</summary>
    public Guid? Reference(string field) => Value(field) is { ValueKind: JsonValueKind.String } value && value.TryGetGuid(out Guid id) ? id : null;

    /// <summary>The record after a change. Each change is to come once; whoever keeps the changes keeps their ids apart.</summary>
    /// <param name="change">The change; on this record.</param>
    /// <param name="by">Who made it.</param>
    /// <param name="version">Its number on the server; 0 while it waits to be sent.</param>
    /// <exception cref="ArgumentException">The change is on another record.</exception>
    public RecordState With(Change change, string by, long version = 0)
    {
        if (change.Record != Id || change.Kind != Kind)
        {
            throw new ArgumentException($"The change is on {change.Kind} {change.Record}, this is {Kind} {Id}.", nameof(change));
        }

        Dictionary<string, FieldState> fields = new(Fields);
        foreach ((string field, JsonElement value) in change.Set)
        {
            fields[field] = this[field].With(new(change.Id, value, by, change.MadeAt), change.SeenIn(field));
        }

        return this with { Fields = fields, Version = Math.Max(Version, version) };
    }
}
