using System.Globalization;
using System.Xml.Linq;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;
using Swardloop.Workshop.Owners;

namespace Swardloop.Workshop.Tests.Owners;

/// <summary>An owner's plan: north, the station by name, the place that a question is about.</summary>
public sealed class OwnerSketchTests
{
    [Fact]
    public void Plan_has_an_arrow_to_the_north_and_the_station_by_name_inside_it()
    {
        XElement svg = XElement.Parse(OwnerSketch.Svg(Square(stationEast: 19.9), "Plan", "charging station"));
        (double width, double height) = Size(svg);

        XElement north = Assert.Single(Of(svg, "north"));
        Assert.Equal("N", north.Value);
        XElement name = Assert.Single(svg.Elements(), text => text.Name.LocalName == "text" && text.Value == "charging station");
        // At the right edge the name stands to the left of its station.
        Assert.Equal("end", (string?)name.Attribute("text-anchor"));
        Assert.InRange(Number(name, "x"), 0, width);
        Assert.InRange(Number(name, "y"), 0, height);
        Assert.Equal("start", (string?)XElement.Parse(OwnerSketch.Svg(Square(stationEast: 0.1), "Plan", "charging station")).Elements().First(text => text.Value == "charging station").Attribute("text-anchor"));
    }

    [Fact]
    public void Several_stretches_are_numbered_in_their_order_and_one_is_not()
    {
        XElement walk = XElement.Parse(OwnerSketch.Svg(Square(10), "Plan", "station", stretches: [(5, 8), (22, 24), (50, 60)]));
        Assert.Equal(3, Of(walk, "place").Count());
        Assert.Equal(["1", "2", "3"], Of(walk, "piece").Select(text => text.Value));
        (double width, double height) = Size(walk);
        Assert.All(Of(walk, "piece"), text => Assert.True(Number(text, "x") is var x && x >= 0 && x <= width && Number(text, "y") is var y && y >= 0 && y <= height));

        XElement one = XElement.Parse(OwnerSketch.Svg(Square(10), "Plan", "station", stretches: [(5, 8)]));
        Assert.Single(Of(one, "place"));
        Assert.Empty(Of(one, "piece"));
    }

    [Theory]
    [InlineData(StepKind.MowerStart)]
    [InlineData(StepKind.MowerCheck)]
    [InlineData(StepKind.MowerReach)]
    public void What_the_mower_does_is_drawn_in_both_languages(StepKind step)
    {
        OwnerPicture english = Assert.Single(OwnerDrawings.Of(step, OwnerTexts.English)), german = Assert.Single(OwnerDrawings.Of(step, OwnerTexts.German));
        Assert.NotEqual(english.Words, german.Words);
        Assert.Equal(english.Words, XElement.Parse(english.Svg).Elements().First().Value);
    }

    private static IEnumerable<XElement> Of(XElement svg, string name) => svg.Descendants().Where(part => (string?)part.Attribute("class") == name);

    private static double Number(XElement part, string name) => double.Parse((string)part.Attribute(name)!, CultureInfo.InvariantCulture);

    private static (double Width, double Height) Size(XElement svg)
    {
        double[] box = [.. ((string)svg.Attribute("viewBox")!).Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture))];
        return (box[2], box[3]);
    }

    private static Yard Square(double stationEast) => YardFile.Read(System.Text.Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture,
        $$"""
        { "format": "swardloop-yard/1", "name": "Square", "loop": {
          "path": [[{{stationEast}},0],[20,0],[20,20],[0,20],[0,0],[{{stationEast}},0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
        """)), "square").Value!.Yard;
}
