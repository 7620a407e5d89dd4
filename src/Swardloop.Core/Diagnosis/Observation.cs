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

    /// <summary>Which step of the catalogue it was.</summary>
    public abstract StepKind Step { get; }

    /// <summary>Another appliance on the station's outlet.</summary>
    public sealed record OutletCheck(bool Live) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => StepKind.OutletCheck;
    }

    /// <summary>Supply's output, unplugged from the station.</summary>
    public sealed record SupplyVoltage(double Volts, double NominalVolts) : Observation
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

    /// <summary>Battery across A–B; volts to a stake from each end, mean of both polarities.</summary>
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

    /// <summary>A repair that was done.</summary>
    public sealed record RepairDone(StepKind Repair, double? AtMetres, double? FromMetres, double? ToMetres, string? Found) : Observation
    {
        /// <inheritdoc/>
        public override StepKind Step => Repair;
    }
}
