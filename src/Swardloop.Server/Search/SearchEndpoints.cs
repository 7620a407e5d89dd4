using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Search;

/// <summary>Finds owners, yards and cases by any words: of their own, or of the yard and owner they belong to.</summary>
internal static class SearchEndpoints
{
    private const int MostOfAKind = 20, LongestQuestion = 200;

    /// <summary>Adds the endpoint.</summary>
    public static void MapSearch(this RouteGroupBuilder api) =>
        api.MapGet("search", FindAsync).RequireAuthorization(Rule.Read).Produces<IReadOnlyList<SearchHit>>().Problems(400);

    private static async Task<Ok<IReadOnlyList<SearchHit>>> FindAsync(WorkshopDatabase database, string? q, CancellationToken cancellation)
    {
        if (q is null || q.Length > LongestQuestion)
        {
            throw BadInputException.Of("q", q is null ? "missing" : $"has {q.Length} characters", $"words, {LongestQuestion} characters at most");
        }

        IReadOnlyList<string> words = SearchText.Words(q);
        if (words.Count == 0)
        {
            return TypedResults.Ok<IReadOnlyList<SearchHit>>([]);
        }

        IQueryable<OwnerLine> owners = database.Owners.AsNoTracking().Where(owner => !owner.IsArchived);
        var yards =
            from yard in database.Yards.AsNoTracking()
            join owner in database.Owners.AsNoTracking() on yard.Owner equals owner.Owner into itsOwner
            from owner in itsOwner.DefaultIfEmpty()
            select new { Yard = yard, Owner = owner, Text = yard.Text + "\n" + (owner == null ? "" : owner.Text) };
        var cases =
            from @case in database.Cases.AsNoTracking()
            join yard in database.Yards.AsNoTracking() on @case.Yard equals yard.Yard
            join owner in database.Owners.AsNoTracking() on yard.Owner equals owner.Owner into itsOwner
            from owner in itsOwner.DefaultIfEmpty()
            select new { Case = @case, Yard = yard, Text = @case.Text + "\n" + yard.Text + "\n" + (owner == null ? "" : owner.Text) };
        // A telephone number is compared as a person would; which owners have it decides for their yards and cases too.
        Guid[] called = TelephoneDigits.MayBe(q)
            ? [.. (await owners.Select(owner => new { owner.Owner, owner.Detail }).ToListAsync(cancellation)).Where(owner => TelephoneDigits.Match(q, owner.Detail)).Select(owner => owner.Owner)]
            : [];
        if (called.Length > 0)
        {
            words = [];
            owners = owners.Where(owner => called.Contains(owner.Owner));
            yards = yards.Where(one => one.Owner != null && called.Contains(one.Owner.Owner));
            cases = cases.Where(one => one.Yard.Owner != null && called.Contains(one.Yard.Owner.Value));
        }

        foreach (string word in words)
        {
            owners = owners.Where(owner => owner.Text.Contains(word));
            yards = yards.Where(one => one.Text.Contains(word));
            cases = cases.Where(one => one.Text.Contains(word));
        }

        List<SearchHit> hits = [];
        hits.AddRange((await owners.OrderBy(owner => owner.Name).Take(MostOfAKind).ToListAsync(cancellation))
            .Select(owner => new SearchHit(RecordKind.Owner, owner.Owner, owner.Name, owner.Detail, false)));
        hits.AddRange((await yards.Where(one => !one.Yard.IsArchived).OrderBy(one => one.Yard.Name).Take(MostOfAKind).ToListAsync(cancellation))
            .Select(one => new SearchHit(RecordKind.Yard, one.Yard.Yard, one.Yard.Name,
                string.Join(", ", new[] { one.Yard.Address, one.Owner?.Name }.Where(text => !string.IsNullOrEmpty(text))), false)));
        // Open ones first, then the youngest: ids grow with time.
        hits.AddRange((await cases.OrderByDescending(one => one.Case.IsOpen).ThenByDescending(one => one.Case.Case).Take(MostOfAKind).ToListAsync(cancellation))
            .Select(one => new SearchHit(RecordKind.Case, one.Case.Case, one.Yard.Name, one.Case.Complaint, one.Case.IsOpen)));
        return TypedResults.Ok<IReadOnlyList<SearchHit>>(hits);
    }
}
