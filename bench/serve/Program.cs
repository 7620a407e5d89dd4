// How many reads of the bench list the server answers in a workshop of 2,000 yards and 5,000 cases, beside a bare endpoint that answers as
// many bytes, in the same process and the same minute; and how long a read takes at half of that load. Loopback only.
// With "attack": how long reads take while pictures made to harm arrive, and what memory the server takes.
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Swardloop.Bench.Serve;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

const int Connections = 16, Rounds = 5;
const string Email = "robin@swardloop.example", Password = "otters like brambles";
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
string examples = args[0];
string folder = Directory.CreateTempSubdirectory("swardloop-bench-").FullName;
try
{
    WorkshopPlace place = new(folder, null, IsDemo: false);
    IDatabaseEngine engine = place.Engine();
    WorkshopMark mark = await place.OpenAsync(engine, CancellationToken.None);
    await BusyWorkshop.FillAsync(engine, examples);
    if (args is [_, "attack", ..])
    {
        (engine as Swardloop.Storage.Sqlite.SqliteEngine)?.LetGo();
        return await Attack.RunAsync(folder, examples);
    }

    await using WebApplication app = WorkshopApp.Build(engine, mark, "http://127.0.0.1:0");
    await app.StartAsync();
    string cookie = await SignInAsync(app);

    // What the list answers, headers and all, the bare endpoint answers too.
    using HttpClient client = new() { BaseAddress = new(app.Urls.First()) };
    client.DefaultRequestHeaders.Add("Cookie", cookie);
    using HttpResponseMessage sample = await client.GetAsync(new Uri("/api/bench", UriKind.Relative));
    sample.EnsureSuccessStatusCode();
    byte[] body = await sample.Content.ReadAsByteArrayAsync();
    KeyValuePair<string, string>[] headers = [.. sample.Headers.Concat(sample.Content.Headers)
        .Where(header => header.Key is not ("Date" or "Content-Length")).Select(header => KeyValuePair.Create(header.Key, string.Join(", ", header.Value)))];
    await using WebApplication bare = Bare(body, headers);
    await bare.StartAsync();

    Load list = new(new(app.Urls.First()), "/api/bench", cookie), plain = new(new(bare.Urls.First()), "/", cookie);
    await plain.MeasureAsync(Connections, TimeSpan.FromSeconds(3));
    await list.MeasureAsync(Connections, TimeSpan.FromSeconds(3));
    List<double> bares = [], lists = [];
    for (int round = 0; round < Rounds; round++)
    {
        bares.Add(await plain.MeasureAsync(Connections, TimeSpan.FromSeconds(3)));
        lists.Add(await list.MeasureAsync(Connections, TimeSpan.FromSeconds(3)));
    }

    double ofBare = Median(bares), ofList = Median(lists);
    Bench bench = JsonSerializer.Deserialize(body, Swardloop.Workshop.WorkshopJson.Default.Bench)!;
    Console.WriteLine($"Workshop of {BusyWorkshop.Yards:N0} yards and {BusyWorkshop.Cases:N0} cases, {BusyWorkshop.OpenCases} of them open: the list shows {bench.Cases.Count} cases, {bench.Visits.Count} visits, {bench.Quiet.Count} quiet yards, {body.Length:N0} bytes.");
    Console.WriteLine($"SQLite. Client, server and bare endpoint in one process; {Connections} connections; median of {Rounds} rounds of 3 s, turn about.");
    Console.WriteLine();
    Console.WriteLine($"bare endpoint, the same bytes and headers   {ofBare,8:F0} answers/s   ({string.Join(" ", bares.Select(one => $"{one:F0}"))})");
    Console.WriteLine($"GET /api/bench, signed in                   {ofList,8:F0} answers/s   ({string.Join(" ", lists.Select(one => $"{one:F0}"))})");
    Console.WriteLine($"share                                       {100 * ofList / ofBare,8:F0} %           at least 30 % promised");

    double[] waits = await list.PacedAsync(Connections, ofList / 2, TimeSpan.FromSeconds(10));
    Array.Sort(waits);
    Console.WriteLine();
    Console.WriteLine($"At half that load, {ofList / 2:F0} answers/s for 10 s, from the moment a read was due to its last byte:");
    Console.WriteLine($"median {waits[waits.Length / 2]:F2} ms, p99 {waits[waits.Length * 99 / 100]:F2} ms (less than 50 ms promised), longest {waits[^1]:F1} ms");

    long start = Stopwatch.GetTimestamp();
    await using (AsyncServiceScope scope = app.Services.CreateAsyncScope())
    {
        WorkshopDatabase database = scope.ServiceProvider.GetRequiredService<WorkshopDatabase>();
        Guid one = await database.Cases.Where(line => !line.IsOpen).Select(line => line.Case).FirstAsync();
        await app.Services.GetRequiredService<Journal>().TakeInAsync(
            BusyWorkshop.Change(RecordKind.Case, one, new { note = "otters" }), "", new("Robin Thimble", Role.Desk), CancellationToken.None);
    }

    using HttpResponseMessage after = await client.GetAsync(new Uri("/api/bench", UriKind.Relative));
    long version = JsonSerializer.Deserialize(await after.Content.ReadAsByteArrayAsync(), Swardloop.Workshop.WorkshopJson.Default.Bench)!.Version;
    Console.WriteLine();
    Console.WriteLine($"One change and the list made anew: {Stopwatch.GetElapsedTime(start).TotalMilliseconds:F0} ms (list of change {bench.Version}, then of {version})");
    bool isMet = ofList >= 0.3 * ofBare && waits[waits.Length * 99 / 100] < 50 && version == bench.Version + 1;
    Console.WriteLine(isMet ? "Promises kept." : "PROMISES NOT KEPT.");
    await app.StopAsync();
    return isMet ? 0 : 1;
}
finally
{
    Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
    Directory.Delete(folder, recursive: true);
}

static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

static async Task<string> SignInAsync(WebApplication app)
{
    await using (AsyncServiceScope scope = app.Services.CreateAsyncScope())
    {
        IdentityResult made = await scope.ServiceProvider.GetRequiredService<UserManager<Account>>()
            .CreateAsync(new() { DisplayName = "Robin Thimble", UserName = Email, Email = Email, Role = Role.Desk }, Password);
        if (!made.Succeeded)
        {
            throw new InvalidOperationException(string.Join("; ", made.Errors.Select(error => error.Description)));
        }
    }

    using SocketsHttpHandler handler = new() { UseCookies = false };
    using HttpClient client = new(handler) { BaseAddress = new(app.Urls.First()) };
    using StringContent who = new(JsonSerializer.Serialize(new SignIn(Email, Password), Swardloop.Workshop.WorkshopJson.Default.SignIn), System.Text.Encoding.UTF8, "application/json");
    using HttpResponseMessage answer = await client.PostAsync(new Uri("/api/sign-in", UriKind.Relative), who);
    answer.EnsureSuccessStatusCode();
    return answer.Headers.GetValues("Set-Cookie").First().Split(';')[0];
}

static WebApplication Bare(byte[] body, KeyValuePair<string, string>[] headers)
{
    WebApplicationBuilder builder = WebApplication.CreateSlimBuilder();
    builder.Logging.ClearProviders();
    builder.WebHost.UseUrls("http://127.0.0.1:0");
    builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
    WebApplication bare = builder.Build();
    bare.MapGet("/", (HttpContext context) =>
    {
        foreach ((string name, string value) in headers)
        {
            context.Response.Headers[name] = value;
        }

        context.Response.ContentLength = body.Length;
        return context.Response.Body.WriteAsync(body).AsTask();
    });
    return bare;
}
