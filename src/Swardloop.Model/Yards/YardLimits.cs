using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>What a yard file may hold, in the file's units, and what is taken where it is silent and the Core types say nothing.</summary>
/// <remarks>The ranges are generous bounds of what can be meant in a garden (common practice, no source): wide enough for every
/// honest yard, narrow enough that no computation overflows or runs away.</remarks>
public static class YardLimits
{
    /// <summary>Most corners of one path or ring: far above what a wire laid by hand needs, few enough that every answer stays quick.</summary>
    public const int PathPoints = 2_000;

    /// <summary>Most corners of one line of a file that is imported, before it is simplified.</summary>
    public const int TrackPoints = 20_000;

    /// <summary>A line of more corners than that is a read track, and simplified when it is imported.</summary>
    public const int DrawnPoints = 200;

    /// <summary>How far at most a simplified track lies from the one that was read (m): below what laying and finding a wire can tell. Common practice, no source.</summary>
    public const double TrackToleranceMetres = 0.02;

    /// <summary>What to do about a drawing of too many corners.</summary>
    public const string SimplifyFirst = "at most 2000 corners; a read track that is imported keeps only those it needs to stay within 2 cm";

    /// <summary>Most outer rings of the lawn.</summary>
    public const int Rings = 50;

    /// <summary>Most holes.</summary>
    public const int Holes = 500;

    /// <summary>Most joints.</summary>
    public const int Joints = 500;

    /// <summary>Most metal objects.</summary>
    public const int MetalObjects = 100;

    /// <summary>Most neighbouring loops.</summary>
    public const int Neighbours = 20;

    /// <summary>Most risk spots.</summary>
    public const int RiskSpots = 500;

    /// <summary>Longest name or kind.</summary>
    public const int TextCharacters = 200;

    /// <summary>Two joints nearer than this are one written twice (m).</summary>
    public const double SameJointMetres = 0.01;

    /// <summary>Shortest wire (m).</summary>
    public const double LeastLoopMetres = 1;

    /// <summary>Longest wire (m).</summary>
    public const double MostLoopMetres = 10_000;

    /// <summary>Shortest guide wire (m).</summary>
    public const double LeastGuideMetres = 0.1;

    /// <summary>Most guide wires.</summary>
    public const int Guides = 10;

    /// <summary>Longest name of a guide wire (characters).</summary>
    public const int NameCharacters = 100;

    /// <summary>Widest lawn, east to west or south to north (m).</summary>
    public const double MostLawnMetres = 2_000;

    /// <summary>Smallest ring or hole (m²).</summary>
    public const double LeastAreaSquareMetres = 0.01;

    /// <summary>Thickest gauge; the thinner the wire, the larger the number.</summary>
    public const int LeastAwg = 0;

    /// <summary>Thinnest gauge.</summary>
    public const int MostAwg = 40;

    /// <summary>Default of <c>loop.depthM</c> (m), as in <see cref="Core.Yards.Loop"/>.</summary>
    public const double DefaultDepthMetres = 0.05;

    /// <summary>Default of <c>loop.lengthToleranceM</c> (m), as in <see cref="Core.Yards.Loop"/>.</summary>
    public const double DefaultLengthToleranceMetres = 2;

    /// <summary>Default of <c>loop.capacitancePFPerM</c>, as in <see cref="Core.Yards.Loop"/>.</summary>
    public const double DefaultPicofaradsPerMetre = 250;

    /// <summary>Default of <c>metal[].earthOhms</c> (Ω): posts of a fence in garden soil. Common practice, no source.</summary>
    public const double DefaultEarthOhms = 50;

    /// <summary>Default of <c>neighbours[].ohms</c> (Ω): a healthy loop of some 300 m. Common practice, no source.</summary>
    public const double DefaultNeighbourOhms = 5;

    /// <summary>Default of <c>riskSpots[].weight</c>. Common practice, no source.</summary>
    public const double DefaultRiskWeight = 3;

    /// <summary>Default of <c>metal[].kind</c>.</summary>
    public const string DefaultMetalKind = "metal";

    /// <summary>Default of <c>riskSpots[].kind</c>.</summary>
    public const string DefaultRiskKind = "other";

    /// <summary>Plan coordinates: within 10 km of the plan's origin.</summary>
    public static NumberRange Coordinate { get; } = new(-10_000, 10_000, "m");

    /// <summary>Places along the wire, before its length is known.</summary>
    public static NumberRange AlongWire { get; } = new(0, 100_000, "m");

    /// <summary>Latitude of the datum.</summary>
    public static NumberRange Latitude { get; } = new(-90, 90, "°");

    /// <summary>Longitude of the datum.</summary>
    public static NumberRange Longitude { get; } = new(-180, 180, "°");

    /// <summary>Bearing of the plan's north axis.</summary>
    public static NumberRange Bearing { get; } = new(-360, 360, "°");

    /// <summary>Depth of the wire.</summary>
    public static NumberRange Depth { get; } = new(0, 1, "m");

    /// <summary>Tolerance of the length.</summary>
    public static NumberRange LengthTolerance { get; } = new(0, 1_000, "m");

    /// <summary>How far beside its path a wire may lie whose course was heard.</summary>
    public static NumberRange CourseTolerance { get; } = new(0, 100, "m");

    /// <summary>Capacitance to the soil.</summary>
    public static NumberRange Capacitance { get; } = NumberRange.AboveZero(100_000, "pF/m");

    /// <summary>Any resistance.</summary>
    public static NumberRange Ohms { get; } = NumberRange.AboveZero(1e9, "Ω");

    /// <summary>One standard deviation of a profile's value.</summary>
    public static NumberRange UncertaintyPercent { get; } = new(0, 200, "%");

    /// <summary>Drive frequency.</summary>
    public static NumberRange Frequency { get; } = new(1, 1_000_000, "Hz");

    /// <summary>Reach constant.</summary>
    public static NumberRange ReachConstant { get; } = NumberRange.AboveZero(1e9, "Ω·m");

    /// <summary>Height of the sensor; more than zero, since the field has no value on the wire itself.</summary>
    public static NumberRange SensorHeight { get; } = NumberRange.AboveZero(2, "m");

    /// <summary>Soil resistivity.</summary>
    public static NumberRange SoilResistivity { get; } = NumberRange.AboveZero(1e6, "Ω·m");

    /// <summary>Soil temperature.</summary>
    public static NumberRange Temperature { get; } = new(-40, 60, "°C");

    /// <summary>Weight of a risk spot.</summary>
    public static NumberRange RiskWeight { get; } = NumberRange.AboveZero(1_000_000, "");

    /// <summary>Cross-section.</summary>
    public static NumberRange Area { get; } = new(0.01, 100, "mm²");

    /// <summary>Resistance per length.</summary>
    public static NumberRange OhmsPerKm { get; } = NumberRange.AboveZero(100_000, "Ω/km");

    /// <summary>Conductivity of a clad wire.</summary>
    public static NumberRange PercentIacs { get; } = new(1, 100, "% IACS");
}
