namespace Swardloop.Model.Lawns;

/// <summary>What a lawn ends at.</summary>
public enum EdgeKind
{
    /// <summary>Open ground: the mower may roll over the edge.</summary>
    Open,

    /// <summary>A wall, fence or hedge that it must not touch.</summary>
    Wall,

    /// <summary>A bed.</summary>
    Bed,

    /// <summary>Water.</summary>
    Water,

    /// <summary>A step or drop.</summary>
    Drop,

    /// <summary>Paving level with the grass.</summary>
    Paved,
}
