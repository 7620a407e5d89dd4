using System.Text.Json;
using Swardloop.Cli.Commands;
using Swardloop.Trial.CaseBook;

namespace Swardloop.Cli.Tests;

/// <summary>The advice held against the case book, <c>docs/casebook</c>.</summary>
public sealed class CaseBookTests
{
    private static readonly string Directory = Repository.At("docs/casebook");

    private static readonly Dictionary<string, Situation> Book = Situation.ReadAll(Directory).ToDictionary(situation => situation.Slug);

    private static readonly IReadOnlyDictionary<string, DateOnly> NotYet = NotYetList.Read(File.ReadAllText(Path.Combine(Directory, NotYetList.FileName)));

    public static TheoryData<string> Slugs() => [.. Book.Keys];

    [Theory]
    [MemberData(nameof(Slugs))]
    public void The_advice_is_what_a_technician_would_defend(string slug)
    {
        Verdict verdict = Judge.Of(Book[slug], CaseBookTrial.Advise);
        if (NotYet.ContainsKey(slug))
        {
            Assert.False(verdict.Passed, $"{slug} passes: strike it from {NotYetList.FileName}.");
        }
        else
        {
            Assert.True(verdict.Passed, string.Join('\n', [.. verdict.Failures, .. verdict.Causes, .. verdict.Next, .. verdict.Played]));
        }
    }

    [Fact]
    public void What_is_not_done_well_yet_is_in_the_book() => Assert.Subset(Book.Keys.ToHashSet(), NotYet.Keys.ToHashSet());

    [Fact]
    public void The_readme_lists_every_situation() =>
        Assert.Contains(BookIndex.Of(Book.Values), File.ReadAllText(Path.Combine(Directory, "README.md")), StringComparison.Ordinal);

    [Fact]
    public void Numbers_of_situations_are_in_a_row() =>
        Assert.Equal(Enumerable.Range(1, Book.Count), Book.Keys.Select(slug => int.Parse(slug.Split('-')[0], System.Globalization.CultureInfo.InvariantCulture)).Order());

    [Fact]
    public void A_list_of_one_situation_twice_or_without_a_day_is_refused()
    {
        Assert.Single(NotYetList.Read("# why\n\n01-x 2026-11-29\n"));
        Assert.Throws<FormatException>(() => NotYetList.Read("01-x 2026-11-29\n01-x 2026-11-30"));
        Assert.Throws<FormatException>(() => NotYetList.Read("01-x"));
    }

    private const string Advice = """
        { "causes": [ { "cause": "open", "probability": 0.6 }, { "cause": "open+leak", "probability": 0.1 }, { "cause": "drive", "probability": 0.3 } ],
          "location": { "atM": 31, "lowM": 30, "highM": 33 }, "disagreement": null, "finished": false,
          "next": [ { "step": "split-resistance", "atM": 31, "by": "technician", "costNow": 59, "expectedCostToFinish": 70, "why": "w" },
                    { "step": "split-resistance", "atM": 31, "by": "owner", "costNow": 9, "expectedCostToFinish": 60, "why": "w" } ] }
        """;

    private static Verdict Judged(string expect, string answer = Advice)
    {
        using JsonDocument document = JsonDocument.Parse($$"""{ "case": { "observations": [ { "test": "loop-resistance" } ] }, "expect": {{expect}} }""");
        return Judge.Of(new("00-x", "x", document.RootElement.GetProperty("case"), document.RootElement.GetProperty("expect")), _ => answer);
    }

    [Theory]
    [InlineData("""{ "nextIn": [ { "step": "split-resistance", "atM": 31.5 } ] }""", true)]
    [InlineData("""{ "nextIn": [ { "step": "split-resistance", "atM": 33 } ] }""", false)]
    [InlineData("""{ "nextIn": [ "@opens-wire" ] }""", true)]
    [InlineData("""{ "nextIn": [ "loop-resistance" ], "nextAlso": [ { "step": "@any", "fromM": 20, "toM": 40 } ] }""", true)]
    [InlineData("""{ "nextIn": [ "loop-resistance" ] }""", false)]
    [InlineData("""{ "nextNotIn": [ { "step": "split-resistance", "by": "owner" } ] }""", true)]
    [InlineData("""{ "nextNotIn": [ "@opens-wire" ] }""", false)]
    [InlineData("""{ "neverAnywhere": [ { "step": "split-resistance", "by": "owner" } ] }""", false)]
    [InlineData("""{ "somewhere": [ "loop-resistance" ] }""", false)]
    [InlineData("""{ "causesAtLeast": [ { "any": [ "open" ], "probability": 0.7 } ] }""", true)]
    [InlineData("""{ "causesAtLeast": [ { "any": [ "leak" ], "probability": 0.2 } ] }""", false)]
    [InlineData("""{ "causesAtMost": [ { "any": [ "drive", "leak" ], "probability": 0.39 } ] }""", false)]
    [InlineData("""{ "locationWithin": { "fromM": 30, "toM": 32 }, "intervalWidthAtMost": 3, "intervalWidthAtLeast": 3 }""", true)]
    [InlineData("""{ "locationWithin": { "fromM": 32, "toM": 40 } }""", false)]
    [InlineData("""{ "intervalWidthAtMost": 2.9 }""", false)]
    [InlineData("""{ "intervalWidthAtLeast": 3.1 }""", false)]
    [InlineData("""{ "disagreementNamed": false, "finished": false, "numbersFinite": true }""", true)]
    [InlineData("""{ "disagreementNamed": true }""", false)]
    [InlineData("""{ "disagreementNamed": [ 0 ] }""", false)]
    [InlineData("""{ "firstStepSettles": [ 0 ] }""", false)]
    [InlineData("""{ "finished": true }""", false)]
    [InlineData("""{ "nextInOrderOfCost": true }""", false)]
    [InlineData("""{ "eachStepOnce": true }""", false)]
    [InlineData("""{ "refused": "open" }""", false)]
    public void Each_word_of_the_book_is_judged(string expect, bool passes) => Assert.Equal(passes, Judged(expect).Passed);

    [Fact]
    public void A_word_that_the_book_does_not_have_is_refused() =>
        Assert.Contains("nextOf", Assert.Throws<FormatException>(() => Judged("""{ "nextOf": [] }""")).Message, StringComparison.Ordinal);

    [Fact]
    public void An_answer_that_is_no_advice_fails() => Assert.False(Judged("""{ "finished": false }""", "{ \"causes\": [").Passed);

    [Theory]
    [InlineData("""{ "steps": 3, "answers": [ { "step": "split-resistance", "answer": { "ohmsA": 1 } } ], "ends": [ "split-resistance" ], "costAtMost": 60 }""", true)]
    [InlineData("""{ "steps": 3, "repeatsAtMost": 2 }""", false)]
    [InlineData("""{ "steps": 3, "ends": [ "split-resistance" ], "costAtMost": 58 }""", false)]
    [InlineData("""{ "steps": 3, "ends": [ "split-resistance" ], "never": [ "@opens-wire" ] }""", false)]
    [InlineData("""{ "steps": 3, "ends": [ "split-resistance" ], "must": [ "ask-maker" ] }""", false)]
    public void A_dialogue_is_played_to_its_end(string play, bool passes) => Assert.Equal(passes, Judged($$"""{ "play": {{play}} }""").Passed);

    [Fact]
    public void The_command_prints_each_situation_and_what_it_missed()
    {
        CliRun run = CliRun.Of("trial", "--casebook", Directory, "--situation", "01-");
        Assert.Equal(0, run.ExitCode);
        Assert.Contains("  01-", run.Output, StringComparison.Ordinal);
        CliRun machine = CliRun.Of("trial", "--casebook", Directory, "--situation", "01-", "--json");
        Assert.StartsWith("01-", JsonDocument.Parse(machine.Output).RootElement[0].GetProperty("situation").GetString(), StringComparison.Ordinal);
        CliRun.Of("trial", "--casebook", Path.Combine(Directory, "nowhere")).RefusedLine();
    }
}
