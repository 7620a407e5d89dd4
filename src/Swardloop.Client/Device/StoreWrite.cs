namespace Swardloop.Client.Device;

/// <summary>Rows to put and delete in one transaction, all as JSON texts.</summary>
/// <param name="Records">Records by id.</param>
/// <param name="Waiting">Changes that wait, by id.</param>
/// <param name="Gone">Ids of changes that wait no more.</param>
/// <param name="Kept">Single texts by name.</param>
/// <param name="News">What the other tabs are told; null for nothing.</param>
public sealed record StoreWrite(
    IReadOnlyList<KeyValuePair<string, string>> Records, IReadOnlyList<KeyValuePair<string, string>> Waiting, IReadOnlyList<string> Gone,
    IReadOnlyList<KeyValuePair<string, string>> Kept, string? News)
{
    /// <summary>Photos that wait, by id; the bytes held for them are written in the same transaction.</summary>
    public IReadOnlyList<KeyValuePair<string, string>> Sending { get; init; } = [];

    /// <summary>Ids of photos that wait no more.</summary>
    public IReadOnlyList<string> Sent { get; init; } = [];

    /// <summary>Keys of bytes of photos that a person threw away.</summary>
    public IReadOnlyList<string> PhotosGone { get; init; } = [];
}
