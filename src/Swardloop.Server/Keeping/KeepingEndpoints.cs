using System.Globalization;
using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Storage.Keeping;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Keeping;

/// <summary>Backup, export of everything, forgetting an owner: the principal's.</summary>
internal static class KeepingEndpoints
{
    private const int MostKept = 10_000;

    /// <summary>Adds the endpoints.</summary>
    public static void MapKeeping(this RouteGroupBuilder api)
    {
        api.MapGet("backup", BackupAsync).RequireAuthorization(Rule.Principal).Produces<byte[]>(200, "application/zip");
        api.MapGet("export", ExportAsync).RequireAuthorization(Rule.Principal).Produces<byte[]>(200, "application/zip");
        api.MapGet("owners/{id:guid}/forget", PreviewAsync).RequireAuthorization(Rule.Principal).Produces<ForgetPreview>().Problems(404);
        api.MapPost("owners/{id:guid}/forget", ForgetAsync).RequireAuthorization(Rule.Principal).Accepts<ForgetRequest>("application/json").Produces<ForgetReport>().Problems(400, 404);
    }

    private static Task<FileStreamHttpResult> BackupAsync(IDatabaseEngine engine, WorkshopDatabase database, TimeProvider clock, CancellationToken cancellation) =>
        ZipAsync($"swardloop-{Day(clock)}.backup.zip", file => Backup.WriteAsync(engine, database, file, clock.GetUtcNow(), cancellation));

    private static Task<FileStreamHttpResult> ExportAsync(IDatabaseEngine engine, WorkshopDatabase database, TimeProvider clock, CancellationToken cancellation) =>
        ZipAsync($"swardloop-{Day(clock)}.zip", file => OpenFiles.WriteAsync(engine, database, file, cancellation));

    private static async Task<Ok<ForgetPreview>> PreviewAsync(Guid id, Forgetting forgetting, CancellationToken cancellation) =>
        TypedResults.Ok(await forgetting.PreviewAsync(id, cancellation) ?? throw NoSuchOwner());

    private static async Task<Ok<ForgetReport>> ForgetAsync(Guid id, HttpRequest request, ClaimsPrincipal person, Forgetting forgetting, CancellationToken cancellation)
    {
        ForgetRequest asked = await JsonBody.ReadAsync(request, fields => new ForgetRequest(
            [.. fields.Items("keep", 0, MostKept, required: true).Select(item => item.Element.ValueKind == JsonValueKind.String ? item.Element.GetString()! : "")]));
        return TypedResults.Ok(await forgetting.ForgetAsync(id, asked.Keep, AccountClaims.AuthorOf(person).Name, cancellation) ?? throw NoSuchOwner());
    }

    private static BadInputException NoSuchOwner() => new(StatusCodes.Status404NotFound, "There is no such owner.", []);

    /// <summary>Made on the disk first: it may be larger than memory, and what goes wrong is told before the first byte is sent.</summary>
    private static async Task<FileStreamHttpResult> ZipAsync(string name, Func<Stream, Task> write)
    {
        FileStream file = new(Path.GetTempFileName(), FileMode.Create, FileAccess.ReadWrite, FileShare.None, 1 << 16, FileOptions.DeleteOnClose | FileOptions.Asynchronous);
        try
        {
            await write(file);
            file.Position = 0;
            return TypedResults.Stream(file, "application/zip", name);
        }
        catch
        {
            await file.DisposeAsync();
            throw;
        }
    }

    private static string Day(TimeProvider clock) => clock.GetLocalNow().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
