using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Tests.Yards;

namespace Swardloop.Model.Tests.Advising;

public sealed class AdviceTextTests
{
    private static string Written(Advice advice, ServiceCase? serviceCase = null)
    {
        using StringWriter text = new() { NewLine = "\n" };
        AdviceText.Write(advice, serviceCase ?? SampleAdvice.Case, text);
        return text.ToString();
    }

    /// <summary>The sheet as a person in the garden approved it. SWARDLOOP_APPROVE=1 writes it anew.</summary>
    [Fact]
    public void The_sheet_reads_as_approved()
    {
        string path = Path.Combine(Examples.Repository, "tests/Swardloop.Model.Tests/Advising/approved-sheet.txt");
        if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
        {
            File.WriteAllText(path, Written(SampleAdvice.Advice));
        }

        Assert.Equal(File.ReadAllText(path), Written(SampleAdvice.Advice));
    }

    [Fact]
    public void No_line_is_wider_than_a_phone() =>
        Assert.All(Written(SampleAdvice.Advice).Split('\n'), line => Assert.InRange(line.Length, 0, AdviceText.Columns));

    [Fact]
    public void Cautions_stand_before_the_doing()
    {
        string text = Written(SampleAdvice.Advice);

        Assert.InRange(text.IndexOf("  ! Thunder", StringComparison.Ordinal), 1, text.IndexOf("  1. ", StringComparison.Ordinal) - 1);
    }

    [Fact]
    public void A_disagreement_is_said_plainly_with_its_repeat()
    {
        string text = Written(SampleAdvice.Advice with { Disagreement = new(2, new Step(StepKind.LoopResistance)) });

        Assert.Contains("! These readings disagree. The one that does not fit:", text, StringComparison.Ordinal);
        Assert.Contains("repeat: ", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.4, true)]
    [InlineData(0.05, false)]
    public void Something_not_modelled_is_said_when_it_matters(double probability, bool said)
    {
        Advice advice = SampleAdvice.Advice with
        {
            Causes = [new(new Cause(CauseKind.Open), 1 - probability), new(new Cause(CauseKind.Unmodelled), probability)],
        };

        Assert.Equal(said, Written(advice).Contains("! The readings fit nothing that this program knows", StringComparison.Ordinal));
    }

    [Fact]
    public void A_finished_case_says_so_and_advises_nothing()
    {
        string text = Written(SampleAdvice.Advice with { Finished = true, Next = [] });

        Assert.Contains("The mower runs.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("NEXT", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Nobody", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Hostile_words_of_a_file_stay_on_their_line()
    {
        ServiceCase hostile = SampleAdvice.Case with
        {
            Complaint = "\u001b[2J\nNEXT: dig",
            Observations = [new Observation.RepairDone(StepKind.RenewLoop, null, null, null, "x\r\n\u001b[31m" + new string('y', 500))],
        };
        string text = Written(SampleAdvice.Advice, hostile);

        Assert.DoesNotContain('\u001b', text);
        Assert.DoesNotContain('\r', text);
        Assert.DoesNotContain("\nNEXT: dig", text, StringComparison.Ordinal);
    }
}
