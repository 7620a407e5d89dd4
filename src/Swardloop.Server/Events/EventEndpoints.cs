using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Http.HttpResults;
using Swardloop.Server.Accounts;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Events;

/// <summary>Tells pages at once that records changed, as server-sent events.</summary>
internal static class EventEndpoints
{
    // A stream ends now and then; the browser opens it again, and so shows that its bearer may still come in.
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(10);

    // Lets both ends notice that the other one is gone.
    private static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(20);

    // How soon a database that was away is asked again.
    private static readonly TimeSpan AskAgain = TimeSpan.FromSeconds(1);

    /// <summary>Adds the endpoint.</summary>
    public static void MapEvents(this RouteGroupBuilder api) =>
        api.MapGet("events", Stream).RequireAuthorization(Rule.Read).Produces<ChangedRecord>(200, "text/event-stream");

    private static ServerSentEventsResult<ChangedRecord?> Stream(
        HttpContext context, ChangeNews news, SessionBook sessions, IDatabaseEngine engine, IHostApplicationLifetime life, TimeProvider clock) =>
        TypedResults.ServerSentEvents(EventsAsync(news, () => MayGoOnAsync(sessions, engine, context), clock, life.ApplicationStopping, context.RequestAborted));

    // Null while the database, which knows, is away.
    private static async ValueTask<bool?> MayGoOnAsync(SessionBook sessions, IDatabaseEngine engine, HttpContext context)
    {
        try
        {
            return await sessions.IsGoodAsync(context.User, context.RequestAborted);
        }
        catch (Exception fault) when (engine.WordsFor(fault) is not null)
        {
            return null;
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    private static async IAsyncEnumerable<SseItem<ChangedRecord?>> EventsAsync(
        ChangeNews news, Func<ValueTask<bool?>> mayGoOn, TimeProvider clock, CancellationToken stopping, [EnumeratorCancellation] CancellationToken cancellation)
    {
        using ChangeNews.Listening listening = news.Listen();
        using CancellationTokenSource end = CancellationTokenSource.CreateLinkedTokenSource(cancellation, stopping);
        end.CancelAfter(Longest);
        yield return new(null, "hello") { ReconnectionInterval = TimeSpan.FromSeconds(2) };
        while (!end.IsCancellationRequested)
        {
            (bool isOver, ChangeNotice? notice) = await NextAsync(listening, clock, end.Token);
            // A session that was ended, or a person who was locked meanwhile, is told nothing more; nor is anybody until the database says that they may be.
            bool? may = null;
            while (!isOver && (may = await mayGoOn()) is null)
            {
                yield return new(null, "still-here");
                await Task.Delay(AskAgain, clock, end.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                isOver = end.IsCancellationRequested;
            }

            if (isOver || may == false)
            {
                yield break;
            }

            yield return notice is null
                ? new(null, "still-here")
                : new(new(notice.Version, notice.Record, notice.Kind), "change") { EventId = notice.Version.ToString(System.Globalization.CultureInfo.InvariantCulture) };
        }
    }

    private static async Task<(bool IsOver, ChangeNotice? Notice)> NextAsync(ChangeNews.Listening listening, TimeProvider clock, CancellationToken cancellation)
    {
        using CancellationTokenSource wait = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using ITimer timer = clock.CreateTimer(_ => wait.Cancel(), null, Heartbeat, Timeout.InfiniteTimeSpan);
        try
        {
            return (false, await listening.Notices.ReadAsync(wait.Token));
        }
        catch (OperationCanceledException)
        {
            return (cancellation.IsCancellationRequested, null);
        }
    }
}
