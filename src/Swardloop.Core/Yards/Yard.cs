using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>One installation: a lawn, its loop, the station that drives it and the mower that hears it. Immutable.
/// Values are taken as checked; files are checked where they are read.</summary>
public sealed record Yard
{
    /// <summary>What people call the place.</summary>
    public required string Name { get; init; }

    /// <summary>The grass to be mown.</summary>
    public required Lawn Lawn { get; init; }

    /// <summary>The buried wire.</summary>
    public required Loop Loop { get; init; }

    /// <summary>Wires from the station to a joint on the loop.</summary>
    public IReadOnlyList<GuideWire> Guides { get; init; } = [];

    /// <summary>What drives the loop.</summary>
    public Station Station { get; init; } = new();

    /// <summary>What hears it.</summary>
    public Mower Mower { get; init; } = new();

    /// <summary>The ground.</summary>
    public Soil Soil { get; init; } = new();

    /// <summary>Metal beside the wire.</summary>
    public IReadOnlyList<MetalObject> Metal { get; init; } = [];

    /// <summary>Other people's loops near this one.</summary>
    public IReadOnlyList<NeighbourLoop> Neighbours { get; init; } = [];

    /// <summary>Stretches where damage is likelier than elsewhere.</summary>
    public IReadOnlyList<RiskSpot> RiskSpots { get; init; } = [];

    /// <summary>Where the plan lies on the earth, when known.</summary>
    public Datum? Datum { get; init; }

    /// <summary>Length of one of its wires (m): of the loop for null, else of the guide wire of that name; null when there is none.</summary>
    public double? WireMetres(string? wire) => wire is null ? Loop.LengthMetres : Guides.FirstOrDefault(guide => guide.Name == wire)?.LengthMetres;
}
