using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>What docs/security.md says is guarded by a test is guarded by one that exists under that name.</summary>
public sealed partial class SecurityPageTests
{
    [Fact]
    public void Every_test_that_the_page_names_exists()
    {
        string root = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", ".."));
        ILookup<string, string> sources = Directory.EnumerateFiles(Path.Combine(root, "tests"), "*Tests.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .ToLookup(file => Path.GetFileNameWithoutExtension(file).Split('.')[0], File.ReadAllText);
        (List<string> missing, int classes, int methods) = ([], 0, 0);
        foreach (string line in File.ReadLines(Path.Combine(root, "docs", "security.md")))
        {
            string[] of = [];
            foreach (Match quoted in Quoted().Matches(line))
            {
                // A method without a class belongs to the class named before it in the same row.
                (string name, string method) = (quoted.Groups["class"].Value, quoted.Groups["method"].Value);
                if (name.Length > 0)
                {
                    classes++;
                    of = [.. sources[name]];
                }

                bool isThere = of.Length > 0;
                if (method.Length > 0)
                {
                    methods++;
                    string end = quoted.Groups["more"].Success ? "" : @"\(";
                    isThere = of.Any(text => Regex.IsMatch(text, $@"\[(Fact|Theory)\b(?:(?!\bclass\b)[\s\S])*?\b(void|Task)\s+{method}{end}"));
                }

                if (!isThere)
                {
                    missing.Add(quoted.Value);
                }
            }
        }

        Assert.Empty(missing);
        Assert.True(classes > 30 && methods > 15, $"{classes} classes and {methods} methods: the page is no longer read as it is written");
    }

    private static string Here([CallerFilePath] string path = "") => path;

    [GeneratedRegex(@"`(?:(?<class>[A-Z]\w*Tests)(?:\.(?<method>[A-Z]\w*_\w*)(?<more>…)?)?|(?<method>[A-Z][a-z]*_\w*)(?<more>…)?)`")]
    private static partial Regex Quoted();
}
