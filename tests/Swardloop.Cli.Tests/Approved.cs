namespace Swardloop.Cli.Tests;

/// <summary>Printed output against the approved text files beside this one. Run the tests with SWARDLOOP_APPROVE=1 to
/// write what was printed, then read the difference before committing it.</summary>
internal static class Approved
{
    /// <summary>Asserts that the text is the approved one.</summary>
    /// <param name="name">The file's name in Approved, with extension.</param>
    /// <param name="printed">What was printed.</param>
    public static void Check(string name, string printed) => CheckFile($"tests/Swardloop.Cli.Tests/Approved/{name}", printed);

    /// <summary>Asserts that a page of the documentation is the text that the program makes it from.</summary>
    /// <param name="path">The page, from the repository's root.</param>
    /// <param name="made">What it should hold.</param>
    public static void CheckFile(string path, string made)
    {
        string name = path;
        path = Repository.At(path);
        if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
        {
            File.WriteAllText(path, made);
        }

        Assert.True(File.Exists(path), $"Nothing approved yet as {name}.");
        Assert.Equal(File.ReadAllText(path), made);
    }
}
