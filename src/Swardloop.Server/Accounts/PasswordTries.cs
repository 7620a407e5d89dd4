using System.Collections.Concurrent;
using Microsoft.AspNetCore.Identity;
using Swardloop.Storage;

namespace Swardloop.Server.Accounts;

/// <summary>Lets passwords be tried: each try with the same work, whether there is such an account or not; from one place, only so many wrong ones;
/// and from everywhere together, ever slower. Strangers who guess shut themselves out and nobody else.</summary>
internal sealed class PasswordTries : IDisposable
{
    /// <summary>Wrong tries for one account from one place after which that place has to wait for <see cref="ShutFor"/>.</summary>
    public const int MostFromOnePlace = 8;

    // From here on every try for the account waits, twice as long with each further wrong one, up to the longest.
    private const int FreeFromEverywhere = 20;
    private const int MostRemembered = 100_000;

    /// <summary>How long a place waits.</summary>
    public static TimeSpan ShutFor { get; } = TimeSpan.FromMinutes(10);

    private static readonly TimeSpan ShortestWait = TimeSpan.FromSeconds(0.25), LongestWait = TimeSpan.FromSeconds(4);

    private readonly ConcurrentDictionary<string, Count> _wrong = new(StringComparer.Ordinal);
    // Comparing takes a processor for a tenth of a second: no more at a time than there are processors.
    private readonly SemaphoreSlim _free = new(Environment.ProcessorCount, Environment.ProcessorCount);
    private readonly IPasswordHasher<Account> _hasher;
    private readonly string _nobodys;
    private readonly TimeProvider _clock;

    /// <summary>Nothing was tried yet.</summary>
    public PasswordTries(IPasswordHasher<Account> hasher, TimeProvider clock)
    {
        (_hasher, _clock) = (hasher, clock);
        _nobodys = hasher.HashPassword(new(), Guid.NewGuid().ToString());
    }

    /// <summary>Tries a password.</summary>
    /// <param name="email">The address typed.</param>
    /// <param name="account">Its account; null when there is none.</param>
    /// <param name="password">The password typed.</param>
    /// <param name="place">From where; see <see cref="ClientAddress"/>.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>Whether it opens the account.</returns>
    public async Task<bool> TryAsync(string email, Account? account, string password, string place, CancellationToken cancellation)
    {
        string name = email.ToUpperInvariant(), here = $"{name}\n{place}";
        if (Wrong(name) - FreeFromEverywhere is > 0 and var over)
        {
            TimeSpan wait = ShortestWait * Math.Pow(2, Math.Min(over - 1, 10));
            await Task.Delay(wait < LongestWait ? wait : LongestWait, cancellation);
        }

        await _free.WaitAsync(cancellation);
        PasswordVerificationResult result;
        try
        {
            result = await Task.Run(() => _hasher.VerifyHashedPassword(account ?? new(), account?.PasswordHash ?? _nobodys, password), cancellation);
        }
        finally
        {
            _free.Release();
        }

        DateTimeOffset now = _clock.GetUtcNow();
        bool isGood = account?.PasswordHash is not null && result != PasswordVerificationResult.Failed && Wrong(here) < MostFromOnePlace
            && !(account.LockoutEnd > now) && !(account.PasswordUntil < now);
        if (isGood)
        {
            _wrong.TryRemove(here, out _);
        }
        else
        {
            Add(name);
            Add(here);
        }

        return isGood;
    }

    /// <inheritdoc/>
    public void Dispose() => _free.Dispose();

    // By a clock that nobody sets: one set forward would open, one set back would shut for days.
    private int Wrong(string key) => _wrong.TryGetValue(key, out Count? count) && _clock.GetElapsedTime(count.Since) < ShutFor ? count.Number : 0;

    private void Add(string key)
    {
        if (_wrong.Count >= MostRemembered)
        {
            foreach ((string old, Count count) in _wrong)
            {
                if (_clock.GetElapsedTime(count.Since) >= ShutFor)
                {
                    _wrong.TryRemove(old, out _);
                }
            }

            if (_wrong.Count >= MostRemembered)
            {
                _wrong.Clear(); // more than any workshop's people ever type: a flood, which the limits on requests slow down
            }
        }

        int before = Wrong(key);
        _wrong[key] = new(before + 1, _clock.GetTimestamp());
    }

    private sealed record Count(int Number, long Since);
}
