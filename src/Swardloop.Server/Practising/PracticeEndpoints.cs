using System.Security.Claims;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http.HttpResults;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Checks;
using Swardloop.Practice;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Practising;

/// <summary>Practice yards: begun, asked, ended. The truth stays on the server until the end; nobody sees another's.</summary>
internal static class PracticeEndpoints
{
    /// <summary>Adds the endpoints.</summary>
    public static void MapPractice(this RouteGroupBuilder api)
    {
        RouteGroupBuilder practice = api.MapGroup("practice").RequireAuthorization(Rule.Read);
        practice.MapGet("", ListAsync).Produces<IReadOnlyList<PracticeEntry>>();
        practice.MapPost("", BeginAsync).Accepts<NewPractice>("application/json").Produces<PracticeState>().Problems(400, 409);
        practice.MapGet("{id:guid}", StateAsync).Produces<PracticeState>().Problems(400, 404);
        practice.MapPost("{id:guid}/steps", DoAsync).Accepts<PracticeStep>("application/json").Produces<PracticeState>().Problems(400, 404, 409);
        practice.MapPost("{id:guid}/end", EndAsync).Produces<PracticeState>().Problems(400, 404);
        practice.MapPost("{id:guid}/engine", EngineAsync).Produces<PracticeWay>().Problems(400, 404, 409, 503);
    }

    private static async Task<Ok<IReadOnlyList<PracticeEntry>>> ListAsync(ClaimsPrincipal person, PracticeBook book, CancellationToken cancellation) =>
        TypedResults.Ok<IReadOnlyList<PracticeEntry>>([.. (await book.ListAsync(Own(person), cancellation)).Select(PracticeBook.EntryOf)]);

    private static async Task<Ok<PracticeState>> BeginAsync(HttpRequest request, ClaimsPrincipal person, PracticeBook book)
    {
        NewPractice asked = await JsonBody.ReadAsync(request, fields =>
            fields.Word("level", Model.Cases.WireName.Words<PracticeLevel>(), required: true) is { } level ? new NewPractice(level) : null);
        PracticeRun run = await book.BeginAsync(Own(person), asked.Level, request.HttpContext.RequestAborted);
        return TypedResults.Ok(PracticeBook.StateOf(run, German(null)));
    }

    private static async Task<Ok<PracticeState>> StateAsync(Guid id, string? language, ClaimsPrincipal person, PracticeBook book, CancellationToken cancellation)
    {
        bool german = German(language);
        return TypedResults.Ok(PracticeBook.StateOf(await FindAsync(id, person, book, cancellation), german));
    }

    private static async Task<Ok<PracticeState>> DoAsync(Guid id, HttpRequest request, string? language, ClaimsPrincipal person, PracticeBook book)
    {
        bool german = German(language);
        CancellationToken cancellation = request.HttpContext.RequestAborted;
        PracticeRun run = await FindAsync(id, person, book, cancellation);
        PracticeVisit visit = PracticeBook.VisitOf(run);
        PracticeStep asked = await JsonBody.ReadAsync(request, fields =>
        {
            int? after = fields.WholeNumber("after", 0, PracticeVisit.MostSteps, required: true);
            if (fields.Element("step", "an object { … }", required: true) is not { } step || after is not { } count)
            {
                return null;
            }

            Checked<Step> read = run.EndedAt is not null || count < run.StepCount ? ReadAgain(step, visit) : visit.Read(step, "step");
            foreach (Problem problem in read.Problems)
            {
                fields.Problems.Add(problem.Place, problem.Message, problem.Allowed);
            }

            return read.IsGood ? new PracticeStep(count, PracticeStepJson.Write(read.Value)) : null;
        });

        // An answer that was lost on the way is asked for again: the step was done once.
        if (asked.After == run.StepCount - 1 && JsonNode.DeepEquals(PracticeBook.StepsOf(run)[^1], asked.Step))
        {
            return TypedResults.Ok(PracticeBook.StateOf(run, german));
        }

        if (asked.After != run.StepCount || run.EndedAt is not null)
        {
            throw new BadInputException(StatusCodes.Status409Conflict, run.EndedAt is not null ? "This practice is over." : "Another page went on with this practice.", []);
        }

        visit.Do(asked.Step);
        return TypedResults.Ok(PracticeBook.StateOf(await book.KeepAsync(run, visit, asked.Step, cancellation), german));
    }

    private static async Task<Ok<PracticeState>> EndAsync(Guid id, string? language, ClaimsPrincipal person, PracticeBook book, CancellationToken cancellation)
    {
        bool german = German(language);
        PracticeRun run = await FindAsync(id, person, book, cancellation);
        return TypedResults.Ok(PracticeBook.StateOf(run.EndedAt is null ? await book.EndAsync(run, cancellation) : run, german));
    }

    private static async Task<Ok<PracticeWay>> EngineAsync(Guid id, string? language, ClaimsPrincipal person, PracticeBook book, Advising.ComputingQueue queue, CancellationToken cancellation)
    {
        bool german = German(language);
        PracticeRun run = await FindAsync(id, person, book, cancellation);
        if (run.EndedAt is null)
        {
            throw new BadInputException(StatusCodes.Status409Conflict, "This practice is not over.", []);
        }

        EngineWay way = PracticeBook.EngineOf(run);
        if (!way.IsWhole)
        {
            way = await queue.RunAsync(way.Next, cancellation);
            await book.KeepEngineAsync(run, way, cancellation);
        }

        return TypedResults.Ok(way.Tell(german));
    }

    // A step that was done already need not be possible any more.
    private static Checked<Step> ReadAgain(JsonElement step, PracticeVisit visit)
    {
        ProblemList own = new("");
        return PracticeStepJson.Read(step, "step", visit.CaseFile().Case.Yard, own) is { } read ? Checked<Step>.Good(read) : Checked<Step>.Bad(own);
    }

    private static async Task<PracticeRun> FindAsync(Guid id, ClaimsPrincipal person, PracticeBook book, CancellationToken cancellation) =>
        await book.FindAsync(Own(person), id, cancellation) ?? throw new BadInputException(StatusCodes.Status404NotFound, "You have no such practice.", []);

    private static Guid Own(ClaimsPrincipal person) => Guid.Parse(person.FindFirstValue(ClaimTypes.NameIdentifier)!);

    private static bool German(string? language) => language is null or "en" or "de"
        ? language == "de"
        : throw BadInputException.Of("language", "is not known", "en, de");
}
