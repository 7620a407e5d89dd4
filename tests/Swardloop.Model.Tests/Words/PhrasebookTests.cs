using System.Text.RegularExpressions;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Words;

public partial class PhrasebookTests
{
    [Fact]
    public void German_fills_the_same_gaps_as_English() =>
        Assert.All(Enum.GetValues<Phrase>(), phrase =>
            Assert.Equal(Gaps(Phrasebook.English[phrase]), Gaps(Phrasebook.German[phrase])));

    [Fact]
    public void German_steps_have_as_many_lines_as_English_ones() =>
        Assert.All(Enum.GetValues<StepKind>(), step =>
        {
            StepText english = StepTexts.English[step], german = StepTexts.German[step];
            Assert.Equal(english.How.Count, german.How.Count);
            Assert.Equal(english.HowForOwner?.Count, german.HowForOwner?.Count);
            Assert.Equal(english.HowInPlainWire?.Count, german.HowInPlainWire?.Count);
        });

    [Theory]
    [InlineData(0.2, "Klemme A, bei der Station")]
    [InlineData(3.4, "3,4 m östlich von der Station")]
    public void German_places_read_as_German(double at, string expected) =>
        Assert.Equal(expected, PlaceWords.Describe(Square(), at, Phrasebook.German));

    [Fact]
    public void German_corner_is_in_the_dative() =>
        Assert.Equal("1 m nördlich von der südöstlichen Ecke", PlaceWords.Describe(Square(), 11, Phrasebook.German));

    [Fact]
    public void Observation_keeps_a_German_noun_capital()
    {
        Observation repair = new Observation.RepairDone(StepKind.ReplaceSupply, null, null, null, null);

        Assert.Equal("erledigt: Das Netzteil ersetzen", ObservationWords.Describe(repair, Square(), Phrasebook.German, StepTexts.German));
        Assert.Equal("done: replace the power supply", ObservationWords.Describe(repair, Square()));
    }

    [Fact]
    public void German_numbers_have_a_comma_and_stay_short_of_certainty()
    {
        Assert.Equal("5,61 Ω", Phrasebook.German.Ohms(5.61));
        Assert.Equal("unter 1 %", Phrasebook.German.Percent(0.001));
        Assert.Equal("über 99 %", Phrasebook.German.Percent(0.9999));
    }

    private static int[] Gaps(string text) => [.. Gap().Matches(text).Select(match => match.Value[1] - '0').Distinct().Order()];

    private static Yard Square()
    {
        Checked<YardFile> read = YardFile.Read(
            """
            { "format": "swardloop-yard/1", "name": "Square", "loop": {
              "path": [[10,0],[20,0],[20,20],[0,20],[0,0],[10,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
            """u8.ToArray(), "square");
        return read.Value!.Yard;
    }

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Gap();
}
