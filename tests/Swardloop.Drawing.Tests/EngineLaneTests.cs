using Microsoft.JSInterop;

namespace Swardloop.Drawing.Tests;

public sealed class EngineLaneTests : IAsyncDisposable
{
    private readonly ManualTime _time = new();
    private readonly ScriptedWorker _worker = new();
    private readonly EngineLane _lane;

    public EngineLaneTests() => _lane = new(_worker, _time);

    [Fact]
    public async Task One_request_is_at_work_and_the_next_waits()
    {
        Task<byte[]> first = Ask(EngineTask.Map, 1), second = Ask(EngineTask.Advise, 2);
        Assert.Single(_worker.Asked);
        _worker.Answer([10]);
        Assert.Equal([10], await first);
        Assert.Equal(2, _worker.Asked.Count);
        _worker.Answer([20]);
        Assert.Equal([20], await second);
    }

    [Fact]
    public async Task A_newer_request_takes_the_place_of_a_waiting_one_of_its_kind_only()
    {
        Task<byte[]> running = Ask(EngineTask.Map, 1), older = Ask(EngineTask.Map, 2), other = Ask(EngineTask.Advise, 3), newer = Ask(EngineTask.Map, 4);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => older);
        _worker.Answer([1]);
        Assert.Equal([1], await running);
        _worker.Answer([3]);
        Assert.Equal([3], await other);
        _worker.Answer([4]);
        Assert.Equal([4], await newer);
        Assert.Equal([1, 3, 4], _worker.Asked.Select(asked => (int)asked.Request[0]));
        Assert.Equal(0, _worker.Stops);
    }

    [Fact]
    public async Task Work_that_was_replaced_may_finish_for_a_while_and_is_then_ended()
    {
        Task<byte[]> running = Ask(EngineTask.Map, 1), newer = Ask(EngineTask.Map, 2);
        _time.Move(EngineLane.Patience);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        Assert.Equal(1, _worker.Stops);
        _worker.Answer([2]);
        Assert.Equal([2], await newer);
    }

    [Fact]
    public async Task Who_gives_up_hears_at_once_and_the_work_ends_soon()
    {
        using CancellationTokenSource giveUp = new();
        Task<byte[]> running = _lane.Ask(EngineTask.Advise, [1], null, giveUp.Token);
        await giveUp.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        Assert.Equal(0, _worker.Stops);
        _time.Move(EngineLane.Patience);
        Assert.Equal(1, _worker.Stops);
    }

    [Fact]
    public async Task What_is_given_up_while_the_worker_starts_is_never_asked_and_the_next_is_answered()
    {
        using CancellationTokenSource giveUp = new();
        _worker.StartSlowly();
        Task<byte[]> gone = _lane.Ask(EngineTask.Advise, [1], null, giveUp.Token), replaced = Ask(EngineTask.Map, 2), next = Ask(EngineTask.Map, 3);
        await giveUp.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => gone);
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => replaced);
        _time.Move(EngineLane.Patience);
        Assert.Equal(0, _worker.Stops);
        _worker.Started();
        _worker.Answer([3]);
        Assert.Equal([3], await next);
        Assert.Equal([3], _worker.Asked.Select(asked => (int)asked.Request[0]));
    }

    [Fact]
    public async Task A_worker_that_hangs_while_it_starts_is_ended_and_another_started()
    {
        _worker.StartSlowly();
        Task<byte[]> hung = Ask(EngineTask.Advise, 1);
        _time.Move(EngineLane.Longest);
        await Assert.ThrowsAsync<TimeoutException>(() => hung);
        Assert.Equal(1, _worker.Stops);
        Task<byte[]> next = Ask(EngineTask.Map, 2);
        _worker.Answer([2]);
        Assert.Equal([2], await next);
    }

    [Fact]
    public async Task Work_that_hangs_is_ended_and_said_to()
    {
        Task<byte[]> hung = Ask(EngineTask.Advise, 1);
        _time.Move(EngineLane.Longest);
        await Assert.ThrowsAsync<TimeoutException>(() => hung);
        Task<byte[]> next = Ask(EngineTask.Advise, 2);
        _worker.Answer([2]);
        Assert.Equal([2], await next);
    }

    [Fact]
    public async Task Work_that_fails_fails_for_who_asked_and_no_one_else()
    {
        Task<byte[]> bad = Ask(EngineTask.Advise, 1), good = Ask(EngineTask.Map, 2);
        _worker.Fail("out of memory");
        await Assert.ThrowsAsync<JSException>(() => bad);
        _worker.Answer([2]);
        Assert.Equal([2], await good);
    }

    [Fact]
    public async Task Without_a_worker_the_page_computes()
    {
        await using EngineLane lane = new(new ScriptedWorker(available: false), TimeProvider.System);
        byte[] answer = await lane.Ask(EngineTask.Map, EngineWork.MapRequest(Examples.Bytes("thimble-court.yard.json"), 500), null, Examples.Soon);
        Assert.True(lane.IsOnPage);
        Assert.Equal(SignalMap.Of(Examples.Yard("thimble-court").Yard, 500, cancellation: Examples.Soon).ToBytes(), EngineWork.Opened(answer));
    }

    public ValueTask DisposeAsync() => _lane.DisposeAsync();

    private Task<byte[]> Ask(EngineTask task, byte request) => _lane.Ask(task, [request], null, CancellationToken.None);
}
