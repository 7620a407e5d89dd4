namespace Swardloop.Workshop.Records;

/// <summary>One field of a kind of record: what a change may set it to.</summary>
/// <param name="Name">As changes spell it; the unit stands at the end.</param>
/// <param name="Type">What its value may be.</param>
public sealed record RecordField(string Name, FieldType Type)
{
    /// <summary>Most characters of a text.</summary>
    public int MostCharacters { get; init; } = 200;

    /// <summary>Smallest number.</summary>
    public double Least { get; init; }

    /// <summary>Largest number.</summary>
    public double Most { get; init; } = 1e6;

    /// <summary>Unit of the number; empty for none.</summary>
    public string Unit { get; init; } = "";

    /// <summary>The words allowed.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];

    /// <summary>Kinds of record that a reference may name; none means any.</summary>
    public IReadOnlyList<RecordKind> Of { get; init; } = [];

    /// <summary>Whether the record makes no sense without it: the change that brings the record into being must set it.</summary>
    public bool Required { get; init; }

    /// <summary>Whether it may be set once and never again.</summary>
    public bool Once { get; init; }

    /// <summary>Whether the text is the address of a web server: HTTP or HTTPS, without a question, a fragment or a person's name in it.</summary>
    public bool IsWebAddress { get; init; }

    /// <summary>Whether only the server sets it.</summary>
    public bool ByServer { get; init; }

    /// <summary>Whether it can name a person or where a person lives: erased when an owner is to be forgotten.</summary>
    public bool Personal { get; init; }
}
