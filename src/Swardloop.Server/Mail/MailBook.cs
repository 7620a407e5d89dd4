using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Swardloop.Model.Cases;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Mail;

/// <summary>Keeps the workshop's mail server. Its password is protected by keys that the database holds too: it cannot be read by a look, and whoever has the database has more than that.</summary>
internal sealed class MailBook(WorkshopDatabase database, IDataProtectionProvider protection)
{
    private readonly IDataProtector _protector = protection.CreateProtector("mail server");

    /// <summary>The server that is set; null for none.</summary>
    public Task<MailServer?> FindAsync(CancellationToken cancellation) => database.MailServers.AsNoTracking().SingleOrDefaultAsync(cancellation);

    /// <summary>The password of a server; null for none, or for one that was protected by keys that are gone.</summary>
    public string? PasswordOf(MailServer server)
    {
        try
        {
            return server.Secret is null ? null : _protector.Unprotect(server.Secret);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    /// <summary>Sets the server.</summary>
    public async Task SetAsync(NewMailSettings settings, WriteTurn turn, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        MailServer? known = await database.MailServers.SingleOrDefaultAsync(cancellation);
        MailServer server = known ?? new();
        // A password is given to nobody but the server and the user it was typed for.
        bool isSame = server.Host == settings.Host && server.Port == settings.Port && server.Security == WireName.Of(settings.Security) && server.User == settings.User;
        server.Secret = settings.User is null ? null : settings.Password is { } password ? _protector.Protect(password) : isSame ? server.Secret : null;
        (server.Host, server.Port, server.Security, server.User, server.From) = (settings.Host, settings.Port, WireName.Of(settings.Security), settings.User, settings.From);
        if (known is null)
        {
            database.MailServers.Add(server);
        }

        await database.SaveChangesAsync(cancellation);
    }

    /// <summary>Forgets it.</summary>
    public async Task RemoveAsync(WriteTurn turn, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await database.MailServers.ExecuteDeleteAsync(cancellation);
    }

    /// <summary>How the way to it is kept from others.</summary>
    public static MailSecurity SecurityOf(MailServer server) => WireName.Words<MailSecurity>().Single(word => word.Key == server.Security).Value;
}
