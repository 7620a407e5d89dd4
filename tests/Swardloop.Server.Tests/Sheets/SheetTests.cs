using System.Diagnostics;
using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Cli;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Sheets;

/// <summary>Sheets over HTTP: the command line's own, in every form; letters read back by Python's email package (RFC 5322, RFC 2045), which knows nothing of us.</summary>
public sealed class SheetTests
{
    private readonly Guid _owner = Guid.CreateVersion7(), _yard = Guid.CreateVersion7(), _case = Guid.CreateVersion7();

    [Theory]
    [InlineData("found", "en")]
    [InlineData("acceptance", "de")]
    [InlineData("work", "de")]
    [InlineData("quote", "en")]
    public async Task A_sheet_of_a_case_is_the_command_lines(string kind, string language)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served);
        byte[] file = await desk.GetByteArrayAsync($"/api/cases/{_case}/file");
        string folder = Directory.CreateTempSubdirectory("swardloop-test-").FullName, pdf = Path.Combine(folder, "sheet.pdf"), html = Path.Combine(folder, "sheet.html");
        Assert.Equal("", Cli(file, "sheet", kind, "-", "--language", language, "--pdf", pdf, "--html", html).Error);
        Assert.Equal(Cli(file, "sheet", kind, "-", "--language", language).Output, await desk.GetStringAsync($"/api/cases/{_case}/sheets/{kind}?form=text&language={language}"));
        Assert.Equal(await File.ReadAllBytesAsync(pdf), await desk.GetByteArrayAsync($"/api/cases/{_case}/sheets/{kind}?form=pdf&language={language}"));
        using HttpResponseMessage page = await desk.GetAsync($"/api/cases/{_case}/sheets/{kind}?form=html&language={language}");
        Assert.Equal(await File.ReadAllTextAsync(html), await page.Content.ReadAsStringAsync());
        string policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'none'; style-src 'unsafe-inline';", policy, StringComparison.Ordinal);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Cli(file, "sheet", kind, "-", "--language", language, "--json").Output), JsonNode.Parse(await desk.GetStringAsync($"/api/cases/{_case}/sheets/{kind}?language={language}"))));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Workshop_tax_and_signature_of_the_records_stand_on_the_sheets()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        await principal.KeepAsync(
            Made.Change(RecordKind.Workshop, Ids.Workshop, new() { ["name"] = "Heron Lawns", ["email"] = "bench@heron.example", ["phone"] = "01632 960 777" }),
            Made.Change(RecordKind.Rates, Ids.Rates, new() { ["taxPercent"] = 19 }));
        byte[] unsigned = await desk.GetByteArrayAsync($"/api/cases/{_case}/sheets/acceptance?form=pdf");
        await desk.KeepAsync(Made.Change(RecordKind.Case, _case, new() { ["acceptedBy"] = "Odo Quillfeather <b>", ["acceptedAt"] = "2026-05-14T09:30:00+02:00", ["acceptedMark"] = "10,20 30,40 55,61;60,60" }));
        string text = await desk.GetStringAsync($"/api/cases/{_case}/sheets/acceptance?form=text&language=de");
        Assert.Contains("Heron Lawns", text, StringComparison.Ordinal);
        Assert.Contains("Odo Quillfeather <b>, 14.05.2026", text, StringComparison.Ordinal);
        string html = await desk.GetStringAsync($"/api/cases/{_case}/sheets/acceptance?form=html");
        Assert.Contains("<polyline points=\"10,20 30,40 55,61\"", html, StringComparison.Ordinal);
        Assert.Contains("Odo Quillfeather &lt;b&gt;, 14 May 2026", html, StringComparison.Ordinal);
        Assert.Contains("19", await desk.GetStringAsync($"/api/cases/{_case}/sheets/quote?form=text"), StringComparison.Ordinal);

        Assert.NotEqual(unsigned, await desk.GetByteArrayAsync($"/api/cases/{_case}/sheets/acceptance?form=pdf"));
    }

    [Fact]
    public async Task A_letter_is_read_back_by_an_outside_reader_with_its_text_its_pdf_and_its_addresses()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        await principal.KeepAsync(Made.Change(RecordKind.Workshop, Ids.Workshop, new() { ["name"] = "Reiher Gärten", ["email"] = "werkbank@reiher.example" }));
        using HttpResponseMessage answer = await desk.GetAsync($"/api/cases/{_case}/sheets/found?form=eml&language=de");
        Assert.Equal("message/rfc822", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("found-sorrel-corner.eml", answer.Content.Headers.ContentDisposition!.FileName);
        byte[] letter = await answer.Content.ReadAsByteArrayAsync();
        Assert.DoesNotContain(Encoding.Latin1.GetString(letter).Split("\r\n"), line => line.Length > 998 || line.Contains('\n', StringComparison.Ordinal));
        JsonNode read = await PythonAsync(
            """
            import email, email.policy, json, sys
            m = email.message_from_bytes(sys.stdin.buffer.read(), policy=email.policy.default)
            parts = list(m.iter_attachments())
            print(json.dumps({"subject": m["subject"], "from": str(m["from"]), "to": str(m["to"]), "unsent": m["x-unsent"], "date": m["date"].datetime.year, "defects": len(m.defects),
                "text": m.get_body(("plain",)).get_content(), "files": [[p.get_filename(), p.get_content_type(), p.get_content()[:5].decode(), len(p.get_content())] for p in parts]}))
            """,
            letter);
        Assert.Equal("Reiher Gärten <werkbank@reiher.example>", (string?)read["from"]);
        Assert.Equal("Tamsin Grün <tamsin@example.org>", (string?)read["to"]);
        Assert.EndsWith(": Sorrel Corner", (string?)read["subject"], StringComparison.Ordinal);
        Assert.Equal(("1", 0), ((string?)read["unsent"], (int)read["defects"]!));
        string text = await desk.GetStringAsync($"/api/cases/{_case}/sheets/found?form=text&language=de");
        Assert.Equal(text.Trim(), ((string)read["text"]!).Replace("\r\n", "\n", StringComparison.Ordinal).Trim());
        JsonArray pdf = Assert.Single((JsonArray)read["files"]!)!.AsArray();
        Assert.Equal(("found-sorrel-corner.pdf", "application/pdf", "%PDF-"), ((string?)pdf[0], (string?)pdf[1], (string?)pdf[2]));
        Assert.Equal((await desk.GetByteArrayAsync($"/api/cases/{_case}/sheets/found?form=pdf&language=de")).Length, (int)pdf[3]!);
    }

    [Theory]
    [InlineData("poem", "", "kind")]
    [InlineData("found", "?form=docx", "form")]
    [InlineData("found", "?language=fr", "language")]
    [InlineData("found", "?units=miles", "units")]
    public async Task What_is_not_known_is_refused_with_what_is_allowed(string kind, string query, string place)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served);
        using HttpResponseMessage answer = await desk.GetAsync($"/api/cases/{_case}/sheets/{kind}{query}");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(place, (string?)JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["problems"]![0]!["place"]);
    }

    [Fact]
    public async Task A_yard_alone_has_sheets_too()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served);
        Assert.StartsWith("%PDF-", Encoding.Latin1.GetString(await desk.GetByteArrayAsync($"/api/yards/{_yard}/sheets/acceptance?form=pdf&units=feet")), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/api/yards/{_case}/sheets/acceptance")).StatusCode);
    }

    private async Task<HttpClient> MadeAsync(Served served)
    {
        HttpClient desk = await served.AsAsync(Role.Desk);
        await desk.KeepAsync(
            Made.Change(RecordKind.Owner, _owner, new() { ["name"] = "Tamsin Grün", ["email"] = "tamsin@example.org" }), Made.Yard(_yard, _owner), Made.Case(_case, _yard),
            Made.Observation(Guid.CreateVersion7(), _yard, _case, """{"test":"loop-resistance","ohms":184,"leadOhms":0.3,"at":"2026-05-14T09:00:00+02:00"}"""));
        return desk;
    }

    private static (string Output, string Error) Cli(byte[] file, params string[] arguments)
    {
        using MemoryStream input = new(file), output = new(), error = new();
        _ = Shell.Run(arguments, new Terminal(() => input, () => output, () => error));
        return (Encoding.UTF8.GetString(output.ToArray()), Encoding.UTF8.GetString(error.ToArray()));
    }

    private static async Task<JsonNode> PythonAsync(string program, byte[] input)
    {
        ProcessStartInfo start = new("python3") { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add(program);
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.StandardInput.BaseStream.WriteAsync(input, TestContext.Current.CancellationToken);
        process.StandardInput.Close();
        return JsonNode.Parse(await output)!;
    }
}
