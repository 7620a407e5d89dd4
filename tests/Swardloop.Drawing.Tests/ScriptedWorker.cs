using Microsoft.JSInterop;

namespace Swardloop.Drawing.Tests;

/// <summary>Stands for the worker's script: answers when the test says so.</summary>
internal sealed class ScriptedWorker(bool available = true) : IJSRuntime, IJSObjectReference
{
    private TaskCompletionSource<byte[]>? _work;

    public List<(int Task, byte[] Request)> Asked { get; } = [];

    public int Stops { get; private set; }

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
                answer = available;
                break;
            case "stop":
                Stops++;
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
