namespace Swardloop.Model.Lawns;

/// <summary>The table a loop is laid by. Every figure: common practice, no source. A lawn file may change the insets.</summary>
public sealed record LayoutRules
{
    /// <summary>Distance of the wire from each kind of edge (m), in the order of <see cref="EdgeKind"/>.</summary>
    public IReadOnlyList<double> InsetMetres { get; init; } = [0.20, 0.35, 0.30, 0.80, 0.60, 0.15];

    /// <summary>Least distance between two wires that are no pair (m): less, and their fields fight.</summary>
    public double ApartMetres { get; init; } = 0.6;

    /// <summary>Radius of a bend (m): less, and the mower leaves the wire when it follows it home.</summary>
    public double BendMetres { get; init; } = 0.3;

    /// <summary>Distance from a neighbour's loop (m).</summary>
    public double NeighbourMetres { get; init; } = 1;

    /// <summary>Straight wire on each side of the station (m).</summary>
    public double StraightMetres { get; init; } = 1.5;

    /// <summary>A station this near to the wire stands on it; from further away a pair leads to it (m).</summary>
    public double StationReachMetres { get; init; } = 1;

    /// <summary>Smallest part of a lawn worth a wire (m²).</summary>
    public double LeastPartSquareMetres { get; init; } = 3;

    /// <summary>Wire on one spool (m); where it ends there is a joint.</summary>
    public double SpoolMetres { get; init; } = 150;

    /// <summary>At the end of its life the wire measures this many times the most it measures when new.</summary>
    public double EndOfLifeWireFactor { get; init; } = 1.1;

    /// <summary>At the end of its life each joint and terminal measures this (Ω).</summary>
    public double EndOfLifeJointOhms { get; init; } = 5;

    /// <summary>Price of a metre of wire with its pegs.</summary>
    public double PricePerMetre { get; init; } = 0.5;

    /// <summary>Price of a joint.</summary>
    public double PricePerJoint { get; init; } = 2;

    /// <summary>Price of both terminals.</summary>
    public double PriceOfTerminals { get; init; } = 4;

    /// <summary>Minutes for a loop, whatever its length.</summary>
    public double Minutes { get; init; } = 120;

    /// <summary>Minutes for each metre of slit; a pair or several turns lie in one slit.</summary>
    public double MinutesPerMetre { get; init; } = 1.5;

    /// <summary>Price of an hour.</summary>
    public double LabourPerHour { get; init; } = 60;
}
