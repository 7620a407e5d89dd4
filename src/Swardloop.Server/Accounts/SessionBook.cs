using System.Buffers.Text;
using System.Collections.Concurrent;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using Swardloop.Storage;

namespace Swardloop.Server.Accounts;

/// <summary>Who is signed in where. A cookie names its session's row and opens nothing when the row says that the session is over, when the person
/// was locked, or when the role or password changed: at once on this server, within seconds on others of the workshop, whatever the clock says.</summary>
internal sealed class SessionBook(IDbContextFactory<WorkshopDatabase> databases, WriteTurn turn, TimeProvider clock, IOptions<IdentityOptions> identity)
{
    /// <summary>Claim: the session's id, a point, and its secret.</summary>
    public const string Claim = "session";

    private const int SecretBytes = 16, MostCharactersOfDevice = 120, MostKept = 200;

    /// <summary>How soon what another server did counts here.</summary>
    public static TimeSpan KnownFor { get; } = TimeSpan.FromSeconds(5);

    private static readonly TimeSpan SeenEvery = TimeSpan.FromMinutes(5);

    private readonly ConcurrentDictionary<Guid, Known> _known = new();

    /// <summary>Begins a session.</summary>
    /// <returns>What the claim says.</returns>
    public async Task<string> BeginAsync(Guid account, string? userAgent, CancellationToken cancellation)
    {
        byte[] secret = RandomNumberGenerator.GetBytes(SecretBytes);
        DateTimeOffset now = clock.GetUtcNow();
        Session session = new()
        {
            Id = Guid.CreateVersion7(now),
            Account = account,
            SecretHash = HashOf(secret),
            Device = DeviceOf(userAgent),
            StartedAt = now,
            SeenAt = now,
        };
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        List<Guid> old = await database.Sessions.Where(one => one.Account == account).OrderByDescending(one => one.Id).Skip(MostKept).Select(one => one.Id).ToListAsync(cancellation);
        await database.Sessions.Where(one => old.Contains(one.Id)).ExecuteDeleteAsync(cancellation);
        database.Sessions.Add(session);
        await database.SaveChangesAsync(cancellation);
        return $"{session.Id:N}.{Base64Url.EncodeToString(secret)}";
    }

    /// <summary>Whether a person's cookie still opens anything.</summary>
    public async ValueTask<bool> IsGoodAsync(ClaimsPrincipal person, CancellationToken cancellation)
    {
        if (!TryRead(person, out Guid id, out string hash) || person.FindFirstValue(identity.Value.ClaimsIdentity.SecurityStampClaimType) is not { } stamp)
        {
            return false;
        }

        if (!_known.TryGetValue(id, out Known? known) || clock.GetElapsedTime(known.At) > KnownFor)
        {
            known = await LookAsync(id, cancellation);
            if (_known.Count > 10_000)
            {
                _known.Clear();
            }

            _known[id] = known;
        }

        return known.IsOpen && CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(known.SecretHash), Encoding.ASCII.GetBytes(hash))
            && string.Equals(known.Stamp, stamp, StringComparison.Ordinal);
    }

    /// <summary>The session of a cookie; null for none.</summary>
    public static Guid? IdOf(ClaimsPrincipal person) => TryRead(person, out Guid id, out _) ? id : null;

    /// <summary>Ends sessions.</summary>
    /// <param name="account">Whose; null for anybody's.</param>
    /// <param name="session">Which; null for all of the person.</param>
    /// <param name="cancellation">Gives up before anything is written.</param>
    /// <returns>How many were ended.</returns>
    public async Task<int> EndAsync(Guid? account, Guid? session, CancellationToken cancellation)
    {
        DateTimeOffset now = clock.GetUtcNow();
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        int count = await database.Sessions
            .Where(one => (account == null || one.Account == account) && (session == null || one.Id == session) && one.EndedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(one => one.EndedAt, now), cancellation);
        _known.Clear();
        return count;
    }

    /// <summary>Looks again before the next answer: a person's role, password or lock changed.</summary>
    public void LookAgain() => _known.Clear();

    private async Task<Known> LookAsync(Guid id, CancellationToken cancellation)
    {
        long at = clock.GetTimestamp();
        DateTimeOffset now = clock.GetUtcNow();
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        var found = await (
            from session in database.Sessions.AsNoTracking()
            where session.Id == id
            join account in database.Users.AsNoTracking() on session.Account equals account.Id
            select new { Session = session, account.LockoutEnd, account.SecurityStamp }).FirstOrDefaultAsync(cancellation);
        if (found is null || found.Session.EndedAt is not null || found.LockoutEnd > now)
        {
            return new(false, "", null, at);
        }

        if ((now - found.Session.SeenAt).Duration() > SeenEvery)
        {
            using IDisposable mine = await turn.TakeAsync(cancellation);
            await database.Sessions.Where(one => one.Id == id).ExecuteUpdateAsync(set => set.SetProperty(one => one.SeenAt, now), cancellation);
        }

        return new(true, found.Session.SecretHash, found.SecurityStamp, at);
    }

    private static bool TryRead(ClaimsPrincipal person, out Guid id, out string hash)
    {
        (id, hash) = (default, "");
        if (person.FindFirstValue(Claim) is not { } text || text.Split('.') is not [var name, var secret]
            || !Guid.TryParseExact(name, "N", out id) || !Base64Url.IsValid(secret))
        {
            return false;
        }

        hash = HashOf(Base64Url.DecodeFromChars(secret));
        return true;
    }

    private static string HashOf(byte[] secret) => Convert.ToHexStringLower(SHA256.HashData(secret));

    private static string DeviceOf(string? userAgent)
    {
        string text = string.Concat((userAgent ?? "").Where(c => !char.IsControl(c)));
        return text.Length > MostCharactersOfDevice ? text[..MostCharactersOfDevice] : text;
    }

    private sealed record Known(bool IsOpen, string SecretHash, string? Stamp, long At);
}
