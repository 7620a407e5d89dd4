using System.Diagnostics;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.RegularExpressions;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Tests.Reference;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Behind Debian's nginx with the configuration that the guide shows.</summary>
public sealed partial class ProxyTests
{
    [Fact]
    public async Task Behind_the_guides_nginx_cookies_are_secure_posts_are_ones_own_and_limits_count_each_client_alone()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite(), IPAddress.Loopback);
        using (await served.AsAsync(Role.Desk))
        {
            // The account is there.
        }

        using Nginx nginx = await Nginx.StartAsync(served.Address.Port);
        using HttpClient client = nginx.Client("127.0.0.1");
        HttpResponseMessage signedIn = await SignInAsync(client, Served.Password, nginx.Address.GetLeftPart(UriPartial.Authority));
        Assert.Equal(HttpStatusCode.OK, signedIn.StatusCode);
        string cookie = signedIn.Headers.GetValues("Set-Cookie").Single();
        Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("max-age=31536000", signedIn.Headers.GetValues("Strict-Transport-Security").Single(), StringComparison.Ordinal);
        await client.KeepAsync(Made.Owner(Guid.CreateVersion7()));

        // A page of another site stays out.
        Assert.Equal(HttpStatusCode.Forbidden, (await SignInAsync(client, Served.Password, "https://elsewhere.example")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/health")).StatusCode);

        // Guesses from one place, each said to come from another, shut that place out and no other.
        using HttpClient guesser = nginx.Client("127.0.0.2"), other = nginx.Client("127.0.0.3");
        for (int i = 0; i < 9; i++)
        {
            guesser.DefaultRequestHeaders.Remove("X-Forwarded-For");
            guesser.DefaultRequestHeaders.Add("X-Forwarded-For", $"192.0.2.{i}");
            Assert.False((await SignInAsync(guesser, "wrong wrong wrong", null)).IsSuccessStatusCode);
        }

        Assert.False((await SignInAsync(guesser, Served.Password, null)).IsSuccessStatusCode);
        Assert.Equal(HttpStatusCode.OK, (await SignInAsync(other, Served.Password, null)).StatusCode);
    }

    [Fact]
    public async Task What_somebody_else_than_the_proxy_says_of_itself_is_not_believed()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite(), IPAddress.Parse("127.0.0.77"));
        using (await served.AsAsync(Role.Desk))
        {
            // The account is there.
        }

        using HttpClient client = served.Client();
        client.DefaultRequestHeaders.Add("X-Forwarded-Proto", "https");
        client.DefaultRequestHeaders.Add("X-Forwarded-Host", "elsewhere.example");
        HttpResponseMessage signedIn = await SignInAsync(client, Served.Password, null);
        Assert.DoesNotContain("secure", signedIn.Headers.GetValues("Set-Cookie").Single(), StringComparison.OrdinalIgnoreCase);
        Assert.False(signedIn.Headers.Contains("Strict-Transport-Security"));
        Assert.Equal(HttpStatusCode.Forbidden, (await SignInAsync(client, Served.Password, "https://elsewhere.example")).StatusCode);
        for (int i = 0; i < 9; i++)
        {
            client.DefaultRequestHeaders.Remove("X-Forwarded-For");
            client.DefaultRequestHeaders.Add("X-Forwarded-For", $"192.0.2.{i}");
            Assert.False((await SignInAsync(client, "wrong wrong wrong", null)).IsSuccessStatusCode);
        }

        Assert.False((await SignInAsync(client, Served.Password, null)).IsSuccessStatusCode);
    }

    [Theory]
    [InlineData("lawns.example.org")]
    [InlineData("127.0.0.1,no")]
    public void A_proxy_that_is_no_address_is_refused_in_one_line(string proxy)
    {
        (int exitCode, _, string error) = CommandRun.Run("serve", "--behind-proxy", proxy, "--data", TestPlaces.Sqlite().Folder);
        Assert.Equal(2, exitCode);
        Assert.Contains("is no IP address", Assert.Single(error.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> SignInAsync(HttpClient client, string password, string? origin) =>
        Served.SignInAsync(client, "Desk@example.org", password, origin: origin);

    /// <summary>Debian's nginx on a port and in a folder of its own.</summary>
    private sealed partial class Nginx : IDisposable
    {
        private readonly Process _process;

        private readonly string _certificate;

        private Nginx(Process process, Uri address, string certificate) => (_process, Address, _certificate) = (process, address, certificate);

        public Uri Address { get; }

        public static async Task<Nginx> StartAsync(int port)
        {
            string folder = TestPlaces.Sqlite().Folder, program = File.Exists("/usr/sbin/nginx") ? "/usr/sbin/nginx"
                : throw new InvalidOperationException("nginx is not installed: run ./test, or install the Debian package nginx-light.");
            string shown;
            using (ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256))
            {
                CertificateRequest request = new("CN=lawns.example.org", key, HashAlgorithmName.SHA256);
                using X509Certificate2 certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
                shown = certificate.GetCertHashString();
                await File.WriteAllTextAsync(Path.Combine(folder, "chain.pem"), certificate.ExportCertificatePem());
                await File.WriteAllTextAsync(Path.Combine(folder, "key.pem"), key.ExportPkcs8PrivateKeyPem());
            }

            int own = FreePort.Next();
            string guide = await File.ReadAllTextAsync(Repository.At("docs/guide.md"));
            string server = Block().Match(guide).Groups[1].Value
                .Replace("listen 443 ssl", $"listen 127.0.0.1:{own} ssl", StringComparison.Ordinal)
                .Replace("/etc/ssl/lawns/fullchain.pem", $"{folder}/chain.pem", StringComparison.Ordinal)
                .Replace("/etc/ssl/lawns/privkey.pem", $"{folder}/key.pem", StringComparison.Ordinal)
                .Replace("127.0.0.1:5080", $"127.0.0.1:{port}", StringComparison.Ordinal);
            string config = Path.Combine(folder, "nginx.conf");
            await File.WriteAllTextAsync(config, $$"""
                daemon off;
                master_process off;
                pid {{folder}}/pid;
                error_log {{folder}}/error.log;
                events { }
                http {
                    access_log off;
                    client_body_temp_path {{folder}}/body; proxy_temp_path {{folder}}/proxy; fastcgi_temp_path {{folder}}/f; uwsgi_temp_path {{folder}}/u; scgi_temp_path {{folder}}/s;
                    {{server}}
                }
                """);
            Process process = Process.Start(new ProcessStartInfo(program, ["-p", folder, "-c", config, "-e", $"{folder}/error.log"]) { RedirectStandardError = true })!;
            for (int attempt = 0; attempt < 600 && !process.HasExited; attempt++)
            {
                try
                {
                    using TcpClient there = new();
                    await there.ConnectAsync(IPAddress.Loopback, own);
                    return new(process, new($"https://127.0.0.1:{own}"), shown);
                }
                catch (SocketException)
                {
                    await Task.Delay(100);
                }
            }

            throw new InvalidOperationException($"nginx does not start: {await File.ReadAllTextAsync(Path.Combine(folder, "error.log"))}");
        }

        /// <summary>A client that asks from an address of its own.</summary>
        public HttpClient Client(string from)
        {
            SocketsHttpHandler handler = Served.From(from);
            handler.SslOptions = new() { RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == _certificate };
            return new(handler) { BaseAddress = Address };
        }

        public void Dispose()
        {
            _process.Kill();
            _process.WaitForExit();
            _process.Dispose();
        }

        [GeneratedRegex(@"```nginx\n(.*?)```", RegexOptions.Singleline)]
        private static partial Regex Block();
    }
}
