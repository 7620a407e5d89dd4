using System.Diagnostics;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Server.Advising;
using Swardloop.Server.Input;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>What takes long to compute: once, bounded, given up when nobody waits, and one queue.</summary>
public sealed class ExpensiveAnswerTests
{
    private static readonly Advice Empty = new() { Causes = [], Density = [], Evidence = [], Next = [] };

    [Fact]
    public async Task The_same_question_is_computed_once_however_many_ask_at_once_and_later()
    {
        using ComputingQueue queue = new();
        using ManualResetEventSlim go = new();
        int computed = 0;
        Task<Advice>[] asked = [.. Enumerable.Range(0, 20).Select(_ => queue.AdviseAsync("same", stop => { Interlocked.Increment(ref computed); go.Wait(stop); return Empty; }, CancellationToken.None))];
        go.Set();
        Advice[] answers = await Task.WhenAll(asked);
        Assert.Same(answers[0], await queue.AdviseAsync("same", _ => throw new InvalidOperationException("computed again"), CancellationToken.None));
        Assert.Equal(1, computed);
    }

    [Fact]
    public async Task A_computation_that_nobody_waits_for_any_more_is_given_up_and_one_that_somebody_waits_for_is_not()
    {
        using ComputingQueue queue = new();
        using CancellationTokenSource first = new(), second = new();
        TaskCompletionSource begun = new(), ended = new();
        Advice compute(CancellationToken stop)
        {
            begun.TrySetResult();
            stop.WaitHandle.WaitOne();
            ended.TrySetResult();
            stop.ThrowIfCancellationRequested();
            return Empty;
        }

        Task one = queue.AdviseAsync("k", compute, first.Token), two = queue.AdviseAsync("k", compute, second.Token);
        await begun.Task;
        await first.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => one);
        Assert.False(ended.Task.IsCompleted);
        await second.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => two);
        await ended.Task;
        Assert.Same(Empty, await queue.AdviseAsync("k", _ => Empty, CancellationToken.None)); // asked again: computed again
    }

    [Fact]
    public async Task A_computation_without_end_is_ended_and_the_queue_goes_on()
    {
        using ComputingQueue queue = new(TimeSpan.FromMilliseconds(50));
        BadInputException told = await Assert.ThrowsAsync<BadInputException>(() => queue.AdviseAsync("k", stop =>
        {
            stop.WaitHandle.WaitOne();
            stop.ThrowIfCancellationRequested();
            return Empty;
        }, CancellationToken.None));
        Assert.Equal(503, told.Status);
        Assert.Equal(7, await queue.RunAsync(_ => 7, CancellationToken.None));
    }

    [Fact]
    public async Task No_more_is_computed_at_once_than_processors_less_one_and_a_flood_is_asked_to_come_again()
    {
        using ComputingQueue queue = new();
        using ManualResetEventSlim go = new();
        (int now, int most) = (0, 0);
        Task<int>[] asked = [.. Enumerable.Range(0, 100).Select(i => queue.RunAsync(_ =>
        {
            int busy = Interlocked.Increment(ref now);
            lock (go)
            {
                most = Math.Max(most, busy);
            }

            go.Wait(CancellationToken.None);
            Interlocked.Decrement(ref now);
            return i;
        }, CancellationToken.None))];
        Assert.Equal(503, (await Assert.ThrowsAsync<BadInputException>(() => queue.RunAsync(_ => 1, CancellationToken.None))).Status);
        go.Set();
        Assert.Equal(Enumerable.Range(0, 100), await Task.WhenAll(asked));
        Assert.InRange(most, 1, Math.Max(1, Environment.ProcessorCount - 1));
    }

    [Fact]
    public async Task A_drawing_of_twenty_thousand_corners_is_refused_and_the_largest_allowed_is_shown_to_its_owner_again_at_once()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid yard, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        ChangeResult refused = Assert.Single(await desk.SendAsync(Circle(yard, 20_000)));
        Assert.Equal(ChangeStatus.Refused, refused.Status);
        Assert.Contains("at most 2000 corners", Assert.Single(refused.Problems).Allowed, StringComparison.Ordinal);

        await desk.KeepAsync(Circle(yard, 2_000), Made.Case(@case, yard));
        string address = await desk.LinkAsync(yard, @case);
        using HttpClient owner = served.Client();
        Stopwatch first = Stopwatch.StartNew();
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync(address)).StatusCode);
        first.Stop();
        Stopwatch again = Stopwatch.StartNew();
        for (int i = 0; i < 5; i++)
        {
            Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync(address)).StatusCode);
        }

        // Relative to the first within this run, so that a slow machine is no failure.
        Assert.True(again.Elapsed < first.Elapsed, $"first {first.Elapsed}, five more {again.Elapsed}");
    }

    private static Change Circle(Guid yard, int corners)
    {
        JsonObject file = new()
        {
            ["format"] = "swardloop-yard/1",
            ["name"] = "Round Lawn",
            ["loop"] = new JsonObject
            {
                ["path"] = new JsonArray([.. Enumerable.Range(0, corners).Select(i => new JsonArray(
                    Math.Round(20 * Math.Cos(i * Math.Tau / corners), 4), Math.Round(20 * Math.Sin(i * Math.Tau / corners), 4)))]),
                ["conductor"] = new JsonObject { ["material"] = "copper", ["areaMm2"] = 1.5 },
            },
        };
        return Made.Change(RecordKind.Yard, yard, new() { ["name"] = "Round Lawn", ["file"] = file });
    }
}
