namespace Swardloop.Core.Diagnosis;

/// <summary>What ends a fault on a guide wire, and which observations speak of one.</summary>
internal static class GuideRepairs
{
    /// <summary>Whether a guide's joint was opened, which includes remaking it.</summary>
    public static bool OpensJoint(Observation seen, YardPhysics physics) =>
        seen is Observation.SplitResistance split && physics.GuideOn(seen) is { } guide && guide.JointNear(split.AtMetres) is not null;

    /// <summary>Whether an observation at a place on a guide says something of the guide here.</summary>
    public static bool Says(Observation seen, YardPhysics physics) =>
        seen is Observation.SplitResistance or Observation.JointDrop { Amperes: > 0 } or Observation.Look or Observation.ToneTrace && physics.GuideOn(seen) is not null;

    /// <summary>Probability that a change of the yard ends a fault at a place on a guide.</summary>
    public static double Cures(Observation change, Place place, YardPhysics physics)
    {
        const double Works = StatedProbabilities.RepairWorks;
        GuidePhysics guide = physics.Guides[place.Guide - 1];
        bool meets = place.FromMetres >= guide.LengthMetres - 1e-9, hers = change.Wire is not null && ReferenceEquals(physics.GuideOn(change), guide);
        return change switch
        {
            Observation.RepairDone { Repair: StepKind.RemakeTerminals } => place.Kind == PlaceKind.Terminal ? Works : 0,

            // The joint with the loop is one joint, whichever wire it is reached along.
            Observation.RepairDone { Repair: StepKind.RemakeJoint, AtMetres: { } at } => (hers ? AtJoint(at) : change.Wire is null && meets && Meets(at)) ? Works : 0,
            Observation.SplitResistance split => (hers ? AtJoint(split.AtMetres) : change.Wire is null && meets && Meets(split.AtMetres)) ? Works : 0,
            Observation.RepairDone { Repair: StepKind.MendSpan, FromMetres: { } from, ToMetres: { } to } => hers
                ? Works * PlaceTestModel.Overlap(place, Math.Min(from, to), Math.Max(from, to))
                : change.Wire is null && meets ? Works * PlaceTestModel.Overlap(place with { FromMetres = guide.JoinsAtMetres, ToMetres = guide.JoinsAtMetres }, Math.Min(from, to), Math.Max(from, to)) : 0,
            _ => 0,
        };

        bool AtJoint(double at) => place.Kind == PlaceKind.Joint && Math.Abs(place.FromMetres - at) <= Yards.Loop.JointReachMetres;

        bool Meets(double at) => Math.Abs(at - guide.JoinsAtMetres) <= Yards.Loop.JointReachMetres;
    }
}
