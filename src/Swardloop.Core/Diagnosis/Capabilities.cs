namespace Swardloop.Core.Diagnosis;

/// <summary>Who and what is at hand.</summary>
public sealed record Capabilities
{
    /// <summary>A technician can come. Default true.</summary>
    public bool Technician { get; init; } = true;

    /// <summary>The owner will help. Default true.</summary>
    public bool Owner { get; init; } = true;

    /// <summary>The technician's instruments. Default: multimeter, capacitance meter, battery, tone sender.</summary>
    public Instruments TechnicianInstruments { get; init; } =
        Instruments.Multimeter | Instruments.CapacitanceMeter | Instruments.Battery | Instruments.ToneSender;

    /// <summary>The owner's instruments. Default none.</summary>
    public Instruments OwnerInstruments { get; init; }

    /// <summary>Steps that this workshop does not do, whoever could. Default none.</summary>
    public StepSet Without { get; init; } = StepSet.Empty;
}
