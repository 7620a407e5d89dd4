namespace Swardloop.Workshop.Records;

/// <summary>The records of which every workshop has exactly one, known to all its devices before they first meet.</summary>
public static class Ids
{
    /// <summary>The workshop's rates.</summary>
    public static Guid Rates { get; } = new("00000000-0000-7000-8000-000000000001");

    /// <summary>The workshop itself.</summary>
    public static Guid Workshop { get; } = new("00000000-0000-7000-8000-000000000002");
}
