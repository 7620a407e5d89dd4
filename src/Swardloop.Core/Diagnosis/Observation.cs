namespace Swardloop.Core.Diagnosis;

/// <summary>One thing that was tried and what came of it. Immutable; a correction is a new observation.
/// Resistances are what the meter showed, leads included; a null reading means over-range.</summary>
public abstract record Observation
{
    private Observation()
    {
    }

    /// <summary>Who did it.</summary>
    public Person By { get; init; } = Person.Technician;

    /// <summary>When, if noted.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>Free words.</summary>
    public string? Note { get; init; }

    /// <summary>The guide wire that its places lie on, measured from the station; null: the loop, measured from terminal A.</summary>
    public string? Wire { get; init; }

    /// <summary>What was particular about the ground, if noted.</summary>
    public Conditions Conditions { get; init; }

    /// <summary>Which step of the catalogue it was.</summary>
    public abstract StepKind Step { get; }

    /// <summary>Another appliance on the station's outlet.</summary>
    public sealed record OutletCheck(bool Live) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.OutletCheck;
    }

    /// <summary>Supply's output (V), unplugged from the station or with the station drawing from it.</summary>
    public sealed record SupplyVoltage(double Volts, double NominalVolts, bool Loaded = false) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.SupplyVoltage;
    }

    /// <summary>The station's lamp.</summary>
    public sealed record StationLamp(LampState State) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.StationLamp;
    }

    /// <summary>The mower, started at a place.</summary>
    public sealed record MowerStart(StartPlace Place, StartOutcome Outcome) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.MowerStart;
    }

    /// <summary>Distance from the nearest wire at which the mower turns back or stops.</summary>
    public sealed record MowerReach(double DistanceMetres, bool AtLeast) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.MowerReach;
    }

    /// <summary>How the mower follows the wire home.</summary>
    public sealed record FollowWire(FollowOutcome Outcome) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.FollowWire;
    }

    /// <summary>Whether the mower respects the wire at a place.</summary>
    public sealed record WireCrossing(bool Crossed, double? AtMetres, bool NearMetal) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.WireCrossing;
    }

    /// <summary>Ohmmeter across both ends, unplugged.</summary>
    public sealed record LoopResistance(double? Ohms, double LeadOhms, MeterAccuracy Meter) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.LoopResistance;
    }

    /// <summary>Ohmmeter from the loop to a stake, both ends unplugged.</summary>
    public sealed record EarthResistance(double? Ohms) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.EarthResistance;
    }

    /// <summary>Insulation tester from the loop to earth, everything unplugged.</summary>
    public sealed record Insulation(double TestVolts, double Megohms) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.Insulation;
    }

    /// <summary>Battery across A–B; volts from each end to a stake (V): half the difference of the signed readings at both polarities, without sign, so that the
    /// ground's own voltage drops out.</summary>
    public sealed record EarthRatio(double VoltsA, double VoltsB) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.EarthRatio;
    }

    /// <summary>Capacitance to earth from each end of a broken loop.</summary>
    public sealed record EndCapacitance(double FaradA, double FaradB) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.EndCapacitance;
    }

    /// <summary>Loop opened at a place, each side measured through a lead.</summary>
    public sealed record SplitResistance(double AtMetres, double? OhmsA, double? OhmsB, double LeadOhms) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.SplitResistance;
    }

    /// <summary>Loop resistance with a surface wire across a stretch.</summary>
    public sealed record Bypass(double FromMetres, double ToMetres, double? Ohms) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.Bypass;
    }

    /// <summary>How strong a tone from one end is at a place.</summary>
    public sealed record ToneTrace(double AtMetres, WireEnd From, ToneStrength Strength) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.ToneTrace;
    }

    /// <summary>Time-domain reflectometry from one end.</summary>
    public sealed record Reflection(WireEnd From, double? DelaySeconds, EchoKind Kind) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.Reflection;
    }

    /// <summary>Walking a stretch and looking.</summary>
    public sealed record Look(double FromMetres, double ToMetres, bool Damage) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.Look;
    }

    /// <summary>A short test loop on the station.</summary>
    public sealed record SubstituteLoop(bool Runs) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.SubstituteLoop;
    }

    /// <summary>Another mower on this loop.</summary>
    public sealed record SubstituteMower(bool Runs) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.SubstituteMower;
    }

    /// <summary>The neighbour's station switched off for a while.</summary>
    public sealed record NeighbourOff(bool Cured) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.NeighbourOff;
    }

    /// <summary>Whether the mower runs after a repair.</summary>
    public sealed record MowerCheck(bool Runs) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.MowerCheck;
    }

    /// <summary>Tone across A–B, everything unplugged; alternating volts from each end to a stake (V).</summary>
    /// <param name="VoltsA">From A to the stake (V).</param>
    /// <param name="VoltsB">From B to the stake (V).</param>
    /// <param name="Hertz">The tone's frequency (Hz).</param>
    public sealed record AcRatio(double VoltsA, double VoltsB, double Hertz = AcRatio.UsualHertz) : Observation
    {
        /// <summary>Frequency of the tone when none is noted (Hz). Common practice, no source.</summary>
        public const double UsualHertz = 1000;

        /// <inheritdoc/>
        public override StepKind Step => StepKind.AcRatio;
    }

    /// <summary>Ohmmeter from each end of the loop to a guide wire, everything unplugged.</summary>
    /// <param name="Guide">The guide wire's name; null where the yard has but one, or its name is not noted.</param>
    /// <param name="OhmsA">From A to the guide (Ω); null is over-range.</param>
    /// <param name="OhmsB">From B to the guide (Ω); null is over-range.</param>
    /// <param name="LeadOhms">The meter's leads (Ω).</param>
    /// <param name="Meter">The meter's limits of error.</param>
    public sealed record GuideResistance(string? Guide, double? OhmsA, double? OhmsB, double LeadOhms, MeterAccuracy Meter) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.GuideResistance;
    }

    /// <summary>Voltage across a joint while a battery drives a current through the loop; needle probes.</summary>
    /// <param name="AtMetres">Where the joint is, along the wire from A (m).</param>
    /// <param name="Amperes">The current (A).</param>
    /// <param name="Volts">The drop across the joint (V).</param>
    public sealed record JointDrop(double AtMetres, double Amperes, double Volts) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.JointDrop;
    }

    /// <summary>Wire pierced at a place, not cut: ohmmeter from there to each terminal.</summary>
    /// <param name="AtMetres">Where, along the wire from A (m).</param>
    /// <param name="OhmsA">To terminal A (Ω); null is over-range.</param>
    /// <param name="OhmsB">To terminal B (Ω); null is over-range.</param>
    /// <param name="LeadOhms">The long test lead (Ω).</param>
    public sealed record PinProbe(double AtMetres, double? OhmsA, double? OhmsB, double LeadOhms) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.PinProbe;
    }

    /// <summary>Voltage in the ground between two stakes in line with the wire, loop driven against a far stake.</summary>
    /// <param name="AtMetres">Where the middle of the two stakes is, along the wire from A (m).</param>
    /// <param name="SpacingMetres">Distance between the stakes (m).</param>
    /// <param name="Outcome">Which way the current leaks.</param>
    /// <param name="Volts">What the meter showed, without sign (V); null when not noted.</param>
    public sealed record EarthGradient(double AtMetres, double SpacingMetres, GradientOutcome Outcome, double? Volts) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.EarthGradient;
    }

    /// <summary>Both ends pulled off the station and looked at.</summary>
    public sealed record TerminalLook(TerminalState State) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.TerminalLook;
    }

    /// <summary>A joint or terminal moved while an ohmmeter looks on.</summary>
    public sealed record Wiggle(double AtMetres, bool Jumps) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.Wiggle;
    }

    /// <summary>The mower put on the station by hand.</summary>
    public sealed record ChargeCheck(bool Charges) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.ChargeCheck;
    }

    /// <summary>A step that was asked for and could not be done: whoever could not do it is not asked again. A mower that could not be made to drive may be flat or locked; else it says nothing of the fault.</summary>
    /// <param name="Asked">The step with its parameters; who was asked is <see cref="By"/>, not the step's.</param>
    public sealed record NotDone(Step Asked) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => Asked.Kind;
    }

    /// <summary>A repair that was done.</summary>
    public sealed record RepairDone(StepKind Repair, double? AtMetres, double? FromMetres, double? ToMetres, string? Found) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => Repair;
    }
}
