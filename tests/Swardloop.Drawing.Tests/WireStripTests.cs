using Bunit;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing.Tests;

public class WireStripTests : BunitContext
{
    private static readonly ServiceCase Marram = Examples.Case("marram-reach").Case;

    public WireStripTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    [Fact]
    public void Strip_shows_joints_corners_and_both_ends()
    {
        IRenderedComponent<WireStrip> strip = Render<WireStrip>(with => with.Add(p => p.Yard, Marram.Yard));
        Assert.Equal(6, strip.FindAll(".sw-joint").Count);
        Assert.Equal(4, strip.FindAll(".sw-corner").Count);
        Assert.Contains("300 m of wire with 6 joints", strip.Find(".sw-place").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Strip_has_a_row_for_a_guide_wire_and_what_was_tried_on_it()
    {
        GuideWire guide = new("G1", 60, new([Marram.Yard.Loop.Path.PointAt(0), Marram.Yard.Loop.Path.PointAt(60)])) { Joints = [new(5)] };
        IRenderedComponent<WireStrip> strip = Render<WireStrip>(with => with.Add(p => p.Yard, Marram.Yard with { Guides = [guide] })
            .Add(p => p.Observations, [new Observation.PinProbe(12, 3, null, 0.3) { Wire = "G1" }]));
        Assert.Equal(2, strip.FindAll(".sw-guide").Count);
        Assert.Equal(8, strip.FindAll(".sw-joint").Count);
        Assert.Contains("joins the loop 60 m from A", strip.Markup, StringComparison.Ordinal);
        Assert.Equal(5, strip.FindAll(".sw-corner").Count);
    }

    [Fact]
    public void Bars_and_words_agree_where_no_wire_fault_stands_out()
    {
        // The joint was remade and the loop reads well: most likely nothing is wrong any more, and yet the wire may have a second fault.
        ServiceCase mended = Marram with { Observations = [.. Marram.Observations, new Observation.RepairDone(StepKind.RemakeJoint, 121, null, null, null), new Observation.LoopResistance(7.1, 0.3, MeterAccuracy.Plain)] };
        Advice advice = Advisor.Advise(mended, CausePriors.Default, Examples.Soon);
        IRenderedComponent<WireStrip> strip = Render<WireStrip>(with => with.Add(p => p.Yard, mended.Yard)
            .Add(p => p.Density, advice.Density).Add(p => p.Location, advice.Location));
        Assert.Null(advice.Location);
        Assert.All(strip.FindAll(".sw-column"), bar => Assert.Contains("sw-faint", bar.ClassList));
        Assert.NotEmpty(strip.FindAll(".sw-column"));
        Assert.Contains("No wire fault that is still to be found stands out", strip.Find(".sw-facts dd").TextContent, StringComparison.Ordinal);

        IRenderedComponent<WireStrip> bare = Render<WireStrip>(with => with.Add(p => p.Yard, mended.Yard));
        Assert.Contains("Nothing points at a place", bare.Find(".sw-facts dd").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Touching_beside_a_joint_chooses_it_and_says_its_words()
    {
        double? at = null;
        IRenderedComponent<WireStrip> strip = Render<WireStrip>(with => with.Add(p => p.Yard, Marram.Yard).Add(p => p.AtMetresChanged, value => at = value));
        await strip.InvokeAsync(() => strip.Instance.OnSize(800, 200));
        double x = new StripScale(Marram.Yard.Loop.LengthMetres, 800, 18).At(121);
        await strip.InvokeAsync(() => strip.Instance.OnPointer(0, 1, x + 4, 50, true, false));
        Assert.Equal(121, at);
        Assert.Contains("121 m along the wire: joint 3", strip.Find(".sw-place").TextContent, StringComparison.Ordinal);
        Assert.Contains("joint 3", strip.Find("[role=slider]").GetAttribute("aria-valuetext"), StringComparison.Ordinal);
    }

    [Fact]
    public void Keys_walk_the_wire_and_stop_at_its_ends()
    {
        double? at = null;
        IRenderedComponent<WireStrip> strip = Render<WireStrip>(with => with.Add(p => p.Yard, Marram.Yard).Add(p => p.AtMetres, 100.0).Add(p => p.AtMetresChanged, value => at = value));
        AngleSharp.Dom.IElement Line() => strip.Find("[role=slider]");
        Line().KeyDown("ArrowRight");
        Assert.Equal(100.5, at);
        Line().KeyDown("PageDown");
        Assert.Equal(95.5, at);
        Line().KeyDown("End");
        Assert.Equal(Marram.Yard.Loop.LengthMetres, at);
        Line().KeyDown("ArrowRight");
        Assert.Equal(Marram.Yard.Loop.LengthMetres, at);
        Line().KeyDown("Home");
        Assert.Equal(0, at);
    }

    [Fact]
    public void Probes_tell_their_reading_and_what_they_ruled_out()
    {
        ServiceCase tried = Marram with { Observations = [.. Marram.Observations, new Observation.SplitResistance(121, 3.2, 554, 0.3)] };
        IReadOnlyList<WireProbe> probes = ProbeTrail.Of(tried, CausePriors.Default, Examples.Soon);
        IRenderedComponent<WireStrip> strip = Render<WireStrip>(with => with.Add(p => p.Yard, tried.Yard).Add(p => p.Observations, tried.Observations)
            .Add(p => p.Probes, probes).Add(p => p.Density, Advisor.PlaceDensity(tried, CausePriors.Default)).Add(p => p.PlaceToOpen, new WireStretch(172, 172)));
        string told = strip.Find(".sw-probes li").TextContent;
        Assert.Contains("554 Ω", told, StringComparison.Ordinal);
        Assert.Contains("speaks against", told, StringComparison.Ordinal);
        Assert.NotEmpty(strip.FindAll(".sw-gone"));
        Assert.NotEmpty(strip.FindAll(".sw-column"));
        Assert.NotEmpty(strip.FindAll(".sw-bracket"));
    }
}
