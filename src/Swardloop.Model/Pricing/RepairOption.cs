using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Pricing;

/// <summary>Ways to end a wire fault.</summary>
public enum RepairWay
{
    /// <summary>Mend here, nothing else.</summary>
    MendHere,

    /// <summary>Mend here and remake every suspicious joint.</summary>
    RemakeJoints,

    /// <summary>Renew the stretch between the joints on either side.</summary>
    RenewStretch,

    /// <summary>Renew all.</summary>
    RenewAll,
}

/// <summary>One way with what it costs now and in the years after.</summary>
public sealed record RepairOption
{
    /// <summary>Which way.</summary>
    public required RepairWay Way { get; init; }

    /// <summary>Steps of it.</summary>
    public required IReadOnlyList<Step> Steps { get; init; }

    /// <summary>What is paid now, travel and tax included.</summary>
    public required PriceSum Now { get; init; }

    /// <summary>Faults a year afterwards, on average.</summary>
    public required double FaultsPerYear { get; init; }

    /// <summary>What a later fault costs on average.</summary>
    public required decimal PerFault { get; init; }

    /// <summary>Later faults: expectation, and the interval that holds nine in ten.</summary>
    public required (double Mean, int Low, int High) Faults { get; init; }

    /// <summary>Expected cost with the years after.</summary>
    public decimal Expected => Now.Total + ((decimal)Faults.Mean * PerFault);

    /// <summary>As little as one in twenty costs.</summary>
    public decimal Low => Now.Total + (Faults.Low * PerFault);

    /// <summary>As much as one in twenty costs.</summary>
    public decimal High => Now.Total + (Faults.High * PerFault);
}
