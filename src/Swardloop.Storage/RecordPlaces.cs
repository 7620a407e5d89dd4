using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>What records refer to: whether it is there and of the right kind, and which yard and case a record belongs to.</summary>
internal sealed class RecordPlaces(WorkshopDatabase database)
{
    private readonly Dictionary<Guid, StoredRecord?> _known = [];

    /// <summary>Notes references that lead nowhere or do not fit together.</summary>
    public async Task CheckAsync(Change change, RecordState before, string place, ProblemList problems, CancellationToken cancellation)
    {
        string Place(string name) => PlaceOf(place, name);
        IReadOnlyDictionary<string, RecordField> fields = RecordFields.Of(change.Kind);
        foreach (string name in change.Set.Keys.Where(name => fields[name].Type == FieldType.Reference))
        {
            if (!change.Set[name].TryGetReference(out Guid id))
            {
                continue; // cleared
            }

            IReadOnlyList<RecordKind> kinds = fields[name].Of;
            string allowed = kinds.Count == 0 ? "the id of a record" : $"the id of: {string.Join(", ", kinds.Select(kind => kind.ToString().ToLowerInvariant()))}";
            if (await FindAsync(id, cancellation) is not { } named)
            {
                problems.Add(Place($"set.{name}"), $"there is no record {id}", allowed);
            }
            else if (kinds.Count > 0 && !kinds.Contains(named.Kind))
            {
                problems.Add(Place($"set.{name}"), $"{id} is of another kind", allowed);
            }
        }

        if (problems.Any || change.Kind is not (RecordKind.Observation or RecordKind.Visit or RecordKind.Photo or RecordKind.OwnerLink))
        {
            return;
        }

        // A case of more could not be read as a file.
        if (change.Kind == RecordKind.Observation && before.Fields.Count == 0 && change.Set.TryGetValue("case", out JsonElement inCase) && inCase.TryGetReference(out Guid of)
            && await database.Records.CountAsync(record => record.Kind == RecordKind.Observation && record.Case == of, cancellation) >= CaseFile.MostObservations)
        {
            problems.Add(Place("set.case"), $"has {CaseFile.MostObservations} observations", "a new case");
            return;
        }

        // Whatever belongs to a case belongs to the case's yard.
        RecordState after = before.With(change, "");
        if (after.Reference("yard") is { } yard)
        {
            foreach (string name in (string[])["case", "after", "corrects", "of"])
            {
                if (after.Reference(name) is { } other && await FindAsync(other, cancellation) is { Yard: { } its } && its != yard)
                {
                    problems.Add(Place($"set.{name}"), "belongs to another yard", "one of the same yard");
                }
            }
        }
    }

    /// <summary>Writes down which yard and case a record belongs to.</summary>
    public async Task PlaceAsync(StoredRecord stored, RecordState state, CancellationToken cancellation)
    {
        stored.Case = stored.Kind == RecordKind.Case ? stored.Id : state.Reference("case");
        stored.Yard = stored.Kind == RecordKind.Yard ? stored.Id : state.Reference("yard");
        if (stored.Kind == RecordKind.Photo && state.Reference("of") is { } of && await FindAsync(of, cancellation) is { } named)
        {
            stored.Case ??= named.Case;
            stored.Yard ??= named.Yard;
        }
    }

    /// <summary>Notes what an outbox brings of a person who was forgotten meanwhile: texts and photos from before. Readings are taken.</summary>
    public async Task CheckForgottenAsync(StoredRecord stored, Change change, RecordState after, string place, ProblemList problems, CancellationToken cancellation)
    {
        IReadOnlyDictionary<string, RecordField> fields = RecordFields.Of(change.Kind);
        string? text = change.Set.Keys.FirstOrDefault(name => !JsonElement.DeepEquals(PersonalText.Without(fields[name], change.Set[name]), change.Set[name]));
        bool isPhoto = change.Kind == RecordKind.Photo;
        if (text is null && !isPhoto)
        {
            return;
        }

        foreach (Guid id in new[] { stored.Id, stored.Case, stored.Yard, isPhoto ? after.Reference("of") : null }.OfType<Guid>().Distinct())
        {
            // A drawing is long, and hardly any record is somebody's who was forgotten.
            RecordState? state = id == stored.Id ? after
                : await FindAsync(id, cancellation) is { } found && found.Json.Contains(RecordFields.ForgottenAt, StringComparison.Ordinal) ? Journal.StateOf(found) : null;
            if (state?.Value(RecordFields.ForgottenAt) is { ValueKind: JsonValueKind.String } value && value.TryGetDateTimeOffset(out DateTimeOffset at)
                && (state.Kind == RecordKind.Owner || change.MadeAt <= at))
            {
                problems.Add(
                    PlaceOf(place, $"set.{text}"),
                    "the person was forgotten after this was written", "readings without a text; for a new customer a new record");
                return;
            }
        }
    }

    private static string PlaceOf(string place, string name) => place.Length == 0 ? name : $"{place}.{name}";

    private async Task<StoredRecord?> FindAsync(Guid id, CancellationToken cancellation)
    {
        if (!_known.TryGetValue(id, out StoredRecord? found))
        {
            _known[id] = found = await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == id, cancellation);
        }

        return found;
    }
}
