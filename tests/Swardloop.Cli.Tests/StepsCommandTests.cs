using System.Text.Json;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Cli.Tests;

public sealed class StepsCommandTests
{
    // The names that the contract fixes, tests first, in its order.
    private static readonly string[] Tests =
    [
        "outlet-check", "supply-voltage", "station-lamp", "mower-start", "mower-reach", "follow-wire", "wire-crossing",
        "loop-resistance", "earth-resistance", "insulation", "earth-ratio", "end-capacitance", "split-resistance", "bypass",
        "tone-trace", "reflection", "look", "substitute-loop", "substitute-mower", "neighbour-off", "mower-check",
        "ac-ratio", "guide-resistance", "joint-drop", "pin-probe", "earth-gradient", "terminal-look", "wiggle", "charge-check",
    ];

    private static readonly string[] Repairs =
    [
        "restore-mains", "replace-supply", "replace-station", "remake-terminals", "remake-joint", "mend-span", "renew-loop",
        "relay-layout", "recode-station", "service-receiver", "service-drive",
        "swap-ends", "clean-contacts", "replace-battery", "ask-maker",
    ];

    private static readonly Lazy<JsonElement> Catalogue = new(() => Json(CliRun.Of("steps", "--json")).GetProperty("steps"));

    private static JsonElement Json(CliRun run)
    {
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        return document.RootElement.Clone();
    }

    private static JsonElement Step(string name) => Catalogue.Value.EnumerateArray().Single(step => step.GetProperty("name").GetString() == name);

    [Fact]
    public void List_for_people_is_the_approved_one() => Approved.Check("steps.txt", CliRun.Of("steps").Output);

    [Fact]
    public void Page_of_the_documentation_shows_the_cards_as_printed() => Approved.CheckFile(
        "docs/steps.md",
        "# Steps\n\nEvery test and repair, as `swardloop steps NAME` prints it. Made by a test from the catalogue; do not edit.\n\n```text\n"
        + CliRun.Of(["steps", .. Tests, .. Repairs]).Output
        + "```\n");

    [Fact]
    public void Text_for_people_fits_a_phone() => Assert.All(
        [.. CliRun.Of("steps").Output.Split('\n'), .. CliRun.Of(["steps", .. Tests, .. Repairs]).Output.Split('\n')],
        line => Assert.InRange(line.Length, 0, 60));

    [Fact]
    public void Json_lists_the_promised_names() => Assert.Equal(
        [.. Tests.Select(name => (name, "test")), .. Repairs.Select(name => (name, "repair"))],
        Catalogue.Value.EnumerateArray().Select(step => (step.GetProperty("name").GetString()!, step.GetProperty("kind").GetString()!)));

    [Fact]
    public void Every_step_says_how_and_what_to_heed() => Assert.All(Catalogue.Value.EnumerateArray(), step =>
    {
        Assert.NotEqual(0, step.GetProperty("how").GetArrayLength());
        Assert.NotEqual(0, step.GetProperty("cautions").GetArrayLength());
        Assert.NotEqual(0, step.GetProperty("outcomes").GetArrayLength());
        bool owner = step.GetProperty("by").EnumerateArray().Any(by => by.GetString() == "owner");
        Assert.Equal(owner, step.TryGetProperty("howForOwner", out _));
    });

    // Minutes, parts and who, as the contract's table gives them.
    [Theory]
    [InlineData("station-lamp", 1, 0, true)]
    [InlineData("outlet-check", 2, 0, true)]
    [InlineData("earth-ratio", 10, 0, false)]
    [InlineData("split-resistance", 20, 4, false)]
    [InlineData("replace-station", 15, 180, false)]
    [InlineData("remake-joint", 12, 2, false)]
    [InlineData("restore-mains", 5, 0, true)]
    [InlineData("service-drive", 60, 120, false)]
    [InlineData("ac-ratio", 10, 0, false)]
    [InlineData("guide-resistance", 6, 0, true)]
    [InlineData("joint-drop", 8, 0, false)]
    [InlineData("pin-probe", 8, 1, false)]
    [InlineData("earth-gradient", 4, 0, false)]
    [InlineData("terminal-look", 3, 0, true)]
    [InlineData("wiggle", 5, 0, false)]
    [InlineData("charge-check", 3, 0, true)]
    [InlineData("swap-ends", 2, 0, true)]
    [InlineData("clean-contacts", 10, 0, true)]
    [InlineData("replace-battery", 15, 110, false)]
    [InlineData("ask-maker", 30, 80, true)]
    public void Json_gives_the_promised_numbers(string name, double minutes, double parts, bool ownerMay)
    {
        JsonElement step = Step(name);
        Assert.Equal(minutes, step.GetProperty("minutes").GetDouble());
        Assert.Equal(parts, step.GetProperty("parts").GetDouble());
        Assert.Equal(ownerMay ? 2 : 1, step.GetProperty("by").GetArrayLength());
    }

    [Theory]
    [InlineData("bypass", "minutesPerM", 0.1)]
    [InlineData("look", "minutesPerM", 0.3)]
    [InlineData("look", "leastMinutes", 2)]
    [InlineData("split-resistance", "minutesAtJoint", 12)]
    [InlineData("split-resistance", "partsAtJoint", 2)]
    [InlineData("mend-span", "partsPerM", 0.5)]
    [InlineData("renew-loop", "minutesPerM", 1.2)]
    [InlineData("relay-layout", "minutesPerM", 1.5)]
    public void Json_gives_the_numbers_that_depend_on_place(string name, string property, double expected) =>
        Assert.Equal(expected, Step(name).GetProperty(property).GetDouble());

    [Fact]
    public void Named_steps_come_alone_and_in_the_order_asked() => Assert.Equal(
        ["look", "bypass"],
        Json(CliRun.Of("steps", "look", "bypass", "--json")).GetProperty("steps").EnumerateArray().Select(step => step.GetProperty("name").GetString()));

    [Fact]
    public void Unknown_step_is_refused_with_the_known_ones()
    {
        string line = CliRun.Of("steps", "hope").RefusedLine();
        Assert.StartsWith("swardloop steps: \"hope\": no such step; allowed: outlet-check, ", line, StringComparison.Ordinal);
        Assert.EndsWith("ask-maker", line, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_and_text_are_never_mixed()
    {
        Assert.StartsWith("{", CliRun.Of("steps", "--json").Output, StringComparison.Ordinal);
        Assert.DoesNotContain("{", CliRun.Of("steps").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Catalogue_in_json_covers_every_kind() => Assert.Equal(Enum.GetValues<StepKind>().Length, Catalogue.Value.GetArrayLength());
}
