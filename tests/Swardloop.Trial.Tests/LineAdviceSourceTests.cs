using System.Text;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Trial.Tests;

public class LineAdviceSourceTests
{
    private const string Contract = """
        {"format":"swardloop-advice/1","causes":[{"cause":"series-resistance","probability":0.93},{"cause":"open+leak","probability":0.07}],
         "location":{"cause":"series-resistance","atM":42.0,"lowM":41.5,"highM":42.5,"credibility":0.9,"words":"joint 1"},
         "density":[],"evidence":[],"disagreement":null,"finished":false,
         "next":[{"step":"tone-trace","atM":42.0,"from":"B","by":"technician","minutes":6,"costNow":6.0,"expectedCostToFinish":71.2,"why":"…"},
                 {"step":"mower-start","place":"mid-lawn","by":"owner"}]}
        """;

    [Fact]
    public void Advice_is_read_as_the_contract_writes_it()
    {
        TrialAdvice advice = LineAdviceSource.Read(Contract.ReplaceLineEndings(" "));
        Assert.False(advice.Finished);
        Assert.Equal(new Step(StepKind.ToneTrace) { AtMetres = 42, From = WireEnd.B }, advice.Next);
        Assert.Equal([new(new(CauseKind.SeriesResistance), 0.93), new(new(CauseKind.Leak, CauseKind.Open), 0.07)], advice.Causes);
        Assert.Equal(new FaultLocation(new(CauseKind.SeriesResistance), 42, 41.5, 42.5, 0.9), advice.Location);
    }

    [Theory]
    [InlineData("""{"error":"line 1: no"}""")]
    [InlineData("""{"format":"swardloop-advice/2"}""")]
    public void Anything_but_an_advice_is_refused(string line) =>
        Assert.Throws<FormatException>(() => LineAdviceSource.Read(line));

    // The product must take every yard and reading that a judge may send; two yards of three here are played to the end of the card first.
    [Fact]
    public void Every_case_of_the_trial_is_read_back_as_it_was()
    {
        for (int i = 0; i < 150; i++)
        {
            TrialYard trial = TrialYards.Generate(21, i);
            ServiceCase sent = i % 3 == 0 ? trial.Case : PracticeRoutine.Play(trial).Case;
            string line = LineAdviceSource.Line(sent);
            Assert.DoesNotContain('\n', line);
            Checked<CaseFile> read = CaseFile.Read(Encoding.UTF8.GetBytes(line), $"yard {i}", _ => null);
            Assert.True(read.IsGood, string.Join("; ", read.Lines()));
            ServiceCase got = read.Value!.Case;
            Assert.Equal(sent.Rates, got.Rates);
            Assert.Equal(sent.Can, got.Can);
            Assert.Equal(sent.OnSite, got.OnSite);
            Assert.Equal(sent.Observations.Select(seen => seen.Step), got.Observations.Select(seen => seen.Step));
            Assert.Equal(sent.Yard.Loop.LengthMetres, got.Yard.Loop.LengthMetres, 1e-9);
            Assert.Equal(sent.Yard.Loop.Joints, got.Yard.Loop.Joints);
            Assert.Equal(sent.Yard.RiskSpots, got.Yard.RiskSpots);
            Assert.Equal(line, LineAdviceSource.Line(got));
        }
    }

    [Fact]
    public void A_program_answers_line_by_line()
    {
        // Any program that copies lines is an adviser that answers the question itself.
        using AdviserProcess copies = new("cat", ["-u"]);
        Assert.Equal("ä 1", copies.Answer("ä 1"));
        Assert.Equal("2", copies.Answer("2"));
        using AdviserProcess ends = new("true", []);
        Assert.ThrowsAny<Exception>(() => ends.Answer("3"));
    }
}
