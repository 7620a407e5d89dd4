namespace Swardloop.Cli;

/// <summary>What the server's commands take. They are another program, which the script <c>swardloop</c> builds and starts: this one
/// starts fast because it knows nothing of it.</summary>
internal static class ServerSyntax
{
    private static readonly OptionSyntax Data = new("--data", "DIR", "The data folder (default: swardloop in the user's folder for program data).");

    private static readonly OptionSyntax Database = new(
        "--database", "CONNECTION", "PostgreSQL instead of a file in the folder: \"Host=…;Database=…;Username=…\" (default: SWARDLOOP_DATABASE).");

    private static readonly OptionSyntax Demo = new("--demo", null, "The demo workshop, kept apart from the real one.");

    /// <summary><c>serve</c>.</summary>
    public static CommandSyntax Serve { get; } = new("serve", "Serve the workshop's web app until Ctrl-C.")
    {
        Options = [new("--urls", "URLS", "Addresses, with semicolons between (default: http://127.0.0.1:5080)."), Data, Demo, Database],
    };

    /// <summary>All of them, in the order that help shows.</summary>
    public static IReadOnlyList<CommandSyntax> Commands { get; } = [Serve];
}
