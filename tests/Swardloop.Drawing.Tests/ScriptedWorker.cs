using Microsoft.JSInterop;

namespace Swardloop.Drawing.Tests;

/// <summary>Stands for the worker's script: answers when the test says so.</summary>
internal sealed class ScriptedWorker(bool available = true) : IJSRuntime, IJSObjectReference
{
    private TaskCompletionSource<byte[]>? _work;
    private TaskCompletionSource<bool>? _starting;

    public List<(int Task, byte[] Request)> Asked { get; } = [];

    public int Stops { get; private set; }

    /// <summary>From now on the worker takes its time to start.</summary>
    public void StartSlowly() => _starting = new();

    public void Started() => _starting!.SetResult(available);

    public void Answer(byte[] bytes) => Take().SetResult(bytes);

    public void Fail(string reason) => Take().SetException(new JSException(reason));

    public ValueTask<TValue> InvokeAsync<TValue>(string identifier, object?[]? args) => InvokeAsync<TValue>(identifier, CancellationToken.None, args);

    public async ValueTask<TValue> InvokeAsync<TValue>(string identifier, CancellationToken cancellationToken, object?[]? args)
    {
        object? answer = null;
        switch (identifier)
        {
            case "import" or "open":
                answer = this;
                break;
            case "ready":
                answer = _starting is null ? available : await _starting.Task;
                break;
            case "stop":
                Stops++;
                TaskCompletionSource<bool>? starting = _starting;
                _starting = null;
                starting?.TrySetException(new JSException("the worker was ended while it started"));
                if (_work is not null)
                {
                    Fail("the worker was ended");
                }

                break;
            case "ask":
                Assert.Null(_work);
                _work = new();
                Asked.Add(((int)args![0]!, (byte[])args[1]!));
                answer = await _work.Task;
                break;
            default:
                throw new ArgumentException($"The worker's script has no {identifier}.", nameof(identifier));
        }

        return (TValue)answer!;
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private TaskCompletionSource<byte[]> Take()
    {
        TaskCompletionSource<byte[]> work = _work!;
        _work = null;
        return work;
    }
}
