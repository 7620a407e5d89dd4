using Microsoft.AspNetCore.Components.Forms;
using Swardloop.Client.Wording;
using Swardloop.Core.Conductors;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;

namespace Swardloop.Client.Yards;

/// <summary>A file that somebody chose or dropped as a yard: a yard file, GeoJSON, GPX or a table.</summary>
public sealed class YardImport
{
    private const long MostBytes = 8 << 20;

    private readonly ProblemList _problems;
    private readonly byte[] _content;
    private readonly Sketch? _sketch;

    private YardImport(string fileName, byte[] content, ProblemList problems)
    {
        (FileName, _content, _problems) = (fileName, content, problems);
        _sketch = problems.Any || IsYardFile ? null : SketchReader.Read(content, SketchReader.FormatOf(content), problems);
    }

    /// <summary>What the file is called.</summary>
    public string FileName { get; }

    /// <summary>Whether it has the outline of one lawn and no wire: whoever brings it is asked whether the outline stands for both.</summary>
    public bool IsOutlineOnly => _sketch?.IsOutlineOnly == true;

    private bool IsYardFile => _content.AsSpan().IndexOf("swardloop-yard/"u8) >= 0;

    /// <summary>Takes the file's bytes.</summary>
    /// <param name="file">The file.</param>
    /// <param name="texts">For what can go wrong before it is read.</param>
    public static async Task<YardImport> OfAsync(IBrowserFile file, Texts texts)
    {
        ProblemList problems = new(file.Name);
        using MemoryStream bytes = new();
        if (file.Size > MostBytes)
        {
            problems.Add("", texts.FileTooLarge, "8 MB");
        }
        else
        {
            await using Stream stream = file.OpenReadStream(MostBytes);
            await stream.CopyToAsync(bytes).ConfigureAwait(true);
        }

        return new(file.Name, bytes.ToArray(), problems);
    }

    /// <summary>Reads it as a yard.</summary>
    /// <param name="name">The yard's name; null for the file's own.</param>
    /// <param name="conductor">The wire, where the file does not say; null when nobody knows.</param>
    /// <param name="outlineAsWire">Whether an outline without a wire stands for the wire too.</param>
    public Checked<YardFile> Read(string? name, Conductor? conductor, bool outlineAsWire = false) =>
        IsYardFile && !_problems.Any ? YardFile.Read(_content, FileName)
        : _sketch is null ? Checked<YardFile>.Bad(_problems)
        : SketchYard.Make(outlineAsWire && IsOutlineOnly ? _sketch.WithWireAlongOutline() : _sketch, name ?? _sketch.Name ?? Path.GetFileNameWithoutExtension(FileName), conductor, FileName);
}
