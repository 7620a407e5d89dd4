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
        Options =
        [
            new("--urls", "URLS", "Addresses, with semicolons between (default: http://127.0.0.1:5080)."),
            new("--behind-proxy", "ADDRESS", "IP address of the reverse proxy in front; several with commas. What it says of who asks and how counts, from there alone."),
            Data, Demo, Database,
        ],
    };

    /// <summary><c>backup</c>.</summary>
    public static CommandSyntax Backup { get; } = new("backup", "Write the whole workshop into one file, while it is served or not.")
    {
        Positionals = [new("FILE", "Where to; a ZIP file. It holds personal data: keep it as carefully as the data folder.")],
        Options = [Data, Demo, Database],
    };

    /// <summary><c>restore</c>.</summary>
    public static CommandSyntax Restore { get; } = new("restore", "Restore a backup into an empty folder or database, and compare.")
    {
        Positionals = [new("FILE", "A backup.")],
        Options = [Data, Demo, Database],
    };

    /// <summary><c>export --everything</c>.</summary>
    public static CommandSyntax ExportEverything { get; } = new("export", "Write all of the workshop as open files: yards, cases, records, photos.")
    {
        Options = [new("--everything", null, "All of the workshop."), new("--into", "DIR", "A folder that is empty or not there yet."), Data, Demo, Database],
    };

    /// <summary><c>forget</c>.</summary>
    public static CommandSyntax Forget { get; } = new("forget", "Show what names an owner and, with --yes, erase it; the lawn, the wire and the readings stay.")
    {
        Positionals = [new("OWNER", "The owner's id, or the whole name.")],
        Options =
        [
            new("--yes", null, "Erase it. Without, all that would go is only shown."),
            new("--keep", "KEYS", "Texts that name nobody and stay: their keys as shown, with commas between."),
            Data, Demo, Database,
        ],
    };

    /// <summary><c>screen</c>.</summary>
    public static CommandSyntax Screen { get; } = new("screen", "Compute what changed of many yards: reach, forecast, advice of open cases. A run that was cut off is gone on with.")
    {
        Options =
        [
            new("--part", "I/N", "One part of N, such as 3/64; parts may run beside each other, on any machine that reaches the database (default: 1/1, all)."),
            Data, Demo, Database,
        ],
    };

    /// <summary><c>people</c>.</summary>
    public static CommandSyntax People { get; } = new("people", "List the workshop's people, make one its principal, or give a one-time code for a forgotten password.")
    {
        Options =
        [
            new("--principal", "EMAIL", "Make this person the principal, and unlock the account."),
            new("--code", "EMAIL", "Print a code that opens this account once, within a day; a new password is chosen then."),
            Data, Demo, Database,
        ],
    };

    /// <summary>Those that help shows, in its order; <c>export --everything</c> stands with the other exports.</summary>
    public static IReadOnlyList<CommandSyntax> Commands { get; } = [Serve, Backup, Restore, Forget, Screen, People];
}
