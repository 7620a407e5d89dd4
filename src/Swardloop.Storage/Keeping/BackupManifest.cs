namespace Swardloop.Storage.Keeping;

/// <summary>What is in a backup. A restore is compared with it.</summary>
/// <param name="Format"><see cref="CurrentFormat"/>, or <see cref="FirstFormat"/> of an older program.</param>
/// <param name="Workshop">Identity of the workshop's data.</param>
/// <param name="IsDemo">Whether it is the demo workshop.</param>
/// <param name="MadeAt">When it was made.</param>
/// <param name="LastVersion">Number of the last change in it.</param>
/// <param name="Accounts">How many accounts.</param>
/// <param name="Photos">How many photos.</param>
/// <param name="RecordsDigest">SHA-256 over all records in order of their ids, as <see cref="RecordsDigest.OfAsync"/> computes it.</param>
/// <param name="Hashes">SHA-256 of every other entry by its name, hexadecimal; null in the first format.</param>
public sealed record BackupManifest(
    string Format, Guid Workshop, bool IsDemo, DateTimeOffset MadeAt, long LastVersion, int Accounts, int Photos, string RecordsDigest,
    IReadOnlyDictionary<string, string>? Hashes = null)
{
    /// <summary>The format this program writes.</summary>
    public const string CurrentFormat = "swardloop-backup/2";

    /// <summary>The format before, without <see cref="Hashes"/>, which this program reads too.</summary>
    public const string FirstFormat = "swardloop-backup/1";
}
