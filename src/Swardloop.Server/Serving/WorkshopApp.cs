using System.Net;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Swardloop.Server.Accounts;
using Swardloop.Server.Advising;
using Swardloop.Server.BenchList;
using Swardloop.Server.Changes;
using Swardloop.Server.Events;
using Swardloop.Server.Files;
using Swardloop.Server.Input;
using Swardloop.Server.Keeping;
using Swardloop.Server.Mail;
using Swardloop.Server.OwnersPage;
using Swardloop.Server.Photos;
using Swardloop.Server.Practising;
using Swardloop.Server.Records;
using Swardloop.Server.Search;
using Swardloop.Server.Sheets;
using Swardloop.Server.Watching;
using Swardloop.Storage;
using Swardloop.Storage.Keeping;
using Swardloop.Workshop;

namespace Swardloop.Server.Serving;

/// <summary>Puts the web app together.</summary>
internal static class WorkshopApp
{
    /// <summary>Largest body of a request (bytes), photos aside.</summary>
    public const int MostBodyBytes = 16 * 1024 * 1024;

    /// <summary>Builds the app; nothing runs yet.</summary>
    /// <param name="engine">The database; open and up to date.</param>
    /// <param name="mark">What it is.</param>
    /// <param name="urls">Where to listen.</param>
    /// <param name="clock">The time; null for the machine's.</param>
    /// <param name="proxies">Reverse proxies whose word on who asks and how is taken; null for none.</param>
    public static WebApplication Build(IDatabaseEngine engine, WorkshopMark mark, string urls, TimeProvider? clock = null, IReadOnlyList<IPAddress>? proxies = null)
    {
        (engine as Storage.Sqlite.SqliteEngine)?.HoldOn();
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(WorkshopApp).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
            EnvironmentName = Environments.Production,
        });
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseUrls(urls);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MostBodyBytes;
        });
        builder.Logging.ClearProviders();
        builder.Logging.AddSimpleConsole(console => console.SingleLine = true);
        builder.Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(
            console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // It warns that the keys lie in the database as they are. They do: who can read the database has the data without them.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        // Why it cannot start, the command says itself, in one line.
        builder.Logging.AddFilter("Microsoft.Extensions.Hosting", LogLevel.None);

        IServiceCollection services = builder.Services;
        services.AddSingleton(clock ?? TimeProvider.System);
        services.AddSingleton(engine);
        services.AddSingleton(new ServedWorkshop(mark.Workshop, mark.IsDemo));
        services.AddSingleton<ChangeNews>();
        services.AddSingleton<WriteTurn>();
        services.AddSingleton<Journal>();
        services.AddSingleton<Forgetting>();
        services.AddPooledDbContextFactory<WorkshopDatabase>(engine.Configure);
        services.AddScoped(provider => provider.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContext());
        IDataProtectionBuilder keys = services.AddDataProtection().SetApplicationName("swardloop").PersistKeysToDbContext<WorkshopDatabase>();
        if (OperatingSystem.IsWindows())
        {
            // The one platform that keeps keys for a program. Elsewhere the rights of folder and file keep them, and a session's row has to be there too.
            keys.ProtectKeysWithDpapi(protectToLocalMachine: true);
        }

        services.ConfigureHttpJsonOptions(json => json.SerializerOptions.TypeInfoResolverChain.Insert(0, WorkshopJson.Default));
        services.AddExceptionHandler<Faults>();
        services.AddProblemDetails();
        services.AddHostedService<NewsFromOtherServers>();
        services.AddHostedService<Upkeep>();
        services.AddSingleton<PhotoWork>();
        services.AddSingleton<ComputingQueue>();
        services.AddSingleton<BenchReader>();
        services.AddSingleton<WorkshopPriors>();
        services.AddScoped<PracticeBook>();
        services.AddScoped<MailBook>();
        services.AddSingleton<SendingTurn>();
        services.AddAccounts(mark.IsDemo);
        services.AddOwnersPage();
        services.AddOpenApi("v1", api => api.AddOperationTransformer<ApiExamples>());

        WebApplication app = builder.Build();
        if (proxies is { Count: > 0 })
        {
            app.UseForwardedHeaders(ProxyHeaders.From(proxies));
        }

        app.UseExceptionHandler();
        app.UseStatusCodePages(Faults.OfStatusAsync);
        app.Use(SecurityHeaders.AddAsync);
        app.Use(OwnPagesOnly.CheckAsync);
        app.UseRouting();
        app.Use(WrongForm.AnswerAsync);
        app.UseRateLimiter();
        app.UseAuthentication();
        app.UseAuthorization();

        app.MapOpenApi("/openapi/{documentName}.json").RequireAuthorization(Rule.Read);
        RouteGroupBuilder api = app.MapGroup("/api");
        api.MapAccounts();
        api.MapChanges();
        api.MapRecords();
        api.MapFiles();
        api.MapBench();
        api.MapSearch();
        api.MapAdvice();
        api.MapEvents();
        api.MapPhotos();
        api.MapKeeping();
        api.MapPractice();
        api.MapSheets();
        api.MapWatch();
        api.MapMail();
        // Reading only: an address that knows another method or media type has to say so itself.
        api.MapGet("{*path}", Faults.NoSuchCall).AllowAnonymous().ExcludeFromDescription().WithOrder(int.MaxValue);
        app.MapGet("/health", HealthAsync).AllowAnonymous().ExcludeFromDescription();
        app.MapOwnersPage();
        app.MapStaticAssets().AllowAnonymous();
        // The page names its files without their hashes: asked again each time, it never mixes two builds.
        app.MapFallbackToFile("index.html", new StaticFileOptions { OnPrepareResponse = page => page.Context.Response.Headers.CacheControl = "no-cache" })
            .AllowAnonymous();
        return app;
    }

    /// <summary>For whatever watches over the server: whether it answers and its database is there. Tells strangers nothing else.</summary>
    private static async Task<IResult> HealthAsync(HttpContext context, WorkshopDatabase database, IDatabaseEngine engine, CancellationToken cancellation)
    {
        context.Response.Headers.CacheControl = "no-store";
        try
        {
            return await database.Mark.AnyAsync(cancellation)
                ? Results.Text("healthy\n")
                : Results.Text("unhealthy\n", statusCode: StatusCodes.Status503ServiceUnavailable);
        }
        catch (Exception fault) when (engine.WordsFor(fault) is not null)
        {
            return Results.Text("unhealthy\n", statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }
}
