using Bunit;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing.Tests;

/// <summary>Places where a tone was heard, on the drawing board.</summary>
public class HeardWireTests : BunitContext
{
    private static readonly PlanPoint[] Heard = [new(6, 0), new(12, 0), new(12, 5), new(12, 10), new(6, 10), new(0, 10), new(0, 5), new(0, 0)];

    private readonly List<EditorDocument> _changed = [];

    public HeardWireTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    [Fact]
    public void Heard_places_become_the_wire_when_a_person_says_so_and_that_is_taken_back()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        EditorHand hand = new(document);
        PlanView view = PlanView.Fit(new(0, 0), new(24, 18), 800, 600);
        WirePath before = document.File!.Yard.Loop.Path;
        hand.Take(EditorTool.Heard);
        foreach (PlanPoint place in Heard)
        {
            (double x, double y) = view.ToScreen(place);
            view = hand.Take(new(PointerStage.Down, 1, x, y, IsTouch: true), view);
            view = hand.Take(new(PointerStage.Up, 1, x, y, IsTouch: true), view);
        }

        // Nothing is the wire until it is confirmed.
        Assert.Equal(Heard.Length, hand.HeardPlaces.Count);
        Assert.Equal(before.Points, document.Drawing.Wire);
        hand.TakeHeard(HeardCourse.Of([.. hand.HeardPlaces.Select(place => new HeardPlace(place, HeardPlace.TouchedMetres))])!);
        Assert.True(document.Settle());

        Loop loop = document.File!.Yard.Loop;
        Assert.Equal(WireCourse.Heard, loop.Course);
        Assert.Equal(44, loop.LengthMetres, 0.2);
        Assert.InRange(loop.CourseToleranceMetres, 0.6, 3);
        Assert.True(loop.LengthToleranceMetres > 2);
        Assert.Empty(loop.Joints);
        Assert.Contains(document.Notes, note => note.Place == "loop.course");
        Assert.Equal(document.File.ToUtf8(), YardFile.Read(document.File.ToUtf8(), "again").Value!.ToUtf8());

        Assert.True(document.Do(document.Settled.WithCourseDrawn()));
        Assert.Equal((WireCourse.Drawn, 0.0, 2.0), (document.File!.Yard.Loop.Course, document.File.Yard.Loop.CourseToleranceMetres, document.File.Yard.Loop.LengthToleranceMetres));
        while (document.Undo())
        {
        }

        Assert.Equal(before.Points, document.File!.Yard.Loop.Path.Points);
        Assert.Equal(Examples.Bytes("thimble-court.yard.json").AsSpan().TrimEnd((byte)'\n').ToArray(), document.File.ToUtf8().AsSpan().TrimEnd((byte)'\n').ToArray());
    }

    // A yard that lies nowhere yet gets its origin from the first position, and its wire from all of them.
    [Fact]
    public async Task Positions_of_the_device_become_the_wire_of_a_yard_that_nobody_drew()
    {
        LocalPlane plane = new(52.1, 5.3);
        Queue<HerePosition> positions = new(Heard.Select(place => plane.ToGeodetic(place)).Select(place => new HerePosition(place.LatitudeDegrees, place.LongitudeDegrees, 1.5)));
        EditorDocument document = new("Bramble Yard", null);
        HerePosition? answer = new(0, 0, 0, "no position");
        IRenderedComponent<YardEditor> editor = Render<YardEditor>(parameters => parameters
            .Add(one => one.Document, document)
            .Add(one => one.Changed, _changed.Add)
            .Add(one => one.Locate, () => Task.FromResult(answer ?? positions.Dequeue())));
        Press(editor, "Heard places");
        Press(editor, "I hear it here");
        Assert.Contains("no position", editor.Find(".sw-reading").TextContent, StringComparison.Ordinal);
        answer = new(52.1, 5.3, 40);
        Press(editor, "I hear it here");
        Assert.Contains("too coarse", editor.Find(".sw-reading").TextContent, StringComparison.Ordinal);
        answer = null;
        int count = positions.Count;
        for (int i = 0; i < count; i++)
        {
            Press(editor, "I hear it here");
        }

        await editor.WaitForStateAsync(() => editor.Find(".sw-reading").TextContent.Contains("Proposed: 44 m of wire", StringComparison.Ordinal));
        Press(editor, "Take this as the wire");

        Yard yard = _changed[^1].File!.Yard;
        Assert.Equal(44, yard.Loop.LengthMetres, 0.3);
        Assert.Equal(WireCourse.Heard, yard.Loop.Course);
        Assert.True(yard.Loop.CourseToleranceMetres >= 1.5);
        Assert.Equal((52.1, 5.3), (Math.Round(yard.Datum!.LatitudeDegrees, 3), Math.Round(yard.Datum.LongitudeDegrees, 3)));
        Assert.False(yard.Loop.ConductorIsKnown);
    }

    private static void Press(IRenderedComponent<YardEditor> editor, string button) => editor.FindAll("button").First(each => each.TextContent == button).Click();
}
