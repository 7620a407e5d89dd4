using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Hardening;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Keeping;

public sealed class KeepingTests
{
    [Fact]
    public async Task A_backup_made_while_served_restores_to_the_same_workshop()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        string file = Path.Combine(place.Folder, "one.backup.zip"), into = Path.Combine(place.Folder, "again");
        RecordPage before;
        Guid photo = Guid.CreateVersion7(), yard = Guid.CreateVersion7(), @case = Guid.CreateVersion7();
        await using (Served served = await Served.StartAsync(place))
        {
            using HttpClient desk = await served.AsAsync(Role.Desk);
            await desk.KeepAsync(
                Made.Yard(yard), Made.Case(@case, yard), Made.Observation(Guid.CreateVersion7(), yard, @case, """{"test":"station-lamp","value":"alarm"}"""),
                Made.Change(RecordKind.Photo, photo, new() { ["of"] = yard.ToString() }));
            Assert.Equal(HttpStatusCode.NoContent, (await desk.PutPhotoAsync(photo, Made.Picture(width: 640, height: 480))).StatusCode);
            await using AsyncServiceScope scope = served.Services.CreateAsyncScope();
            UserManager<Account> accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            Assert.True((await accounts.AddOrUpdatePasskeyAsync((await accounts.FindByEmailAsync("Desk@example.org"))!, Passkey())).Succeeded);
            before = await desk.PageAsync();
            Assert.Equal((0, ""), Run("backup", file, "--data", place.Folder));
            Assert.Equal((0, ""), Run("restore", file, "--data", into));
        }

        Assert.Equal(2, Run("restore", file, "--data", into).ExitCode);
        await using Served restored = await Served.StartAsync(new(into, null, false));
        using HttpClient again = await restored.AsAsync(Role.Desk); // the account came along: its password still opens it
        RecordPage after = await again.PageAsync();
        Assert.Equal(JsonSerializer.Serialize(before, WorkshopJson.Default.RecordPage), JsonSerializer.Serialize(after, WorkshopJson.Default.RecordPage));
        Assert.Equal("stops in the middle", Assert.Single((await again.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!.Cases).Complaint);
        Assert.Equal(HttpStatusCode.OK, (await again.GetAsync($"/api/photos/{photo}?size=small")).StatusCode);
        await using (AsyncServiceScope scope = restored.Services.CreateAsyncScope())
        {
            UserManager<Account> accounts = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            UserPasskeyInfo passkey = Assert.Single(await accounts.GetPasskeysAsync((await accounts.FindByPasskeyIdAsync(Passkey().CredentialId))!));
            Assert.Equal(JsonSerializer.Serialize(Passkey()), JsonSerializer.Serialize(passkey));
        }

        await again.KeepAsync(Made.Owner(Guid.CreateVersion7()));
        Assert.Equal(5, (await again.PageAsync(4)).Records.Single().Version);
    }

    [Fact]
    public void A_file_that_is_no_backup_is_refused_in_one_line_and_leaves_the_place_empty()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        string file = Path.Combine(place.Folder, "no.zip"), into = Path.Combine(place.Folder, "into");
        File.WriteAllText(file, "no backup at all");
        (int exitCode, string error) = Run("restore", file, "--data", into);
        Assert.Equal(2, exitCode);
        Assert.Single(error.TrimEnd('\n').Split('\n'));
        Assert.Equal(2, Run("backup", file, "--data", Path.Combine(place.Folder, "nowhere")).ExitCode);
    }

    [Fact]
    public async Task Everything_comes_out_as_open_files()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        Guid yard = Guid.CreateVersion7(), @case = Guid.CreateVersion7();
        await principal.KeepAsync(Made.Yard(yard), Made.Case(@case, yard));
        string into = Path.Combine(place.Folder, "out");
        Assert.Equal((0, ""), Run("export", "--everything", "--into", into, "--data", place.Folder));
        string file = Assert.Single(Directory.GetFiles(Path.Combine(into, "yards")));
        Assert.Equal((0, ""), Run("budget", file));
        Assert.Equal((0, ""), Run("advise", Assert.Single(Directory.GetFiles(Path.Combine(into, "cases")))));
        Assert.Equal(2, JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(into, "records.json")))!.AsArray().Count);
        using ZipArchive zip = new(await principal.GetStreamAsync("/api/export"));
        Assert.Equal(4, zip.Entries.Count);
    }

    [Fact]
    public async Task A_forgotten_owner_is_gone_from_records_and_history_and_the_physics_stay()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        (Guid owner, Guid yard, Guid @case, Guid reading, Guid other) =
            (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        Change name = Made.Owner(owner, "Tamsin Brook");
        await principal.KeepAsync(
            name, Made.Yard(yard, owner), Made.Case(@case, yard),
            Made.Change(RecordKind.Case, @case, new() { ["note"] = "Ask Tamsin for the key" }),
            Made.Observation(reading, yard, @case, """{"test":"loop-resistance","ohms":17.5,"note":"Mrs Brook held the meter"}"""),
            Made.Change(RecordKind.Owner, owner, new() { ["name"] = "Tamsin Brooke-Marsh" }, ("name", [name.Id])),
            Made.Owner(other, "Ivor Pell"));
        Assert.Equal((0, ""), Run("forget", "Tamsin Brooke-Marsh", "--yes", "--data", place.Folder));

        StringBuilder all = new();
        foreach (RecordState record in (await principal.PageAsync()).Records)
        {
            all.Append(await principal.GetStringAsync($"/api/records/{record.Id}")).Append(await principal.GetStringAsync($"/api/records/{record.Id}/history"));
        }

        all.Append(await principal.GetStringAsync("/api/bench")).Append(await principal.GetStringAsync("/api/search?q=middle"));
        foreach (string word in (string[])["Tamsin", "Brook", "Mill Lane"])
        {
            Assert.DoesNotContain(word, all.ToString(), StringComparison.OrdinalIgnoreCase);
        }

        Assert.Contains("17.5", all.ToString(), StringComparison.Ordinal);
        Assert.Contains("Ivor Pell", all.ToString(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await principal.GetAsync($"/api/cases/{@case}/file")).StatusCode);
        RecordPage news = await principal.PageAsync(7);
        Assert.Equal([8, 9, 10, 11], news.Records.Select(record => record.Version));
        Assert.Equal(HttpStatusCode.NotFound, (await principal.PostAsync($"/api/owners/{yard}/forget", Served.Json("""{"keep":[]}"""))).StatusCode);
    }

    private static UserPasskeyInfo Passkey() => new(
        [1, 2, 3], [4, 5], new DateTimeOffset(2026, 5, 14, 9, 30, 0, TimeSpan.Zero), 7, ["internal", "usb"], true, true, false, [6], [7, 8])
    { Name = "Key on the ring" };

    private static (int ExitCode, string Error) Run(params string[] arguments)
    {
        (int exitCode, _, string error) = CommandRun.Run(arguments);
        return (exitCode, error);
    }
}
