using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Device;

/// <content>All that the server has not confirmed, as a file to carry to another device.</content>
public sealed partial class ThisDevice
{
    /// <summary>Whether anything waits that the file would hold.</summary>
    public bool HasUnsent => Replica.Waiting.Count > 0 || Replica.WaitingPhotos.Count > 0;

    /// <summary>Every change and photo that the server has not confirmed, also what it refused and what the store did not take.</summary>
    /// <returns>The file; how many photos are not in it, because their pictures cannot be read here.</returns>
    public async Task<(UnsentFile File, int PhotosMissing)> UnsentAsync()
    {
        Guid[] waiting = [.. Replica.WaitingPhotos.Select(photo => photo.Id)];
        List<UnsentPhoto> photos = [];
        foreach (Guid id in waiting)
        {
            if (await ReadableAsync(id, isLarge: true).ConfigureAwait(true) is { } large)
            {
                photos.Add(new(id, large, await ReadableAsync(id, isLarge: false).ConfigureAwait(true)));
            }
        }

        return (new(new([.. Replica.Waiting.Select(change => change.Change)]) { Workshop = Me?.Workshop }, photos), waiting.Length - photos.Count);
    }

    /// <summary>Gives the person a file of everything unsent.</summary>
    /// <returns>How many photos could not be read and are not in it.</returns>
    public async Task<int> SaveUnsentAsync()
    {
        (UnsentFile file, int missing) = await UnsentAsync().ConfigureAwait(true);
        page.SaveFile(file.Name, file.MediaType, file.ToBytes());
        return missing;
    }

    /// <summary>Takes in a file of what was unsent, of this device or another. What is known here already stays as it is; the server takes each
    /// change and each photo once, however often it comes.</summary>
    /// <param name="file">The file's bytes.</param>
    /// <exception cref="System.Text.Json.JsonException">It is no such file.</exception>
    /// <exception cref="InvalidDataException">It is a damaged file, or a ZIP of something else.</exception>
    /// <exception cref="OtherWorkshopException">It is of another workshop, the demo for instance.</exception>
    /// <exception cref="Exception">The store did not take a photo. What came before it is taken in; the rest is when the file comes again.</exception>
    public async Task<UnsentTakenIn> TakeInAsync(byte[] file)
    {
        UnsentFile unsent = UnsentFile.Read(file);
        if (unsent.Batch.Workshop is { } made && Me is { } me && made != me.Workshop)
        {
            throw new OtherWorkshopException();
        }

        HashSet<Guid> known = [.. Replica.Waiting.Select(waiting => waiting.Change.Id)];
        Change[] taken = [.. unsent.Batch.Changes.Where(change => !HasArrived(change) && known.Add(change.Id))];
        await KeepAsync(taken).ConfigureAwait(true);

        HashSet<Guid> comeAlong = [.. unsent.Batch.Changes.Select(change => change.Record)];
        UnsentPhoto[] photos = [.. unsent.Photos.Where(photo => comeAlong.Contains(photo.Id) || Replica[photo.Id] is not null)];
        int photosTaken = 0;
        foreach (UnsentPhoto photo in photos)
        {
            // A picture that is here and does not wait has arrived at the server, or came from there.
            if (!Replica.IsPhotoWaiting(photo.Id) && await page.PhotoAsync(PhotoKey(photo.Id, isLarge: true)).ConfigureAwait(true) is null)
            {
                await KeepPhotoAsync(photo).ConfigureAwait(true);
                photosTaken++;
            }
        }

        Wake();
        return new(taken.Length, unsent.Batch.Changes.Count, photosTaken, unsent.Photos.Count, unsent.Photos.Count - photos.Length);
    }

    // One whose value somebody has changed since is not seen to have arrived; it goes out again, and the server takes it once.
    private bool HasArrived(Change change) =>
        Replica[change.Record] is { } record && change.Set.Keys.Any(field => record[field].Ids.Contains(change.Id));

    private async Task KeepPhotoAsync(UnsentPhoto photo)
    {
        page.HoldPhoto(PhotoKey(photo.Id, isLarge: true), photo.Large);
        if (photo.Small is { } small)
        {
            page.HoldPhoto(PhotoKey(photo.Id, isLarge: false), small);
        }

        await WriteAsync(new DeviceWrite([], [], [], null) { Photos = [new(photo.Id, Me?.Name ?? "", Me?.Email ?? "")] }).ConfigureAwait(true);
    }

    private async Task<byte[]?> ReadableAsync(Guid photo, bool isLarge)
    {
        try
        {
            return await page.PhotoAsync(PhotoKey(photo, isLarge)).ConfigureAwait(true);
        }
#pragma warning disable CA1031 // Whatever a broken store says: the rest must still get into the file, and the person is told what did not.
        catch (Exception)
#pragma warning restore CA1031
        {
            return null;
        }
    }
}
