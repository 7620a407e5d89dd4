using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>A complaint and all that is known of it so far.</summary>
public sealed record ServiceCase
{
    /// <summary>The installation.</summary>
    public required Yard Yard { get; init; }

    /// <summary>The owner's words.</summary>
    public string Complaint { get; init; } = "";

    /// <summary>What things cost.</summary>
    public Rates Rates { get; init; } = new();

    /// <summary>Whether a technician is there already, travel paid.</summary>
    public bool OnSite { get; init; }

    /// <summary>Who and what is at hand.</summary>
    public Capabilities Can { get; init; } = new();

    /// <summary>What was tried, in order.</summary>
    public IReadOnlyList<Observation> Observations { get; init; } = [];
}
