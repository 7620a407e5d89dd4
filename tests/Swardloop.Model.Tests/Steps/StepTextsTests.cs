using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Model.Tests.Steps;

public sealed class StepTextsTests
{
    public static TheoryData<StepKind> Kinds => [.. Enum.GetValues<StepKind>()];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_step_has_short_lines_and_cautions_in_words(StepKind kind)
    {
        string[] lines = [.. new[] { StepTexts.English[kind], StepTexts.German[kind] }.SelectMany(
            text => (string[])[text.Title, .. text.How, .. text.HowForOwner ?? [], .. text.HowInPlainWire ?? []])];
        // A line that a person keeps in mind between looking at the phone and bending down.
        Assert.All(lines, line => Assert.InRange(line.Length, 3, 140));
        Assert.All(lines, line => Assert.DoesNotContain('\n', line));
        Assert.Equal(StepCautions.Required(kind).Count, StepTexts.English.Cautions(kind).Count);
        Assert.NotEmpty(StepTexts.English.Cautions(kind));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Owner_gets_words_exactly_where_an_owner_may(StepKind kind)
    {
        if (StepCatalogue.Of(kind).OwnerMay)
        {
            Assert.NotEqual(StepTexts.English.How(kind, Person.Technician), StepTexts.English.How(kind, Person.Owner));
        }
        else
        {
            Assert.Throws<ArgumentException>(() => StepTexts.English.How(kind, Person.Owner));
        }
    }

    // Whoever only reads the how-to lines must meet these two again there: a reading through a live station is worthless, and a wire
    // left off is a mower that does not run.
    [Theory]
    [InlineData(StepKind.LoopResistance)]
    [InlineData(StepKind.EarthResistance)]
    [InlineData(StepKind.Insulation)]
    [InlineData(StepKind.EarthRatio)]
    [InlineData(StepKind.EndCapacitance)]
    [InlineData(StepKind.SplitResistance)]
    [InlineData(StepKind.Bypass)]
    [InlineData(StepKind.ToneTrace)]
    [InlineData(StepKind.Reflection)]
    [InlineData(StepKind.AcRatio)]
    [InlineData(StepKind.GuideResistance)]
    [InlineData(StepKind.JointDrop)]
    [InlineData(StepKind.PinProbe)]
    [InlineData(StepKind.EarthGradient)]
    [InlineData(StepKind.Wiggle)]
    [InlineData(StepKind.TerminalLook)]
    public void Reading_begins_with_the_plug_and_ends_with_the_wire_back(StepKind kind)
    {
        foreach (bool atJoint in new[] { true, false })
        {
            IReadOnlyList<string> how = StepTexts.English.How(kind, Person.Technician, atJoint);
            Assert.StartsWith("Unplug the station.", how[0], StringComparison.Ordinal);
            Assert.EndsWith("Put the wire ends back on the terminals they came from.", how[^1], StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Plain_wire_is_cut_and_a_joint_is_opened()
    {
        Assert.Contains(StepTexts.English.How(StepKind.SplitResistance, Person.Technician, atJoint: false), line => line.EndsWith("Then cut.", StringComparison.Ordinal));
        Assert.DoesNotContain(StepTexts.English.How(StepKind.SplitResistance, Person.Technician), line => line.Contains("cut", StringComparison.Ordinal));
    }

    [Fact]
    public void Table_with_a_gap_is_refused()
    {
        Dictionary<StepKind, StepText> steps = Enum.GetValues<StepKind>().ToDictionary(kind => kind, kind => StepTexts.English[kind]);
        Dictionary<Caution, string> cautions = Enum.GetValues<Caution>().ToDictionary(caution => caution, caution => StepTexts.English[caution]);
        Assert.Equal("xx", new StepTexts("xx", steps, cautions).Language);

        cautions.Remove(Caution.NoThunder);
        Assert.Contains("NoThunder", Assert.Throws<ArgumentException>(() => new StepTexts("xx", steps, cautions)).Message, StringComparison.Ordinal);

        steps[StepKind.Look] = steps[StepKind.Look] with { HowForOwner = null };
        Assert.Contains("Look", Assert.Throws<ArgumentException>(() => new StepTexts("xx", steps, cautions)).Message, StringComparison.Ordinal);
    }
}
