using System.Net.Sockets;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Serving;

/// <summary>A workshop's server inside the test process, on a port of its own and data of its own.</summary>
internal sealed class Served : IAsyncDisposable
{
    public const string Password = "quiet otters sleep";

    private readonly WebApplication _app;
    private readonly IDatabaseEngine _engine;

    private Served(WebApplication app, IDatabaseEngine engine, WorkshopMark mark)
    {
        (_app, _engine) = (app, engine);
        Mark = mark;
        Address = new(app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
    }

    public Uri Address { get; }

    public WorkshopMark Mark { get; }

    public IServiceProvider Services => _app.Services;

    public static Task<Served> StartAsync(WorkshopPlace place, params IPAddress[] proxies) => StartAsync(place, null, proxies);

    /// <summary>With a clock of the test's own; null for the machine's.</summary>
    public static async Task<Served> StartAsync(WorkshopPlace place, TimeProvider? clock, params IPAddress[] proxies)
    {
        IDatabaseEngine engine = place.Engine();
        WorkshopMark mark = await place.OpenAsync(engine, CancellationToken.None);
        WebApplication app = WorkshopApp.Build(engine, mark, "http://127.0.0.1:0", clock, proxies);
        await app.StartAsync();
        return new(app, engine, mark);
    }

    /// <summary>A browser's stand-in with a cookie jar of its own.</summary>
    public HttpClient Client() => new(new SocketsHttpHandler { CookieContainer = new(), AllowAutoRedirect = false }) { BaseAddress = Address };

    /// <summary>A client signed in as a person of that role, made when not there yet.</summary>
    public async Task<HttpClient> AsAsync(Role role)
    {
        string email = $"{role}@example.org";
        await using (AsyncServiceScope scope = Services.CreateAsyncScope())
        {
            UserManager<Account> accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            if (await accounts.FindByEmailAsync(email) is null)
            {
                IdentityResult made = await accounts.CreateAsync(
                    new() { DisplayName = $"Robin {role}", UserName = email, Email = email, Role = role }, Password);
                Assert.True(made.Succeeded, string.Join("; ", made.Errors.Select(error => error.Description)));
            }
        }

        HttpClient client = Client();
        Assert.Equal(HttpStatusCode.OK, (await SignInAsync(client, email, Password)).StatusCode);
        return client;
    }

    /// <summary>Signs a client in.</summary>
    /// <param name="client">The client.</param>
    /// <param name="email">Who.</param>
    /// <param name="password">The password.</param>
    /// <param name="server">Where, for a client that has no address of its own.</param>
    /// <param name="origin">The page that asks, as a browser says it; null for none.</param>
    public static Task<HttpResponseMessage> SignInAsync(HttpClient client, string email, string password, Uri? server = null, string? origin = null)
    {
        Uri call = server is null ? new("/api/sign-in", UriKind.Relative) : new(server, "/api/sign-in");
        HttpRequestMessage request = new(HttpMethod.Post, call) { Content = Json(new SignIn(email, password), WorkshopJson.Default.SignIn) };
        if (origin is not null)
        {
            request.Headers.Add("Origin", origin);
        }

        return client.SendAsync(request);
    }

    /// <summary>Makes a workshop's first account by its code.</summary>
    public static Task<HttpResponseMessage> SignUpAsync(HttpClient client, string? code, Uri? server = null) => client.PostAsync(
        server is null ? new Uri("/api/first-account", UriKind.Relative) : new(server, "/api/first-account"),
        Json(new FirstAccount(code!, "Wren Alder", "wren@example.org", Password), WorkshopJson.Default.FirstAccount));

    /// <summary>A connection that begins at that address of this machine: to the server it is another person.</summary>
    public static SocketsHttpHandler From(string address) => new()
    {
        CookieContainer = new(),
        ConnectCallback = async (context, cancellation) =>
        {
            Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
            socket.Bind(new IPEndPoint(IPAddress.Parse(address), 0));
            await socket.ConnectAsync(context.DnsEndPoint.Host, context.DnsEndPoint.Port, cancellation);
            return new NetworkStream(socket, ownsSocket: true);
        },
    };

    public static StringContent Json<T>(T value, System.Text.Json.Serialization.Metadata.JsonTypeInfo<T> type) => Json(JsonSerializer.Serialize(value, type));

    public static StringContent Json(string json) => new(json, Encoding.UTF8, "application/json");

    public async ValueTask DisposeAsync()
    {
        await _app.StopAsync();
        await _app.DisposeAsync();
        // As when a process ends: no connection is left for the next server of the test.
        (_engine as Storage.Sqlite.SqliteEngine)?.LetGo();
    }
}
