using Swardloop.Client.Wording;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Records;

/// <summary>Finds owners, yards and cases by any word of theirs, on the device, so that it works without reception.</summary>
public static class WorkshopSearch
{
    private const int MostHits = 20;

    /// <summary>Hits: every word typed begins some word of the record or of what it belongs to; open cases first, then by title.</summary>
    public static IReadOnlyList<SearchHit> Find(Replica replica, Speech say, string typed, RecordKind? only = null, int most = MostHits)
    {
        string[] words = typed.Split((char[])[' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries);
        bool mayBeTelephone = TelephoneDigits.MayBe(typed);
        RecordKind[] kinds = only is { } kind ? [kind] : [RecordKind.Case, RecordKind.Yard, RecordKind.Owner];
        IEnumerable<(SearchHit Hit, string All, string? Phone)> all = kinds.SelectMany(each => replica.OfKind(each).Where(record => !record.Flag("archived")))
            .Select(record => record.Kind switch
            {
                RecordKind.Case => OfCase(record, replica, say),
                RecordKind.Yard => OfYard(record, replica),
                _ => OfOwner(record),
            });
        return
        [
            .. all.Where(each => words.All(word => Begins(each.All, word)) || (mayBeTelephone && TelephoneDigits.Match(typed, each.Phone)))
                .Select(each => each.Hit)
                .OrderByDescending(hit => hit.IsOpen)
                .ThenBy(hit => hit.Kind)
                .ThenBy(hit => hit.Title, StringComparer.CurrentCultureIgnoreCase)
                .Take(most),
        ];
    }

    private static bool Begins(string all, string word)
    {
        int at = -1;
        while ((at = all.IndexOf(word, at + 1, StringComparison.OrdinalIgnoreCase)) >= 0)
        {
            if (at == 0 || !char.IsLetterOrDigit(all[at - 1]))
            {
                return true;
            }
        }

        return false;
    }

    private static (SearchHit Hit, string All, string? Phone) OfCase(RecordState @case, Replica replica, Speech say)
    {
        RecordState? yard = @case.Reference("yard") is { } id ? replica[id] : null;
        RecordState? owner = yard?.Reference("owner") is { } ownerId ? replica[ownerId] : null;
        string title = yard?.Text("name") ?? say.Texts.UnknownYard, complaint = @case.Text("complaint") ?? "";
        string state = say.Fields.Word(RecordKind.Case, "state", @case.Text("state") ?? "open");
        return (
            new(RecordKind.Case, @case.Id, title, $"{state} · {complaint}", @case.Text("state") != "closed"),
            string.Join(' ', title, complaint, owner?.Text("name"), yard?.Text("address"), @case.Text("note"), @case.Text("found")), owner?.Text("phone"));
    }

    private static (SearchHit Hit, string All, string? Phone) OfYard(RecordState yard, Replica replica)
    {
        RecordState? owner = yard.Reference("owner") is { } id ? replica[id] : null;
        string title = yard.Text("name") ?? "", detail = string.Join(" · ", new[] { owner?.Text("name"), yard.Text("address") }.Where(text => !string.IsNullOrEmpty(text)));
        return (new(RecordKind.Yard, yard.Id, title, detail, false), string.Join(' ', title, detail, owner?.Text("email"), yard.Text("note")), owner?.Text("phone"));
    }

    private static (SearchHit Hit, string All, string? Phone) OfOwner(RecordState owner)
    {
        string title = owner.Text("name") ?? "";
        string detail = string.Join(" · ", new[] { owner.Text("phone"), owner.Text("address") }.Where(text => !string.IsNullOrEmpty(text)));
        return (new(RecordKind.Owner, owner.Id, title, detail, false), string.Join(' ', title, owner.Text("address"), owner.Text("email"), owner.Text("note")), owner.Text("phone"));
    }
}
