using Swardloop.Storage;

namespace Swardloop.Server.Events;

/// <summary>Passes on to our pages what other servers of the workshop announce.</summary>
internal sealed class NewsFromOtherServers(IDatabaseEngine engine, ChangeNews news) : BackgroundService
{
    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        try
        {
            await engine.ListenAsync(news, stoppingToken);
        }
        catch (OperationCanceledException)
        {
            // Told to stop.
        }
    }
}
