namespace Swardloop.Model.Sheets;

/// <summary>A document that goes out: its data made into blocks in one language. The same case gives the same sheet.</summary>
public sealed record Sheet
{
    /// <summary>Which kind.</summary>
    public required SheetKind Kind { get; init; }

    /// <summary>Language, BCP 47: <c>en</c> or <c>de</c>.</summary>
    public required string Language { get; init; }

    /// <summary>What it is called.</summary>
    public required string Title { get; init; }

    /// <summary>The yard's name.</summary>
    public required string Yard { get; init; }

    /// <summary>The workshop's name and numbers, a line each; empty when none is set.</summary>
    public IReadOnlyList<string> Workshop { get; init; } = [];

    /// <summary>What it holds.</summary>
    public required IReadOnlyList<SheetBlock> Blocks { get; init; }
}

/// <summary>Kinds of sheets. A new kind is a folder beside the others, and a line in <see cref="SheetKinds"/>.</summary>
public enum SheetKind
{
    /// <summary>What we found, for the owner.</summary>
    Found,

    /// <summary>Acceptance after laying or mending.</summary>
    Acceptance,

    /// <summary>Work sheet for the garden.</summary>
    Work,

    /// <summary>Quote: mend or renew.</summary>
    Quote,
}
