using System.Text;

namespace Swardloop.Cli;

/// <summary>What a run of the program reads and writes. Tests give their own; nothing else in the program touches the console.
/// Streams are opened when first used, as each costs start-up time.</summary>
internal sealed class Terminal(Func<Stream> input, Func<Stream> output, Func<Stream> error)
{
    /// <summary>UTF-8 without the mark in front, which would not be JSON.</summary>
    public static readonly Encoding Utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);

    private readonly Lazy<Stream> _input = new(input), _output = new(output), _error = new(error);

    /// <summary>Standard input, for an argument <c>-</c>.</summary>
    public Stream Input => _input.Value;

    /// <summary>Standard output: UTF-8, line feeds, one form only (text or JSON).</summary>
    public Stream Output => _output.Value;

    /// <summary>Standard error: one line when something is wrong, progress when a person looks on.</summary>
    public Stream Error => _error.Value;

    /// <summary>Gives the token that Ctrl-C cancels. Asked only by commands that take long.</summary>
    public Func<CancellationToken> OnCancel { get; init; } = () => CancellationToken.None;

    /// <summary>The process's own streams.</summary>
    public static Terminal OfProcess() =>
        new(Console.OpenStandardInput, Console.OpenStandardOutput, Console.OpenStandardError) { OnCancel = ListenForCancel };

    /// <summary>A writer of text for people onto a stream; the stream stays open.</summary>
    public static TextWriter TextOnto(Stream stream) => new StreamWriter(stream, Utf8, leaveOpen: true) { NewLine = "\n" };

    private static CancellationToken ListenForCancel()
    {
        CancellationTokenSource source = new();
        Console.CancelKeyPress += (_, press) =>
        {
            press.Cancel = true;
            source.Cancel();
        };
        return source.Token;
    }
}
