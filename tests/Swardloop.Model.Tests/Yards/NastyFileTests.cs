using System.Text;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

/// <summary>Files meant to break readers, kept by name in tests/Reference/nasty with what is said about each in expected.txt.
/// SWARDLOOP_APPROVE=1 writes that file anew: read the difference before committing it.</summary>
public sealed class NastyFileTests
{
    private static readonly string Folder = Path.Combine(Examples.Repository, "tests", "Reference", "nasty");

    [Fact]
    public void Every_nasty_file_is_read_or_refused_as_approved()
    {
        StringBuilder said = new();
        foreach (string path in Directory.EnumerateFiles(Folder, "*.yard.json").Order(StringComparer.Ordinal))
        {
            string name = Path.GetFileName(path);
            Checked<YardFile> read = YardFile.Read(File.ReadAllBytes(path), name);
            said.Append(read.IsGood ? $"{name}: read as {new Problem("", "", read.Value.Yard.Name, "").ToString()[2..]}\n" : string.Concat(read.Lines().Select(line => line + "\n")));
        }

        string expected = Path.Combine(Folder, "expected.txt");
        if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
        {
            File.WriteAllText(expected, said.ToString());
        }

        Assert.Equal(File.ReadAllText(expected), said.ToString());
    }

    [Fact]
    public void A_million_corners_are_refused_without_reading_them_one_by_one()
    {
        StringBuilder path = new("[0,0]");
        for (int i = 1; i < 1_000_000; i++)
        {
            path.Append(",[").Append(i % 100).Append(',').Append(i % 7).Append(']');
        }

        Checked<YardFile> read = YardReadingTests.Read($$"""
            { "format": "swardloop-yard/1", "name": "Million", "loop": { "path": [{{path}}], "conductor": { "material": "copper", "awg": 18 } } }
            """);

        Assert.Equal(["test.yard.json: loop.path: got 1000000 corners; allowed: at most 2000 corners; a read track that is imported keeps only those it needs to stay within 2 cm"], read.Lines());
    }

    [Fact]
    public void A_file_too_large_is_refused_before_it_is_looked_into() =>
        Assert.Equal([$"big: the file has {JsonText.MostBytes + 1} bytes; allowed: a file of at most 16 MiB"],
            YardFile.Read(new byte[JsonText.MostBytes + 1], "big").Lines());

    [Fact]
    public void A_million_properties_are_refused()
    {
        string properties = string.Join(",", Enumerable.Range(0, JsonText.MostProperties + 1).Select(i => $"\"p{i}\":0"));
        Assert.Equal(["test.yard.json: the file has too many properties; allowed: at most 200000"], YardReadingTests.Read($"{{{properties}}}").Lines());
    }

    [Fact]
    public void Of_thousands_of_problems_fifty_are_told_and_the_rest_counted()
    {
        string path = string.Join(",", Enumerable.Repeat("[0,\"x\"]", 2_000));
        Checked<YardFile> read = YardReadingTests.Read($$"""
            { "format": "swardloop-yard/1", "name": "Many", "loop": { "path": [{{path}}], "conductor": { "material": "copper", "awg": 18 } } }
            """);

        Assert.Equal(ProblemList.MostKept, read.Problems.Count);
        Assert.Equal("… and 1950 more", read.Lines().Last());
    }
}
