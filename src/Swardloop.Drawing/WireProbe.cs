using Seen = Swardloop.Core.Diagnosis.Observation;

namespace Swardloop.Drawing;

/// <summary>A test or repair that said something of places along the wire.</summary>
/// <param name="Observation">Its index in the case.</param>
/// <param name="Where">Where along the wire it was made; null for one made at the terminals.</param>
/// <param name="RuledOut">Stretches it spoke strongly against.</param>
public sealed record WireProbe(int Observation, WireStretch? Where, IReadOnlyList<WireStretch> RuledOut)
{
    /// <summary>Where along the wire an observation was made; null when it has no place there.</summary>
    public static WireStretch? PlaceOf(Seen seen) => seen switch
    {
        { Wire: not null } or Seen.NotDone => null, // On a guide wire, or nowhere: neither is on the strip.
        Seen.WireCrossing { AtMetres: { } at } => new(at, at),
        Seen.SplitResistance o => new(o.AtMetres, o.AtMetres),
        Seen.ToneTrace o => new(o.AtMetres, o.AtMetres),
        Seen.Bypass o => new(Math.Min(o.FromMetres, o.ToMetres), Math.Max(o.FromMetres, o.ToMetres)),
        Seen.Look o => new(Math.Min(o.FromMetres, o.ToMetres), Math.Max(o.FromMetres, o.ToMetres)),
        Seen.JointDrop o => new(o.AtMetres, o.AtMetres),
        Seen.PinProbe o => new(o.AtMetres, o.AtMetres),
        Seen.EarthGradient o => new(o.AtMetres, o.AtMetres),
        Seen.Wiggle o => new(o.AtMetres, o.AtMetres),
        Seen.RepairDone { AtMetres: { } at } => new(at, at),
        Seen.RepairDone { FromMetres: { } from, ToMetres: { } to } => new(Math.Min(from, to), Math.Max(from, to)),
        _ => null,
    };

    /// <summary>Whether an observation is made along the wire, or tells a place from the terminals.</summary>
    public static bool TellsPlaces(Seen seen) =>
        PlaceOf(seen) is not null || seen is Seen.EarthRatio or Seen.AcRatio or Seen.EndCapacitance or Seen.Reflection;
}
