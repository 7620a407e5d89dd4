using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Swardloop.Model.Cases;
using Swardloop.Practice;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Practising;

/// <summary>The practice yards that people of the workshop have begun and ended.</summary>
internal sealed class PracticeBook(WorkshopDatabase database, WriteTurn turn, TimeProvider clock)
{
    private const int MostListed = 200, MostOpen = 20;

    /// <summary>A person's, newest first.</summary>
    public async Task<IReadOnlyList<PracticeRun>> ListAsync(Guid account, CancellationToken cancellation) =>
        await database.Practice.AsNoTracking().Where(run => run.Account == account).OrderByDescending(run => run.Id).Take(MostListed).ToListAsync(cancellation);

    /// <summary>One of a person's; null when there is none of that id.</summary>
    public Task<PracticeRun?> FindAsync(Guid account, Guid id, CancellationToken cancellation) =>
        database.Practice.AsNoTracking().FirstOrDefaultAsync(run => run.Id == id && run.Account == account, cancellation);

    /// <summary>Begins one; its yard is drawn by chance.</summary>
    /// <exception cref="BadInputException">Too many are not ended.</exception>
    public async Task<PracticeRun> BeginAsync(Guid account, PracticeLevel level, CancellationToken cancellation)
    {
        if (await database.Practice.CountAsync(run => run.Account == account && run.EndedAt == null, cancellation) >= MostOpen)
        {
            throw new BadInputException(StatusCodes.Status409Conflict, $"{MostOpen} practice yards are not ended; end one first.", []);
        }

        DateTimeOffset now = clock.GetUtcNow();
        PracticeRun run = new()
        {
            Id = Guid.CreateVersion7(now),
            Account = account,
            Level = WireName.Of(level),

            // Not to be guessed: whoever has the seed has the yard. Small enough to be typed.
            Seed = BitConverter.ToInt64(RandomNumberGenerator.GetBytes(8)) & 0xFFFF_FFFF_FFFF,
            StartedAt = now,
        };
        using IDisposable mine = await turn.TakeAsync(cancellation);
        database.Practice.Add(run);
        await database.SaveChangesAsync(cancellation);
        return run;
    }

    /// <summary>Keeps a step that was done, and the end where it was the last.</summary>
    /// <exception cref="BadInputException">Another page was first.</exception>
    public async Task<PracticeRun> KeepAsync(PracticeRun run, PracticeVisit visit, JsonObject step, CancellationToken cancellation)
    {
        JsonArray steps = StepsOf(run);
        steps.Add(step.DeepClone());
        string text = steps.ToJsonString();
        int before = run.StepCount;
        DateTimeOffset? ended = visit.IsOver ? clock.GetUtcNow() : null;
        using (await turn.TakeAsync(cancellation))
        {
            int kept = await database.Practice.Where(one => one.Id == run.Id && one.StepCount == before && one.EndedAt == null).ExecuteUpdateAsync(set => set
                .SetProperty(one => one.Steps, text)
                .SetProperty(one => one.StepCount, before + 1)
                .SetProperty(one => one.Money, visit.Money)
                .SetProperty(one => one.Minutes, visit.Minutes), cancellation);
            if (kept == 0)
            {
                throw new BadInputException(StatusCodes.Status409Conflict, "Another page went on with this practice.", []);
            }
        }

        run = (await FindAsync(run.Account, run.Id, cancellation))!;
        return ended is null ? run : await EndAsync(run, cancellation);
    }

    /// <summary>Ends one, whether the mower runs or the learner gives up.</summary>
    public async Task<PracticeRun> EndAsync(PracticeRun run, CancellationToken cancellation)
    {
        PracticeVisit visit = VisitOf(run);
        DateTimeOffset now = clock.GetUtcNow();
        bool cured = PracticeEnding.Cured(visit);
        double score = PracticeEnding.Score(visit), card = PracticeEnding.CardMoney(visit), known = PracticeEnding.KnownMoney(visit);
        using (await turn.TakeAsync(cancellation))
        {
            await database.Practice.Where(one => one.Id == run.Id && one.EndedAt == null && one.StepCount == run.StepCount).ExecuteUpdateAsync(set => set
                .SetProperty(one => one.EndedAt, now)
                .SetProperty(one => one.Cured, cured)
                .SetProperty(one => one.Score, score)
                .SetProperty(one => one.CardMoney, card)
                .SetProperty(one => one.KnownMoney, known), cancellation);
        }

        return (await FindAsync(run.Account, run.Id, cancellation))!;
    }

    /// <summary>Keeps the advice's way as far as it was played. Two pages that play it play the same.</summary>
    public async Task KeepEngineAsync(PracticeRun run, EngineWay way, CancellationToken cancellation)
    {
        JsonObject kept = new()
        {
            ["isWhole"] = way.IsWhole,
            ["finished"] = way.Finished,
            ["steps"] = new JsonArray([.. way.Steps.Select(step => (JsonNode)new JsonObject { ["step"] = step.Step.DeepClone(), ["en"] = step.WhyEnglish, ["de"] = step.WhyGerman })]),
        };
        string text = kept.ToJsonString();
        double? money = way.IsWhole ? way.Tell(german: false).Score : null;
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await database.Practice.Where(one => one.Id == run.Id && one.EngineMoney == null)
            .ExecuteUpdateAsync(set => set.SetProperty(one => one.Engine, text).SetProperty(one => one.EngineMoney, money), cancellation);
    }

    /// <summary>The learner's work so far.</summary>
    public static PracticeVisit VisitOf(PracticeRun run)
    {
        PracticeVisit visit = new(LevelOf(run), run.Seed);
        foreach (JsonNode? step in StepsOf(run))
        {
            visit.Do((JsonObject)step!);
        }

        return visit;
    }

    /// <summary>The advice's way as far as it was played.</summary>
    public static EngineWay EngineOf(PracticeRun run) => run.Engine is not { } text || JsonNode.Parse(text) is not JsonObject kept
        ? EngineWay.Start(LevelOf(run), run.Seed)
        : new(
            LevelOf(run), run.Seed,
            [.. ((JsonArray)kept["steps"]!).Select(step => new EngineStep((JsonObject)step!["step"]!.DeepClone(), (string)step["en"]!, (string)step["de"]!))],
            (bool)kept["isWhole"]!, (bool)kept["finished"]!);

    /// <summary>The steps as they were asked for.</summary>
    public static JsonArray StepsOf(PracticeRun run) => (JsonArray)JsonNode.Parse(run.Steps)!;

    /// <summary>What leaves the server: of the truth nothing before the end.</summary>
    public static PracticeState StateOf(PracticeRun run, bool german)
    {
        PracticeVisit visit = VisitOf(run);
        return new(EntryOf(run), visit.Case, visit.Turns, run.EndedAt is null ? null : PracticeEnding.Of(visit, EngineOf(run), german));
    }

    /// <summary>As the list shows it.</summary>
    public static PracticeEntry EntryOf(PracticeRun run) => new(
        run.Id, LevelOf(run), run.StartedAt, run.EndedAt, run.StepCount, Math.Round(run.Money, 2), Math.Round(run.Minutes, 1),
        run.Cured, Cents(run.Score), Cents(run.CardMoney), Cents(run.KnownMoney), Cents(run.EngineMoney));

    private static PracticeLevel LevelOf(PracticeRun run) => WireName.Words<PracticeLevel>().First(word => word.Key == run.Level).Value;

    private static double? Cents(double? money) => money is { } some ? Math.Round(some, 2) : null;
}
