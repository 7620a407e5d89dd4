using System.Text.Json.Serialization;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Sync;

/// <summary>What a device has to write to its own store in one transaction, and to tell its other tabs.</summary>
/// <param name="Records">Records as the server has them, newer than what was here.</param>
/// <param name="Waiting">Changes that wait, new ones or refused ones.</param>
/// <param name="Gone">Changes that the server has confirmed, or that a person threw away.</param>
/// <param name="Next">From where to ask the server for what follows; null when that stays.</param>
public sealed record DeviceWrite(
    IReadOnlyList<RecordState> Records, IReadOnlyList<WaitingChange> Waiting, IReadOnlyList<Guid> Gone, long? Next)
{
    /// <summary>Photos whose bytes wait, new ones or refused ones. New ones are written together with their bytes.</summary>
    public IReadOnlyList<WaitingPhoto> Photos { get => field ?? []; init; }

    /// <summary>Photos that the server has confirmed. Their bytes stay on the device, to be looked at.</summary>
    public IReadOnlyList<Guid> PhotosArrived { get => field ?? []; init; }

    /// <summary>Photos that a person threw away: their bytes go too.</summary>
    public IReadOnlyList<Guid> PhotosThrownAway { get => field ?? []; init; }

    /// <summary>Whether there is nothing to write.</summary>
    [JsonIgnore]
    public bool IsEmpty => Records.Count == 0 && Waiting.Count == 0 && Gone.Count == 0 && Next is null
        && Photos.Count == 0 && PhotosArrived.Count == 0 && PhotosThrownAway.Count == 0;

    /// <summary>Changes just made.</summary>
    public static DeviceWrite Made(params IReadOnlyList<WaitingChange> waiting) => new([], waiting, [], null);
}
