using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Sheets;

namespace Swardloop.Model.Tests.Sheets;

public sealed class SheetTests
{
    private static readonly Yard Yard = new()
    {
        Name = "Teasel <b>& Thistle</b>",
        Lawn = new Lawn([new PlanPoint[] { new(0, 0), new(18, 0), new(18, 26), new(0, 26) }], []),
        Loop = new Loop
        {
            Path = new WirePath([new(9, 0), new(18, 0), new(18, 26), new(0, 26), new(0, 0), new(9, 0)]),
            Conductor = new Conductor { AreaSquareMetres = 0.75e-6 },
            Joints = [new(20, JointStyle.Twisted), new(55, JointStyle.Gel)],
        },
    };

    private static readonly ServiceCase Begun = new()
    {
        Yard = Yard,
        Complaint = "turns round in the middle",
        Observations = [new Observation.StationLamp(LampState.Normal), new Observation.LoopResistance(140, 0.2, MeterAccuracy.Plain)],
    };

    public static TheoryData<string, bool> Kinds => [.. SheetKinds.Names.SelectMany(name => new[] { (name, false), (name, true) })];

    private static Sheet Make(string kind, bool german, ServiceCase serviceCase, bool feet = false) => SheetKinds.Make(
        SheetKinds.Find(kind)!.Value, new SheetSource(serviceCase, german, one => Advisor.Advise(one, CausePriors.Default)) { Feet = feet });

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Every_kind_is_made_in_both_languages_of_a_case_and_of_a_yard_alone(string kind, bool german)
    {
        foreach (ServiceCase serviceCase in new[] { Begun, new ServiceCase { Yard = Yard } })
        {
            Sheet sheet = Make(kind, german, serviceCase);
            Assert.Equal(german ? "de" : "en", sheet.Language);
            Assert.NotEmpty(sheet.Blocks);
            Assert.DoesNotContain('{', SheetText.Of(sheet));
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Page_escapes_what_a_file_says_and_names_its_language(string kind, bool german)
    {
        string page = SheetHtml.Of(Make(kind, german, Begun));
        Assert.DoesNotContain("<b>&", page, StringComparison.Ordinal);
        Assert.Contains("Teasel &lt;b&gt;&amp; Thistle", page, StringComparison.Ordinal);
        Assert.Contains($"<html lang=\"{(german ? "de" : "en")}\">", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Owner_reads_the_reading_beside_what_the_wire_should_measure()
    {
        string text = SheetText.Of(Make("found", false, Begun));
        Assert.Contains("The loop measures now: 139.8 Ω ±", text, StringComparison.Ordinal);
        Assert.Contains("A sound loop of this wire measures: 1.9", text, StringComparison.Ordinal);
        Assert.Contains("blades", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Cautions_stand_before_the_doing()
    {
        IReadOnlyList<SheetBlock> blocks = Make("work", false, Begun).Blocks;
        int cautions = blocks.ToList().FindIndex(block => block is SheetBlock.Points { Mark: PointMark.Caution });
        int doing = blocks.ToList().FindIndex(block => block is SheetBlock.Points { Mark: PointMark.Number });
        Assert.InRange(cautions, 0, doing - 1);
    }

    [Fact]
    public void Feet_are_said_as_feet()
    {
        string text = SheetText.Of(Make("acceptance", false, Begun, feet: true));
        Assert.Contains("Length: 288.7 ft", text, StringComparison.Ordinal);
    }

    // A sound loop of this yard measures about 2 Ω.
    [Theory]
    [InlineData(140, true, false, "do not become the yard's baseline")]
    [InlineData(0.5, true, false, "do not become the yard's baseline")]
    [InlineData(2.2, true, false, "are the yard's new baseline")]
    [InlineData(2.2, false, false, "Once signed, these figures are the yard's new baseline")]
    [InlineData(2.2, true, true, "sign again")]
    public void Only_a_reading_within_its_band_is_called_the_new_baseline(double ohms, bool isSigned, bool hasChanged, string said)
    {
        ServiceCase accepted = Begun with { Observations = [new Observation.LoopResistance(ohms, 0.2, MeterAccuracy.Plain)] };
        string text = SheetText.Of(SheetKinds.Make(
            SheetKind.Acceptance,
            new SheetSource(accepted, false, one => Advisor.Advise(one, CausePriors.Default)) { SignedBy = isSigned ? "Odo Quillfeather" : null, SignedReadingChanged = hasChanged })).ReplaceLineEndings(" ");
        Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.Equal(said.Contains("new baseline", StringComparison.Ordinal), text.Contains("are the yard's new baseline", StringComparison.Ordinal));
    }

    [Fact]
    public void The_acceptance_shows_the_reading_that_was_signed_for_whatever_was_measured_later()
    {
        Observation.LoopResistance signed = new(2.33, 0.2, MeterAccuracy.Plain);
        ServiceCase later = Begun with { Observations = [signed, new Observation.LoopResistance(44, 0.2, MeterAccuracy.Plain)] };
        string text = SheetText.Of(SheetKinds.Make(
            SheetKind.Acceptance, new SheetSource(later, false, one => Advisor.Advise(one, CausePriors.Default)) { SignedBy = "Odo Quillfeather", AcceptedReading = signed }));
        Assert.Contains("2.13 Ω ±", text, StringComparison.Ordinal);
        Assert.DoesNotContain("43.8", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Same_case_gives_the_same_message() => Assert.Equal(SheetText.Of(Make("quote", true, Begun)), SheetText.Of(Make("quote", true, Begun)));
}
