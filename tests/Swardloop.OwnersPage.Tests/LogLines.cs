using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace Swardloop.OwnersPage.Tests;

/// <summary>Keeps every line that the server logs, of every level.</summary>
internal sealed class LogLines : ILoggerProvider
{
    /// <summary>The lines, faults with their traces.</summary>
    public ConcurrentQueue<string> All { get; } = [];

    public ILogger CreateLogger(string categoryName) => new OneLog(categoryName, All);

    public void Dispose()
    {
    }

    private sealed class OneLog(string category, ConcurrentQueue<string> lines) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            lines.Enqueue($"{category}: {formatter(state, exception)} {exception}");
    }
}
