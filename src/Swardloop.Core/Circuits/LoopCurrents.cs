using System.Numerics;
using Swardloop.Core.Fields;

namespace Swardloop.Core.Circuits;

/// <summary>Where a set-up's current flows in wire and metal. What spreads evenly in level ground makes no vertical field and is left out.</summary>
/// <param name="DriveAmperes">Current out of the drive's plus terminal (A).</param>
/// <param name="Wire">The wire's currents, from A to B, without gap.</param>
/// <param name="Segments">The same in space, and the metal's, for the field sum.</param>
/// <param name="MetalShare">Current that flows through metal objects, as a share of the drive's; null when the drive gives none.
/// Computed, not tuned: with damaged insulation in soil it is small, whatever practice tells of fences.</param>
public sealed record LoopCurrents(
    Complex DriveAmperes, IReadOnlyList<WireCurrent> Wire, IReadOnlyList<CurrentSegment> Segments, double? MetalShare);
