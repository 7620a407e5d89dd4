namespace Swardloop.Drawing;

/// <summary>What a part of a drawing is.</summary>
public enum DrawnKind
{
    /// <summary>The wire from A to B.</summary>
    Wire,

    /// <summary>A ring of lawn.</summary>
    Lawn,

    /// <summary>A ring left out of the lawn.</summary>
    Island,

    /// <summary>Metal beside the wire.</summary>
    Metal,

    /// <summary>A neighbour's loop.</summary>
    Neighbour,

    /// <summary>A guide wire from the station to a joint on the loop.</summary>
    Guide,

    /// <summary>A joint in the wire.</summary>
    Joint,
}
