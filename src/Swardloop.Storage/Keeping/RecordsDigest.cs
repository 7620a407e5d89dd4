using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;

namespace Swardloop.Storage.Keeping;

/// <summary>A fingerprint of all records: equal when two workshops hold the same.</summary>
public static class RecordsDigest
{
    /// <summary>Computes it: SHA-256 over id, number and JSON of every record, in order of the ids.</summary>
    public static async Task<string> OfAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        // Databases order ids differently; here they are ordered as the program does it.
        List<Guid> ids = await database.Records.Select(record => record.Id).ToListAsync(cancellation);
        ids.Sort();
        foreach (Guid[] some in ids.Chunk(500))
        {
            List<StoredRecord> records = await database.Records.AsNoTracking().Where(record => some.Contains(record.Id)).ToListAsync(cancellation);
            foreach (StoredRecord record in records.OrderBy(record => record.Id))
            {
                hash.AppendData(Encoding.UTF8.GetBytes($"{record.Id} {record.Version} {record.Json}\n"));
            }
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
