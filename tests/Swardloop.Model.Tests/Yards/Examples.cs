namespace Swardloop.Model.Tests.Yards;

/// <summary>The example yards, found by walking up from where the tests run.</summary>
internal static class Examples
{
    public static string Repository { get; } = Up(AppContext.BaseDirectory);

    public static IEnumerable<string> YardPaths =>
        Directory.EnumerateFiles(Path.Combine(Repository, "examples"), "*.yard.json").Order(StringComparer.Ordinal);

    private static string Up(string folder) => File.Exists(Path.Combine(folder, "Swardloop.slnx"))
        ? folder
        : Up(Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("No repository above the tests."));
}
