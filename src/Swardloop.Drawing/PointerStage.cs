namespace Swardloop.Drawing;

/// <summary>What a pointer did.</summary>
public enum PointerStage
{
    /// <summary>Pressed.</summary>
    Down,

    /// <summary>Moved, pressed or not.</summary>
    Move,

    /// <summary>Let go.</summary>
    Up,

    /// <summary>Taken away by the system; whatever it was doing did not happen.</summary>
    Cancel,

    /// <summary>Left the picture.</summary>
    Leave,
}
