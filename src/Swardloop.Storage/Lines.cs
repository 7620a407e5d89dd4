using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>Keeps the lists in step with the records, in the transaction of the change. What takes computing is marked as out of date and
/// done afterwards, in the background.</summary>
internal sealed class Lines(WorkshopDatabase database)
{
    /// <summary>Brings the lines up to date that a record's change touches.</summary>
    /// <param name="stored">The record; saved already.</param>
    /// <param name="state">Its state.</param>
    /// <param name="takenAt">When the change was taken in, UTC.</param>
    /// <param name="cancellation">Ends the work.</param>
    public Task UpdateAsync(StoredRecord stored, RecordState state, DateTimeOffset takenAt, CancellationToken cancellation) => stored.Kind switch
    {
        RecordKind.Owner => OwnerAsync(state, cancellation),
        RecordKind.Yard => YardAsync(state, stored.Version, cancellation),
        RecordKind.Case => CaseAsync(state, stored.Version, takenAt, cancellation),
        RecordKind.Observation => ObservationAsync(stored, takenAt, cancellation),
        RecordKind.Visit => VisitAsync(state, cancellation),
        RecordKind.Rates => RatesAsync(stored.Version, cancellation),
        _ => Task.CompletedTask,
    };

    private async Task OwnerAsync(RecordState owner, CancellationToken cancellation)
    {
        OwnerLine line = await FindOrAddAsync(database.Owners, owner.Id, () => new() { Owner = owner.Id }, cancellation);
        line.Name = owner.Text("name") ?? "";
        line.Detail = string.Join(", ", new[] { owner.Text("phone"), owner.Text("address") }.Where(text => !string.IsNullOrEmpty(text)));
        line.Text = SearchText.Of(line.Name, owner.Text("phone"), owner.Text("email"), owner.Text("address"), owner.Text("note"));
        line.IsArchived = owner.Flag("archived");
    }

    private async Task YardAsync(RecordState yard, long version, CancellationToken cancellation)
    {
        YardLine line = await FindOrAddAsync(database.Yards, yard.Id, () => new() { Yard = yard.Id }, cancellation);
        line.Owner = yard.Reference("owner");
        line.Name = yard.Text("name") ?? "";
        line.Address = yard.Text("address");
        line.Text = SearchText.Of(line.Name, line.Address, yard.Text("note"));
        line.IsArchived = yard.Flag("archived");
        line.StaleSince = version;
        await WatchAsync(yard.Id, version, cancellation);
        await database.Cases.Where(one => one.Yard == yard.Id && one.IsOpen)
            .ExecuteUpdateAsync(set => set.SetProperty(one => one.StaleSince, version), cancellation);
    }

    private async Task CaseAsync(RecordState @case, long version, DateTimeOffset takenAt, CancellationToken cancellation)
    {
        CaseLine line = await FindOrAddAsync(
            database.Cases, @case.Id, () => new() { Case = @case.Id, OpenedAt = takenAt }, cancellation);
        line.Yard = @case.Reference("yard") ?? Guid.Empty;
        line.Complaint = @case.Text("complaint") ?? "";
        line.State = @case.Text("state") ?? RecordFields.CaseStates[0];
        line.IsOpen = line.State != "closed" && !@case.Flag("archived");
        line.OpenedAt = Moment(@case, "openedAt") ?? line.OpenedAt;
        line.PromisedOn = Day(@case, "promisedOn");
        line.HasConflict = @case.Conflicts.Any();
        line.Text = SearchText.Of(line.Complaint, @case.Text("found"), @case.Text("note"), @case.Text("assignedTo"));
        line.StaleSince = version;
        CountNew(line, @case, await ObservationsAsync(record => record.Case == @case.Id, cancellation));
        if (@case.Fields.ContainsKey("acceptedBy"))
        {
            await WatchAsync(line.Yard, version, cancellation); // signed, or taken back
        }
    }

    private async Task ObservationAsync(StoredRecord stored, DateTimeOffset takenAt, CancellationToken cancellation)
    {
        // Those of the case are among those of its yard: read once for both.
        Guid? ofYard = stored.Yard;
        List<RecordState> all = await ObservationsAsync(record => record.Yard == ofYard, cancellation);
        if (stored.Case is { } ofCase
            && await database.Cases.FindAsync([ofCase], cancellation) is { } line
            && await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == ofCase, cancellation) is { } storedCase)
        {
            line.LastNewsAt = takenAt;
            line.StaleSince = stored.Version;
            CountNew(line, Journal.StateOf(storedCase), all.Where(one => one.Reference("case") == ofCase));
        }

        if (await database.Yards.FindAsync([ofYard], cancellation) is { } yard)
        {
            (yard.LastOhms, yard.LastReadAt) = LastReading.Of(all);
            await WatchAsync(yard.Yard, stored.Version, cancellation);
        }
    }

    /// <summary>Counts the answers that came by the owner's link after anything that a person of the workshop did or looked at.</summary>
    private static void CountNew(CaseLine line, RecordState @case, IEnumerable<RecordState> observations)
    {
        Guid? looked = @case.Reference("lookedAt");
        int count = 0;
        foreach (RecordState observation in ObservationOrder.Sort(observations))
        {
            bool isOwners = observation["reading"].Shown?.By == Author.Owner;
            count = !isOwners || observation.Id == looked ? 0 : count + 1;
        }

        line.NewFromOwner = count;
    }

    private async Task VisitAsync(RecordState visit, CancellationToken cancellation)
    {
        VisitLine line = await FindOrAddAsync(database.Visits, visit.Id, () => new() { Visit = visit.Id }, cancellation);
        line.Yard = visit.Reference("yard") ?? Guid.Empty;
        line.Case = visit.Reference("case");
        line.On = Day(visit, "on") ?? default;
        line.At = visit.Text("at");
        line.Who = visit.Text("who");
        line.Minutes = visit.Number("minutes");
        line.IsPlanned = !visit.Flag("done") && !visit.Flag("archived");
    }

    private Task<int> RatesAsync(long version, CancellationToken cancellation) =>
        database.Cases.Where(one => one.IsOpen).ExecuteUpdateAsync(set => set.SetProperty(one => one.StaleSince, version), cancellation);

    private async Task<List<RecordState>> ObservationsAsync(
        System.Linq.Expressions.Expression<Func<StoredRecord, bool>> which, CancellationToken cancellation)
    {
        List<StoredRecord> stored = await database.Records.AsNoTracking().Where(record => record.Kind == RecordKind.Observation).Where(which)
            .ToListAsync(cancellation);
        return [.. stored.Select(Journal.StateOf)];
    }

    private async Task WatchAsync(Guid yard, long version, CancellationToken cancellation)
    {
        WatchLine line = await FindOrAddAsync(database.Watch, yard, () => new() { Yard = yard, ByWeakest = WatchOrder.NotYet(yard), ByFivePercent = WatchOrder.NotYet(yard) }, cancellation);
        line.StaleSince = version;
    }

    private static async Task<T> FindOrAddAsync<T>(DbSet<T> lines, Guid id, Func<T> make, CancellationToken cancellation)
        where T : class
    {
        if (await lines.FindAsync([id], cancellation) is { } found)
        {
            return found;
        }

        T made = make();
        lines.Add(made);
        return made;
    }

    private static DateTimeOffset? Moment(RecordState state, string field) =>
        state.Value(field) is { ValueKind: JsonValueKind.String } value && value.TryGetDateTimeOffset(out DateTimeOffset moment)
            ? moment.ToUniversalTime()
            : null;

    private static DateOnly? Day(RecordState state, string field) =>
        DateOnly.TryParseExact(state.Text(field), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;
}
