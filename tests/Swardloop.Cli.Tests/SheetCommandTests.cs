using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace Swardloop.Cli.Tests;

/// <summary>Sheets as people get them. PDFs are read back by pdftotext and pdfinfo (Debian: poppler-utils), which know nothing of us.</summary>
public sealed class SheetCommandTests
{
    private static readonly string[] Kinds = ["found", "acceptance", "work", "quote"];
    private static readonly string Case = Repository.At("examples/marram-reach.case.json"), Yard = Repository.At("examples/marram-reach.yard.json");

    // A long name, no picture worth the name (a narrow lawn), twelve joints with long words for their places.
    private static string Hard()
    {
        string joints = string.Join(", ", Enumerable.Range(1, 12).Select(i => $$"""{ "atM": {{20 * i}}, "style": "twisted" }"""));
        return $$"""
            { "format": "swardloop-yard/1", "name": "Hausgemeinschaft Untere Quendelbreite und Obere Sauerampferhalde, Grundstuecksgemeinschaft Nordwestecke",
              "loop": { "path": [[60,0],[120,0],[120,10],[0,10],[0,0],[60,0]], "conductor": { "material": "copper", "areaMm2": 1.5 }, "joints": [ {{joints}} ] } }
            """;
    }

    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    public void Every_kind_is_a_pdf_whose_text_others_read_whole(string language)
    {
        foreach (string kind in Kinds)
        {
            string pdf = Path.GetTempFileName();
            CliRun run = CliRun.Of("sheet", kind, Case, "--language", language, "--pdf", pdf, "--json");
            Assert.Equal((0, ""), (run.ExitCode, run.Error));
            string text = Squeezed(Read("pdftotext", "-layout", pdf, "-")), info = Read("pdfinfo", pdf);
            using JsonDocument sheet = JsonDocument.Parse(run.Output);
            Assert.Contains($"{sheet.RootElement.GetProperty("title").GetString()}: Marram Reach", info, StringComparison.Ordinal);
            Assert.Contains("A4", info, StringComparison.Ordinal);
            foreach (JsonElement block in sheet.RootElement.GetProperty("blocks").EnumerateArray())
            {
                foreach (string name in new[] { "heading", "paragraph" })
                {
                    if (block.TryGetProperty(name, out JsonElement words))
                    {
                        // Words stand in order; a page's foot may stand between two lines, so each line's worth is looked for.
                        Assert.All(words.GetString()!.Split(' ', StringSplitOptions.RemoveEmptyEntries), word => Assert.Contains(Squeezed(word), text, StringComparison.Ordinal));
                    }
                }
            }

            Assert.Contains($"/Lang ({language})", Encoding.Latin1.GetString(File.ReadAllBytes(pdf)), StringComparison.Ordinal);
            File.Delete(pdf);
        }
    }

    [Fact]
    public void Same_case_gives_the_same_bytes()
    {
        string first = Path.GetTempFileName(), second = Path.GetTempFileName();
        Assert.Equal(0, CliRun.Of("sheet", "found", Case, "--pdf", first).ExitCode);
        Assert.Equal(0, CliRun.Of("sheet", "found", Case, "--pdf", second).ExitCode);
        Assert.Equal(File.ReadAllBytes(first), File.ReadAllBytes(second));
        File.Delete(first);
        File.Delete(second);
    }

    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    public void Twelve_joints_and_a_long_name_are_all_there(string language)
    {
        string pdf = Path.GetTempFileName();
        CliRun run = CliRun.WithInput(Hard(), "sheet", "acceptance", "-", "--language", language, "--feet", "--pdf", pdf);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        string text = Read("pdftotext", "-layout", pdf, "-");
        Assert.Contains("Sauerampferhalde", text, StringComparison.Ordinal);
        string style = language == "de" ? "verdrillt" : "twisted";
        Assert.Equal(12, text.Split(style).Length - 1);
        Assert.Contains(language == "de" ? "787,4" : "787.4", text, StringComparison.Ordinal); // joint 12: 240 m in feet
        File.Delete(pdf);
    }

    [Fact]
    public void Yard_alone_and_standard_input_will_do()
    {
        CliRun run = CliRun.WithInput(File.ReadAllText(Yard), "sheet", "acceptance", "-");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains("not measured", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_of_a_quote_are_a_table_that_adds_up()
    {
        string csv = Path.GetTempFileName();
        Assert.Equal(0, CliRun.Of("sheet", "quote", Case, "--csv", csv, "--tax", "19", "--round", "0.05").ExitCode);
        string[] rows = File.ReadAllText(csv).TrimEnd().Split("\r\n");
        Assert.Equal("kind,text,quantity,unit,unitPrice,amount,tax,currency", rows[0]);
        decimal Amount(string row) => decimal.Parse(row.Split(',')[^3], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(Amount(rows[^4]), rows.Where(row => row.StartsWith("line,", StringComparison.Ordinal)).Sum(Amount));
        Assert.Equal(Amount(rows[^1]), Amount(rows[^4]) + Amount(rows[^3]) + Amount(rows[^2]));
        File.Delete(csv);
    }

    [Theory]
    [InlineData("KIND", "invoice", "--language", "en")]
    [InlineData("--language", "found", "--language", "fr")]
    [InlineData("--round", "quote", "--round", "0.333")]
    public void Wrong_argument_is_refused_in_one_line(string place, string kind, string option, string value) =>
        Assert.StartsWith($"swardloop sheet: {place}: ", CliRun.Of("sheet", kind, Case, option, value).RefusedLine(), StringComparison.Ordinal);

    private static string Squeezed(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    private static string Read(string program, params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return text;
    }
}
