using System.Text;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Documents;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Pricing;
using Swardloop.Model.Sheets;
using Swardloop.Model.Sheets.Quote;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop sheet</c>: a document of a case or yard, as PDF, web page, message or data.</summary>
internal sealed class SheetCommand(Func<ServiceCase, CausePriors, Advice> advise) : ICommand
{
    private static readonly string[] Languages = ["en", "de"];

    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("sheet", "A sheet of a case: what we found, acceptance, work sheet or quote.")
    {
        Positionals =
        [
            new("KIND", string.Join(", ", SheetKinds.Names) + "."),
            new("CASE-or-YARD", "A case file, or a yard file for a case that has just begun; - reads standard input."),
        ],
        Options =
        [
            new("--pdf", "F", "Write it as PDF."),
            new("--html", "F", "Write it as a web page."),
            new("--text", "F", "Write it as a message."),
            new("--csv", "F", "Write the lines of a quote, or of what was done in a finished case, as a table."),
            new("--language", "en|de", "Its language; default en."),
            new("--feet", null, "Lengths in feet."),
            new("--tax", "PERCENT", "Tax on top of the prices; default 0."),
            new("--round", "STEP", "What is paid is a multiple of this, such as 0.05; default 0.01."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        SheetKind kind = SheetKinds.Find(call.Positionals[0]) ?? throw call.Wrong("KIND", $"{SafeText.Quoted(call.Positionals[0])} is unknown", string.Join(", ", SheetKinds.Names));
        string language = call.Value("--language") ?? Languages[0];
        if (!Languages.Contains(language))
        {
            throw call.Wrong("--language", $"{SafeText.Quoted(language)} is unknown", string.Join(", ", Languages));
        }

        decimal tax = (decimal)(call.Number("--tax", 0, 100, "%") ?? 0), step = (decimal)(call.Number("--round", 0.01, 1000) ?? 0.01);
        if (step % 0.01m != 0)
        {
            throw call.Wrong("--round", $"{step} is no multiple of 0.01", "a multiple of 0.01, such as 0.05");
        }

        OutputFile.RefuseRead(call, ["--pdf", "--html", "--text", "--csv"], call.Positionals[1]);
        ServiceCase serviceCase = Read(call);
        SheetSource source = new(serviceCase, language == "de", one => advise(one, CausePriors.Default))
        {
            Feet = call.Flag("--feet"),
            Prices = new PriceSettings { Currency = serviceCase.Rates.Currency, TaxPercent = tax, TotalStep = step },
        };
        Sheet sheet = SheetKinds.Make(kind, source);
        List<string> written = [];
        Write("--pdf", () => SheetPdf.Of(sheet));
        Write("--html", () => Encoding.UTF8.GetBytes(SheetHtml.Of(sheet)));
        Write("--text", () => Encoding.UTF8.GetBytes(SheetText.Of(sheet)));
        Write("--csv", () => Encoding.UTF8.GetBytes(BillCsv.Of(QuoteSheet.SumOf(source).Sum)));
        return new SheetResult(sheet, written);

        void Write(string option, Func<byte[]> make)
        {
            if (call.Value(option) is { } path)
            {
                OutputFile.Write(path, make());
                written.Add(path);
            }
        }
    }

    private static ServiceCase Read(Invocation call)
    {
        InputText input = call.ReadFile(1);
        if (!IsYard(input))
        {
            Checked<CaseFile> read = CaseFiles.Read(input, call.Terminal);
            return read.IsGood ? read.Value.Case : throw WrongInputException.Of(read);
        }

        Checked<YardFile> yard = YardFile.Read(input.Bytes, input.Name);
        return yard.IsGood ? new ServiceCase { Yard = yard.Value.Yard } : throw WrongInputException.Of(yard);
    }

    // Whatever else is wrong the case's reader says.
    private static bool IsYard(InputText input)
    {
        using JsonDocument? document = JsonText.Parse(input.Bytes, new ProblemList(input.Name));
        return document is { RootElement: { ValueKind: JsonValueKind.Object } root }
            && root.TryGetProperty("format", out JsonElement format) && format.ValueKind == JsonValueKind.String && format.ValueEquals(YardFile.Format);
    }

    /// <summary>The sheet itself, or where it was written.</summary>
    private sealed class SheetResult(Sheet sheet, List<string> written) : CommandResult
    {
        public override void WriteJson(Utf8JsonWriter json) => SheetJson.Write(sheet, json);

        public override void WriteText(TextWriter text)
        {
            if (written.Count == 0)
            {
                text.Write(string.Concat(SheetText.Of(sheet).Split('\n').Select(line => SafeText.OneLine(line, 4000) + "\n"))[..^1]);
            }

            foreach (string path in written)
            {
                text.WriteLine($"written to {SafeText.OneLine(path, 200)}");
            }
        }
    }
}
