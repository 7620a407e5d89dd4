using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Device;

/// <content>Photos: saved with their record in one write, delivered after it, kept to be looked at.</content>
public sealed partial class ThisDevice
{
    /// <summary>Saves a photo and its record. When it returns, both are on this device's disk.</summary>
    /// <param name="taken">The photo.</param>
    /// <param name="of">What it shows: an observation, a case or a yard.</param>
    /// <param name="yard">Its yard.</param>
    /// <param name="jointAtMetres">The joint that it shows (m along the wire); null for none.</param>
    /// <param name="position">Where it was taken, if that is wished and known.</param>
    /// <returns>The photo's record.</returns>
    /// <exception cref="Exception">The store did not take it: it is saved nowhere.</exception>
    public async Task<Guid> KeepPhotoAsync(TakenPhoto taken, Guid of, Guid yard, double? jointAtMetres, DevicePosition? position)
    {
        (string name, string email) = (Me?.Name ?? "", Me?.Email ?? "");
        Dictionary<string, JsonElement> set = new()
        {
            ["of"] = Json.Text(of.ToString()),
            ["yard"] = Json.Text(yard.ToString()),
            ["takenAt"] = Json.Text(Cases.CaseView.MomentText(taken.TakenAt)),
        };
        if (jointAtMetres is { } at)
        {
            set["jointAtM"] = Json.Number(at);
        }

        if (position is { Fault: null } known)
        {
            set["position"] = Json.Of(new JsonObject { ["latitude"] = known.LatitudeDegrees, ["longitude"] = known.LongitudeDegrees });
        }

        Guid id = Replica.NewId(Now);
        page.HoldPhoto(PhotoKey(id, isLarge: true), taken.Large);
        page.HoldPhoto(PhotoKey(id, isLarge: false), taken.Small);
        await WriteAsync(DeviceWrite.Made(new WaitingChange(Replica.ChangeOf(id, RecordKind.Photo, set, Now), name, email)) with { Photos = [new(id, name, email)] }).ConfigureAwait(true);
        Wake();
        return id;
    }

    /// <summary>An address in this page that shows a photo, from this device or else from the server; null when it cannot be had now. What the
    /// server gave stays on the device.</summary>
    public async Task<string?> PhotoUrlAsync(Guid photo, bool isLarge)
    {
        string key = PhotoKey(photo, isLarge);
        try
        {
            byte[]? bytes = await page.PhotoAsync(key).ConfigureAwait(true);
            if (bytes is null && IsConnected)
            {
                bytes = await server.PhotoAsync(photo, isLarge).ConfigureAwait(true);
                await page.KeepPhotoAsync(key, bytes).ConfigureAwait(true);
            }

            return bytes is null ? null : page.ShowPhoto(bytes);
        }
        catch (Exception fault) when (fault is HttpRequestException or ServerRefusalException)
        {
            return null;
        }
    }

    /// <summary>Gives the person a waiting photo as a file.</summary>
    public async Task SavePhotoAsync(Guid photo)
    {
        if (await page.PhotoAsync(PhotoKey(photo, isLarge: true)).ConfigureAwait(true) is { } bytes)
        {
            page.SaveFile($"photo-{photo}.jpg", "image/jpeg", bytes);
        }
    }

    /// <summary>Sends a refused photo again, or throws it away.</summary>
    public async Task SettlePhotoAsync(Guid photo, bool again)
    {
        await WriteAsync(Replica.SettlingPhoto(photo, again)).ConfigureAwait(true);
        Wake();
    }

    private static string PhotoKey(Guid photo, bool isLarge) => $"{photo} {(isLarge ? "large" : "small")}";

    private static StoreWrite WithPhotos(StoreWrite rows, DeviceWrite write) => rows with
    {
        Sending = [.. write.Photos.Select(photo => KeyValuePair.Create(photo.Id.ToString(), JsonSerializer.Serialize(photo, WorkshopJson.Default.WaitingPhoto)))],
        Sent = [.. write.PhotosArrived.Concat(write.PhotosThrownAway).Select(photo => photo.ToString())],
        PhotosGone = [.. write.PhotosThrownAway.SelectMany(photo => new[] { PhotoKey(photo, isLarge: true), PhotoKey(photo, isLarge: false) })],
    };

    private static IReadOnlyList<WaitingPhoto> ReadSending(string json) => JsonSerializer.Deserialize(json, WorkshopJson.Default.IReadOnlyListWaitingPhoto) ?? [];

    /// <summary>Delivers photos whose records have arrived, one by one; changes made meanwhile go first.</summary>
    private async Task SendPhotosAsync(string email)
    {
        while (Replica.OutgoingPhoto(email) is { } photo)
        {
            DeviceWrite write;
            if (await page.PhotoAsync(PhotoKey(photo.Id, isLarge: true)).ConfigureAwait(true) is not { } bytes)
            {
                write = Replica.PhotoRefused(photo.Id, [new FieldProblem("", "its picture is no longer on this device", "")]);
            }
            else
            {
                try
                {
                    await server.PutPhotoAsync(photo.Id, bytes).ConfigureAwait(true);
                    write = Replica.PhotoArrived(photo.Id);
                }
                catch (ServerRefusalException refusal) when (refusal.Status is HttpStatusCode.BadRequest or HttpStatusCode.Forbidden or HttpStatusCode.NotFound
                    or HttpStatusCode.Conflict or HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.UnsupportedMediaType)
                {
                    write = Replica.PhotoRefused(photo.Id, refusal.Problems.Count > 0 ? refusal.Problems : [new("", refusal.Message, "")]);
                }
            }

            await WriteAsync(write).ConfigureAwait(true);
            if (Replica.Outgoing(email).Count > 0)
            {
                Wake();
                return;
            }
        }
    }
}
