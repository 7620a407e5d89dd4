using System.Text.Json;

namespace Swardloop.Workshop.Records;

/// <summary>One thing a person did to one record: some fields given new values. All that a workshop knows is the set of its changes;
/// a record is what they add up to. Immutable; the same change may arrive any number of times.</summary>
/// <param name="Id">UUID version 7, made on the device with the change. It names the value it brought for ever.</param>
/// <param name="Kind">Kind of the record.</param>
/// <param name="Record">The record; the first change that names it brings it into being.</param>
/// <param name="Set">New value per field; JSON null clears it.</param>
/// <param name="Seen">Per field set, which changes' values the person saw there and meant to replace; a field left out stood empty. A value
/// that nobody who replaced it had seen stays beside the new one: a conflict, until a person settles it by a change that has seen both.</param>
/// <param name="MadeAt">When, by the device's clock, which may be wrong: shown, never used to decide anything.</param>
public sealed record Change(
    Guid Id,
    RecordKind Kind,
    Guid Record,
    IReadOnlyDictionary<string, JsonElement> Set,
    IReadOnlyDictionary<string, IReadOnlyList<Guid>> Seen,
    DateTimeOffset MadeAt)
{
    /// <summary>What the person saw in a field and meant to replace.</summary>
    public IReadOnlyList<Guid> SeenIn(string field) => Seen.TryGetValue(field, out IReadOnlyList<Guid>? seen) ? seen : [];
}
