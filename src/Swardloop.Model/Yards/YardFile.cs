using System.Text.Json;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>A yard file, <c>*.yard.json</c>: the yard it describes, and the document it came from, so that whatever else a
/// program keeps in it survives. Immutable.</summary>
public sealed class YardFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-yard/1";

    private YardFile(Yard yard, JsonElement document)
    {
        Yard = yard;
        Document = document;
    }

    /// <summary>The yard, in SI units, with defaults where the file is silent.</summary>
    public Yard Yard { get; }

    /// <summary>The document as it was read.</summary>
    internal JsonElement Document { get; }

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
        return yard is not null && problems.Count == before ? new(yard, element.Clone()) : null;
    }
}
