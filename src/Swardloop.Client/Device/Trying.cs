using Swardloop.Client.Wording;

namespace Swardloop.Client.Device;

/// <summary>Doing what may be refused or find no connection, and what to tell the person then.</summary>
public static class Trying
{
    /// <returns>What went wrong, line by line; empty when it went well.</returns>
    public static async Task<IReadOnlyList<string>> TryAsync(this ThisDevice device, Func<Task> doing, Texts texts)
    {
        try
        {
            await doing().ConfigureAwait(true);
            return [];
        }
        catch (ServerRefusalException refusal)
        {
            return refusal.Problems.Count > 0
                ? [.. refusal.Problems.Select(problem => texts.Problem(problem))]
                : [texts.Problem(refusal.Message)];
        }
        catch (HttpRequestException)
        {
            return [device.IsConnected ? texts.NoAnswer : texts.NoConnection];
        }
    }
}
