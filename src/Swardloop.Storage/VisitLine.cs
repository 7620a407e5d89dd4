namespace Swardloop.Storage;

/// <summary>A planned visit as lists show it.</summary>
public sealed class VisitLine
{
    /// <summary>The visit.</summary>
    public Guid Visit { get; set; }

    /// <summary>Where to.</summary>
    public Guid Yard { get; set; }

    /// <summary>For which case; null for none.</summary>
    public Guid? Case { get; set; }

    /// <summary>The day.</summary>
    public DateOnly On { get; set; }

    /// <summary>Time of day as written; null for none.</summary>
    public string? At { get; set; }

    /// <summary>Who drives; null when not said.</summary>
    public string? Who { get; set; }

    /// <summary>How long it is to take (min); null when not said.</summary>
    public double? Minutes { get; set; }

    /// <summary>Whether it is still ahead: neither done nor put away.</summary>
    public bool IsPlanned { get; set; }
}
