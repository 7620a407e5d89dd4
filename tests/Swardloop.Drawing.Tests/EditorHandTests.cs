using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing.Tests;

public class EditorHandTests
{
    private PlanView _view = PlanView.Fit(new(0, 0), new(24, 18), 800, 600);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_loop_is_drawn_corner_by_corner_and_closed_on_its_first(bool touch)
    {
        (EditorDocument document, EditorHand hand) = Blank();
        hand.Take(EditorTool.Wire);
        foreach (PlanPoint corner in (PlanPoint[])[new(0, 0), new(10.03, 0.1), new(10, 8), new(0.1, 8.05), new(0.05, 0.02)])
        {
            Tap(hand, corner, touch);
        }

        Assert.True(document.Settle());
        Assert.Equal([new(0, 0), new(10, 0), new(10, 8), new(0, 8), new(0, 0)], document.File!.Yard.Loop.Path.Points);
        Assert.Equal(EditorTool.Move, hand.Tool);
        Assert.Equal(new DrawnPart(DrawnKind.Wire), hand.Part);
    }

    [Fact]
    public void A_guide_wire_is_drawn_to_the_loop_with_its_joint_and_taken_away_with_it()
    {
        (EditorDocument document, EditorHand hand) = Blank();
        hand.Take(EditorTool.Wire);
        foreach (PlanPoint corner in (PlanPoint[])[new(0, 0), new(10, 0), new(10, 8), new(0, 8), new(0, 0)])
        {
            Tap(hand, corner);
        }

        Assert.True(document.Settle());
        hand.Take(EditorTool.Guide);
        Tap(hand, new(0, 0));
        Tap(hand, new(5, 4));
        Tap(hand, new(9.95, 4.52));
        Tap(hand, new(10, 4.52));
        Assert.True(document.Settle());
        GuideWire guide = document.File!.Yard.Guides.Single();
        Assert.Equal("G1", guide.Name);
        Assert.Equal(14.5, guide.JoinsAtMetres, 0.1);
        Assert.Equal(10, guide.Path.Points[^1].EastMetres);
        Assert.Equal(guide.JoinsAtMetres, document.File.Yard.Loop.Joints.Single().AtMetres);

        // A joint on the guide wire, where the loop is farther.
        hand.Take(EditorTool.Joint);
        Tap(hand, new(5, 4));
        Assert.True(document.Settle());
        Assert.Equal(Math.Sqrt(41), document.File!.Yard.Guides.Single().Joints.Single().AtMetres, 0.02);
        Assert.Single(document.File.Yard.Loop.Joints);

        Assert.True(document.Do(document.Settled.WithoutPart(new(DrawnKind.Guide))));
        Assert.Empty(document.File!.Yard.Loop.Joints);
        Assert.True(document.Undo());
        Assert.Single(document.File!.Yard.Guides);
    }

    [Fact]
    public void Touching_the_last_corner_again_ends_an_open_line()
    {
        (EditorDocument document, EditorHand hand) = Blank();
        hand.Take(EditorTool.Metal);
        Tap(hand, new(0, 10));
        Tap(hand, new(10, 10));
        Tap(hand, new(10, 10));
        Assert.True(document.Settle());
        Assert.Equal([new(0, 10), new(10, 10)], document.Settled.Metal[0].Points);
    }

    [Fact]
    public void Dragging_a_corner_shows_every_frame_and_settles_once()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        EditorHand hand = new(document);
        _view = PlanView.Fit(new(0, 0), new(12, 12), 800, 600);
        Send(hand, PointerStage.Down, new(11.7, 11.7), false);
        List<YardDrawing> frames = [];
        foreach (double east in (double[])[11.5, 11, 10.5])
        {
            Send(hand, PointerStage.Move, new(east, 11.0), false, shift: true);
            frames.Add(document.Drawing);
        }

        Assert.Equal(3, frames.Distinct().Count());
        Assert.False(document.CanUndo);
        Send(hand, PointerStage.Up, new(10.5, 11.0), false, shift: true);
        Assert.True(document.Settle());
        Assert.Equal(new PlanPoint(10.5, 11), document.Settled.Wire[2]);
        Assert.True(document.Undo());
        Assert.False(document.CanUndo);
    }

    [Fact]
    public void A_second_finger_undoes_what_the_first_began_and_pinches()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        EditorHand hand = new(document);
        _view = PlanView.Fit(new(0, 0), new(12, 12), 800, 600);
        YardDrawing before = document.Settled;
        Send(hand, PointerStage.Down, new(11.7, 11.7), true);
        Send(hand, PointerStage.Move, new(10, 10), true);
        Assert.NotSame(before, document.Drawing);
        Send(hand, PointerStage.Down, new(2, 2), true, id: 2);
        Assert.Same(before, document.Drawing);
        double scale = _view.PixelsPerMetre;
        Send(hand, PointerStage.Move, new(0, 0), true, id: 2);
        Assert.True(_view.PixelsPerMetre > scale);
        Assert.Same(before, document.Drawing);
    }

    [Fact]
    public void Pushing_the_paper_beside_the_drawing_moves_the_view_only()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        EditorHand hand = new(document);
        PlanView before = _view;
        Send(hand, PointerStage.Down, new(20, 15), false);
        Send(hand, PointerStage.Move, new(18, 14), false);
        Send(hand, PointerStage.Up, new(18, 14), false);
        Assert.NotEqual(before, _view);
        Assert.False(document.Settle());
    }

    [Fact]
    public void A_joint_goes_on_the_wire_where_it_is_touched_and_slides_along_it()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        EditorHand hand = new(document);
        hand.Take(EditorTool.Joint);
        Send(hand, PointerStage.Down, new(11.6, 5), true);
        Send(hand, PointerStage.Move, new(11.9, 7), true);
        Send(hand, PointerStage.Up, new(11.9, 7), true);
        Assert.True(document.Settle());
        Assert.Equal(5.7 + 6.7, document.Settled.Joints[0].AtMetres, 0.02);
    }

    [Fact]
    public void A_line_can_be_typed_by_tape()
    {
        (EditorDocument document, EditorHand hand) = Blank();
        hand.Take(EditorTool.Lawn);
        hand.PlaceAt(new(2, 2));
        hand.PlaceByTape(10, 90);
        hand.PlaceByTape(6, 0);
        hand.PlaceByTape(10, 270);
        Assert.True(hand.UnplaceLast());
        hand.PlaceByTape(10, 270);
        Assert.True(hand.Finish());
        Assert.True(document.Settle());
        Assert.Equal([new(2, 2), new(12, 2), new(12, 8), new(2, 8)], document.Settled.Lawn[0]);
    }

    [Fact]
    public void Two_touches_and_a_distance_set_a_photos_scale()
    {
        (_, EditorHand hand) = Blank();
        PhotoUnderlay photo = PhotoUnderlay.Across("blob:x", 400, 300, _view);
        hand.Take(EditorTool.PhotoScale);
        Tap(hand, new(2, 3));
        Tap(hand, new(6, 6));
        PhotoUnderlay scaled = photo.Scaled(hand.PhotoPlaces[0], hand.PhotoPlaces[1], 10);
        Assert.Equal(2 * photo.MetresPerPixel, scaled.MetresPerPixel, 1e-3 * photo.MetresPerPixel);
        PlanPoint first = hand.PhotoPlaces[0];
        Assert.Equal((first.EastMetres - photo.West) / photo.MetresPerPixel, (first.EastMetres - scaled.West) / scaled.MetresPerPixel, 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => photo.Scaled(first, first, 10));
    }

    private static (EditorDocument Document, EditorHand Hand) Blank()
    {
        EditorDocument document = new("Bramble Yard", new Conductor { Material = ConductorMaterial.Copper, AreaSquareMetres = 0.75e-6 });
        return (document, new(document));
    }

    private void Tap(EditorHand hand, PlanPoint at, bool touch = false)
    {
        Send(hand, PointerStage.Down, at, touch);
        Send(hand, PointerStage.Up, at, touch);
    }

    private void Send(EditorHand hand, PointerStage stage, PlanPoint at, bool touch, int id = 1, bool shift = false)
    {
        (double x, double y) = _view.ToScreen(at);
        _view = hand.Take(new(stage, id, x, y, touch, shift), _view);
    }
}
