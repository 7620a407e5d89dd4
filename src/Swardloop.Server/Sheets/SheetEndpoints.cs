using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Core.Diagnosis;
using Swardloop.Documents;
using Swardloop.Model.Checks;
using Swardloop.Model.Cases;
using Swardloop.Model.Sheets;
using Swardloop.Server.Accounts;
using Swardloop.Server.Advising;
using Swardloop.Server.Files;
using Swardloop.Server.Input;
using Swardloop.Server.Records;
using Swardloop.Storage;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Watching;

namespace Swardloop.Server.Sheets;

/// <summary>Sheets of cases and yards, made as the command line makes them: data, text, web page, PDF, message.</summary>
internal static class SheetEndpoints
{
    // The page holds its own style and nothing that runs.
    private const string PagePolicy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox allow-modals";

    private static readonly string[] Forms = ["json", "text", "html", "pdf", "eml"];

    /// <summary>Adds the endpoints.</summary>
    public static void MapSheets(this RouteGroupBuilder api)
    {
        api.MapGet("cases/{id:guid}/sheets/{kind}", CaseAsync).RequireAuthorization(Rule.Read).Produces<object>().Problems(400, 404, 409, 503);
        api.MapGet("yards/{id:guid}/sheets/{kind}", YardAsync).RequireAuthorization(Rule.Read).Produces<object>().Problems(400, 404, 409, 503);
    }

    /// <summary>Makes a case's sheet, when its turn comes, and something of it.</summary>
    /// <param name="id">The case.</param>
    /// <param name="wish">Which sheet, and how.</param>
    /// <param name="database">The workshop.</param>
    /// <param name="priors">What its closed cases had.</param>
    /// <param name="queue">Where it waits for its turn.</param>
    /// <param name="write">Makes what is wanted of the sheet; takes workshop and owner too.</param>
    /// <param name="cancellation">This one waits no longer.</param>
    internal static async Task<T> OfCaseAsync<T>(
        Guid id, SheetWish wish, WorkshopDatabase database, WorkshopPriors priors, ComputingQueue queue, Func<Sheet, RecordState?, RecordState?, T> write, CancellationToken cancellation)
    {
        StoredRecord stored = await RecordEndpoints.FindAsync(database, id, RecordKind.Case, cancellation);
        Checked<CaseFile> file = await FileEndpoints.CaseOfAsync(database, stored, cancellation);
        RecordState @case = Journal.StateOf(stored), yard = Journal.StateOf(await RecordEndpoints.FindAsync(database, stored.Yard ?? Guid.Empty, RecordKind.Yard, cancellation));
        ServiceCase serviceCase = Good(file).Case;
        (Observation.LoopResistance? reading, bool hasChanged) = await SignedReadingAsync(database, @case, serviceCase, cancellation);
        return await MadeAsync(serviceCase, @case, yard, (reading, hasChanged), wish, database, priors, queue, write, cancellation);
    }

    private static async Task<FileContentHttpResult> CaseAsync(
        Guid id, string kind, string? form, string? language, string? units, HttpContext context, WorkshopDatabase database, WorkshopPriors priors, ComputingQueue queue, TimeProvider clock)
    {
        (SheetWish wish, string wanted) = (SheetWish.Of(kind, language, units), FormOf(form));
        return Answer(await OfCaseAsync(id, wish, database, priors, queue, Writing(wanted, clock), context.RequestAborted), wanted, context);
    }

    // The case file holds the observations that count, in their order: the same place in both is the same observation.
    private static async Task<(Observation.LoopResistance? Reading, bool HasChanged)> SignedReadingAsync(
        WorkshopDatabase database, RecordState @case, ServiceCase serviceCase, CancellationToken cancellation)
    {
        if (@case.Text("acceptedBy") is not { Length: > 0 })
        {
            return (null, false);
        }

        List<StoredRecord> stored = await database.Records.AsNoTracking().Where(record => record.Case == @case.Id && record.Kind == RecordKind.Observation).ToListAsync(cancellation);
        IReadOnlyList<RecordState> counting = ObservationOrder.ThatCount(stored.Select(Journal.StateOf));
        (RecordState? reading, bool hasChanged) = YardReadings.Accepted(@case, counting);
        int at = reading is null ? -1 : counting.ToList().IndexOf(reading);
        return (at >= 0 && at < serviceCase.Observations.Count ? serviceCase.Observations[at] as Observation.LoopResistance : null, hasChanged);
    }

    private static async Task<FileContentHttpResult> YardAsync(
        Guid id, string kind, string? form, string? language, string? units, HttpContext context, WorkshopDatabase database, WorkshopPriors priors, ComputingQueue queue, TimeProvider clock)
    {
        (SheetWish wish, string wanted) = (SheetWish.Of(kind, language, units), FormOf(form));
        RecordState yard = Journal.StateOf(await RecordEndpoints.FindAsync(database, id, RecordKind.Yard, context.RequestAborted));
        ServiceCase alone = new() { Yard = Good(FileEndpoints.YardOf(yard)).Yard };
        return Answer(await MadeAsync(alone, null, yard, (null, false), wish, database, priors, queue, Writing(wanted, clock), context.RequestAborted), wanted, context);
    }

    private static string FormOf(string? form) => form is null ? "json" : Forms.Contains(form) ? form : throw BadInputException.Of("form", "is not known", string.Join(", ", Forms));

    private static Func<Sheet, RecordState?, RecordState?, (string File, string Type, byte[] Bytes)> Writing(string wanted, TimeProvider clock) => (sheet, workshop, owner) =>
    {
        string name = FileName(sheet);
        return wanted switch
        {
            "json" => ($"{name}.json", "application/json", JsonOf(sheet)),
            "text" => ($"{name}.txt", "text/plain; charset=utf-8", Encoding.UTF8.GetBytes(SheetText.Of(sheet))),
            "html" => ($"{name}.html", "text/html; charset=utf-8", Encoding.UTF8.GetBytes(SheetHtml.Of(sheet))),
            "pdf" => ($"{name}.pdf", "application/pdf", SheetPdf.Of(sheet)),
            _ => ($"{name}.eml", "message/rfc822", SheetMessage.Of(sheet, workshop, owner, clock.GetUtcNow())),
        };
    };

    private static FileContentHttpResult Answer((string File, string Type, byte[] Bytes) made, string wanted, HttpContext context)
    {
        if (wanted == "html")
        {
            context.Response.Headers.ContentSecurityPolicy = PagePolicy;
        }

        // A page and a text are looked at; the others are kept under their name.
        return wanted is "html" or "text" or "json" ? TypedResults.Bytes(made.Bytes, made.Type) : TypedResults.File(made.Bytes, made.Type, made.File);
    }

    private static async Task<T> MadeAsync<T>(
        ServiceCase serviceCase, RecordState? @case, RecordState yard, (Observation.LoopResistance? Reading, bool HasChanged) signed, SheetWish wish,
        WorkshopDatabase database, WorkshopPriors priors, ComputingQueue queue, Func<Sheet, RecordState?, RecordState?, T> write, CancellationToken cancellation)
    {
        // The record's name: what people call the garden. A drawing that was imported may carry another.
        serviceCase = yard.Text("name") is { Length: > 0 } called ? serviceCase with { Yard = serviceCase.Yard with { Name = called } } : serviceCase;
        Guid?[] beside = [Ids.Workshop, Ids.Rates, yard.Reference("owner")];
        List<StoredRecord> records = await database.Records.AsNoTracking().Where(record => beside.Contains(record.Id)).ToListAsync(cancellation);
        ILookup<RecordKind, RecordState> states = records.ToLookup(record => record.Kind, Journal.StateOf);
        RecordState? workshop = states[RecordKind.Workshop].SingleOrDefault(), rates = states[RecordKind.Rates].SingleOrDefault(), owner = states[RecordKind.Owner].SingleOrDefault();
        CausePriors counts = (await priors.FileAsync(cancellation)).Priors;
        string[] sender = LinesOf(workshop);
        return await queue.RunAsync(
            stop =>
            {
                SheetSource source = new(serviceCase, wish.German, one => Advisor.Advise(one, counts, stop))
                {
                    Feet = wish.Feet,
                    Workshop = sender,
                    Prices = RatesPrices.Of(rates, serviceCase.Rates.Currency),
                    SignedBy = SignedBy(@case, wish.German),
                    Mark = SignatureMark.Read(@case?.Text("acceptedMark")),
                    AcceptedReading = signed.Reading,
                    SignedReadingChanged = signed.HasChanged,
                };
                return write(SheetKinds.Make(wish.Kind, source), workshop, owner);
            },
            cancellation);
    }

    /// <summary>A file's name that every system takes: letters, digits and hyphens.</summary>
    internal static string FileName(Sheet sheet) => string.Concat($"{SheetKinds.NameOf(sheet.Kind)}-{sheet.Yard}".Normalize(NormalizationForm.FormD)
        .Where(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '-' or '_').Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-').Take(60)).Trim('-');

    private static string[] LinesOf(RecordState? workshop) => workshop is null ? [] :
        [.. new[] { workshop.Text("name") }.Concat((workshop.Text("address") ?? "").Split('\n')).Append(workshop.Text("phone")).Append(workshop.Text("email"))
            .OfType<string>().Select(line => line.Trim()).Where(line => line.Length > 0)];

    private static string? SignedBy(RecordState? @case, bool german)
    {
        if (@case?.Text("acceptedBy") is not { Length: > 0 } who)
        {
            return null;
        }

        return DateTimeOffset.TryParse(@case.Text("acceptedAt"), System.Globalization.CultureInfo.InvariantCulture, out DateTimeOffset at)
            ? $"{who}, {at.ToString(german ? "dd.MM.yyyy" : "d MMM yyyy", System.Globalization.CultureInfo.InvariantCulture)}" : who;
    }

    private static byte[] JsonOf(Sheet sheet)
    {
        using MemoryStream bytes = new();
        using (Utf8JsonWriter json = new(bytes))
        {
            SheetJson.Write(sheet, json);
        }

        return bytes.ToArray();
    }

    private static T Good<T>(Checked<T> file)
        where T : class =>
        file.IsGood ? file.Value : throw new BadInputException(StatusCodes.Status409Conflict, "The records do not make a whole file.", file.Problems);
}
