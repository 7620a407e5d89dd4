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

    public static async Task<Served> StartAsync(WorkshopPlace place, params IPAddress[] proxies)
    {
        IDatabaseEngine engine = place.Engine();
        WorkshopMark mark = await place.OpenAsync(engine, CancellationToken.None);
        WebApplication app = WorkshopApp.Build(engine, mark, "http://127.0.0.1:0", proxies: proxies);
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
        HttpResponseMessage signedIn = await client.PostAsync("/api/sign-in", Json(new SignIn(email, Password), WorkshopJson.Default.SignIn));
        Assert.Equal(HttpStatusCode.OK, signedIn.StatusCode);
        return client;
    }

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
