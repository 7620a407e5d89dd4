using Swardloop.Model.Cases;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing.Tests;

/// <summary>The example files.</summary>
internal static class Examples
{
    public static readonly string[] Names = ["marram-reach", "sorrel-corner", "thimble-court"];

    /// <summary>Ends what a test started when the test is ended.</summary>
    public static CancellationToken Soon => Xunit.TestContext.Current.CancellationToken;

    public static byte[] Bytes(string file) => File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "examples", file));

    public static YardFile Yard(string name) => YardFile.Read(Bytes($"{name}.yard.json"), name).Value!;

    public static CaseFile Case(string name) => CaseFile.Read(Bytes($"{name}.case.json"), name, Bytes).Value!;
}
