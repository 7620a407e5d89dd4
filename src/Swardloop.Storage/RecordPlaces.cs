using Microsoft.EntityFrameworkCore;
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
        string Place(string name) => place.Length == 0 ? name : $"{place}.{name}";
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

    private async Task<StoredRecord?> FindAsync(Guid id, CancellationToken cancellation)
    {
        if (!_known.TryGetValue(id, out StoredRecord? found))
        {
            _known[id] = found = await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == id, cancellation);
        }

        return found;
    }
}
