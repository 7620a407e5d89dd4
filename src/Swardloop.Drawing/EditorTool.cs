namespace Swardloop.Drawing;

/// <summary>What the hand does on the drawing board.</summary>
public enum EditorTool
{
    /// <summary>Chooses and moves corners and joints.</summary>
    Move,

    /// <summary>Draws the wire.</summary>
    Wire,

    /// <summary>Draws a guide wire.</summary>
    Guide,

    /// <summary>Draws a ring of lawn.</summary>
    Lawn,

    /// <summary>Draws an island.</summary>
    Island,

    /// <summary>Puts joints on the wire.</summary>
    Joint,

    /// <summary>Draws metal.</summary>
    Metal,

    /// <summary>Draws a neighbour's loop.</summary>
    Neighbour,

    /// <summary>Notes places where a tone on the wire was heard.</summary>
    Heard,

    /// <summary>Touches two places of the photo whose distance is known.</summary>
    PhotoScale,
}
