namespace Swardloop.Drawing;

#pragma warning disable CS1591 // Each property's default is its English text, which says what it is.
public sealed partial record DrawingWords
{
    public string Editor { get; init; } = "Drawing board";
    public string Board { get; init; } = "Drawing of the yard";
    public string BoardKeys { get; init; } =
        "Square brackets choose the corner before or after; arrow keys move it, with shift ten times as far, or move the paper when none is chosen. "
        + "Insert adds a corner, Delete takes one away, Enter ends a line, Backspace takes its last corner back, Escape drops it. "
        + "Control Z takes a step back, control Y takes it again. Plus and minus zoom, 0 shows all.";
    public string Tools { get; init; } = "Tools";
    public string ToolMove { get; init; } = "Move";
    public string ToolWire { get; init; } = "Wire";
    public string ToolLawn { get; init; } = "Lawn";
    public string ToolIsland { get; init; } = "Island";
    public string ToolJoint { get; init; } = "Joint";
    public string ToolMetal { get; init; } = "Metal";
    public string ToolNeighbour { get; init; } = "Neighbour";
    public string ToolPhotoScale { get; init; } = "Photo scale";
    public string Undo { get; init; } = "Undo";
    public string Redo { get; init; } = "Redo";
    public string Snap { get; init; } = "Snap";
    public string Done { get; init; } = "Done";
    public string CloseLoop { get; init; } = "Close loop";
    public string DropLine { get; init; } = "Drop line";
    public string HintMove { get; init; } = "Touch a corner to move it, a line to choose it; push the paper with one finger, pinch with two.";
    public string HintDraw { get; init; } = "Touch where the corners are. Touch the first again to close, the last again or Done to end.";
    public string HintWire { get; init; } = "Begin at terminal A. Touch where the wire bends; touch the first corner again to come back to the station.";
    public string HintWireReplaces { get; init; } = "A new wire takes the place of the old one and its joints.";
    public string HintJoint { get; init; } = "Touch the wire where a joint is.";
    public string HintPhotoScale { get; init; } = "Touch two places on the photo whose distance you know, then type it.";
    public string LegLength { get; init; } = "Leg {0}";
    public string Square { get; init; } = "square";
    public string Totals { get; init; } = "{0} of wire, {1} m² of lawn";
    public string ExpectedLoop { get; init; } = "a healthy loop measures {0} ({1} to {2})";
    public string Flaws { get; init; } = "To put right";
    public string NotesTitle { get; init; } = "Worth a look";
    public string Allowed { get; init; } = "allowed: {0}";
    public string ByTape { get; init; } = "By tape";
    public string LengthField { get; init; } = "Length, {0}";
    public string BearingField { get; init; } = "Direction, ° from north";
    public string AddCorner { get; init; } = "Add corner";
    public string EastField { get; init; } = "East, {0}";
    public string NorthField { get; init; } = "North, {0}";
    public string LegField { get; init; } = "To the next, {0}";
    public string CornerNumber { get; init; } = "Corner";
    public string CornerOf { get; init; } = "corner {0}";
    public string PartsTitle { get; init; } = "Parts";
    public string PartWire { get; init; } = "Wire";
    public string PartLawn { get; init; } = "Lawn {0}";
    public string PartIsland { get; init; } = "Island {0}";
    public string PartMetal { get; init; } = "Metal {0}: {1}";
    public string PartNeighbour { get; init; } = "Neighbour {0}";
    public string PartJoint { get; init; } = "Joint {0}";
    public string NothingDrawn { get; init; } = "Nothing is drawn yet: take Wire and touch where it lies, type it by tape, or import it.";
    public string LawnFollowsWire { get; init; } = "The lawn is what the wire encloses.";
    public string DrawLawn { get; init; } = "Draw the lawn's edge there";
    public string Insert { get; init; } = "Insert after";
    public string Delete { get; init; } = "Delete";
    public string DeletePart { get; init; } = "Delete all of it";
    public string SwapEnds { get; init; } = "Swap A and B";
    public string StationHere { get; init; } = "Station to the chosen corner";
    public string WireRound { get; init; } = "Lay the wire round it";
    public string AlongWire { get; init; } = "Along the wire, {0}";
    public string Style { get; init; } = "Style";
    public string StyleGel { get; init; } = "gel";
    public string StyleCrimped { get; init; } = "crimped";
    public string StyleSoldered { get; init; } = "soldered";
    public string StyleTwisted { get; init; } = "twisted";
    public string StyleClamp { get; init; } = "clamp";
    public string StyleUnknown { get; init; } = "unknown";
    public string MetalKind { get; init; } = "What it is";
    public string EarthOhms { get; init; } = "Its earth resistance, Ω";
    public string NeighbourOhms { get; init; } = "Its loop resistance, Ω";
    public string SameCoding { get; init; } = "its signal is coded like ours";
    public string PhotoTitle { get; init; } = "Trace a photo or plan";
    public string PhotoChoose { get; init; } = "Photo or plan from this device";
    public string PhotoUnreadable { get; init; } = "This file is no picture that the browser can show.";
    public string PhotoDistance { get; init; } = "Distance of the two places, {0}";
    public string PhotoApply { get; init; } = "Set scale";
    public string PhotoTurn { get; init; } = "Turned clockwise, °";
    public string PhotoWest { get; init; } = "Left edge, {0} east";
    public string PhotoNorth { get; init; } = "Upper edge, {0} north";
    public string PhotoRemove { get; init; } = "Take the photo away";
    public string ImportTitle { get; init; } = "Import a drawing";
    public string ImportChoose { get; init; } = "GeoJSON, GPX or CSV: choose a file or drop it here";
    public string ImportTooLarge { get; init; } = "The file has more than {0} MB.";
    public string ImportWrong { get; init; } = "This file was not imported";
#pragma warning restore CS1591
}
