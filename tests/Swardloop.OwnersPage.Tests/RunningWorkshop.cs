using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Owners;
using Swardloop.Workshop.Records;

namespace Swardloop.OwnersPage.Tests;

/// <summary>The real server on a folder of its own and a port that the system chose, with one yard, one case and one link.</summary>
public sealed class RunningWorkshop : IAsyncLifetime
{
    private static readonly Author Desk = new("Robin Reed", Role.Desk), Principal = new("Robin Reed", Role.Principal);

    private readonly string _folder = Directory.CreateTempSubdirectory("swardloop-owner-").FullName;
    private WebApplication? _app;

    /// <summary>Where it is.</summary>
    public string Root { get; private set; } = "";

    /// <summary>What it logged.</summary>
    internal LogLines Log { get; } = new();

    /// <summary>The yard.</summary>
    public Guid Yard { get; } = Guid.CreateVersion7();

    /// <summary>The server's services.</summary>
    public IServiceProvider Services => _app!.Services;

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        WorkshopPlace place = new(_folder, null, IsDemo: false);
        IDatabaseEngine engine = place.Engine();
        _app = WorkshopApp.Build(engine, await place.OpenAsync(engine, CancellationToken.None), "http://127.0.0.1:0");
        _app.Services.GetRequiredService<ILoggerFactory>().AddProvider(Log);
        await _app.StartAsync();
        Root = _app.Urls.Single();
        await TakeInAsync(Principal, RecordKind.Workshop, Ids.Workshop, new { name = "Otter & Loop", phone = "+44 1632 960 011" });
        byte[] file = await File.ReadAllBytesAsync(Path.Combine(RepositoryRoot(), "examples", "sorrel-corner.yard.json"));
        await TakeInAsync(Desk, RecordKind.Yard, Yard, new { name = "Sorrel Corner", file = JsonDocument.Parse(file).RootElement });
    }

    /// <summary>A client that follows no redirect, as if it were a browser of its own.</summary>
    public HttpClient Client() => new(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = new(Root) };

    /// <summary>A new case.</summary>
    public async Task<Guid> CaseAsync(string complaint = "Stops in the middle of the lawn")
    {
        Guid id = Guid.CreateVersion7();
        await TakeInAsync(Desk, RecordKind.Case, id, new { yard = Yard, complaint, state = "open" });
        return id;
    }

    /// <summary>A new link to a case.</summary>
    /// <returns>The link's record and the page's path.</returns>
    public async Task<(Guid Link, string Path)> LinkAsync(Guid @case, string? ask = null, string language = "en", TimeSpan? validFor = null)
    {
        OwnerAddress address = OwnerAddress.Make(Guid.CreateVersion7(), RandomNumberGenerator.GetBytes(OwnerAddress.SecretBytes));
        await TakeInAsync(Desk, RecordKind.OwnerLink, address.Link, new
        {
            @case,
            yard = Yard,
            secretHash = address.SecretHash,
            expiresAt = DateTimeOffset.UtcNow + (validFor ?? TimeSpan.FromDays(14)),
            language,
            ask,
        });
        return (address.Link, "/o/" + address.ToPath());
    }

    /// <summary>Withdraws a link.</summary>
    public Task RevokeAsync(Guid link) => TakeInAsync(Desk, RecordKind.OwnerLink, link, new { revoked = true });

    /// <summary>Sets fields as somebody who had seen nothing of them before, or the value of one.</summary>
    public async Task SetAsync(RecordKind kind, Guid record, object set, string? replace = null)
    {
        await using WorkshopDatabase database = await Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContextAsync();
        RecordState before = Journal.StateOf(await database.Records.AsNoTracking().SingleAsync(one => one.Id == record));
        Dictionary<string, JsonElement> fields = JsonSerializer.SerializeToElement(set).EnumerateObject().ToDictionary(field => field.Name, field => field.Value);
        await Services.GetRequiredService<Journal>().TakeInAsync(
            new(Guid.CreateVersion7(), kind, record, fields,
                replace is null ? new Dictionary<string, IReadOnlyList<Guid>>() : new Dictionary<string, IReadOnlyList<Guid>> { [replace] = before[replace].Ids }, DateTimeOffset.UtcNow),
            "", Desk, CancellationToken.None);
    }

    /// <summary>The records of a kind that belong to a case, in the order in which they came.</summary>
    public async Task<IReadOnlyList<RecordState>> RecordsAsync(RecordKind kind, Guid @case)
    {
        await using WorkshopDatabase database = await Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContextAsync();
        List<StoredRecord> stored = await database.Records.AsNoTracking().Where(record => record.Kind == kind).OrderBy(record => record.Version).ToListAsync();
        return [.. stored.Select(Journal.StateOf).Where(record => record.Reference("case") == @case || record.Reference("of") == @case)];
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.StopAsync();
            await _app.DisposeAsync();
        }

        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    private async Task TakeInAsync(Author author, RecordKind kind, Guid record, object set)
    {
        Dictionary<string, JsonElement> fields = JsonSerializer.SerializeToElement(set).EnumerateObject()
            .Where(field => field.Value.ValueKind != JsonValueKind.Null).ToDictionary(field => field.Name, field => field.Value);
        ChangeResult result = await Services.GetRequiredService<Journal>().TakeInAsync(
            new(Guid.CreateVersion7(), kind, record, fields, new Dictionary<string, IReadOnlyList<Guid>>(), DateTimeOffset.UtcNow), "", author, CancellationToken.None);
        Assert.True(result.Status == ChangeStatus.Kept, string.Join(" | ", result.Problems));
    }

    private static string RepositoryRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Swardloop.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("The tests do not run inside the repository.");
    }
}
