using Swardloop.Client.Wording;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Records;

/// <summary>Finds owners, yards and cases by any word of theirs, on the device, so that it works without reception.</summary>
public static class WorkshopSearch
{
    private const int MostHits = 20;

    /// <summary>Fewer digits than these are a house's number, or a year's.</summary>
    private const int FewestDigits = 4;

    /// <summary>Hits: every word typed begins some word of the record or of what it belongs to; open cases first, then by title.</summary>
    public static IReadOnlyList<SearchHit> Find(Replica replica, Speech say, string typed, RecordKind? only = null, int most = MostHits)
    {
        string[] words = typed.Split((char[])[' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries);
        string digits = typed.All(c => char.IsAsciiDigit(c) || c is ' ' or '+' or '-' or '/' or '(' or ')' or '.') ? Digits(typed).TrimStart('0') : "";
        IEnumerable<(SearchHit Hit, string All)> all =
        [
            .. replica.OfKind(RecordKind.Case).Where(@case => !@case.Flag("archived")).Select(@case => OfCase(@case, replica, say)),
            .. replica.OfKind(RecordKind.Yard).Where(yard => !yard.Flag("archived")).Select(yard => OfYard(yard, replica)),
            .. replica.OfKind(RecordKind.Owner).Where(owner => !owner.Flag("archived")).Select(OfOwner),
        ];
        return
        [
            .. all.Where(each => (only is null || each.Hit.Kind == only) && (words.All(word => Begins(each.All, word)) || (digits.Length >= FewestDigits && Digits(each.All).Contains(digits, StringComparison.Ordinal))))
                .Select(each => each.Hit)
                .OrderByDescending(hit => hit.IsOpen)
                .ThenBy(hit => hit.Kind)
                .ThenBy(hit => hit.Title, StringComparer.CurrentCultureIgnoreCase)
                .Take(most),
        ];
    }

    // A telephone number however it is written: with blanks, dashes, a country's code or the nought before the town's.
    private static string Digits(string text) => string.Concat(text.Where(char.IsAsciiDigit));

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

    private static (SearchHit Hit, string All) OfCase(RecordState @case, Replica replica, Speech say)
    {
        RecordState? yard = @case.Reference("yard") is { } id ? replica[id] : null;
        RecordState? owner = yard?.Reference("owner") is { } ownerId ? replica[ownerId] : null;
        string title = yard?.Text("name") ?? say.Texts.UnknownYard, complaint = @case.Text("complaint") ?? "";
        string state = say.Fields.Word(RecordKind.Case, "state", @case.Text("state") ?? "open");
        return (
            new(RecordKind.Case, @case.Id, title, $"{state} · {complaint}", @case.Text("state") != "closed"),
            string.Join(' ', title, complaint, owner?.Text("name"), owner?.Text("phone"), yard?.Text("address"), @case.Text("note"), @case.Text("found")));
    }

    private static (SearchHit Hit, string All) OfYard(RecordState yard, Replica replica)
    {
        RecordState? owner = yard.Reference("owner") is { } id ? replica[id] : null;
        string title = yard.Text("name") ?? "", detail = string.Join(" · ", new[] { owner?.Text("name"), yard.Text("address") }.Where(text => !string.IsNullOrEmpty(text)));
        return (new(RecordKind.Yard, yard.Id, title, detail, false), string.Join(' ', title, detail, owner?.Text("phone"), owner?.Text("email"), yard.Text("note")));
    }

    private static (SearchHit Hit, string All) OfOwner(RecordState owner)
    {
        string title = owner.Text("name") ?? "";
        string detail = string.Join(" · ", new[] { owner.Text("phone"), owner.Text("address") }.Where(text => !string.IsNullOrEmpty(text)));
        return (new(RecordKind.Owner, owner.Id, title, detail, false), string.Join(' ', title, detail, owner.Text("email"), owner.Text("note")));
    }
}
