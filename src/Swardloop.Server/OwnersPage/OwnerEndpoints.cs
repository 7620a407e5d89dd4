using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Primitives;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Server.Input;
using Swardloop.Workshop.Owners;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.OwnersPage;

/// <summary>The owner's page, <c>/o/…</c>: plain HTML and forms, without an account, without script. The address is the key: whoever has it
/// may answer for this one case, and nobody else may.</summary>
internal static class OwnerEndpoints
{
    /// <summary>Name of the rate limit for all that an owner's address opens.</summary>
    public const string RateLimit = "owner";

    /// <summary>Where all owner's pages lie. What follows is a secret: it is written to no log and sent to no other site.</summary>
    public const string Root = "/o";

    private const int MostFormBytes = 64 * 1024;
    private const int MostPhotoMegabytes = 16;

    /// <summary>Most characters of one field that go round in an address.</summary>
    private const int MostFilled = 200;

    /// <summary>What stands before the name of a field whose value goes round in the address.</summary>
    private const string FilledPrefix = "f.";

    /// <summary>Fields that no person fills in.</summary>
    private static readonly string[] Unfilled = ["step", "once", "photo-once", "last", "atM", "fromM", "toM", "fromM-2", "toM-2", "fromM-3", "toM-3", "place"];

    /// <summary>Adds what the page needs.</summary>
    public static void AddOwnersPage(this IServiceCollection services)
    {
        services.AddRazorComponents();
        services.AddSingleton<OwnerDesk>();
        services.AddRateLimiter(limits => limits.AddPolicy<string, OwnerRateLimit>(RateLimit));
    }

    /// <summary>Maps the page.</summary>
    public static void MapOwnersPage(this IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder page = routes.MapGroup(Root + "/{address}").AllowAnonymous().RequireRateLimiting(RateLimit).DisableAntiforgery()
            .ExcludeFromDescription();
        page.AddEndpointFilter(async (call, next) =>
        {
            IHeaderDictionary headers = call.HttpContext.Response.Headers;
            headers.CacheControl = "no-store";
            headers["Referrer-Policy"] = "no-referrer";
            headers.ContentSecurityPolicy = "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
            return await next(call);
        });
        page.MapGet("", ShowAsync);
        page.MapPost("answer", AnswerAsync);
        page.MapPost("cannot", CannotAsync);
        page.MapPost("photo", PhotoAsync);

        // A telephone that opens its last page again asks for the address that a form was sent to.
        page.MapGet("{**rest}", async (string address, string? language, OwnerDesk desk, HttpRequest request, CancellationToken cancellation) =>
            OwnerAddress.TryRead(address, out _) ? Back(address, language, null) : await GoneAsync(desk, request, cancellation));
    }

    /// <summary>What a place hears that tried too often.</summary>
    public static IResult TooMany(HttpRequest request)
    {
        OwnerTexts texts = OwnerTexts.Of(request.Headers.AcceptLanguage);
        return Word(texts, texts[OwnerText.TooMany], texts[OwnerText.TooManyHow], StatusCodes.Status429TooManyRequests);
    }

    private static async Task<IResult> ShowAsync(
        string address, string? language, string? read, string? news, string? refused, string? photo, OwnerDesk desk, TimeProvider clock, HttpRequest request, CancellationToken cancellation)
    {
        if (await desk.OpenAsync(address, cancellation) is not { } room)
        {
            return await GoneAsync(desk, request, cancellation);
        }

        OwnerView view;
        try
        {
            view = await desk.ViewAsync(room, $"{Root}/{address}", language, refused ?? read, cancellation);
        }
        catch (BadInputException busy) when (busy.Status == StatusCodes.Status503ServiceUnavailable)
        {
            return TooMany(request);
        }

        if (view.Question is { } question && WireName.Of(question.Kind) == (refused ?? read))
        {
            // What could not be taken stands in the address, so that the browser's way back is free; what is wrong with it is found again.
            Dictionary<string, string> filled = request.Query.Where(field => field.Key.StartsWith(FilledPrefix, StringComparison.Ordinal))
                .ToDictionary(field => field.Key[FilledPrefix.Length..], field => field.Value.ToString());
            view = view with { Filled = filled, Problems = refused is null ? [] : OwnerDesk.ProblemsOf(room, view, name => filled.GetValueOrDefault(name), clock.GetUtcNow()) };
        }

        return Page(view with
        {
            News = NewsOf(news, view.Texts, clock.GetLocalNow()),
            PhotoProblem = photo == "refused" ? view.Texts.Say(OwnerText.PhotoRefused, MostPhotoMegabytes) : null,
        });
    }

    private static async Task<IResult> AnswerAsync(string address, string? language, OwnerDesk desk, HttpRequest request, CancellationToken cancellation)
    {
        if (await desk.OpenAsync(address, cancellation) is not { IsClosed: false } room)
        {
            return await GoneAsync(desk, request, cancellation);
        }

        if (await FormAsync(request, MostFormBytes + (MostPhotoMegabytes << 20), cancellation) is not { } form
            || !Guid.TryParse(form["once"], out Guid once) || once.Version != 7)
        {
            return Back(address, language, null);
        }

        string? step = form["step"];
        bool? hasPhoto = form.Files.GetFile("photo") is { Length: > 0 } file ? await TakePhotoAsync(desk, room, file, form["photo-once"], cancellation) : null;
        string photo = hasPhoto == false ? "&photo=refused" : "";
        (string Name, string Text)[] filled = [.. form.Where(field => !Unfilled.Contains(field.Key)).Select(field => (field.Key, Text: field.Value.ToString().Trim())).Where(field => field.Text.Length > 0)];
        if (hasPhoto is not null && !filled.Any(field => field.Name != "note" && !field.Name.EndsWith(OwnerQuestions.UnitSuffix, StringComparison.Ordinal)))
        {
            // A photo alone: the question stays open, and what else was typed in it.
            return Again(hasPhoto.Value ? "&news=photo" : photo, "read");
        }

        bool isMeanwhile = OwnerDesk.IsAnsweredMeanwhile(room, step, form["last"], once);
        IReadOnlyList<Problem>? problems = await desk.AnswerAsync(room, step, once, Given, cancellation);
        return problems is not null
            ? Again((hasPhoto == true ? "&news=photo" : "") + photo, "refused")
            : Results.LocalRedirect($"{Root}/{address}?language={OwnerTexts.Of(language).Language}&news={(isMeanwhile ? "twice" : hasPhoto == true ? "both" : "answer")}{photo}#news");

        string? Given(string name) => form.TryGetValue(name, out StringValues value) ? value.ToString() : null;

        IResult Again(string more, string how) => Results.LocalRedirect(
            $"{Root}/{address}?language={OwnerTexts.Of(language).Language}&{how}={Uri.EscapeDataString(step ?? "")}{more}"
            + string.Concat(filled.Select(field => $"&{FilledPrefix}{Uri.EscapeDataString(field.Name)}={Uri.EscapeDataString(field.Text[..Math.Min(field.Text.Length, MostFilled)])}"))
            + "#answer");
    }

    private static async Task<bool> TakePhotoAsync(OwnerDesk desk, OwnerRoom room, IFormFile file, string? onceText, CancellationToken cancellation)
    {
        if (file.Length > MostPhotoMegabytes << 20 || !Guid.TryParse(onceText, out Guid once) || once.Version != 7)
        {
            return false;
        }

        return await desk.PhotoAsync(room, once, file.OpenReadStream, cancellation);
    }

    private static async Task<IResult> CannotAsync(string address, string? language, OwnerDesk desk, HttpRequest request, CancellationToken cancellation)
    {
        if (await desk.OpenAsync(address, cancellation) is not { IsClosed: false } room)
        {
            return await GoneAsync(desk, request, cancellation);
        }

        if (await FormAsync(request, MostFormBytes, cancellation) is { } form)
        {
            await desk.CannotAsync(room, form["step"], form["why"], cancellation);
        }

        return Back(address, language, "cannot");
    }

    private static async Task<IResult> PhotoAsync(string address, string? language, OwnerDesk desk, HttpRequest request, CancellationToken cancellation)
    {
        if (await desk.OpenAsync(address, cancellation) is not { IsClosed: false } room)
        {
            return await GoneAsync(desk, request, cancellation);
        }

        return await FormAsync(request, MostPhotoMegabytes << 20, cancellation) is { } form && form.Files.GetFile("photo") is { } file
            && await TakePhotoAsync(desk, room, file, form["once"], cancellation)
            ? Back(address, language, "photo")
            : Results.LocalRedirect($"{Root}/{address}?language={OwnerTexts.Of(language).Language}&photo=refused#photo");
    }

    /// <summary>To the page itself, so that loading it again sends nothing again.</summary>
    private static IResult Back(string address, string? language, string? news) => Results.LocalRedirect(
        $"{Root}/{address}?language={OwnerTexts.Of(language).Language}{(news is null ? "" : $"&news={news}#news")}");

    private static string? NewsOf(string? news, OwnerTexts texts, DateTimeOffset at)
    {
        string now = at.ToString("HH:mm", CultureInfo.InvariantCulture);
        return news switch
        {
            "answer" => texts.Say(OwnerText.Arrived, now),
            "photo" => texts.Say(OwnerText.PhotoArrived, now),
            "both" => texts.Say(OwnerText.BothArrived, now),
            "twice" => texts.Say(OwnerText.AnsweredTwice, now),
            "cannot" => texts[OwnerText.CannotThanks],
            _ => null,
        };
    }

    private static async Task<IFormCollection?> FormAsync(HttpRequest request, long mostBytes, CancellationToken cancellation)
    {
        if (!request.HasFormContentType || request.ContentLength > mostBytes)
        {
            return null;
        }

        try
        {
            return await request.ReadFormAsync(cancellation);
        }
        catch (Exception fault) when (fault is InvalidDataException or BadHttpRequestException or IOException)
        {
            return null;
        }
    }

    private static RazorComponentResult<OwnerPage> Page(OwnerView view, int status = StatusCodes.Status200OK) =>
        new(new { View = view }) { StatusCode = status };

    /// <summary>What everything that opens nothing shows: who the workshop is and where to call, which is no secret.</summary>
    private static async Task<IResult> GoneAsync(OwnerDesk desk, HttpRequest request, CancellationToken cancellation)
    {
        OwnerTexts texts = OwnerTexts.Of(request.Query["language"].ToString() is { Length: > 0 } asked ? asked : request.Headers.AcceptLanguage);
        RecordState? workshop = await desk.WorkshopAsync(cancellation);
        return Word(texts, texts[OwnerText.Gone], texts[OwnerText.GoneHow], StatusCodes.Status404NotFound, workshop);
    }

    private static RazorComponentResult<OwnerWord> Word(OwnerTexts texts, string title, string words, int status, RecordState? workshop = null) => new(new
    {
        texts.Language,
        Title = title,
        Words = words,
        WorkshopName = workshop?.Text("name"),
        PhoneWords = texts[OwnerText.Phone],
        Phone = workshop?.Text("phone"),
    })
    {
        StatusCode = status,
    };
}
