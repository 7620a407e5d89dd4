using Bunit;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Pictures;

namespace Swardloop.Drawing.Tests;

public class YardPictureTests : BunitContext
{
    private static readonly Yard Marram = Examples.Yard("marram-reach").Yard;
    private static readonly SignalMap Map = SignalMap.Of(Marram, places: 3000);

    public YardPictureTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    [Fact]
    public void Picture_without_a_map_says_so_and_draws_the_yard()
    {
        IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, Marram));
        Assert.Contains("being computed", picture.Find(".sw-waiting").TextContent, StringComparison.Ordinal);
        Assert.Equal(Marram.Loop.Joints.Count, picture.FindAll(".sw-plan > .sw-joint").Count);
        Assert.Contains("Marram Reach: 2690 m² of lawn, 300 m of wire, 6 joints.", picture.Find(".sw-plan").GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.Empty(picture.FindAll("input"));
    }

    [Fact]
    public void Slider_moves_the_words_and_the_level()
    {
        double? heard = null;
        IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with
            .Add(p => p.Yard, Marram).Add(p => p.Map, Map).Add(p => p.TodayOhms, 552).Add(p => p.ExtraOhmsChanged, value => heard = value));
        string before = picture.Find(".sw-heard").TextContent;
        picture.Find("input[type=range]").Input("700");
        Assert.Null(heard);
        picture.Find("input[type=range]").Change("700");
        Assert.InRange(heard!.Value, 100, 400);
        Assert.NotEqual(before, picture.Find(".sw-heard").TextContent);
        Assert.Contains("reception on", picture.Find("input[type=range]").GetAttribute("aria-valuetext"), StringComparison.Ordinal);
    }

    [Fact]
    public void Marks_say_where_the_yard_stands_and_where_it_falls_silent()
    {
        IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, Marram).Add(p => p.Map, Map).Add(p => p.TodayOhms, 552));
        string[] marks = [.. picture.FindAll(".sw-marks li").Select(mark => mark.TextContent)];
        Assert.Contains(marks, mark => mark.Contains("Today, by the reading: +552 Ω", StringComparison.Ordinal));
        Assert.Contains(marks, mark => mark.Contains("Weakest place loses reception", StringComparison.Ordinal));
        picture.FindAll(".sw-marks button")[1].Click();
        Assert.Equal("552 Ω", picture.Find("output").TextContent);
    }

    [Fact]
    public async Task Touching_the_wire_tells_the_place_along_it()
    {
        double? at = null;
        IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, Marram).Add(p => p.Map, Map).Add(p => p.AtMetresChanged, value => at = value));
        await picture.InvokeAsync(() => picture.Instance.OnSize(800, 600));
        (double x, double y) = PlanView.Fit(PlanExtent.Of(Marram).SouthWest, PlanExtent.Of(Marram).NorthEast, 800, 600).ToScreen(Marram.Loop.Path.PointAt(121));
        await picture.InvokeAsync(() => picture.Instance.OnPointer(0, 1, x + 2, y + 3, false, false));
        await picture.InvokeAsync(() => picture.Instance.OnPointer(2, 1, x + 2, y + 3, false, false));
        Assert.Equal(121, at!.Value, 0.6);
        Assert.Contains("dB", picture.Find(".sw-reading").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Keys_move_zoom_and_read()
    {
        IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, Marram).Add(p => p.Map, Map));
        string Transform() => picture.Find(".sw-plan > g").GetAttribute("transform")!;
        string whole = Transform();
        picture.Find(".sw-stage").KeyDown("+");
        Assert.NotEqual(whole, Transform());
        picture.Find(".sw-stage").KeyDown("0");
        Assert.Equal(whole, Transform());
        picture.Find(".sw-stage").KeyDown(new Microsoft.AspNetCore.Components.Web.KeyboardEventArgs { Key = "ArrowDown", ShiftKey = true });
        Assert.Contains("above the limit of reception", picture.Find(".sw-reading").TextContent, StringComparison.Ordinal);
        picture.Find(".sw-stage").KeyDown("ArrowLeft");
        Assert.NotEqual(whole, Transform());
    }

    [Fact]
    public void Places_of_the_fault_and_the_place_to_open_are_drawn_and_named()
    {
        IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, Marram)
            .Add(p => p.Density, [new DensityBin(0, 120, 0.02), new DensityBin(120, 122, 0.9), new DensityBin(122, 300, 0.08)]).Add(p => p.PlaceToOpen, new WireStretch(121, 121)));
        Assert.NotEmpty(picture.FindAll(".sw-plan .sw-heat-4"));
        Assert.Contains("open here next", picture.Find(".sw-plan").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("thimble-court")]
    [InlineData("marram-reach")]
    public async Task Marker_says_what_to_do_inside_the_picture_and_clear_of_a_pin_wherever_it_is(string example)
    {
        Yard yard = Examples.Yard(example).Yard;
        for (double at = 0; at < yard.Loop.LengthMetres; at += yard.Loop.LengthMetres / 40)
        {
            IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, yard).Add(p => p.PlaceToOpen, new WireStretch(at, at)).Add(p => p.ToDo, "Test here").Add(p => p.AtMetres, at));
            await picture.InvokeAsync(() => picture.Instance.OnSize(358, 300));
            AngleSharp.Dom.IElement label = picture.FindAll(".sw-plan > .sw-label").Single(each => each.TextContent.Trim() == "Test here");
            (double x, double y) = Shift(label);
            string anchor = label.QuerySelector("text")!.GetAttribute("text-anchor")!;
            double half = 40, left = anchor == "start" ? x : anchor == "end" ? x - (2 * half) : x - half; // nine letters of 13 px
            Assert.True(left >= 0 && left + (2 * half) <= 358 && y is >= 14 and <= 300, $"{at}: {x}, {y}, {anchor}");

            // A pin's drop is 16 px wide and stands above its place; the tip is the place.
            string[] pin = picture.Find(".sw-chosen").GetAttribute("d")!.Split('l')[0][1..].Split(' ');
            double tip = double.Parse(pin[1], System.Globalization.CultureInfo.InvariantCulture);
            Assert.True(y > tip + 10 || y < tip - 30, $"{at}: the words at {y} lie under the pin at {tip}");
        }
    }

    [Fact]
    public void Stretch_has_two_ends_and_one_place_has_one()
    {
        int Rings(WireStretch open) => Render<YardPicture>(with => with.Add(p => p.Yard, Marram).Add(p => p.PlaceToOpen, open)).FindAll(".sw-open-ring").Count;
        Assert.Equal((2, 1), (Rings(new(40, 47)), Rings(new(40, 40))));
    }

    [Fact]
    public async Task Stations_label_lies_inside_the_picture_and_beside_its_square()
    {
        foreach (string example in (string[])["thimble-court", "marram-reach", "sorrel-corner"])
        {
            IRenderedComponent<YardPicture> picture = Render<YardPicture>(with => with.Add(p => p.Yard, Examples.Yard(example).Yard));
            await picture.InvokeAsync(() => picture.Instance.OnSize(358, 300));
            AngleSharp.Dom.IElement label = picture.FindAll(".sw-plan .sw-label").First(each => each.TextContent.Trim() is "A B" or "A");
            AngleSharp.Dom.IElement square = picture.FindAll(".sw-plan rect.sw-station")[^1];
            (double x, double y) = Shift(label);
            double top = double.Parse(square.GetAttribute("y")!, System.Globalization.CultureInfo.InvariantCulture);
            Assert.True(x is >= 12 and <= 346 && y is >= 12 and <= 296, $"{example}: {x}, {y}");
            Assert.True(y <= top || y >= top + 20, $"{example}: the label at {y} lies on the square at {top}");
        }
    }

    private static (double X, double Y) Shift(AngleSharp.Dom.IElement part)
    {
        double[] at = [.. part.GetAttribute("transform")!["translate(".Length..].Split(')')[0].Split(' ').Select(number => double.Parse(number, System.Globalization.CultureInfo.InvariantCulture))];
        return (at[0], at[1]);
    }

    [Fact]
    public void Style_sheet_has_the_shades_of_the_printed_picture()
    {
        string style = File.ReadAllText(Path.Combine(Repository.Root, "src", "Swardloop.Drawing", "wwwroot", "drawing.css"));
        Assert.All(MarginShade.All.Select((shade, i) => $".sw-shade-{i} {{ fill: light-dark({shade.Colour}, {shade.DarkColour}); }}"), line => Assert.Contains(line, style, StringComparison.Ordinal));
    }
}
