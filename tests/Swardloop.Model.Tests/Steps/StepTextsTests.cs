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
        Assert.Contains(StepTexts.English.How(StepKind.SplitResistance, Person.Technician, atJoint: false), line => line.StartsWith("Cut it", StringComparison.Ordinal));
        Assert.DoesNotContain(StepTexts.English.How(StepKind.SplitResistance, Person.Technician), line => line.StartsWith("Cut", StringComparison.Ordinal));
    }

    // What hands touch asks not only for a caution but for words in the instruction itself, in each language: whoever reads only the lines
    // must meet them there. One row a danger; the words are pieces of the lines, any one of them will do.
    public static TheoryData<StepTouches, string, string> SaidInTheLines => new()
    {
        { StepTouches.CutsWire, "prove that it is|Prove that it is", "weisen Sie nach|Weisen Sie nach" },
        { StepTouches.MowerRunning, "Walk behind it|behind it, start it|test loop", "Gehen Sie hinter ihm|hinter ihn zurück|Prüfschleife" },
        { StepTouches.Battery, "dry battery, or one with a fuse", "Trockenbatterie oder eine" },
        { StepTouches.TestVoltage, "250 V", "250 V" },
        { StepTouches.MowerCarried, "blades away from you|gloves on", "Messer von Ihnen weg|Handschuhe an" },
        { StepTouches.MowerOpened, "battery out|Battery swollen", "Akku heraus|Akku gebläht" },
        { StepTouches.Switchboard, "Dry hands", "Trockene Hände" },
        { StepTouches.SupplyChoice, "safety-isolated", "sicherer Trennung" },
        { StepTouches.Wire, "Unplug the station|Unplug the power supply", "Stecken Sie die Station aus|Stecken Sie das Netzteil aus" },
    };

    [Theory]
    [MemberData(nameof(SaidInTheLines))]
    public void Danger_stands_in_the_instruction_itself(StepTouches touch, string english, string german)
    {
        StepKind[] kinds = [.. Enum.GetValues<StepKind>().Where(kind => StepCautions.Touches(kind).HasFlag(touch))];
        Assert.NotEmpty(kinds);
        foreach ((StepTexts texts, string words) in new[] { (StepTexts.English, english), (StepTexts.German, german) })
        {
            foreach (StepKind kind in kinds)
            {
                foreach (bool atJoint in new[] { true, false })
                {
                    string how = string.Join("\n", texts.How(kind, Person.Technician, atJoint));
                    Assert.True(words.Split('|').Any(word => how.Contains(word, StringComparison.Ordinal)), $"{texts.Language} {kind}: none of {words} in\n{how}");
                }
            }
        }
    }

    // A mower is never started on a station that is dark or in alarm, by whoever reads the lines.
    [Fact]
    public void Lamp_is_looked_at_before_a_mower_is_started() => Assert.All(
        Enum.GetValues<StepKind>().Where(kind => StepCautions.Touches(kind).HasFlag(StepTouches.MowerRunning) && !StepCatalogue.Of(kind).IsRepair),
        kind =>
        {
            foreach ((StepTexts texts, string lamp) in new[] { (StepTexts.English, "lamp"), (StepTexts.German, "lampe") })
            {
                foreach (Person by in StepCatalogue.Of(kind).OwnerMay ? new[] { Person.Technician, Person.Owner } : [Person.Technician])
                {
                    IReadOnlyList<string> how = texts.How(kind, by);
                    int looked = how.ToList().FindIndex(line => line.Contains(lamp, StringComparison.OrdinalIgnoreCase));
                    int started = how.ToList().FindIndex(line => line.StartsWith("Start", StringComparison.Ordinal) || line.Contains(", start it", StringComparison.Ordinal) || line.Contains("starten Sie ihn", StringComparison.Ordinal));
                    Assert.True(looked >= 0 && (started < 0 || looked < started), $"{texts.Language} {kind} {by}");
                }
            }
        });

    // A joint that was covered before it was measured is dug up again.
    [Theory]
    [InlineData(StepKind.SplitResistance)]
    [InlineData(StepKind.RemakeJoint)]
    [InlineData(StepKind.MendSpan)]
    [InlineData(StepKind.RenewLoop)]
    [InlineData(StepKind.RelayLayout)]
    [InlineData(StepKind.Bypass)]
    [InlineData(StepKind.JointDrop)]
    [InlineData(StepKind.PinProbe)]
    public void Loop_is_measured_before_it_is_covered(StepKind kind)
    {
        foreach (bool atJoint in new[] { true, false })
        {
            string how = string.Join(" ", StepTexts.English.How(kind, Person.Technician, atJoint));
            int covered = how.LastIndexOf("cover ", StringComparison.Ordinal), measured = how.LastIndexOf("easure the loop", StringComparison.Ordinal);
            Assert.True(measured >= 0 && covered > measured, how);
        }
    }

    [Fact]
    public void Stray_voltage_drops_out_of_a_reversed_pair()
    {
        // A true 0.1 V beside 0.5 V of the ground's own: +0.6 and +0.4 V. The mean of magnitudes would say 0.5 V.
        Assert.Equal(0.1m, ReversedPair.HalfDifference(0.6m, 0.4m));
        Assert.Equal(2.9m, ReversedPair.HalfDifference(3.4m, -2.4m));
        Assert.Equal(2.9m, ReversedPair.HalfDifference(-2.4m, 3.4m));
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
