namespace Swardloop.Storage;

/// <summary>A yard on the watch list: when it loses reception, as it was last computed.</summary>
public sealed class WatchLine
{
    /// <summary>The yard.</summary>
    public Guid Yard { get; set; }

    /// <summary>Place in the list by the weakest spot's date; every line has another one.</summary>
    public string ByWeakest { get; set; } = "";

    /// <summary>Place in the list by the date of 5 % of the lawn.</summary>
    public string ByFivePercent { get; set; } = "";

    /// <summary>What can be said, by its name; empty until computed.</summary>
    public string State { get; set; } = "";

    /// <summary>Readings that the dates rest on.</summary>
    public int Counted { get; set; }

    /// <summary>All of them.</summary>
    public int Readings { get; set; }

    /// <summary>Day of the last one; null for none.</summary>
    public DateOnly? LastReadOn { get; set; }

    /// <summary>Whether one differs more than meter, temperature and weather allow.</summary>
    public bool IsOdd { get; set; }

    /// <summary>The weakest spot's dates as JSON; null for none.</summary>
    public string? Weakest { get; set; }

    /// <summary>Those of 5 % of the lawn.</summary>
    public string? FivePercent { get; set; }

    /// <summary>All of the forecast as JSON; null for none.</summary>
    public string? Forecast { get; set; }

    /// <summary>Digest of the drawing from which the limits were computed; null before.</summary>
    public string? LimitsOf { get; set; }

    /// <summary>Limit of the weakest spot (Ω, 20 °C); null when no loop reaches it.</summary>
    public double? WeakestLimitOhms { get; set; }

    /// <summary>Limit of 5 % of the lawn.</summary>
    public double? FivePercentLimitOhms { get; set; }

    /// <summary>One standard deviation of the limits (Ω).</summary>
    public double LimitDeviationOhms { get; set; }

    /// <summary>Digest of all that the dates were computed from; null before. The same again is not computed again.</summary>
    public string? ComputedFrom { get; set; }

    /// <summary>Number of the change since which it is out of date; null when it is up to date.</summary>
    public long? StaleSince { get; set; }
}
