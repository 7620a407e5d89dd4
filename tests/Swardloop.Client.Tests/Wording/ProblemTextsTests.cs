using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Swardloop.Client.Wording;

namespace Swardloop.Client.Tests.Wording;

public partial class ProblemTextsTests
{
    // Every sentence that the checks of files and records hold as a text of their own; what is put into the gaps is not known here.
    public static TheoryData<string> Sentences
    {
        get
        {
            SortedSet<string> sentences = new(StringComparer.Ordinal);
            foreach (string folder in (string[])["Swardloop.Model", "Swardloop.Workshop", "Swardloop.Drawing"])
            {
                foreach (string file in Directory.EnumerateFiles(Path.Combine(Sources(), folder), "*.cs", SearchOption.AllDirectories)
                    .Where(file => !file.Contains("/obj/", StringComparison.Ordinal) && !file.Contains("/bin/", StringComparison.Ordinal)))
                {
                    foreach (string line in File.ReadLines(file).Where(line => SaysProblem().IsMatch(line)))
                    {
                        sentences.UnionWith(Literals().Matches(line).Select(literal => Gaps().Replace(literal.Groups[1].Value.Replace("\\\"", "\"", StringComparison.Ordinal).Replace(@"\\", @"\", StringComparison.Ordinal), "7")).Where(IsSentence));
                    }
                }
            }

            return [.. sentences];
        }
    }

    [Theory]
    [MemberData(nameof(Sentences))]
    public void Every_sentence_of_a_check_is_there_in_German(string english) => Assert.NotEqual(english, ProblemTexts.German(english));

    [Theory]
    [InlineData("got 12.5", "da steht 12,5")]
    [InlineData("got \"moss.wire\"", "da steht \"moss.wire\"")]
    [InlineData("a number above 0 and up to 1000 Ω, or over-range", "eine Zahl über 0 und bis 1000 Ω, oder über dem Messbereich")]
    [InlineData("got an array of 3", "da steht eine Liste von 3")]
    [InlineData("the wire is 0.25 m long", "der Draht ist 0,25 m lang")]
    [InlineData("the wire crosses itself at (12.00, 3.50): the pieces after corner 2 and after corner 5", "der Draht kreuzt sich bei (12.00, 3.50): die Stücke nach Ecke 2 und nach Ecke 5")]
    [InlineData("terminal A and the joint at 0.4 m lie within 0.5 m of each other: readings can hardly tell them apart", "Klemme A und der Verbinder bei 0,4 m liegen keine 0,5 m auseinander: Messungen können sie kaum unterscheiden")]
    [InlineData("[x, y], each a number from -10\u00a0000 to 10\u00a0000 m", "[x, y], je eine Zahl von -10\u00a0000 bis 10\u00a0000 m")]
    [InlineData("a number from 0 to 10\u00a0002.5 m", "eine Zahl von 0 bis 10\u00a0002,5 m")]
    [InlineData("brambles, thimbles", "brambles, thimbles")]
    public void Sentence_is_said_with_what_is_in_its_gaps(string english, string german) => Assert.Equal(german, ProblemTexts.German(english));

    private static bool IsSentence(string text) => text.TrimStart() == text && TwoWords().IsMatch(text) && !Place().IsMatch(text);

    private static string Sources([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "src"));

    [GeneratedRegex(@"roblems\.Add\(|TellCrossings\(|string \w*[aA]llowed = |^\s+Text\(\$|Expect\(|new\((source|rest\.Name), ")]
    private static partial Regex SaysProblem();

    [GeneratedRegex("\"((?:[^\"\\\\]|\\\\.)*)\"")]
    private static partial Regex Literals();

    [GeneratedRegex(@"\{[^{}…]+\}")]
    private static partial Regex Gaps();

    [GeneratedRegex(@"[a-z]{2,} \S*[a-z0-9]")]
    private static partial Regex TwoWords();

    // Where in a file, which is a path and no sentence.
    [GeneratedRegex(@"^(line 7|line 7, .*|7, 7)$")]
    private static partial Regex Place();
}
