using Microsoft.AspNetCore.WebUtilities;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Server.Records;
using Swardloop.Storage;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Photos;

/// <summary>Bytes of photo records.</summary>
internal static class PhotoEndpoints
{
    /// <summary>Adds the endpoints.</summary>
    public static void MapPhotos(this RouteGroupBuilder api)
    {
        api.MapPut("photos/{id:guid}", PutAsync).RequireAuthorization(Rule.Write)
            .Accepts<byte[]>("image/jpeg", "image/png", "image/webp").Produces(StatusCodes.Status204NoContent).Problems(400, 404, 409, 410, 413, 415, 503, 507);
        api.MapGet("photos/{id:guid}", GetAsync).RequireAuthorization(Rule.Read).Produces<byte[]>(200, "image/jpeg", "image/png", "image/webp").Problems(400, 404);
    }

    private static async Task<NoContent> PutAsync(Guid id, HttpRequest request, WorkshopDatabase database, WriteTurn turn, PhotoWork photos, CancellationToken cancellation)
    {
        if (Journal.StateOf(await RecordEndpoints.FindAsync(database, id, RecordKind.Photo, cancellation)).Value(RecordFields.ForgottenAt) is not null)
        {
            throw new BadInputException(StatusCodes.Status410Gone, "The person of this photo was forgotten.", []);
        }

        // Onto the disk first, where a slow line may take its time.
        await using FileBufferingReadStream body = new(request.Body, 64 * 1024);
        await body.DrainAsync(cancellation);
        body.Position = 0;
        if (await photos.ReadAsync(() => body, cancellation) is not { } photo)
        {
            throw new BadInputException(StatusCodes.Status415UnsupportedMediaType, "This is no whole photo that can be shown; JPEG, PNG and WebP are.", []);
        }

        using IDisposable mine = await turn.TakeAsync(cancellation);
        if (await database.Photos.AsNoTracking().FirstOrDefaultAsync(one => one.Photo == id, cancellation) is { } earlier)
        {
            // Sent again, or another photo under the same record: a photo never changes.
            return earlier.Bytes.AsSpan().SequenceEqual(photo.Bytes)
                ? TypedResults.NoContent()
                : throw new BadInputException(StatusCodes.Status409Conflict, "This photo record has its photo already; make a new record.", []);
        }

        database.Photos.Add(new() { Photo = id, MediaType = PhotoFile.MediaType, Bytes = photo.Bytes, Small = photo.Small });
        await database.SaveChangesAsync(cancellation);
        return TypedResults.NoContent();
    }

    private static async Task<FileContentHttpResult> GetAsync(Guid id, string? size, HttpResponse response, WorkshopDatabase database, CancellationToken cancellation)
    {
        bool isSmall = size is null or "small" or "full"
            ? size == "small"
            : throw BadInputException.Of("size", "is not known", "small, full");
        StoredPhoto photo = await database.Photos.AsNoTracking().FirstOrDefaultAsync(one => one.Photo == id, cancellation)
            ?? throw new BadInputException(StatusCodes.Status404NotFound, "There is no such photo.", []);
        response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return isSmall ? TypedResults.Bytes(photo.Small, PhotoFile.MediaType) : TypedResults.Bytes(photo.Bytes, photo.MediaType);
    }
}
