namespace Swardloop.Storage;

/// <summary>A case as lists show and find it.</summary>
public sealed class CaseLine
{
    /// <summary>The case.</summary>
    public Guid Case { get; set; }

    /// <summary>Its yard.</summary>
    public Guid Yard { get; set; }

    /// <summary>What the owner said.</summary>
    public string Complaint { get; set; } = "";

    /// <summary>One of the case states.</summary>
    public string State { get; set; } = "";

    /// <summary>Whether it is not closed.</summary>
    public bool IsOpen { get; set; }

    /// <summary>When it was opened, UTC.</summary>
    public DateTimeOffset OpenedAt { get; set; }

    /// <summary>Day promised to the owner; null for none.</summary>
    public DateOnly? PromisedOn { get; set; }

    /// <summary>When the last observation arrived, UTC; null for none.</summary>
    public DateTimeOffset? LastNewsAt { get; set; }

    /// <summary>Owner's answers that nobody of the workshop has looked at.</summary>
    public int NewFromOwner { get; set; }

    /// <summary>Whether a field of the case holds two values.</summary>
    public bool HasConflict { get; set; }

    /// <summary>What search looks in, folded by <see cref="SearchText"/>.</summary>
    public string Text { get; set; } = "";

    /// <summary>Likeliest cause; null until advised.</summary>
    public string? Cause { get; set; }

    /// <summary>How likely, 0 to 1; null until advised.</summary>
    public double? Probability { get; set; }

    /// <summary>Step advised; null until advised, or when there is none left.</summary>
    public string? NextStep { get; set; }

    /// <summary>Who is to do it; null with <see cref="NextStep"/>.</summary>
    public string? NextBy { get; set; }

    /// <summary>Expected cost to the finish, in the workshop's currency; null with <see cref="NextStep"/>.</summary>
    public double? ExpectedCost { get; set; }

    /// <summary>Of a closed case: the cause it had; null when open or not to be told.</summary>
    public string? FoundCause { get; set; }

    /// <summary>Of a closed case with a cause: its file's digest, so that it counts once.</summary>
    public string? Digest { get; set; }

    /// <summary>Number of the change since which advice or cause are out of date; null when they are up to date.</summary>
    public long? StaleSince { get; set; }
}
