namespace Swardloop.Workshop.Records;

/// <summary>The records of which every workshop has exactly one, known to all its devices before they first meet.</summary>
public static class Ids
{
    /// <summary>The workshop's rates.</summary>
    public static Guid Rates { get; } = new("00000000-0000-7000-8000-000000000001");

    /// <summary>The workshop itself.</summary>
    public static Guid Workshop { get; } = new("00000000-0000-7000-8000-000000000002");

    /// <summary>Of what kind the record of this id is, where every workshop has exactly one; null for all other ids.</summary>
    public static RecordKind? KindReservedFor(Guid id) => id == Rates ? RecordKind.Rates : id == Workshop ? RecordKind.Workshop : null;

    /// <summary>The only id that a record of this kind may have; null where there may be any number of them.</summary>
    public static Guid? OnlyOneOf(RecordKind kind) => kind switch
    {
        RecordKind.Rates => Rates,
        RecordKind.Workshop => Workshop,
        _ => null,
    };
}
