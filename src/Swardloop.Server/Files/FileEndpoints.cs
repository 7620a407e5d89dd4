using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Server.Records;
using Swardloop.Storage;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Files;

/// <summary>Yards and cases as open files.</summary>
internal static class FileEndpoints
{
    /// <summary>Adds the endpoints.</summary>
    public static void MapFiles(this RouteGroupBuilder api)
    {
        api.MapGet("yards/{id:guid}/file", YardAsync).RequireAuthorization(Rule.Read).Produces<object>().Problems(404, 409);
        api.MapGet("yards/{id:guid}/geojson", GeoJsonAsync).RequireAuthorization(Rule.Read).Produces<object>(200, "application/geo+json").Problems(404, 409);
        api.MapGet("cases/{id:guid}/file", CaseAsync).RequireAuthorization(Rule.Read).Produces<object>().Problems(404, 409);
    }

    /// <summary>A yard's file as its record holds it.</summary>
    public static Checked<YardFile> YardOf(RecordState yard)
    {
        ProblemList problems = new("yard");
        if (yard.Value("file") is not { } element)
        {
            problems.Add("file", "missing", "a yard file");
            return Checked<YardFile>.Bad(problems);
        }

        YardFile? file = YardFile.Read(element, "file", problems);
        return file is null ? Checked<YardFile>.Bad(problems) : Checked<YardFile>.Good(file);
    }

    /// <summary>A case's file, put together from its records.</summary>
    public static async Task<Checked<CaseFile>> CaseOfAsync(WorkshopDatabase database, StoredRecord @case, CancellationToken cancellation)
    {
        // By kind too: what stands under the rates' id and is none, as earlier programs let in, is passed over.
        List<StoredRecord> records = await database.Records.AsNoTracking()
            .Where(record => (record.Id == @case.Yard && record.Kind == RecordKind.Yard) || (record.Id == Ids.Rates && record.Kind == RecordKind.Rates)
                || (record.Case == @case.Id && record.Kind == RecordKind.Observation))
            .ToListAsync(cancellation);
        ILookup<RecordKind, RecordState> states = records.ToLookup(record => record.Kind, Journal.StateOf);
        return CaseAssembly.CaseFileOf(
            Journal.StateOf(@case), states[RecordKind.Yard].Single(), states[RecordKind.Observation], states[RecordKind.Rates].SingleOrDefault());
    }

    private static async Task<FileContentHttpResult> YardAsync(Guid id, WorkshopDatabase database, CancellationToken cancellation)
    {
        Checked<YardFile> file = YardOf(Journal.StateOf(await RecordEndpoints.FindAsync(database, id, RecordKind.Yard, cancellation)));
        return TypedResults.File(Good(file).ToUtf8(), "application/json", $"{id}.yard.json");
    }

    private static async Task<FileContentHttpResult> GeoJsonAsync(Guid id, WorkshopDatabase database, CancellationToken cancellation)
    {
        Checked<YardFile> file = YardOf(Journal.StateOf(await RecordEndpoints.FindAsync(database, id, RecordKind.Yard, cancellation)));
        Core.Yards.Yard yard = Good(file).Yard;
        return TypedResults.File(yard.Datum is null ? YardGeoJson.WriteLocal(yard) : YardGeoJson.Write(yard), "application/geo+json", $"{id}.geojson");
    }

    private static async Task<FileContentHttpResult> CaseAsync(Guid id, WorkshopDatabase database, CancellationToken cancellation)
    {
        Checked<CaseFile> file = await CaseOfAsync(database, await RecordEndpoints.FindAsync(database, id, RecordKind.Case, cancellation), cancellation);
        return TypedResults.File(Good(file).ToUtf8(), "application/json", $"{id}.case.json");
    }

    private static T Good<T>(Checked<T> file)
        where T : class =>
        file.IsGood ? file.Value : throw new BadInputException(StatusCodes.Status409Conflict, "The records do not make a whole file.", file.Problems);
}
