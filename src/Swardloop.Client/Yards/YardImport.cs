using Microsoft.AspNetCore.Components.Forms;
using Swardloop.Client.Wording;
using Swardloop.Core.Conductors;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;

namespace Swardloop.Client.Yards;

/// <summary>Reads a dropped file as a yard: a yard file, GeoJSON, GPX or a table.</summary>
public static class YardImport
{
    private const long MostBytes = 8 << 20;

    /// <param name="file">The file.</param>
    /// <param name="name">The yard's name; null for the file's own.</param>
    /// <param name="conductor">The wire, where the file does not say; null: nobody knows.</param>
    /// <param name="texts">For what can go wrong before the file is read.</param>
    public static async Task<Checked<YardFile>> ReadAsync(IBrowserFile file, string? name, Conductor? conductor, Texts texts)
    {
        ProblemList problems = new(file.Name);
        if (file.Size > MostBytes)
        {
            problems.Add("", texts.FileTooLarge, "8 MB");
            return Checked<YardFile>.Bad(problems);
        }

        using MemoryStream bytes = new();
        await using (Stream stream = file.OpenReadStream(MostBytes))
        {
            await stream.CopyToAsync(bytes).ConfigureAwait(true);
        }

        byte[] content = bytes.ToArray();
        if (content.AsSpan().IndexOf("swardloop-yard/"u8) >= 0)
        {
            return YardFile.Read(content, file.Name);
        }

        Sketch? sketch = SketchReader.Read(content, SketchReader.FormatOf(content), problems);
        return sketch is null
            ? Checked<YardFile>.Bad(problems)
            : SketchYard.Make(sketch, name ?? sketch.Name ?? Path.GetFileNameWithoutExtension(file.Name), conductor, file.Name);
    }
}
