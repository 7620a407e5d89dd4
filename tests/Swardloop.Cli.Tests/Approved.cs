namespace Swardloop.Cli.Tests;

/// <summary>Printed output against the approved text files beside this one. Run the tests with SWARDLOOP_APPROVE=1 to
/// write what was printed, then read the difference before committing it.</summary>
internal static class Approved
{
    /// <summary>Asserts that the text is the approved one.</summary>
    /// <param name="name">The file's name in Approved, with extension.</param>
    /// <param name="printed">What was printed.</param>
    public static void Check(string name, string printed)
    {
        string path = Repository.At($"tests/Swardloop.Cli.Tests/Approved/{name}");
        if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
        {
            File.WriteAllText(path, printed);
        }

        Assert.True(File.Exists(path), $"Nothing approved yet as {name}.");
        Assert.Equal(File.ReadAllText(path), printed);
    }
}
