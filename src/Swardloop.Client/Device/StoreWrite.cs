namespace Swardloop.Client.Device;

/// <summary>Rows to put and delete in one transaction, all as JSON texts.</summary>
/// <param name="Records">Records by id.</param>
/// <param name="Waiting">Changes that wait, by id.</param>
/// <param name="Gone">Ids of changes that wait no more.</param>
/// <param name="Kept">Single texts by name.</param>
/// <param name="News">What the other tabs are told; null for nothing.</param>
public sealed record StoreWrite(
    IReadOnlyList<KeyValuePair<string, string>> Records, IReadOnlyList<KeyValuePair<string, string>> Waiting, IReadOnlyList<string> Gone,
    IReadOnlyList<KeyValuePair<string, string>> Kept, string? News);
