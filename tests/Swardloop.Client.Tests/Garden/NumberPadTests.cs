using Swardloop.Client.Cases;
using Swardloop.Client.Garden;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Client.Tests.Garden;

public class NumberPadTests
{
    [Theory]
    [InlineData("5.6", "Ω", "5.6")]
    [InlineData("12", "kΩ", "12000")]
    [InlineData("1.5", "MΩ", "1500000")]
    [InlineData(".5", "Ω", "0.5")]
    [InlineData("007", "Ω", "7")]
    [InlineData("1.2.3", "Ω", "1.23")]
    public void Digits_and_unit_make_the_number_of_the_field(string keys, string unit, string written)
    {
        Speech say = Saying(Tongue.English);
        NumberPad pad = new(Field(StepKind.LoopResistance, "ohms"), say);
        Type(pad, keys);
        pad.Choose(pad.Units.Single(each => each.Name == unit));

        ReadingDraft draft = new(StepKind.LoopResistance, null, say);
        pad.WriteTo(draft);

        Assert.Null(pad.Fault(null));
        Assert.Equal(written, draft["ohms"]);
    }

    [Fact]
    public void Measured_again_the_mean_counts_and_is_there_after_a_reload()
    {
        Speech say = Saying(Tongue.English);
        NumberPad pad = new(Field(StepKind.LoopResistance, "ohms"), say);
        Type(pad, "6.6");
        pad.Repeat();
        Assert.Equal(("", true), (pad.Digits, pad.IsAnswered));
        Type(pad, "6.8");
        NumberPad again = new(Field(StepKind.LoopResistance, "ohms"), say);
        again.Take(pad.ToText());
        ReadingDraft draft = new(StepKind.LoopResistance, null, say);
        again.WriteTo(draft);

        Assert.Equal("6.7", draft["ohms"]);
        again.SetOverRange();
        Assert.Empty(again.Earlier);
    }

    [Fact]
    public void German_pad_shows_a_comma_and_the_form_reads_it()
    {
        Speech say = Saying(Tongue.German);
        NumberPad pad = new(Field(StepKind.SupplyVoltage, "volts"), say);
        Type(pad, "23,8");

        ReadingDraft draft = new(StepKind.SupplyVoltage, null, say);
        pad.WriteTo(draft);

        Assert.Equal("23,8", pad.Shown);
        Assert.Equal(",", pad.Point);
        Assert.Equal(23.8, draft.ToJson(say, null, DateTimeOffset.UnixEpoch, out _).GetProperty("volts").GetDouble());
    }

    [Fact]
    public void Over_range_is_an_answer_where_the_meter_can_show_it_and_goes_with_the_next_digit()
    {
        Speech say = Saying(Tongue.English);
        NumberPad ohms = new(Field(StepKind.LoopResistance, "ohms"), say), volts = new(Field(StepKind.SupplyVoltage, "volts"), say);
        ohms.SetOverRange();
        volts.SetOverRange();

        Assert.True(ohms.IsAnswered);
        Assert.Null(ohms.Fault(null));
        Assert.False(volts.IsAnswered);
        ohms.Press('4');
        Assert.Equal("4", ohms.Shown);
    }

    [Theory]
    [InlineData(StepKind.SupplyVoltage, "volts", "1001", "Allowed: 0 V to 1000 V.")]
    [InlineData(StepKind.MowerReach, "distanceM", "1200", "Allowed: 0 m to 1000 m.")]
    [InlineData(StepKind.SupplyVoltage, "volts", "", "An answer is missing.")]
    public void Number_that_cannot_be_is_told_in_a_line(StepKind kind, string field, string keys, string fault)
    {
        NumberPad pad = new(Field(kind, field), Saying(Tongue.English));
        Type(pad, keys);

        Assert.Equal(fault, pad.Fault(120)?.Replace(",", "", StringComparison.Ordinal));
    }

    [Fact]
    public void Place_ends_where_the_wire_ends_also_in_feet()
    {
        Speech say = Saying(Tongue.English, feet: true);
        NumberPad pad = new(Field(StepKind.SplitResistance, "atM"), say);
        Type(pad, "400");

        Assert.Equal("ft", pad.Unit.Name);
        Assert.NotNull(pad.Fault(120));
        pad.Erase();
        Assert.Null(pad.Fault(120));
    }

    [Theory]
    [InlineData("12.5 kΩ", "12.5", "kΩ")]
    [InlineData("OL Ω", "OL", "Ω")]
    [InlineData("1.2.3 Ω", "", "Ω")]
    [InlineData("many", "", "Ω")]
    [InlineData("5 furlong", "", "Ω")]
    public void What_was_kept_is_taken_up_where_it_fits(string kept, string shown, string unit)
    {
        NumberPad pad = new(Field(StepKind.LoopResistance, "ohms"), Saying(Tongue.English));

        pad.Take(kept);

        Assert.Equal(shown, pad.Shown);
        Assert.Equal(unit, pad.Unit.Name);
    }

    [Fact]
    public void Every_number_of_the_catalogue_has_a_unit_to_type_in()
    {
        Speech say = Saying(Tongue.English);
        Assert.All(
            Enum.GetValues<StepKind>().SelectMany(kind => StepForm.Of(kind).Parameters.Concat(StepForm.Of(kind).Outcomes)).Where(field => field.Type is StepFieldType.Number or StepFieldType.Place),
            field =>
            {
                IReadOnlyList<PadUnit> units = PadUnit.Of(field, say);
                Assert.Equal(field.Unit, units[0].Name);
                Assert.Equal(1, units[0].Factor);
                Assert.Equal(units.Count, units.Select(unit => unit.Name).Distinct().Count());
            });
    }

    private static StepField Field(StepKind kind, string name) => StepForm.Of(kind).Parameters.Concat(StepForm.Of(kind).Outcomes).Single(field => field.Name == name);

    private static void Type(NumberPad pad, string keys)
    {
        foreach (char key in keys)
        {
            pad.Press(key);
        }
    }

    private static Speech Saying(Tongue tongue, bool feet = false)
    {
        Speech say = new(new MemoryPage());
        say.Choose(tongue, feet, null);
        return say;
    }
}
