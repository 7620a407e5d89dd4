namespace Swardloop.Storage;

/// <summary>An owner as lists show and find it.</summary>
public sealed class OwnerLine
{
    /// <summary>The owner.</summary>
    public Guid Owner { get; set; }

    /// <summary>Name.</summary>
    public string Name { get; set; } = "";

    /// <summary>What tells it from its like: telephone or address.</summary>
    public string Detail { get; set; } = "";

    /// <summary>What search looks in, folded by <see cref="SearchText"/>.</summary>
    public string Text { get; set; } = "";

    /// <summary>Whether it was put away.</summary>
    public bool IsArchived { get; set; }
}
