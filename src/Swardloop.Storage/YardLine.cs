namespace Swardloop.Storage;

/// <summary>A yard as lists show and find it.</summary>
public sealed class YardLine
{
    /// <summary>The yard.</summary>
    public Guid Yard { get; set; }

    /// <summary>Its owner; null for none.</summary>
    public Guid? Owner { get; set; }

    /// <summary>What it is called.</summary>
    public string Name { get; set; } = "";

    /// <summary>Where it is; null when not said.</summary>
    public string? Address { get; set; }

    /// <summary>What search looks in, folded by <see cref="SearchText"/>.</summary>
    public string Text { get; set; } = "";

    /// <summary>Whether it was put away.</summary>
    public bool IsArchived { get; set; }

    /// <summary>Last loop resistance read, leads taken off (Ω); null when there is none, or the wire was mended since.</summary>
    public double? LastOhms { get; set; }

    /// <summary>When it was read, as the reading says; null when it does not say.</summary>
    public DateTimeOffset? LastReadAt { get; set; }

    /// <summary>What the loop should measure (Ω); null until computed.</summary>
    public double? ExpectedOhms { get; set; }

    /// <summary>Loop resistance at which the weakest place falls silent (Ω); null until computed, or when it is silent at any.</summary>
    public double? LimitOhms { get; set; }

    /// <summary>Number of the change since which the computed values are out of date; null when they are up to date.</summary>
    public long? StaleSince { get; set; }
}
