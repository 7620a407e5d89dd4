using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing.Tests;

public class EditorDocumentTests
{
    private static readonly DrawnPart Wire = new(DrawnKind.Wire);
    private static readonly Conductor Copper = new() { Material = ConductorMaterial.Copper, AreaSquareMetres = 0.75e-6 };

    [Fact]
    public void A_new_yard_becomes_a_file_when_its_wire_encloses_something()
    {
        EditorDocument document = new("Bramble Yard", Copper);
        Assert.Null(document.File);
        Assert.Contains("no wire", document.Flaws[0].Problem.Message, StringComparison.Ordinal);
        Assert.True(document.Do(document.Settled.WithPart(DrawnKind.Wire, [new(0, 0), new(10, 0)])));
        Assert.Null(document.File);
        Assert.True(document.Do(document.Settled.WithPart(DrawnKind.Wire, [new(0, 0), new(10, 0), new(10, 10), new(0, 10), new(0, 0)])));
        Assert.Empty(document.Flaws);
        Assert.Equal("Bramble Yard", document.File!.Yard.Name);
        Assert.False(document.File.DrawsLawn);
        Assert.Equal(100, document.File.Yard.Lawn.AreaSquareMetres, 1e-9);
    }

    [Fact]
    public void What_the_file_does_not_know_survives_edits_and_undo_brings_back_every_byte()
    {
        const string File = """
            { "format": "swardloop-yard/1", "name": "Heron", "colour of the gate": "green",
              "loop": { "path": [[0,0],[10,0],[10,10],[0,10],[0,0]], "conductor": {"material":"copper","areaMm2":0.75},
                        "joints": [ {"atM": 5, "style": "gel", "laid by": "otter"} ] } }
            """;
        YardFile file = YardFile.Read(Encoding.UTF8.GetBytes(File), "heron").Value!;
        EditorDocument document = new(file);
        byte[] before = document.File!.ToUtf8();
        _ = document.Do(document.Settled.WithCorner(Wire, 1, new(12, 0)));
        _ = document.Do(document.Settled.WithJoint(0, document.Settled.Joints[0] with { Style = JointStyle.Crimped }));
        JsonNode changed = JsonNode.Parse(document.File!.ToUtf8())!;
        Assert.Equal("green", (string?)changed["colour of the gate"]);
        Assert.Equal("otter", (string?)changed["loop"]!["joints"]![0]!["laid by"]);
        Assert.Equal("crimped", (string?)changed["loop"]!["joints"]![0]!["style"]);
        Assert.Null(changed["lawn"]);
        Assert.True(document.Undo() && document.Undo());
        Assert.Equal(before, document.File!.ToUtf8());
        Assert.False(document.Undo());
        Assert.True(document.Redo() && document.Redo());
        Assert.Equal(changed.ToJsonString(), JsonNode.Parse(document.File!.ToUtf8())!.ToJsonString());
    }

    [Fact]
    public void A_lawn_that_follows_the_wire_follows_it_until_it_is_drawn()
    {
        EditorDocument document = new(YardFile.Read(
            """{"format":"swardloop-yard/1","name":"Heron","loop":{"path":[[0,0],[10,0],[10,10],[0,10],[0,0]],"conductor":{"material":"copper","areaMm2":0.75}}}"""u8.ToArray(), "heron").Value!);
        _ = document.Do(document.Settled.WithCorner(Wire, 1, new(20, 0)));
        Assert.Equal(150, document.File!.Yard.Lawn.AreaSquareMetres, 1e-9);
        _ = document.Do(document.Settled.WithLawnAlongWire());
        Assert.True(document.File!.DrawsLawn);
        _ = document.Do(document.Settled.WithCorner(Wire, 1, new(20, 0.5)));
        Assert.Equal(150, document.File!.Yard.Lawn.AreaSquareMetres, 1e-9);
    }

    [Fact]
    public void A_wire_that_crosses_itself_is_said_at_the_spot_and_kept_as_drawn()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        _ = document.Do(document.Settled.WithCorner(Wire, 2, new(5, -0.5)));
        Assert.Null(document.File);
        Assert.NotNull(document.Draft);
        Assert.Equal(new PlanPoint(5, -0.5), document.Settled.Wire[2]);
        DrawingFlaw flaw = document.Flaws.First(flaw => flaw.Problem.Message.Contains("crosses itself", StringComparison.Ordinal));
        Assert.Equal(Wire, flaw.Part);
        Assert.True(document.Settled.WirePath!.NearestTo(flaw.At!.Value).DistanceMetres < 0.02);
        _ = document.Do(document.Settled.WithCorner(Wire, 2, new(11.7, 11.7)));
        Assert.NotNull(document.File);
        Assert.Empty(document.Flaws);
    }

    [Fact]
    public void An_island_outside_and_a_joint_beyond_the_end_are_said_at_their_parts()
    {
        EditorDocument document = new(Examples.Yard("sorrel-corner"));
        _ = document.Do(document.Settled.Moved(new(DrawnKind.Island), 40, 0).WithJointAt(500));
        Assert.Contains(document.Flaws, flaw => flaw.Part == new DrawnPart(DrawnKind.Island));
        Assert.Contains(document.Flaws, flaw => flaw.Part is { Kind: DrawnKind.Joint });
        Assert.Equal(500, document.Settled.Joints[^1].AtMetres);
    }

    [Fact]
    public void Only_what_is_settled_is_a_step()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        YardDrawing before = document.Settled;
        document.Show(before.WithCorner(Wire, 1, new(10, 0.3)));
        Assert.NotSame(before, document.Drawing);
        Assert.Same(before, document.Settled);
        document.Drop();
        Assert.Same(before, document.Drawing);
        Assert.False(document.Settle());
        Assert.False(document.CanUndo);
    }

    [Fact]
    public void Undo_has_no_end() => Gen.Select(Gen.Int[0, 5], Gen.Double[0, 12], Gen.Double[0, 12]).Array[1, 60].Sample(moves =>
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        List<YardDrawing> seen = [document.Settled];
        foreach ((int corner, double east, double north) in moves)
        {
            Assert.True(document.Do(document.Settled.WithCorner(Wire, corner, new(Math.Round(east, 2), Math.Round(north, 2)))));
            seen.Add(document.Settled);
        }

        for (int i = seen.Count - 1; i > 0; i--)
        {
            Assert.Same(seen[i], document.Settled);
            Assert.True(document.Undo());
        }

        Assert.Same(seen[0], document.Settled);
        Assert.Equal(Examples.Yard("thimble-court").ToUtf8(), document.File!.ToUtf8());
    }, iter: 30);

    [Fact]
    public void A_new_step_forgets_what_was_taken_back()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        _ = document.Do(document.Settled.WithJointAt(10));
        _ = document.Undo();
        _ = document.Do(document.Settled.WithJointAt(20));
        Assert.False(document.CanRedo);
        Assert.Equal([20], document.Settled.Joints.Select(joint => joint.AtMetres));
    }

    [Fact]
    public void Corners_of_a_line_the_photo_and_its_scale_are_steps_of_one_row()
    {
        EditorDocument document = new("Bramble Yard", Copper);
        EditorHand hand = new(document);
        PhotoUnderlay photo = PhotoUnderlay.Across("blob:x", 400, 300, PlanView.Fit(new(0, 0), new(24, 18), 800, 600));
        document.LayPhoto(photo);
        hand.Take(EditorTool.PhotoScale);
        hand.PlaceAt(new(1, 1));
        hand.PlaceAt(new(5, 1));
        document.LayPhoto(photo.Scaled(new(1, 1), new(5, 1), 8));
        hand.Take(EditorTool.Wire);
        foreach (PlanPoint corner in (PlanPoint[])[new(0, 0), new(10, 0), new(10, 8), new(0, 8)])
        {
            hand.PlaceAt(corner);
        }

        Assert.True(hand.Finish(closed: true));
        Assert.True(document.Settle());
        Assert.Empty(hand.Line);
        byte[] file = document.File!.ToUtf8();

        // The wire drawn becomes the line again, the line loses its corners one by one, the photo its scale, and at last the photo goes.
        Back();
        Assert.Equal((4, EditorTool.Wire), (hand.Line.Count, hand.Tool));
        Assert.Null(document.File);
        Back();
        Assert.Equal(3, hand.Line.Count);
        for (int i = 0; i < 3; i++)
        {
            Back();
        }

        Assert.NotEqual(photo, document.Photo);
        Back();
        Assert.Equal(photo, document.Photo);
        Assert.Equal((2, EditorTool.PhotoScale), (hand.PhotoPlaces.Count, hand.Tool));
        for (int i = 0; i < 3; i++)
        {
            Back();
        }

        Assert.Null(document.Photo);
        Assert.False(document.CanUndo);
        while (document.CanRedo)
        {
            YardDrawing before = document.Settled;
            Assert.True(document.Redo());
            hand.Follow(before);
        }

        Assert.Equal(file, document.File!.ToUtf8());
        Assert.Equal(EditorTool.Move, hand.Tool);

        void Back()
        {
            YardDrawing before = document.Settled;
            Assert.True(document.Undo());
            hand.Follow(before);
        }
    }

    [Fact]
    public void A_line_dropped_by_another_tool_comes_back()
    {
        EditorDocument document = new("Bramble Yard", Copper);
        EditorHand hand = new(document);
        hand.Take(EditorTool.Wire);
        hand.PlaceAt(new(0, 0));
        hand.PlaceAt(new(10, 0));
        hand.Take(EditorTool.Lawn);
        Assert.Empty(hand.Line);
        Assert.True(document.Undo());
        hand.Follow(document.Settled);
        Assert.Equal((2, EditorTool.Wire), (hand.Line.Count, hand.Tool));
    }
}
