using Swardloop.Core.Geometry;

namespace Swardloop.Model.Lawns;

/// <summary>A drive or path across the lawn that a wire may have to cross.</summary>
/// <param name="Path">Its middle line.</param>
/// <param name="CostPerMetre">What a metre of slot through it costs, in the workshop's currency.</param>
/// <param name="WidthMetres">How wide it is (m).</param>
public sealed record LawnCrossing(WirePath Path, double CostPerMetre, double WidthMetres);
