using System.Text.Json.Serialization;

namespace Swardloop.Workshop.Records;

/// <summary>A field as all changes so far have left it.</summary>
/// <param name="Values">Values that no change replaced having seen them, youngest change first; more than one is a conflict.</param>
/// <param name="Overtaken">Changes already replaced although they have not arrived yet; when they do, they go to the history only.</param>
public sealed record FieldState(IReadOnlyList<FieldValue> Values, IReadOnlyList<Guid> Overtaken)
{
    /// <summary>A field nobody has set.</summary>
    public static FieldState Empty { get; } = new([], []);

    /// <summary>The value shown: in a conflict the one whose change has the greatest id, the same on every device.</summary>
    [JsonIgnore]
    public FieldValue? Shown => Values.Count > 0 ? Values[0] : null;

    /// <summary>Whether people who did not know of each other set different values.</summary>
    [JsonIgnore]
    public bool IsInConflict => Values.Count > 1;

    /// <summary>What a change made now has seen here.</summary>
    [JsonIgnore]
    public IReadOnlyList<Guid> Ids => [.. Values.Select(value => value.Change)];

    /// <summary>The field after a value came in.</summary>
    /// <param name="arrived">The value.</param>
    /// <param name="seen">Which changes' values it replaces.</param>
    /// <remarks>Every order of arrival gives the same state, as long as each change comes once: a value stays exactly when no change
    /// has replaced it. A change whose value stands here already changes nothing, so that a device may lay its own unconfirmed changes over
    /// a record that has them already.</remarks>
    internal FieldState With(FieldValue arrived, IReadOnlyList<Guid> seen)
    {
        if (Values.Any(value => value.Change == arrived.Change))
        {
            return this;
        }

        HashSet<Guid> unknown = [.. seen];
        List<FieldValue> values = [];
        foreach (FieldValue value in Values)
        {
            if (!unknown.Remove(value.Change))
            {
                values.Add(value);
            }
        }

        bool isOvertaken = Overtaken.Contains(arrived.Change);
        if (!isOvertaken)
        {
            int at = values.FindIndex(value => value.Change.CompareTo(arrived.Change) < 0);
            values.Insert(at < 0 ? values.Count : at, arrived);
        }

        // What it had seen and is not here either came and was replaced by others, or is still on its way. The two cannot be told
        // apart here, so both are remembered; Change ids are never used twice, so remembering too many does no harm.
        IEnumerable<Guid> overtaken = Overtaken.Where(id => id != arrived.Change).Union(unknown);
        return new(values, [.. overtaken.Order()]);
    }
}
