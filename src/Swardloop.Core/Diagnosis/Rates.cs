namespace Swardloop.Core.Diagnosis;

/// <summary>What time and travel cost, in the workshop's currency.</summary>
public sealed record Rates
{
    /// <summary>Technician's hour. Default 60.</summary>
    public double LabourPerHour { get; init; } = 60;

    /// <summary>One visit's travel. Default 45.</summary>
    public double TravelPerVisit { get; init; } = 45;

    /// <summary>What an hour of the owner's patience is taken to cost. Default 15.</summary>
    public double OwnerPatiencePerHour { get; init; } = 15;

    /// <summary>What steps take and cost in this workshop, where it differs from the catalogue. Default: nowhere.</summary>
    public StepPace Pace { get; init; } = StepPace.Default;

    /// <summary>ISO 4217 code. Default EUR.</summary>
    public string Currency { get; init; } = "EUR";
}
