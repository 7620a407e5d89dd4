using Swardloop.Client.Frame;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Records;

/// <summary>What the places of lists share: what they are narrowed and ordered by, kept while the page lives, so that the way back from a record
/// leads to the same list.</summary>
public abstract class ListPlace : PlaceBase
{
    /// <summary>Rows shown at once; more are found by narrowing.</summary>
    protected const int Most = 200;

    /// <summary>Name of this list.</summary>
    protected abstract string List { get; }

    /// <summary>Words looked for.</summary>
    protected string Words
    {
        get => Choice("words", "");
        set => Choose("words", value);
    }

    /// <summary>What is chosen.</summary>
    protected string Choice(string name, string otherwise) => Frame?.ListChoices.GetValueOrDefault($"{List} {name}", otherwise) ?? otherwise;

    /// <summary>Chooses, and puts the list together anew.</summary>
    protected void Choose(string name, string? value)
    {
        if (Frame is not null)
        {
            Frame.ListChoices[$"{List} {name}"] = value ?? "";
        }

        OnNews();
    }

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        base.OnInitialized();
        OnNews();
    }

    /// <summary>Records of a kind in which every word looked for is found.</summary>
    protected HashSet<Guid> Found(RecordKind kind) => [.. WorkshopSearch.Find(Device.Replica, Say, Words, kind, int.MaxValue).Select(hit => hit.Id)];

    /// <summary>Whether the list is narrowed to this town, or to none.</summary>
    protected bool IsInTown(string? town) => Choice("town", "") is not { Length: > 0 } chosen || string.Equals(town, chosen, StringComparison.OrdinalIgnoreCase);

    /// <summary>The owner of a yard.</summary>
    protected RecordState? OwnerOf(RecordState? yard) => yard?.Reference("owner") is { } owner ? Device.Replica[owner] : null;

    /// <summary>The town of a yard, or of its owner.</summary>
    protected string? TownOf(RecordState? yard) => AddressTown.Of(yard?.Text("address")) ?? AddressTown.Of(OwnerOf(yard)?.Text("address"));

    /// <summary>Towns to choose from.</summary>
    protected IReadOnlyList<(string Key, string Words)> Towns(IEnumerable<string?> towns) =>
        [("", T.AllStates), .. towns.OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase).Select(town => (town, town))];
}
