using System.Runtime.InteropServices;
using System.Text.Json;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Cases;

/// <summary>The property <c>yard</c> of another file: the path of a yard file, relative to that file, or the yard itself.</summary>
internal static class YardReference
{
    private const string Allowed = "the path of a yard file, or a yard object";

    /// <summary>Reads it.</summary>
    /// <param name="fields">The object that has the property.</param>
    /// <param name="openYard">Gives the bytes of a yard file; null when there is none.</param>
    /// <param name="shelf">Yards read before: the same bytes give the same yard.</param>
    /// <returns>The yard and, when it has a file of its own, its path; no yard, with problems noted, when something is wrong.</returns>
    public static (Yard? Yard, string? Path) Read(JsonFields fields, Func<string, byte[]?> openYard, YardShelf shelf)
    {
        string place = fields.PlaceOf("yard");
        if (fields.Element("yard", Allowed, required: true) is not { } element)
        {
            return default;
        }

        if (element.ValueKind == JsonValueKind.Object)
        {
            ReadOnlySpan<byte> raw = JsonMarshal.GetRawUtf8Value(element);
            Yard? yard = shelf.Find(raw) ?? YardFile.Read(element, place, fields.Problems)?.Yard;
            if (yard is not null)
            {
                shelf.Put(raw, yard);
            }

            return (yard, null);
        }

        if (element.ValueKind != JsonValueKind.String || element.GetString() is not { Length: > 0 } path)
        {
            fields.Problems.Add(place, $"got {JsonFields.Shown(element)}", Allowed);
            return default;
        }

        if (openYard(path) is not { } bytes)
        {
            fields.Problems.Add(place, $"no such file: {JsonFields.Shown(element)}", "a path relative to this file, of a file that can be read");
            return (null, path);
        }

        if (shelf.Find(bytes) is { } known)
        {
            return (known, path);
        }

        Checked<YardFile> read = YardFile.Read(bytes, path);
        foreach (Problem problem in read.Problems)
        {
            string inside = problem.Place.Length > 0 ? $"{problem.Place}: " : "";
            fields.Problems.Add(place, $"{path}: {inside}{problem.Message}", problem.Allowed);
        }

        if (read.IsGood)
        {
            shelf.Put(bytes, read.Value.Yard);
        }

        return (read.Value?.Yard, path);
    }
}
