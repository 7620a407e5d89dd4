using System.Net.Sockets;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Mail;

/// <summary>Hands a letter to the workshop's mail server (SMTP, RFC 5321) and says what that answered. Sent means that it said so.</summary>
internal static class MailSending
{
    private const int PatienceMilliseconds = 30_000, MostAnswerCharacters = 300;

    /// <summary>Sends.</summary>
    /// <param name="server">By which server.</param>
    /// <param name="password">Its password; null for none.</param>
    /// <param name="message">The letter.</param>
    /// <param name="cancellation">Gives up before the letter is handed over.</param>
    public static async Task<SheetSent> SendAsync(MailServer server, string? password, MimeMessage message, CancellationToken cancellation)
    {
        using SmtpClient client = new() { Timeout = PatienceMilliseconds };
        bool isReached = false;
        try
        {
            await client.ConnectAsync(server.Host, server.Port, OptionsOf(MailBook.SecurityOf(server)), cancellation);
            isReached = true;
            if (server.User is { } user)
            {
                await client.AuthenticateAsync(user, password ?? "", cancellation);
            }
        }
        catch (AuthenticationException fault)
        {
            return Not(MailFault.SignIn, fault);
        }
        catch (Exception fault) when (fault is SocketException or IOException or SslHandshakeException or ProtocolException or CommandException or NotSupportedException
            or TimeoutException or OperationCanceledException && !cancellation.IsCancellationRequested)
        {
            // Some hang up on a wrong password.
            return Not(isReached ? MailFault.SignIn : MailFault.Unreachable, fault);
        }

        try
        {
            string answer = await client.SendAsync(message, cancellation);
            await client.DisconnectAsync(quit: true, CancellationToken.None);
            return new(true, null, OneLine(answer));
        }
        catch (CommandException fault)
        {
            return Not(MailFault.Refused, fault);
        }
        catch (Exception fault) when (fault is SocketException or IOException or ProtocolException or TimeoutException)
        {
            return Not(MailFault.Unreachable, fault);
        }
    }

    private static SecureSocketOptions OptionsOf(MailSecurity security) => security switch
    {
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        MailSecurity.None => SecureSocketOptions.None,
        _ => throw new ArgumentOutOfRangeException(nameof(security), security, "Not a way to a mail server."),
    };

    private static SheetSent Not(MailFault fault, Exception why) => new(false, fault, OneLine(why.Message));

    private static string OneLine(string text)
    {
        string line = string.Concat(text.ReplaceLineEndings(" ").Where(c => !char.IsControl(c))).Trim();
        return line.Length > MostAnswerCharacters ? line[..MostAnswerCharacters] : line;
    }
}
