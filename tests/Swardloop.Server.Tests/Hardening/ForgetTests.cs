using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Nothing of a forgotten owner is left behind: in records, history, files, photos, links, or what devices bring later.</summary>
public abstract class ForgetTests
{
    private static readonly string[] Secrets =
    [
        "Quillfeather", "quill@example.org", "01632 960 777", "Larkspur Rise", "crossbeam gate", "behind the aviary", "knock twice", "two spaniels",
        "uncle Osric", "parrot", "Brunhild", "hedgehog house", "51.7539184", "Quillfeathers", "aunt Petronella", "01632960778",
    ];

    private protected abstract Task<WorkshopPlace> NewPlaceAsync();

    [Fact]
    public async Task Nothing_of_a_forgotten_owner_is_left_in_records_history_links_photos_or_an_outbox_that_comes_late()
    {
        WorkshopPlace place = await NewPlaceAsync();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        Story story = await StoryAsync(principal);

        ForgetPreview preview = (await principal.GetFromJsonAsync($"/api/owners/{story.Owner}/forget", WorkshopJson.Default.ForgetPreview))!;
        Assert.All(Secrets.Except(["01632 960 777"]), secret => Assert.Contains(preview.Texts, text => text.Text.Contains(secret, StringComparison.OrdinalIgnoreCase)));
        Assert.Equal((2, 1), (preview.Photos, preview.Links));
        Assert.Contains(preview.Texts, text => text.IsElsewhere);
        Assert.DoesNotContain(preview.Texts, text => text.Text.Contains("Ivor", StringComparison.Ordinal));
        string kept = Assert.Single(preview.Texts, text => text.Text == "three turns of tape").Key, keptNote = Assert.Single(preview.Texts, text => text.Text == "nothing of wire or fork").Key;

        HttpResponseMessage done = await principal.PostAsync($"/api/owners/{story.Owner}/forget", Served.Json(new ForgetRequest([kept, keptNote, $"{story.Owner}/name"]), WorkshopJson.Default.ForgetRequest));
        Assert.Equal(HttpStatusCode.OK, done.StatusCode);
        ForgetReport report = (await done.Content.ReadFromJsonAsync(WorkshopJson.Default.ForgetReport))!;
        Assert.Equal((2, 1, 2), (report.Photos, report.Links, report.Kept));
        Assert.InRange(report.Texts, Secrets.Length, 60);
        Assert.Empty(report.Files);

        string all = await EverythingAsync(principal);
        Assert.All(Secrets, secret => Assert.DoesNotContain(secret, all, StringComparison.OrdinalIgnoreCase));
        Assert.DoesNotContain("1632960778", all, StringComparison.Ordinal);
        Assert.All((string[])["17.5", "three turns of tape", "nothing of wire or fork", "Ivor Pell", "Fennel Court", "his own hedge"], left => Assert.Contains(left, all, StringComparison.Ordinal));
        // The reading on the guide wire is on the same one still, whatever it is called now.
        HttpResponseMessage left = await principal.GetAsync($"/api/cases/{story.Case}/file");
        Assert.Equal(HttpStatusCode.OK, left.StatusCode);
        JsonNode file = JsonNode.Parse(await left.Content.ReadAsStringAsync())!;
        string guide = file["yard"]!["guides"]![0]!["name"]!.GetValue<string>();
        Assert.Contains(file["observations"]!.AsArray(), seen => seen!["wire"]?.GetValue<string>() == guide);

        using HttpClient owner = served.Client();
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync(story.Link)).StatusCode);
        Assert.All(story.Photos, photo => Assert.Equal(HttpStatusCode.NotFound, principal.GetAsync($"/api/photos/{photo}").Result.StatusCode));
        Assert.All(story.Photos, photo => Assert.Equal(HttpStatusCode.Gone, principal.PutPhotoAsync(photo).Result.StatusCode));

        // A telephone comes out of the cellar with what was written before: texts are refused, the reading is taken.
        IReadOnlyList<ChangeResult> late = await principal.SendAsync(
            Made.Change(RecordKind.Yard, story.Yard, new() { ["note"] = "knock twice" }),
            Made.Observation(Guid.CreateVersion7(), story.Yard, story.Case, """{"test":"station-lamp","value":"normal","note":"the parrot says hello"}"""),
            Made.Change(RecordKind.Visit, Guid.CreateVersion7(), new() { ["yard"] = story.Yard.ToString(), ["on"] = "2026-05-20", ["note"] = "two spaniels" }),
            Made.Change(RecordKind.Photo, Guid.CreateVersion7(), new() { ["of"] = story.Case.ToString() }),
            Made.Change(RecordKind.Owner, story.Owner, new() { ["phone"] = "ask uncle Osric" }),
            Made.Observation(Guid.CreateVersion7(), story.Yard, story.Case, """{"test":"loop-resistance","ohms":18.25}"""));
        Assert.Equal([.. Enumerable.Repeat(ChangeStatus.Refused, 5), ChangeStatus.Kept], late.Select(result => result.Status));
        Assert.Equal("the person was forgotten after this was written", late[0].Problems[0].Message);
        Assert.Equal(ChangeStatus.Refused, (await principal.SendAsync(Made.Change(RecordKind.Owner, story.Owner, new() { ["forgottenAt"] = null })))[0].Status);
        string after = await EverythingAsync(principal);
        Assert.All(Secrets, secret => Assert.DoesNotContain(secret, after, StringComparison.OrdinalIgnoreCase));
        await AfterAsync(place, served);
    }

    private protected virtual Task AfterAsync(WorkshopPlace place, Served served) => Task.CompletedTask;

    private protected static void NothingIn(byte[] bytes, string where)
    {
        string text = Encoding.Latin1.GetString(bytes);
        Assert.All(Secrets, secret => Assert.False(text.Contains(secret, StringComparison.OrdinalIgnoreCase), $"{secret} is still in {where}"));
    }

    private static async Task<string> EverythingAsync(HttpClient principal)
    {
        StringBuilder all = new();
        foreach (RecordState record in (await principal.PageAsync()).Records)
        {
            all.Append(await principal.GetStringAsync($"/api/records/{record.Id}")).Append(await principal.GetStringAsync($"/api/records/{record.Id}/history"));
        }

        foreach (string call in (string[])["/api/bench", "/api/search?q=quill", "/api/search?q=larkspur", "/api/search?q=0163296"])
        {
            all.Append(await principal.GetStringAsync(call));
        }

        foreach (string call in (string[])["/api/backup", "/api/export"])
        {
            using ZipArchive zip = new(new MemoryStream(await principal.GetByteArrayAsync(call)));
            foreach (ZipArchiveEntry entry in zip.Entries.Where(entry => entry.FullName.EndsWith("json", StringComparison.Ordinal) || entry.FullName.EndsWith("jsonl", StringComparison.Ordinal)))
            {
                using StreamReader text = new(entry.Open());
                all.Append(entry.FullName).Append(await text.ReadToEndAsync(TestContext.Current.CancellationToken));
            }
        }

        return all.ToString();
    }

    private static async Task<Story> StoryAsync(HttpClient principal)
    {
        (Guid owner, Guid yard, Guid sold, Guid next, Guid @case, Guid soldCase, Guid reading, Guid visit, Guid other, Guid otherYard) = (
            Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(),
            Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        Guid[] photos = [Guid.CreateVersion7(), Guid.CreateVersion7()];
        JsonObject file = Made.YardFile.DeepClone().AsObject();
        file["datum"] = new JsonObject { ["latitude"] = 51.7539184, ["longitude"] = 5.3 };
        file["metal"] = new JsonArray(new JsonObject { ["kind"] = "crossbeam gate", ["path"] = new JsonArray(new JsonArray(1, 1), new JsonArray(2, 2)) });
        file["riskSpots"] = new JsonArray(new JsonObject { ["fromM"] = 3, ["toM"] = 5, ["kind"] = "behind the aviary", ["weight"] = 5 });
        file["extra"] = new JsonObject { ["whoLivesThere"] = "uncle Osric", ["kind"] = "parrot", ["aunt Petronella"] = 1 };
        file["bell"] = new JsonArray("01632960778", 1632960778);
        file["guides"] = new JsonArray(new JsonObject { ["name"] = "to aunt Petronella's shed", ["joinsAtM"] = 5, ["path"] = new JsonArray(new JsonArray(2, 2), new JsonArray(4, 4)) });
        Change ofSold = Made.Yard(sold, owner);
        Change name = Made.Owner(owner, "Odo Quillfeather");
        await principal.KeepAsync(
            name, Made.Owner(next, "Ivor Pell"),
            Made.Change(RecordKind.Owner, owner, new() { ["email"] = "quill@example.org", ["address"] = "1 Larkspur Rise" }),
            Made.Change(RecordKind.Owner, owner, new() { ["phone"] = "01632 960 777" }, ("phone", [name.Id])),
            Made.Change(RecordKind.Yard, yard, new() { ["name"] = "Larkspur Rise", ["owner"] = owner.ToString(), ["file"] = file, ["note"] = "knock twice" }),
            Made.Case(@case, yard),
            Made.Change(RecordKind.Case, @case, new() { ["found"] = "three turns of tape", ["assignedTo"] = "Brunhild" }),
            Made.Observation(reading, yard, @case, """{"test":"loop-resistance","ohms":17.5,"note":"two spaniels","shouted":"uncle Osric","aunt Petronella":7}"""),
            Made.Observation(Guid.CreateVersion7(), yard, @case, """{"test":"look","wire":"to aunt Petronella's shed","fromM":0,"toM":2,"value":"nothing","note":"nothing of wire or fork"}"""),
            Made.Change(RecordKind.Visit, visit, new() { ["yard"] = yard.ToString(), ["on"] = "2026-05-15", ["who"] = "Brunhild" }),
            // A yard that was the person's and was sold: what was written then goes, what the next owner wrote stays.
            ofSold, Made.Change(RecordKind.Case, soldCase, new() { ["yard"] = sold.ToString(), ["complaint"] = "the parrot barks at it" }),
            Made.Change(RecordKind.Yard, sold, new() { ["note"] = "the hedgehog house stands there" }),
            Made.Change(RecordKind.Yard, sold, new() { ["owner"] = next.ToString(), ["name"] = "Fennel Court" }, ("owner", [ofSold.Id]), ("name", [ofSold.Id])),
            Made.Change(RecordKind.Case, other, new() { ["yard"] = sold.ToString(), ["complaint"] = "stops at his own hedge" }),
            // Somebody else's yard, in which the name stands in another form.
            Made.Change(RecordKind.Yard, otherYard, new() { ["name"] = "Neighbour", ["owner"] = next.ToString(), ["file"] = Made.YardFile.DeepClone(), ["note"] = "next to the Quillfeathers" }),
            Made.Change(RecordKind.Photo, photos[0], new() { ["of"] = owner.ToString(), ["caption"] = "Odo Quillfeather" }),
            Made.Change(RecordKind.Photo, photos[1], new() { ["of"] = @case.ToString() }));
        foreach (Guid photo in photos)
        {
            Assert.Equal(HttpStatusCode.NoContent, (await principal.PutPhotoAsync(photo)).StatusCode);
        }

        return new(owner, yard, @case, await principal.LinkAsync(yard, @case), photos);
    }

    private sealed record Story(Guid Owner, Guid Yard, Guid Case, string Link, Guid[] Photos);
}

/// <summary>In a SQLite file, of which nothing may be left in freed pages or the log of changes either.</summary>
public sealed class SqliteForgetTests : ForgetTests
{
    private protected override Task<WorkshopPlace> NewPlaceAsync() => Task.FromResult(TestPlaces.Sqlite());

    private protected override Task AfterAsync(WorkshopPlace place, Served served)
    {
        foreach (string file in Directory.EnumerateFiles(place.Folder, "workshop.db*"))
        {
            using FileStream stream = new(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            using MemoryStream bytes = new();
            stream.CopyTo(bytes);
            NothingIn(bytes.ToArray(), Path.GetFileName(file));
        }

        return Task.CompletedTask;
    }

    [Fact]
    public async Task The_console_shows_what_would_go_and_erases_it_only_when_told_to()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        Guid owner = Guid.CreateVersion7();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        await principal.KeepAsync(Made.Owner(owner, "Odo Quillfeather"), Made.Yard(Guid.CreateVersion7(), owner));
        (int exitCode, string output, _) = CommandRun.Run("forget", "Odo Quillfeather", "--data", place.Folder);
        Assert.Equal(0, exitCode);
        Assert.Contains($"{owner}/name: Odo Quillfeather (always)", output, StringComparison.Ordinal);
        Assert.Contains("nothing is erased yet", output, StringComparison.Ordinal);
        Assert.Contains("Quillfeather", await principal.GetStringAsync($"/api/records/{owner}"), StringComparison.Ordinal);

        (exitCode, output, _) = CommandRun.Run("forget", owner.ToString(), "--yes", "--data", place.Folder);
        Assert.Equal(0, exitCode);
        Assert.Contains("backups made before", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Quillfeather", await principal.GetStringAsync($"/api/records/{owner}"), StringComparison.Ordinal);
    }
}

/// <summary>In PostgreSQL.</summary>
public sealed class PostgresForgetTests(PostgresServer postgres) : ForgetTests, IClassFixture<PostgresServer>
{
    private protected override Task<WorkshopPlace> NewPlaceAsync() => postgres.NewPlaceAsync();

    private protected override async Task AfterAsync(WorkshopPlace place, Served served)
    {
        // The files of its tables: dropped ones are cut off when the server writes its next checkpoint.
        await postgres.CheckpointAsync(place);
        foreach (string file in postgres.TableFiles())
        {
            NothingIn(await File.ReadAllBytesAsync(file), file);
        }
    }
}
