using System.Xml.Linq;
using Swardloop.Core.Diagnosis;
using Swardloop.Workshop.Owners;

namespace Swardloop.Workshop.Tests.Owners;

/// <summary>How instruments are connected, drawn.</summary>
public sealed class OwnerDrawingsTests
{
    public static TheoryData<StepKind> WithInstrument => [.. StepCatalogue.All.Where(facts => !facts.IsRepair && facts.Needs != Instruments.None).Select(facts => facts.Kind)];

    [Theory]
    [MemberData(nameof(WithInstrument))]
    public void Every_test_with_an_instrument_shows_how_it_is_connected_in_both_languages(StepKind step)
    {
        IReadOnlyList<OwnerPicture> english = OwnerDrawings.Of(step, OwnerTexts.English), german = OwnerDrawings.Of(step, OwnerTexts.German);

        Assert.NotEmpty(english);
        Assert.Equal(english.Count, german.Count);
        Assert.All(english.Zip(german), pair =>
        {
            Assert.NotEqual(pair.First.Words, pair.Second.Words);
            XElement svg = XElement.Parse(pair.First.Svg);
            Assert.Equal(pair.First.Words, svg.Elements().First().Value);
            Assert.True(svg.Elements().Count() > 3, "there is hardly anything on it");
            Assert.InRange(pair.First.Svg.Length, 300, 3000);
        });
    }
}
