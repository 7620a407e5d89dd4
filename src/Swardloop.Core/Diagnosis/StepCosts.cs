namespace Swardloop.Core.Diagnosis;

/// <summary>What steps of one case take and cost, by the catalogue's times or the workshop's own, and the case's rates; travel apart.</summary>
public sealed class StepCosts
{
    /// <summary>What any step costs beyond its minutes when plans are weighed: asking, waiting, writing down. It keeps steps that hardly
    /// tell anything from being asked one after the other. Judgement, no source; not part of any cost that is shown.</summary>
    internal const double Overhead = 1;

    /// <summary>Minutes that a metre of paving adds to digging.</summary>
    internal const double HardMinutesPerMetre = 20;

    private static readonly string[] HardKinds = ["drive", "pav", "asphalt", "tarmac", "concrete", "patio", "einfahrt", "auffahrt", "pflaster", "beton", "terrasse"];

    private readonly ServiceCase _case;

    /// <summary>Costs for one case.</summary>
    public StepCosts(ServiceCase serviceCase) => _case = serviceCase;

    /// <summary>What a mower-check costs whoever does it cheaper.</summary>
    public double Check
    {
        get
        {
            double technician = _case.Can.Technician ? Money(new(StepKind.MowerCheck)) : double.PositiveInfinity;
            double owner = _case.Can.Owner ? Money(new(StepKind.MowerCheck) { By = Person.Owner }) : double.PositiveInfinity;
            double cheaper = Math.Min(technician, owner);
            return double.IsInfinity(cheaper) ? Money(new(StepKind.MowerCheck)) : cheaper;
        }
    }

    /// <summary>The mower-check that follows a repair: a step of its own when plans are weighed.</summary>
    internal double CheckAfter => Check + Overhead;

    /// <summary>Minutes for whoever does the step.</summary>
    public double Minutes(Step step)
    {
        StepFacts facts = _case.Rates.Pace.Of(step.Kind);
        double minutes = AtJoint(step) && facts.JointMinutes is { } atJoint ? atJoint : facts.Minutes;
        minutes = Math.Max(minutes + (facts.MinutesPerMetre * LengthMetres(step)), facts.LeastMinutes) + HardGroundMinutes(step);
        return step.By == Person.Owner ? minutes * StepFacts.OwnerSlowness : minutes;
    }

    /// <summary>Money for a step's minutes and parts, travel apart.</summary>
    public double Money(Step step)
    {
        StepFacts facts = _case.Rates.Pace.Of(step.Kind);
        double parts = (AtJoint(step) && facts.JointParts is { } atJoint ? atJoint : facts.Parts) + (facts.PartsPerMetre * LengthMetres(step));
        double rate = step.By == Person.Owner ? _case.Rates.OwnerPatiencePerHour : _case.Rates.LabourPerHour;
        return (Minutes(step) * rate / 60) + parts;
    }

    /// <summary>Minutes on top where the ground is paved: slabs lifted and laid again. Judgement, no source.</summary>
    private double HardGroundMinutes(Step step) => step switch
    {
        { Wire: not null } => 0, // Risk spots lie along the loop.
        { Kind: StepKind.MendSpan, FromMetres: { } from, ToMetres: { } to } => HardMinutesPerMetre * HardMetres(_case.Yard, Math.Min(from, to), Math.Max(from, to)),
        { Kind: StepKind.SplitResistance or StepKind.PinProbe or StepKind.RemakeJoint, AtMetres: { } at } => HardMinutesPerMetre * HardMetres(_case.Yard, at - 0.25, at + 0.25),
        _ => 0,
    };

    /// <summary>How much of a stretch lies under a drive, paving, asphalt or concrete (m), by the kinds of the yard's risk spots in the languages of the screens.</summary>
    internal static double HardMetres(Yards.Yard yard, double fromMetres, double toMetres)
    {
        double metres = 0;
        foreach (Yards.RiskSpot spot in yard.RiskSpots)
        {
            if (Array.Exists(HardKinds, kind => spot.Kind.Contains(kind, StringComparison.OrdinalIgnoreCase)))
            {
                metres += Math.Max(0, Math.Min(toMetres, spot.ToMetres) - Math.Max(fromMetres, spot.FromMetres));
            }
        }

        return metres;
    }

    private bool AtJoint(Step step) => step.Wire is null && step.AtMetres is { } at
        && (_case.Yard.Loop.JointNear(at) is not null || at <= Yards.Loop.JointReachMetres || at >= _case.Yard.Loop.LengthMetres - Yards.Loop.JointReachMetres);

    /// <summary>The length a step's time grows with: the stretch, the whole loop, or for a bypass the straight way.</summary>
    private double LengthMetres(Step step) => step switch
    {
        { Kind: StepKind.RenewLoop or StepKind.RelayLayout } => _case.Yard.Loop.LengthMetres,
        { Kind: StepKind.Bypass, FromMetres: { } from, ToMetres: { } to } =>
            _case.Yard.Loop.Path.PointAt(from).DistanceTo(_case.Yard.Loop.Path.PointAt(to)),
        { FromMetres: { } from, ToMetres: { } to } => Math.Abs(to - from),
        _ => 0,
    };
}
