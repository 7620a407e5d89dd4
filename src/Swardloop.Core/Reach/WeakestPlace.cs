using Swardloop.Core.Geometry;

namespace Swardloop.Core.Reach;

/// <summary>The place on the lawn with the least signal.</summary>
/// <param name="Point">Where it is.</param>
/// <param name="FieldPerAmpere">|g| there (1/m); 0 where the field turns over away from any wire, as round an island wired the wrong way.</param>
public sealed record WeakestPlace(PlanPoint Point, double FieldPerAmpere);
