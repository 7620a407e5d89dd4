namespace Swardloop.Storage.Keeping;

/// <summary>First entry of a backup: what is in it. A restore is compared with it.</summary>
/// <param name="Format">Always <see cref="CurrentFormat"/>.</param>
/// <param name="Workshop">Identity of the workshop's data.</param>
/// <param name="IsDemo">Whether it is the demo workshop.</param>
/// <param name="MadeAt">When it was made.</param>
/// <param name="LastVersion">Number of the last change in it.</param>
/// <param name="Accounts">How many accounts.</param>
/// <param name="Photos">How many photos.</param>
/// <param name="RecordsDigest">SHA-256 over all records in order of their ids, as <see cref="RecordsDigest.OfAsync"/> computes it.</param>
public sealed record BackupManifest(
    string Format, Guid Workshop, bool IsDemo, DateTimeOffset MadeAt, long LastVersion, int Accounts, int Photos, string RecordsDigest)
{
    /// <summary>The format this program writes and reads.</summary>
    public const string CurrentFormat = "swardloop-backup/1";
}
