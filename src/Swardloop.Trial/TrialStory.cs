using System.Globalization;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;

namespace Swardloop.Trial;

/// <summary>One yard told step by step, for whoever wants to know why an advice was good or bad.</summary>
public static class TrialStory
{
    /// <summary>The yard, its truth, every step with what was seen and paid and believed, and what routine and oracle paid.</summary>
    public static IEnumerable<string> Tell(YardResult result)
    {
        Yard yard = result.Yard.Case.Yard;
        ServiceCase start = result.Yard.Case;
        yield return Line($"Yard {result.Yard.Index}, world '{result.Yard.Style.Name}': loop {yard.Loop.LengthMetres:F1} m of {yard.Loop.Conductor.AreaSquareMetres * 1e6:F2} mm², lawn {yard.Lawn.AreaSquareMetres:F0} m²");
        yield return Line($"  joints {string.Join(", ", yard.Loop.Joints.Select(joint => Line($"{joint.AtMetres:F1} {joint.Style}")))}; metal {yard.Metal.Count}, neighbours {yard.Neighbours.Count}, lamp {yard.Station.HasContinuityLamp}");
        yield return Line($"  risk {string.Join(", ", yard.RiskSpots.Select(spot => Line($"{spot.FromMetres:F1}–{spot.ToMetres:F1} {spot.Kind} ×{spot.Weight:F1}")))}");
        yield return Line($"  \"{start.Complaint}\"; on site {start.OnSite}; owner {start.Can.Owner} with {start.Can.OwnerInstruments}; technician with {start.Can.TechnicianInstruments}");
        yield return Line($"  labour {start.Rates.LabourPerHour:F0}, travel {start.Rates.TravelPerVisit:F0}, owner {start.Rates.OwnerPatiencePerHour:F0}");
        foreach (Fault fault in result.Yard.Faults)
        {
            yield return Line($"  TRUTH {TrialReport.CauseName(new(fault.Kind))} at {fault.AtMetres:F2}{(fault.AtJoint ? " (joint)" : "")} {fault.SecondAtMetres:F2} ohms {fault.Ohms:G4} {fault.SecondOhms:G4} shows {fault.Shows} side leak {fault.SideLeakOhms:G3}{(fault.Harmful ? "" : ", harmless")}");
        }

        foreach (Observation observation in start.Observations)
        {
            yield return "  noted  " + Words(observation);
        }

        double paid = 0;
        for (int i = 0; i < result.Played.Count; i++)
        {
            PlayedStep step = result.Played[i];
            paid += step.Cost;
            string causes = string.Join(" ", step.Advice.Causes.Take(4).Select(cause => Line($"{TrialReport.CauseName(cause.Cause)} {cause.Probability:F3}")));
            string place = step.Advice.Location is { } at ? Line($" at {at.AtMetres:F1} [{at.LowMetres:F1}, {at.HighMetres:F1}]") : "";
            yield return Line($"  {i + 1,2}  believed {causes}{place}");
            yield return Line($"      {Words(step.Seen)}   paid {step.Cost:F1}, so far {paid:F1}{(i == result.CuredBy ? "   CURED" : "")}");
        }

        yield return Line($"  {(result.Cured ? "cured" : result.Trouble)}: {result.Cost:F1} in {result.Played.Count} steps, {result.WrongRepairs} wrong repairs; routine {result.Routine.Cost:F1} in {result.Routine.Steps}{(result.Routine.MowerRuns ? "" : " (not cured)")}; oracle {result.OracleCost:F1}");
    }

    /// <summary>What the routine did, step by step.</summary>
    public static IEnumerable<string> TellRoutine(YardResult result) =>
        result.Routine.Case.Observations.Skip(result.Yard.Case.Observations.Count).Select(observation => "  card   " + Words(observation));

    private static string Words(Observation observation) =>
        Line($"{(observation.By == Person.Owner ? "owner" : "tech "),5} {WireName.Of(observation.Step)}: ") + observation switch
        {
            Observation.OutletCheck o => o.Live ? "live" : "dead",
            Observation.SupplyVoltage o => Line($"{o.Volts} V of {o.NominalVolts}{(o.Loaded ? " loaded" : "")}"),
            Observation.StationLamp o => Line($"{o.State}"),
            Observation.MowerStart o => Line($"{o.Place} {o.Outcome}"),
            Observation.MowerReach o => Line($"{(o.AtLeast ? "at least " : "")}{o.DistanceMetres} m"),
            Observation.FollowWire o => Line($"{o.Outcome}"),
            Observation.WireCrossing o => Line($"{(o.Crossed ? "crossed" : "respected")} at {o.AtMetres:F1}{(o.NearMetal ? " near metal" : "")}"),
            Observation.LoopResistance o => Line($"{Ohms(o.Ohms)}, leads {o.LeadOhms}"),
            Observation.EarthResistance o => Ohms(o.Ohms),
            Observation.Insulation o => Line($"{o.Megohms} MΩ at {o.TestVolts} V"),
            Observation.EarthRatio o => Line($"{o.VoltsA} V, {o.VoltsB} V"),
            Observation.EndCapacitance o => Line($"{o.FaradA * 1e9:F2} nF, {o.FaradB * 1e9:F2} nF"),
            Observation.SplitResistance o => Line($"at {o.AtMetres:F1}: A {Ohms(o.OhmsA)}, B {Ohms(o.OhmsB)}, lead {o.LeadOhms}"),
            Observation.Bypass o => Line($"{o.FromMetres:F1}–{o.ToMetres:F1}: {Ohms(o.Ohms)}"),
            Observation.ToneTrace o => Line($"at {o.AtMetres:F1} from {o.From}: {o.Strength}"),
            Observation.Reflection o => Line($"from {o.From}: {o.Kind} {o.DelaySeconds * 1e9:F0} ns"),
            Observation.Look o => Line($"{o.FromMetres:F1}–{o.ToMetres:F1}: {(o.Damage ? "damage" : "nothing")}"),
            Observation.SubstituteLoop o => o.Runs ? "runs" : "no signal",
            Observation.SubstituteMower o => o.Runs ? "runs" : "no signal",
            Observation.NeighbourOff o => o.Cured ? "cured" : "same",
            Observation.MowerCheck o => o.Runs ? "runs" : "same",
            Observation.AcRatio o => Line($"{o.VoltsA} V, {o.VoltsB} V at {o.Hertz} Hz"),
            Observation.GuideResistance o => Line($"{o.Guide}: A {Ohms(o.OhmsA)}, B {Ohms(o.OhmsB)}, leads {o.LeadOhms}"),
            Observation.JointDrop o => Line($"at {o.AtMetres:F1}: {o.Volts * 1e3:F2} mV at {o.Amperes * 1e3:F1} mA"),
            Observation.PinProbe o => Line($"at {o.AtMetres:F1}: A {Ohms(o.OhmsA)}, B {Ohms(o.OhmsB)}, lead {o.LeadOhms}"),
            Observation.EarthGradient o => Line($"at {o.AtMetres:F1} over {o.SpacingMetres} m: {o.Outcome} {o.Volts * 1e6:F0} µV"),
            Observation.TerminalLook o => Line($"{o.State}"),
            Observation.Wiggle o => Line($"at {o.AtMetres:F1}: {(o.Jumps ? "jumps" : "steady")}"),
            Observation.ChargeCheck o => o.Charges ? "charges" : "does not charge",
            Observation.NotDone o => Line($"could not be done {o.Asked.AtMetres:F1} {o.Asked.FromMetres:F1}–{o.Asked.ToMetres:F1}"),
            Observation.RepairDone o => Line($"{o.AtMetres:F1} {o.FromMetres:F1}–{o.ToMetres:F1} found: {o.Found}"),
            _ => observation.ToString(),
        };

    private static string Ohms(double? ohms) => ohms is { } value ? Line($"{value:G5} Ω") : "over-range";

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
