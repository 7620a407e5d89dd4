using System.Text;
using Bunit;
using Microsoft.AspNetCore.Components.Web;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing.Tests;

public class YardEditorTests : BunitContext
{
    private readonly List<EditorDocument> _changed = [];
    private readonly List<Yard> _followed = [];

    public YardEditorTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    [Fact]
    public async Task Dragging_tells_every_frame_and_one_change()
    {
        IRenderedComponent<YardEditor> editor = Of(new EditorDocument(Examples.Yard("thimble-court")));
        await Drag(editor, new(11.7, 11.7), new(11, 11), new(10, 10));
        Assert.Single(_changed);
        Assert.True(_followed.Count >= 2);
        Assert.NotEqual(new PlanPoint(11.7, 11.7), _changed[0].File!.Yard.Loop.Path.Points[2]);
        editor.FindAll("button").First(button => button.TextContent == "Undo").Click();
        Assert.Equal(2, _changed.Count);
        Assert.Equal(Examples.Bytes("thimble-court.yard.json").AsSpan().TrimEnd((byte)'\n').ToArray(), _changed[1].File!.ToUtf8().AsSpan().TrimEnd((byte)'\n').ToArray());
    }

    [Fact]
    public void Keys_choose_move_insert_delete_and_undo()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        IRenderedComponent<YardEditor> editor = Of(document);
        AngleSharp.Dom.IElement Board() => editor.Find(".sw-stage");
        Board().KeyDown("]");
        Board().KeyDown("]");
        Board().KeyDown("ArrowRight");
        Assert.True(document.Settled.Wire[1].EastMetres > 11.7);
        Board().KeyDown("Insert");
        Assert.Equal(7, document.Settled.Wire.Count);
        Board().KeyDown("Delete");
        Assert.Equal(6, document.Settled.Wire.Count);
        Board().KeyDown(new KeyboardEventArgs { Key = "z", CtrlKey = true });
        Board().KeyDown(new KeyboardEventArgs { Key = "z", CtrlKey = true });
        Board().KeyDown(new KeyboardEventArgs { Key = "z", CtrlKey = true });
        Assert.Equal(11.7, document.Settled.Wire[1].EastMetres);
        Assert.False(document.CanUndo);
        Board().KeyDown(new KeyboardEventArgs { Key = "y", CtrlKey = true });
        Assert.True(document.Settled.Wire[1].EastMetres > 11.7);
    }

    [Fact]
    public void A_yard_is_drawn_by_tape_without_a_pointer()
    {
        EditorDocument document = new("Bramble Yard", new Conductor { Material = ConductorMaterial.Copper, AreaSquareMetres = 0.75e-6 });
        IRenderedComponent<YardEditor> editor = Of(document);
        Press(editor, "Wire");
        editor.Find(".sw-tape").Submit();
        foreach (string length in (string[])["10", "8,5", "10"])
        {
            editor.FindAll(".sw-tape input")[0].Change(length);
            editor.Find(".sw-tape").Submit();
        }

        Press(editor, "Close loop");
        Assert.Equal([new(0, 0), new(10, 0), new(10, 8.5), new(0, 8.5), new(0, 0)], document.File!.Yard.Loop.Path.Points);
        Assert.Contains("37 m of wire", editor.Find(".sw-totals").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void A_leg_typed_in_the_table_moves_the_wire()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        IRenderedComponent<YardEditor> editor = Of(document);
        Press(editor, "Wire", ".sw-parts");
        editor.FindAll("tbody tr")[1].QuerySelectorAll("input")[2].Change("10");
        Assert.Equal(new PlanPoint(11.7, 10.3), document.Settled.Wire[2]);
        Assert.Equal(new PlanPoint(0.3, 10.3), document.Settled.Wire[3]);
    }

    [Fact]
    public void What_is_wrong_is_said_with_its_spot_and_leads_there()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        IRenderedComponent<YardEditor> editor = Of(document);
        Press(editor, "Wire", ".sw-parts");
        editor.FindAll("tbody tr")[2].QuerySelectorAll("input")[1].Change("-0.5");
        editor.FindAll("tbody tr")[2].QuerySelectorAll("input")[0].Change("5");
        Assert.Contains("crosses itself", editor.Find("[role=alert]").TextContent, StringComparison.Ordinal);
        Assert.NotEmpty(editor.FindAll(".sw-flaw"));
        string before = editor.Find(".sw-plan > g").GetAttribute("transform")!;
        editor.Find(".sw-flaws button").Click();
        Assert.NotEqual(before, editor.Find(".sw-plan > g").GetAttribute("transform"));
    }

    [Fact]
    public async Task A_track_is_imported_as_one_step_and_a_bad_file_says_why()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        IRenderedComponent<YardEditor> editor = Of(document);
        IReadOnlyList<string> problems = await editor.InvokeAsync(() => editor.Instance.Import("x,y\n0,0\n20,0\n20,10\n0,10\n0,0\n"u8.ToArray(), "walk.csv"));
        Assert.Empty(problems);
        Assert.Equal(200, document.File!.Yard.Lawn.AreaSquareMetres, 1e-6);
        problems = await editor.InvokeAsync(() => editor.Instance.Import(Encoding.UTF8.GetBytes("x,y\n0,0\n1"), "broken.csv"));
        Assert.NotEmpty(problems);
        Assert.Equal(200, document.File!.Yard.Lawn.AreaSquareMetres, 1e-6);
        Assert.True(document.Undo());
        Assert.Equal(144, document.File!.Yard.Lawn.AreaSquareMetres, 1e-6);
    }

    [Fact]
    public void A_cell_that_cannot_be_read_is_marked_keeps_what_was_typed_and_is_put_right()
    {
        EditorDocument document = new(Examples.Yard("thimble-court"));
        IRenderedComponent<YardEditor> editor = Of(document);
        Press(editor, "Wire", ".sw-parts");
        AngleSharp.Dom.IElement Leg() => editor.FindAll("tbody tr")[1].QuerySelectorAll("input")[2];
        Leg().Change("ten");
        Assert.Equal(("true", "ten"), (Leg().GetAttribute("aria-invalid"), Leg().GetAttribute("value")));
        Assert.Contains("“ten”", editor.Find(".sw-wrong").TextContent, StringComparison.Ordinal);
        Assert.False(document.CanUndo);
        Leg().Change("10");
        Assert.False(Leg().HasAttribute("aria-invalid"));
        Assert.Empty(editor.FindAll(".sw-wrong"));
        Assert.Equal(new PlanPoint(11.7, 10.3), document.Settled.Wire[2]);
        editor.FindAll("tbody tr")[3].FocusIn();
        Assert.Contains("sw-row-chosen", editor.FindAll("tbody tr")[3].ClassName, StringComparison.Ordinal);
    }

    [Fact]
    public void Joints_and_corners_are_numbered_on_the_board_as_in_the_table_and_lit_from_it()
    {
        EditorDocument document = new(Examples.Yard("sorrel-corner"));
        IRenderedComponent<YardEditor> editor = Of(document);
        string[] Numbers() => [.. editor.FindAll(".sw-plan .sw-number").Select(label => label.TextContent.Trim())];
        int joints = document.Settled.Joints.Count;
        Assert.Equal(Enumerable.Range(1, joints).Select(number => $"J{number}"), Numbers());
        Assert.Equal(Enumerable.Range(1, joints).Select(number => $"Joint {number}"), editor.FindAll(".sw-parts button").Select(button => button.TextContent).Where(name => name.StartsWith("Joint", StringComparison.Ordinal)));

        Press(editor, "Wire", ".sw-parts");
        Assert.Contains("1", Numbers());
        editor.FindAll("tbody tr")[2].FocusIn();
        Assert.Single(editor.FindAll(".sw-handle-chosen"));
        Assert.Contains("3", Numbers());
        Assert.Equal("3", editor.Find(".sw-row-chosen th").TextContent.Trim());
        double x = double.Parse(editor.Find(".sw-handle-chosen").GetAttribute("x")!, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(x + 5 + 9, Shift(editor.FindAll(".sw-plan .sw-number").Single(label => label.TextContent.Trim() == "3")), 0.02); // beside the corner that is lit

        Press(editor, "Joint 1");
        Assert.Single(editor.FindAll(".sw-joint-chosen"));

        static double Shift(AngleSharp.Dom.IElement part) => double.Parse(part.GetAttribute("transform")!["translate(".Length..].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public async Task Grid_is_as_wide_as_it_is_said_to_be_whatever_the_zoom()
    {
        IRenderedComponent<YardEditor> editor = Of(new EditorDocument(Examples.Yard("thimble-court")));
        await editor.InvokeAsync(() => editor.Instance.OnSize(800, 600));
        foreach (string zoom in (string[])["+", "+", "−", "−", "−"])
        {
            Press(editor, zoom);
            double[] east = [.. editor.Find(".sw-grid").GetAttribute("d")!.Split('M').Where(line => line.Contains('V', StringComparison.Ordinal)).Select(line => double.Parse(line.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture))];
            System.Text.RegularExpressions.Match said = System.Text.RegularExpressions.Regex.Match(editor.Find(".sw-scale text").TextContent, @"grid ([\d.]+) m");
            Assert.True(said.Success && east.Length > 2, editor.Find(".sw-scale text").TextContent);
            double pixelsPerMetre = double.Parse(editor.Find(".sw-plan > g").GetAttribute("transform")!.Split("matrix(")[1].Split([' ', ','])[0], System.Globalization.CultureInfo.InvariantCulture);
            Assert.Equal(double.Parse(said.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture) * pixelsPerMetre, east[1] - east[0], 0.02 * (east[1] - east[0]));
        }
    }

    [Fact]
    public void Island_without_wire_says_that_it_adds_none_until_the_wire_goes_round_it()
    {
        EditorDocument document = new(YardFile.Read("""
            { "format": "swardloop-yard/1", "name": "Tansy Bank", "lawn": [[[0,0],[20,0],[20,16],[0,16]]], "holes": [[[8,6],[11,6],[11,9],[8,9]]], "loop": { "path": [[0,0],[20,0],[20,16],[0,16],[0,0]] } }
            """u8.ToArray(), "test").Value!);
        IRenderedComponent<YardEditor> editor = Of(document);
        Press(editor, "Island 1");
        Assert.Contains("it adds none to the loop", editor.Find(".sw-said").TextContent, StringComparison.Ordinal);
        Press(editor, "Lay the wire round it");
        Press(editor, "Island 1");
        Assert.Empty(editor.FindAll(".sw-said"));
    }

    [Fact]
    public async Task Words_are_a_fingers_after_a_touch_and_a_mouses_after_a_click()
    {
        EditorDocument document = new("Bramble Yard", new Conductor { Material = ConductorMaterial.Copper, AreaSquareMetres = 0.75e-6 });
        IRenderedComponent<YardEditor> editor = Of(document);
        string Said() => editor.Find(".sw-reading").TextContent.Trim();
        // Before either, both stand there and the style sheet shows the one that the device has.
        Assert.Single(editor.FindAll(".sw-reading .sw-by-touch"));
        Assert.Single(editor.FindAll(".sw-reading .sw-by-mouse"));
        await editor.InvokeAsync(() => editor.Instance.OnSize(800, 600));
        Press(editor, "Joint");
        await PointAsync(isTouch: true);
        Press(editor, "Move");
        Assert.StartsWith("Touch a corner", Said(), StringComparison.Ordinal);
        Press(editor, "Joint");
        await PointAsync(isTouch: false);
        Press(editor, "Move");
        Assert.StartsWith("Drag a corner", Said(), StringComparison.Ordinal);

        async Task PointAsync(bool isTouch)
        {
            await editor.InvokeAsync(() => editor.Instance.OnPointer(0, 1, 5, 5, isTouch, false));
            await editor.InvokeAsync(() => editor.Instance.OnPointer(2, 1, 5, 5, isTouch, false));
        }
    }

    [Fact]
    public async Task An_outline_without_a_wire_is_offered_as_both()
    {
        EditorDocument document = new("Bramble Yard", new Conductor { Material = ConductorMaterial.Copper, AreaSquareMetres = 0.75e-6 });
        IRenderedComponent<YardEditor> editor = Of(document);
        Assert.Equal("true", editor.FindAll("button").First(button => button.TextContent == "Wire").GetAttribute("aria-pressed"));
        byte[] outline = """{"type":"Feature","properties":{"crs":"local"},"geometry":{"type":"Polygon","coordinates":[[[8.1,50.1],[8.1003,50.1],[8.1003,50.1002],[8.1,50.1]]]}}"""u8.ToArray();
        editor.FindComponent<Microsoft.AspNetCore.Components.Forms.InputFile>().UploadFiles(InputFileContent.CreateFromBinary(outline, "outline.geojson"));
        await editor.WaitForAssertionAsync(() => Assert.Contains("no wire", editor.Find(".sw-flaws").TextContent, StringComparison.Ordinal));
        Press(editor, "Use the outline as lawn and wire");
        Assert.Equal(4, document.File!.Yard.Loop.Path.Points.Count);
        Assert.True(document.File.Yard.Lawn.AreaSquareMetres > 100);
    }

    private static void Press(IRenderedComponent<YardEditor> editor, string name, string within = ".sw-editor") =>
        editor.FindAll($"{within} button").First(button => button.TextContent == name).Click();

    [Fact]
    public void A_guide_wire_is_named_moved_and_given_its_own_wire_by_typing()
    {
        EditorDocument document = new(YardFile.Read("""
            { "format": "swardloop-yard/1", "name": "Tansy Bank", "loop": { "path": [[0,0],[10,0],[10,8],[0,8],[0,0]] },
              "guides": [ { "name": "G1", "joinsAtM": 14, "path": [[0,0],[10,4]] }, { "name": "G2", "joinsAtM": 20, "path": [[0,0],[8,8]] } ] }
            """u8.ToArray(), "test").Value!);
        IRenderedComponent<YardEditor> editor = Of(document);
        Press(editor, "Guide G1");
        AngleSharp.Dom.IElement Field(string label) => editor.FindAll(".sw-fields label").First(field => field.TextContent.Contains(label, StringComparison.Ordinal)).QuerySelector("input, select")!;
        Field("Name").Change("G2");
        Assert.Contains("is the name of another", editor.Find("[role=alert]").TextContent, StringComparison.Ordinal);
        Field("Name").Change("Gate");
        Field("Joins the loop at").Change("16");
        Field("What the wire is made of").Change("3");
        Field("Add a joint").Change("2,5");
        GuideWire guide = document.File!.Yard.Guides[0];
        Assert.Equal(("Gate", 16.0, new(10, 6), 1.5e-6), (guide.Name, guide.JoinsAtMetres, guide.Path.Points[^1], guide.Conductor!.AreaSquareMetres!.Value));
        Assert.Equal([new Joint(2.5)], guide.Joints);

        Press(editor, "Wire", ".sw-parts");
        Assert.False(document.File.Yard.Loop.ConductorIsKnown);
        Field("What the wire is made of").Change("1");
        Assert.True(document.File.Yard.Loop.ConductorIsKnown);
        Field("What the wire is made of").Change("unknown");
        Assert.DoesNotContain("\"areaMm2\": 0.75", Encoding.UTF8.GetString(document.File.ToUtf8()), StringComparison.Ordinal);
    }

    private IRenderedComponent<YardEditor> Of(EditorDocument document) =>
        Render<YardEditor>(with => with.Add(p => p.Document, document).Add(p => p.Changed, _changed.Add).Add(p => p.Following, _followed.Add));

    private static async Task Drag(IRenderedComponent<YardEditor> editor, params PlanPoint[] way)
    {
        await editor.InvokeAsync(() => editor.Instance.OnSize(800, 600));
        PlanView view = PlanView.Fit(new(0, 0), new(12, 12), 800, 600, 40);
        for (int i = 0; i < way.Length; i++)
        {
            (double x, double y) = view.ToScreen(way[i]);
            await editor.InvokeAsync(() => editor.Instance.OnPointer(i == 0 ? 0 : 1, 1, x, y, false, false));
        }

        (double endX, double endY) = view.ToScreen(way[^1]);
        await editor.InvokeAsync(() => editor.Instance.OnPointer(2, 1, endX, endY, false, false));
    }
}
