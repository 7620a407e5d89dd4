using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Bench;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Workshop.Records;

/// <summary>Whether a change makes sense by itself and on its record: the same answer in the browser before it is kept and on the server
/// before it is taken in. What it refers to is looked up by whoever has the other records.</summary>
public static class ChangeChecks
{
    /// <summary>Most fields one change may set.</summary>
    public const int MostFields = 40;

    /// <summary>Most values one field may be said to replace.</summary>
    public const int MostSeen = 1000;

    /// <summary>Notes whatever is wrong.</summary>
    /// <param name="change">The change.</param>
    /// <param name="before">The record as it is, or a new one.</param>
    /// <param name="place">Path of the change in what was handed in; empty when it is the whole.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static void Check(Change change, RecordState before, string place, ProblemList problems)
    {
        string Place(string name) => place.Length == 0 ? name : $"{place}.{name}";
        if (change.Id.Version != 7)
        {
            problems.Add(Place("id"), $"got {change.Id}", "a UUID of version 7");
        }

        if (change.Record.Version != 7)
        {
            problems.Add(Place("record"), $"got {change.Record}", "a UUID of version 7");
        }

        // Before anything was made under it: a record of another kind there would stand in the way for ever.
        if (Ids.OnlyOneOf(change.Kind) is { } only && change.Record != only)
        {
            problems.Add(Place("record"), "there is one such record", only.ToString());
            return;
        }

        if (Ids.KindReservedFor(change.Record) is { } reserved && change.Kind != reserved)
        {
            problems.Add(Place("record"), $"this id is reserved for the workshop's {reserved.ToString().ToLowerInvariant()}", "a new UUID of version 7");
            return;
        }

        if (change.Kind != before.Kind)
        {
            problems.Add(Place("kind"), $"the record is of another kind, {before.Kind}", "the record's own kind");
            return;
        }

        if (change.Set.Count is 0 or > MostFields)
        {
            problems.Add(Place("set"), $"got {change.Set.Count} fields", $"1 to {MostFields} fields");
            return;
        }

        IReadOnlyDictionary<string, RecordField> fields = RecordFields.Of(change.Kind);
        foreach ((string name, JsonElement value) in change.Set)
        {
            string at = Place($"set.{name}");
            if (!fields.TryGetValue(name, out RecordField? field))
            {
                problems.Add(at, "no such field", string.Join(", ", fields.Keys.Order(StringComparer.Ordinal)));
                continue;
            }

            if (field.ByServer)
            {
                problems.Add(at, "is set by the server alone", "the other fields");
                continue;
            }

            if (field.Once && before[name].Values.Any(known => known.Change != change.Id))
            {
                problems.Add(at, "was set before and stays as it is", "a new record");
            }

            if (value.ValueKind is JsonValueKind.Null or JsonValueKind.Undefined)
            {
                if (field.Required)
                {
                    problems.Add(at, "must not be cleared", "a value");
                }
            }
            else
            {
                CheckValue(field, value, at, problems);
            }
        }

        if (before.Fields.Count == 0)
        {
            foreach (RecordField field in fields.Values.Where(field => field.Required && !change.Set.ContainsKey(field.Name)))
            {
                problems.Add(Place($"set.{field.Name}"), "missing", "a value: the record makes no sense without it");
            }
        }

        foreach ((string name, IReadOnlyList<Guid> seen) in change.Seen)
        {
            if (!change.Set.ContainsKey(name) || seen.Count > MostSeen)
            {
                problems.Add(Place($"seen.{name}"), $"{seen.Count} changes for it", $"at most {MostSeen}, for a field that is set");
            }
        }
    }

    private static bool IsWebAddress(string text) => Uri.TryCreate(text, UriKind.Absolute, out Uri? address)
        && (address.Scheme == Uri.UriSchemeHttps || address.Scheme == Uri.UriSchemeHttp)
        && address is { Query: "", Fragment: "", UserInfo: "" } && address.Host.Length > 0;

    private static void CheckValue(RecordField field, JsonElement value, string at, ProblemList problems)
    {
        switch (field.Type)
        {
            case FieldType.Text:
                // A control character is no text, and some databases cannot keep every one of them.
                Expect(value.ValueKind == JsonValueKind.String && value.GetString() is { } text && text.Length <= field.MostCharacters
                        && !text.Any(c => char.IsControl(c) && c is not ('\n' or '\r' or '\t')),
                    $"text of at most {field.MostCharacters} characters, without control characters");
                if (value.ValueKind == JsonValueKind.String && value.GetString() is { Length: > 0 } given)
                {
                    Expect(!field.IsWebAddress || IsWebAddress(given), "the address of a web server, such as https://lawns.example.org");
                }

                if (field.Required)
                {
                    Expect(value.ValueKind != JsonValueKind.String || ShownText.IsSeen(value.GetString()!), "a text that can be seen");
                }

                break;
            case FieldType.Number:
                NumberRange range = new(field.Least, field.Most, field.Unit);
                Expect(value.ValueKind == JsonValueKind.Number && range.Holds(value.GetDouble()), range.ToString());
                break;
            case FieldType.Flag:
                Expect(value.ValueKind is JsonValueKind.True or JsonValueKind.False, "true or false");
                break;
            case FieldType.Day:
                Expect(value.ValueKind == JsonValueKind.String
                    && DateOnly.TryParseExact(value.GetString(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _),
                    "a day such as 2026-05-14");
                break;
            case FieldType.Moment:
                Expect(value.ValueKind == JsonValueKind.String && value.TryGetDateTimeOffset(out _), "a moment such as 2026-05-14T09:30:00+02:00");
                break;
            case FieldType.Word:
                Expect(value.ValueKind == JsonValueKind.String && field.Words.Any(word => value.ValueEquals(word)), string.Join(", ", field.Words));
                break;
            case FieldType.Reference:
                Expect(value.ValueKind == JsonValueKind.String && value.TryGetGuid(out _), "the id of a record");
                break;
            case FieldType.YardFile:
                _ = YardFile.Read(value, at, problems);
                break;
            case FieldType.BenchFile:
                // Whole, its yard inside: nobody is there to look for another file.
                BenchFile.Check(value, at, problems);
                break;
            case FieldType.Observation:
                _ = ObservationJson.Read(value, at, null, problems);
                break;
            case FieldType.Capabilities:
                CaseFile.CheckCapabilities(value, at, problems);
                break;
            case FieldType.StepPace:
                _ = StepPaceJson.Read(value, at, problems);
                break;
            case FieldType.Steps:
                Expect(value.ValueKind == JsonValueKind.String && value.GetString() is { } steps && steps.Length <= field.MostCharacters
                    && steps.Split(' ', StringSplitOptions.RemoveEmptyEntries).All(step => WireName.Words<StepKind>().Any(word => word.Key == step)), "steps by their names, parted by blanks");
                break;
            case FieldType.Position:
                if (JsonFields.Of(value, at, problems) is { } position)
                {
                    position.Number("latitude", new(-90, 90, "°"), required: true);
                    position.Number("longitude", new(-180, 180, "°"), required: true);
                }

                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(field), field.Type, "Not a type of field.");
        }

        void Expect(bool isGood, string allowed)
        {
            if (!isGood)
            {
                problems.Add(at, $"got {JsonFields.Shown(value)}", allowed);
            }
        }
    }
}
