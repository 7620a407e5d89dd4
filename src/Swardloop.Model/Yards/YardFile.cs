using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>A yard file, <c>*.yard.json</c>: the yard it describes, and the document it came from, so that whatever else a
/// program keeps in it survives. Immutable.</summary>
public sealed class YardFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-yard/1";

    private readonly string _sourceName;
    private IReadOnlyList<Problem> _read = [];

    private YardFile(Yard yard, JsonElement document, string sourceName) => (Yard, Document, _sourceName) = (yard, document, sourceName);

    /// <summary>The yard, in SI units, with defaults where the file is silent.</summary>
    public Yard Yard { get; }

    /// <summary>The document as it was read or made.</summary>
    internal JsonElement Document { get; }

    /// <summary>Whether the file draws the lawn; otherwise the lawn is what the wire encloses.</summary>
    public bool DrawsLawn => Document.TryGetProperty("lawn", out JsonElement lawn) && lawn.ValueKind != JsonValueKind.Null;

    /// <summary>What is allowed but worth a look: a conductor that is not known, a guide wire that ends beside its joint, joints so near to each other or to a terminal that they count as one place, an island
    /// wound so that its field adds to the lawn's instead of turning over, a track that was simplified when it was read.</summary>
    public IReadOnlyList<Problem> Notes => [.. _read, .. YardNotes.Of(Yard, _sourceName)];

    /// <summary>Reads a yard file.</summary>
    /// <param name="utf8">The file's bytes; see <see cref="JsonText"/> for what is refused before it is looked into.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <returns>The file, or all its problems.</returns>
    public static Checked<YardFile> Read(ReadOnlyMemory<byte> utf8, string sourceName)
    {
        ProblemList problems = new(sourceName);
        using JsonDocument? document = JsonText.Parse(utf8, problems);
        return document is not null && Read(document.RootElement, "", problems) is YardFile file
            ? Checked<YardFile>.Good(file)
            : Checked<YardFile>.Bad(problems);
    }

    /// <summary>Reads a yard that stands inside another document, such as a case file.</summary>
    /// <param name="element">The yard's object, of a document from <see cref="JsonText.Parse"/>.</param>
    /// <param name="place">Its path in that document; empty when it is the whole.</param>
    /// <param name="problems">Takes what is wrong, with places that begin with <paramref name="place"/>.</param>
    /// <returns><see langword="null"/> when there was a problem.</returns>
    public static YardFile? Read(JsonElement element, string place, ProblemList problems)
    {
        int before = problems.Count;
        Yard? yard = YardReader.Read(element, place, problems);
        return yard is not null && problems.Count == before ? new(yard, element.Clone(), problems.Source) : null;
    }

    /// <summary>A new file for a yard; what equals a default is left unsaid.</summary>
    /// <param name="yard">A yard whose values a file may hold; whether they do, <see cref="Read(ReadOnlyMemory{byte}, string)"/> of the result tells.</param>
    public static YardFile Create(Yard yard) => new(yard, Element(YardTree.Terse(yard)), yard.Name);

    /// <summary>The same file with another yard in it: changed values are replaced where they stand, all else in the document stays, in its order.</summary>
    /// <param name="yard">What it shall describe, usually <see cref="Yard"/> with some property changed.</param>
    public YardFile With(Yard yard) =>
        new(yard, Element(YardTree.Changed(JsonNode.Parse(Document.GetRawText())!.AsObject(), Yard, yard)), _sourceName);

    /// <summary>The same file with what was done when it was read, said first among its notes.</summary>
    internal YardFile WithNotes(IReadOnlyList<Problem> notes) => new(Yard, Document, _sourceName) { _read = notes };

    /// <summary>The same file with its lawn drawn as it is now, so that it no longer follows the wire.</summary>
    public YardFile WithLawnDrawn()
    {
        JsonObject document = JsonNode.Parse(Document.GetRawText())!.AsObject(), full = YardTree.Full(Yard);
        foreach (string name in (string[])["lawn", "holes"])
        {
            document[name] = full[name]!.DeepClone();
        }

        return new(Yard, Element(document), _sourceName);
    }

    /// <summary>The file's bytes: as they were read (less a byte order mark and space around) if nothing was changed, else laid out anew.</summary>
    public byte[] ToUtf8() => Encoding.UTF8.GetBytes(Document.GetRawText() + "\n");

    private static JsonElement Element(JsonObject tree)
    {
        using JsonDocument document = JsonDocument.Parse(JsonLayout.ToUtf8(tree));
        return document.RootElement.Clone();
    }
}
