using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using System.Threading.Channels;

namespace Swardloop.Server.Tests.Mail;

/// <summary>A real mail server, Debian's python3-aiosmtpd, on a free port of this machine: it takes letters of one user, refuses one domain, and tells what it took as Python's email package reads it.</summary>
internal sealed class SmtpServer : IDisposable
{
    public const string User = "bench", Password = "hedgehogs & rain";

    private const string Program =
        """
        import email, email.policy, json, socket, ssl, sys, time
        from aiosmtpd.controller import Controller
        from aiosmtpd.smtp import AuthResult, LoginPassword

        class Handler:
            async def handle_RCPT(self, server, session, envelope, address, options):
                if address.endswith("@nowhere.example"):
                    return "550 5.1.1 no such mailbox here"
                envelope.rcpt_tos.append(address)
                return "250 OK"

            async def handle_DATA(self, server, session, envelope):
                m = email.message_from_bytes(envelope.content, policy=email.policy.default)
                print(json.dumps({"mail_from": envelope.mail_from, "rcpt_tos": envelope.rcpt_tos, "tls": session.ssl is not None, "subject": m["subject"], "from": str(m["from"]), "to": str(m["to"]),
                    "id": m["message-id"], "unsent": m["x-unsent"], "defects": len(m.defects), "text": m.get_body(("plain",)).get_content(),
                    "files": [[p.get_filename(), p.get_content_type(), p.get_content()[:5].decode()] for p in m.iter_attachments()]}), flush=True)
                return "250 2.0.0 taken as 4711"

        def sign_in(server, session, envelope, mechanism, data):
            return AuthResult(success=isinstance(data, LoginPassword) and data.login == sys.argv[1].encode() and data.password == sys.argv[2].encode())

        context = None
        if len(sys.argv) > 3:
            context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
            context.load_cert_chain(sys.argv[3], sys.argv[4])
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        server = Controller(Handler(), hostname="127.0.0.1", port=port, authenticator=sign_in, auth_required=True, auth_require_tls=False, tls_context=context)
        server.start()
        print(port, flush=True)
        sys.stdin.read()
        server.stop()
        """;

    private readonly Process _process;
    private readonly Channel<JsonNode> _taken = Channel.CreateUnbounded<JsonNode>();

    private SmtpServer(Process process, int port) => (_process, Port) = (process, port);

    public int Port { get; }

    /// <summary>How many letters came that were not asked for by <see cref="TakenAsync"/>.</summary>
    public int Waiting => _taken.Reader.Count;

    /// <summary>Starts it.</summary>
    /// <param name="folder">Where to put a certificate that nobody vouches for, with which it then offers STARTTLS; null: it offers none.</param>
    public static async Task<SmtpServer> StartAsync(string? folder = null)
    {
        // Debian's own, which has what its packages bring; another one may stand before it on the path.
        ProcessStartInfo start = new(File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3") { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (string argument in (string[])["-c", Program, User, Password, .. folder is null ? [] : Certificate(folder)])
        {
            start.ArgumentList.Add(argument);
        }

        Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string? port = await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
        Assert.True(port is not null, port is null ? await errors : "");
        SmtpServer server = new(process, int.Parse(port!, CultureInfo.InvariantCulture));
        _ = server.ListenAsync();
        return server;
    }

    /// <summary>The next letter that it took.</summary>
    public async Task<JsonNode> TakenAsync()
    {
        using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        patience.CancelAfter(TimeSpan.FromMinutes(2));
        return await _taken.Reader.ReadAsync(patience.Token);
    }

    public void Dispose()
    {
        _process.StandardInput.Close();
        if (!_process.WaitForExit(TimeSpan.FromSeconds(20)))
        {
            _process.Kill();
        }

        _process.Dispose();
    }

    private async Task ListenAsync()
    {
        while (await _process.StandardOutput.ReadLineAsync() is { } line)
        {
            _taken.Writer.TryWrite(JsonNode.Parse(line)!);
        }
    }

    private static string[] Certificate(string folder)
    {
        using RSA key = RSA.Create(2048);
        CertificateRequest request = new("CN=localhost", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using X509Certificate2 made = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(7));
        (string certificate, string keyFile) = (Path.Combine(folder, "certificate.pem"), Path.Combine(folder, "key.pem"));
        File.WriteAllText(certificate, made.ExportCertificatePem());
        File.WriteAllText(keyFile, key.ExportPkcs8PrivateKeyPem());
        return [certificate, keyFile];
    }
}
