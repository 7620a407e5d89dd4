using System.Globalization;
using Swardloop.Client.Cases;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Device;

/// <content>Photos that are fetched before they are looked at: those of today's visits and of pinned yards.</content>
public sealed partial class ThisDevice
{
    private const string PinnedYards = "pinned-yards";

    /// <summary>Yards that a person pinned on this device.</summary>
    public IReadOnlyCollection<Guid> Pinned =>
        [.. (page.Remembered(PinnedYards) ?? "").Split(' ').Select(id => Guid.TryParse(id, out Guid yard) ? yard : Guid.Empty).Where(yard => yard != Guid.Empty)];

    /// <summary>Yards with a visit today that is not done.</summary>
    public IReadOnlyCollection<Guid> VisitedToday =>
        [.. BenchList.Visits(Replica, DateOnly.FromDateTime(Now.DateTime), 0).Select(visit => visit.Reference("yard")).OfType<Guid>().Distinct()];

    /// <summary>Pins a yard, or lets it go.</summary>
    public void Pin(Guid yard, bool isPinned)
    {
        string[] pinned = [.. Pinned.Where(each => each != yard).Concat(isPinned ? [yard] : []).Select(each => each.ToString())];
        page.Remember(PinnedYards, pinned.Length == 0 ? null : string.Join(' ', pinned));
        Changed?.Invoke();
        Wake();
    }

    /// <summary>Photos whose pictures are on this device.</summary>
    public async Task<IReadOnlyList<KeptPhoto>> PhotosHereAsync() =>
    [
        .. (await page.PhotoSizesAsync().ConfigureAwait(true)).Select(line => line.Split(' '))
            .Select(parts => (Photo: Guid.Parse(parts[0]), Bytes: double.Parse(parts[2], CultureInfo.InvariantCulture)))
            .GroupBy(one => one.Photo, (photo, sizes) => new KeptPhoto(photo, sizes.Sum(size => size.Bytes))),
    ];

    /// <summary>Photos of a yard.</summary>
    public IEnumerable<RecordState> PhotosOf(Guid yard) => Replica.OfYard(yard, RecordKind.Photo).Where(photo => !photo.Flag("archived"));

    /// <summary>Removes pictures of yards that are not taken along. Those that wait stay.</summary>
    public async Task DropOtherPhotosAsync()
    {
        HashSet<Guid> stay = [.. TakenAlong().Concat(Replica.WaitingPhotos.Select(waiting => waiting.Id))];
        await page.DropPhotosAsync([.. (await PhotosHereAsync().ConfigureAwait(true)).Where(here => !stay.Contains(here.Photo))
            .SelectMany(here => new[] { PhotoKey(here.Photo, isLarge: true), PhotoKey(here.Photo, isLarge: false) })]).ConfigureAwait(true);
        Room = await page.RoomAsync().ConfigureAwait(true);
        Changed?.Invoke();
    }

    private IEnumerable<Guid> TakenAlong() => VisitedToday.Concat(Pinned).Distinct().SelectMany(PhotosOf).Select(photo => photo.Id);

    /// <summary>Fetches what is to be taken along and not here, until something is to be sent or the room ends.</summary>
    private async Task TakePhotosAlongAsync(string email)
    {
        Guid[] wanted = [.. TakenAlong()];
        if (wanted.Length == 0)
        {
            return;
        }

        HashSet<string> here = [.. (await page.PhotoSizesAsync().ConfigureAwait(true)).Select(line => line[..line.LastIndexOf(' ')])];
        foreach ((Guid photo, bool isLarge) in wanted.SelectMany(photo => new[] { (photo, false), (photo, true) }).Where(each => !here.Contains(PhotoKey(each.Item1, each.Item2))))
        {
            if (Room is { IsNearlyFull: true } || Replica.Outgoing(email).Count > 0)
            {
                return;
            }

            try
            {
                await page.KeepPhotoAsync(PhotoKey(photo, isLarge), await server.PhotoAsync(photo, isLarge).ConfigureAwait(true)).ConfigureAwait(true);
            }
            catch (ServerRefusalException)
            {
                continue; // its picture has not arrived at the workshop yet
            }

            Room = await page.RoomAsync().ConfigureAwait(true);
            Changed?.Invoke();
        }
    }
}
