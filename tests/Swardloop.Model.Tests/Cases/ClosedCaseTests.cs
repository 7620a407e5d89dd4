using System.Text;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Tests.Cases;

public sealed class ClosedCaseTests
{
    private static CauseKind? CauseOf(string observations, CauseKind believed = CauseKind.Open) => ClosedCase.CauseOf(
        CaseReadingTests.ReadObservations(observations).Value!.Case,
        before => new()
        {
            Causes = [new(new Cause(CauseKind.Drive), 0.5), new(new Cause(believed), 0.4), new(new Cause(CauseKind.Supply), 0.1)],
            Density = [],
            Evidence = [],
            Next = [],

            // What is asked about is the case before the repair.
            Disagreement = before.Observations.OfType<Observation.RepairDone>().Any() ? throw new InvalidOperationException("asked too late") : null,
        });

    [Theory]
    [InlineData("""{ "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }""", CauseKind.Supply)]
    [InlineData("""{ "repair": "relay-layout" }, { "test": "mower-check", "value": "runs" }""", CauseKind.Layout)]
    [InlineData("""{ "repair": "mend-span", "fromM": 1, "toM": 2 }, { "test": "mower-check", "value": "runs" }""", CauseKind.Open)]
    [InlineData("""{ "test": "split-resistance", "atM": 42, "ohmsA": 3, "ohmsB": 3 }, { "test": "mower-check", "value": "runs" }""", CauseKind.Open)]
    [InlineData("""{ "repair": "replace-station" }, { "test": "mower-check", "value": "same" }, { "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }""", CauseKind.Supply)]
    public void A_closed_case_has_the_cause_that_its_repair_ended(string observations, CauseKind cause) =>
        Assert.Equal(cause, CauseOf(observations));

    [Theory]
    [InlineData("")]
    [InlineData("""{ "test": "mower-check", "value": "runs" }""")]
    [InlineData("""{ "repair": "replace-supply" }""")]
    [InlineData("""{ "repair": "replace-supply" }, { "test": "mower-check", "value": "same" }""")]
    [InlineData("""{ "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }, { "test": "mower-check", "value": "same" }""")]
    [InlineData("""{ "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }, { "repair": "replace-station" }""")]
    [InlineData("""{ "repair": "replace-supply" }, { "test": "mower-check", "value": "same" }, { "test": "mower-check", "value": "runs" }""")]
    public void A_case_without_a_running_mower_after_a_repair_is_open(string observations) => Assert.Null(CauseOf(observations));

    [Fact]
    public void What_was_believed_before_decides_between_causes_that_one_repair_ends() =>
        Assert.Equal(CauseKind.EndsSwapped, CauseOf("""{ "repair": "remake-terminals" }, { "test": "mower-check", "value": "runs" }""", CauseKind.EndsSwapped));

    [Fact]
    public void Priors_count_a_case_once_and_come_back_from_their_file()
    {
        CaseFile one = CaseReadingTests.Read(CaseReadingTests.Full).Value!;
        CaseFile again = CaseReadingTests.Read(CaseReadingTests.Full.Replace(": ", ":   ", StringComparison.Ordinal)).Value!;
        CaseFile other = CaseReadingTests.Read(CaseReadingTests.Full.Replace("557", "558", StringComparison.Ordinal)).Value!;
        Cause leak = new(CauseKind.Leak), pair = new(CauseKind.Open, CauseKind.Supply);

        PriorsFile priors = PriorsFile.Empty.With(one.Digest, leak).With(again.Digest, leak).With(other.Digest, pair);

        Checked<PriorsFile> back = PriorsFile.Read(priors.ToUtf8(), "p");
        Assert.Empty(back.Lines());
        Assert.Equal(CausePriors.Default.Counts[leak] + 1, back.Value!.Priors.Counts[leak]);
        Assert.Equal(1, back.Value.Priors.Counts[pair]);
        Assert.True(back.Value.Knows(again.Digest));
        Assert.Equal(priors.ToUtf8(), PriorsFile.Of([(one.Digest, leak), (again.Digest, leak), (other.Digest, pair)]).ToUtf8());
        Assert.Equal(priors.ToUtf8(), PriorsFile.Empty.With(other.Digest, pair).With(one.Digest, leak).ToUtf8());
    }

    [Fact]
    public void Unknown_properties_of_a_priors_file_survive_and_wrong_ones_are_told()
    {
        string text = """{ "format": "swardloop-priors/1", "owner": "bench 2", "counts": { "open": 3 }, "cases": [] }""";
        Assert.Contains("bench 2", Encoding.UTF8.GetString(PriorsFile.Read(Encoding.UTF8.GetBytes(text), "p").Value!.With("d", new(CauseKind.Open)).ToUtf8()), StringComparison.Ordinal);

        Checked<PriorsFile> wrong = PriorsFile.Read("""{ "format": "x", "counts": { "gremlins": 1, "open": -2 }, "cases": [7] }"""u8.ToArray(), "p");
        Assert.Equal(["format", "counts.gremlins", "counts.open", "cases[0]"], wrong.Problems.Select(problem => problem.Place));
    }
}
