using System.Text.Json;

namespace Swardloop.Cli;

/// <summary>One JSON value per line, each flushed as soon as it is known; for streams, whose only form is the machine's.</summary>
/// <param name="lines">Computed one by one as they are printed.</param>
internal sealed class JsonLinesResult(IEnumerable<Action<Utf8JsonWriter>> lines) : CommandResult
{
    /// <summary>The lines; going through them does the work.</summary>
    public IEnumerable<Action<Utf8JsonWriter>> Lines => lines;

    /// <inheritdoc/>
    public override void WriteText(TextWriter text) => throw new InvalidOperationException("A stream has lines of JSON only.");

    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json) => throw new InvalidOperationException("A stream has many values.");
}
