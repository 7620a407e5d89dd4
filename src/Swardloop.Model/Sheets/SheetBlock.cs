namespace Swardloop.Model.Sheets;

/// <summary>A piece of a sheet, in the order in which it is read. Every way of showing a sheet shows all of them.</summary>
public abstract record SheetBlock
{
    private SheetBlock()
    {
    }

    /// <summary>A heading.</summary>
    public sealed record Heading(string Text) : SheetBlock;

    /// <summary>A paragraph.</summary>
    public sealed record Paragraph(string Text) : SheetBlock;

    /// <summary>What is so, each with its name: <c>Length</c>, <c>302 m</c>.</summary>
    public sealed record Facts(IReadOnlyList<(string Name, string Value)> Rows) : SheetBlock;

    /// <summary>Points in a list.</summary>
    public sealed record Points(IReadOnlyList<string> Items, PointMark Mark = PointMark.Dash) : SheetBlock;

    /// <summary>A table; columns of numbers stand to the right.</summary>
    public sealed record Table(IReadOnlyList<string> Columns, IReadOnlyList<bool> Numbers, IReadOnlyList<IReadOnlyList<string>> Rows) : SheetBlock
    {
        /// <summary>How many rows at the end are sums.</summary>
        public int Sums { get; init; }
    }

    /// <summary>A yard with its signal.</summary>
    public sealed record Picture(YardPicture Drawing, string Caption) : SheetBlock;

    /// <summary>A line to sign on, or the name of who signed and when.</summary>
    public sealed record Signature(string Label, string? By) : SheetBlock
    {
        /// <summary>What was drawn with a finger; null for none.</summary>
        public SignatureMark? Mark { get; init; }
    }
}

/// <summary>What stands before the points of a list.</summary>
public enum PointMark
{
    /// <summary>A dash.</summary>
    Dash,

    /// <summary>Numbers.</summary>
    Number,

    /// <summary>An exclamation mark: cautions.</summary>
    Caution,

    /// <summary>A box to tick.</summary>
    Box,
}
