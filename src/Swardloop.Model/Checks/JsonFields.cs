using System.Text.Json;

namespace Swardloop.Model.Checks;

/// <summary>One JSON object of a file, read property by property; whatever is wrong goes to the problem list with its place.
/// Properties nobody asks for are left alone.</summary>
public sealed class JsonFields
{
    private readonly JsonElement _object;

    private JsonFields(JsonElement @object, string place, ProblemList problems) =>
        (_object, Place, Problems) = (@object, place, problems);

    /// <summary>Path of this object in the file; empty for the file's root.</summary>
    public string Place { get; }

    /// <summary>Where problems go.</summary>
    public ProblemList Problems { get; }

    /// <summary>Reads an element as an object.</summary>
    /// <param name="element">The element.</param>
    /// <param name="place">Its path in the file; empty for the file's root.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns><see langword="null"/>, with a problem noted, when the element is no object.</returns>
    public static JsonFields? Of(JsonElement element, string place, ProblemList problems)
    {
        if (element.ValueKind == JsonValueKind.Object)
        {
            return new(element, place, problems);
        }

        problems.Add(place, $"got {Shown(element)}", "an object { … }");
        return null;
    }

    /// <summary>Reads a whole file of one of our formats.</summary>
    /// <param name="utf8">The file's bytes; see <see cref="JsonText"/> for what is refused before it is looked into.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <param name="format">The format, as name/version.</param>
    /// <param name="what">What such a file is called, with its article.</param>
    /// <param name="read">Reads its root, noting problems.</param>
    /// <returns>What was read, or all problems.</returns>
    internal static Checked<T> ReadFile<T>(ReadOnlyMemory<byte> utf8, string sourceName, string format, string what, Func<JsonFields, T?> read)
        where T : class
    {
        ProblemList problems = new(sourceName);
        using JsonDocument? document = JsonText.Parse(utf8, problems);
        return document is not null && Of(document.RootElement, "", problems) is { } fields && fields.IsOfFormat(format, what) && read(fields) is { } file && !problems.Any
            ? Checked<T>.Good(file)
            : Checked<T>.Bad(problems);
    }

    /// <summary>Path of a property of this object in the file.</summary>
    public string PlaceOf(string name) => Place.Length == 0 ? name : $"{Place}.{name}";

    /// <summary>Whether the property is there, whatever its value.</summary>
    public bool Has(string name) => _object.TryGetProperty(name, out _);

    /// <summary>The raw element; notes a problem when <paramref name="required"/> and missing.</summary>
    public JsonElement? Element(string name, string allowed, bool required = false)
    {
        if (_object.TryGetProperty(name, out JsonElement element))
        {
            return element;
        }

        if (required)
        {
            Problems.Add(PlaceOf(name), "missing", allowed);
        }

        return null;
    }

    /// <summary>Whether the file is of our format, or does not say; another one is noted, and nothing else in it is worth reading.</summary>
    /// <param name="format">The format, as name/version.</param>
    /// <param name="what">What such a file is called, with its article.</param>
    public bool IsOfFormat(string format, string what)
    {
        string allowed = $"\"{format}\"";
        if (Element("format", allowed, required: true) is not { } found || (found.ValueKind == JsonValueKind.String && found.ValueEquals(format)))
        {
            return true; // When it is noted as missing, the other problems are worth telling too.
        }

        bool otherVersion = found.ValueKind == JsonValueKind.String && found.GetString()!.StartsWith(format[..(format.IndexOf('/') + 1)], StringComparison.Ordinal);
        Problems.Add(PlaceOf("format"), $"{(otherVersion ? $"another version of {what}" : $"not {what}")}: got {Shown(found)}", allowed);
        return false;
    }

    /// <summary>A number in a range; <see langword="null"/> when absent or wrong (then a problem is noted).</summary>
    public double? Number(string name, NumberRange range, bool required = false)
    {
        if (!_object.TryGetProperty(name, out JsonElement element))
        {
            if (required)
            {
                Problems.Add(PlaceOf(name), "missing", range.ToString());
            }

            return null;
        }

        if (element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out double value) && range.Holds(value))
        {
            return value;
        }

        Problems.Add(PlaceOf(name), $"got {Shown(element)}", range.ToString());
        return null;
    }

    /// <summary>A number in a range, or a default when absent. When wrong, a problem is noted and the default comes back so that reading can go on.</summary>
    public double Number(string name, NumberRange range, double fallback) => Number(name, range) ?? fallback;

    /// <summary>A whole number in a range; <see langword="null"/> when absent or wrong.</summary>
    public int? WholeNumber(string name, int least, int most, bool required = false)
    {
        string allowed = $"a whole number from {least} to {most}";
        if (Element(name, allowed, required) is not JsonElement element)
        {
            return null;
        }

        if (element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out double value)
            && value >= least && value <= most && value == Math.Floor(value))
        {
            return (int)value;
        }

        Problems.Add(PlaceOf(name), $"got {Shown(element)}", allowed);
        return null;
    }

    /// <summary>Text of limited length, not empty; <see langword="null"/> when absent or wrong.</summary>
    public string? Text(string name, int mostCharacters, bool required = false)
    {
        string allowed = $"text of 1 to {mostCharacters} characters";
        if (Element(name, allowed, required) is not JsonElement element)
        {
            return null;
        }

        if (element.ValueKind == JsonValueKind.String)
        {
            string text = element.GetString()!;
            if (text.Length >= 1 && (text.Length <= mostCharacters || text.EnumerateRunes().Count() <= mostCharacters))
            {
                return text;
            }

            Problems.Add(PlaceOf(name), $"got {text.Length} characters", allowed);
            return null;
        }

        Problems.Add(PlaceOf(name), $"got {Shown(element)}", allowed);
        return null;
    }

    /// <summary>True or false; <see langword="null"/> when absent or wrong.</summary>
    public bool? Flag(string name, bool required = false)
    {
        const string allowed = "true or false";
        if (Element(name, allowed, required) is not JsonElement element)
        {
            return null;
        }

        if (element.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return element.GetBoolean();
        }

        Problems.Add(PlaceOf(name), $"got {Shown(element)}", allowed);
        return null;
    }

    /// <summary>One of some words; <see langword="null"/> when absent or wrong.</summary>
    /// <param name="name">Property.</param>
    /// <param name="words">The words allowed and what each stands for.</param>
    /// <param name="required">Whether missing is a problem.</param>
    public T? Word<T>(string name, IReadOnlyList<KeyValuePair<string, T>> words, bool required = false)
        where T : struct =>
        Word(name, [.. words.Select(word => word.Key)], required) is int index ? words[index].Value : null;

    /// <summary>Which of some words it is, 0 for the first; <see langword="null"/> when absent or wrong.</summary>
    /// <param name="name">Property.</param>
    /// <param name="words">The words allowed.</param>
    /// <param name="required">Whether missing is a problem.</param>
    public int? Word(string name, IReadOnlyList<string> words, bool required = false)
    {
        if (!_object.TryGetProperty(name, out JsonElement element))
        {
            if (required)
            {
                Problems.Add(PlaceOf(name), "missing", string.Join(", ", words));
            }

            return null;
        }

        for (int index = 0; element.ValueKind == JsonValueKind.String && index < words.Count; index++)
        {
            if (element.ValueEquals(words[index]))
            {
                return index;
            }
        }

        Problems.Add(PlaceOf(name), $"got {Shown(element)}", string.Join(", ", words));
        return null;
    }

    /// <summary>An object inside this one; <see langword="null"/> when absent or no object.</summary>
    public JsonFields? Nested(string name, bool required = false) =>
        Element(name, "an object { … }", required) is JsonElement element ? Of(element, PlaceOf(name), Problems) : null;

    /// <summary>The items of an array with their places; none when absent or wrong.</summary>
    public IEnumerable<(JsonElement Element, string Place)> Items(string name, int least, int most, bool required = false) =>
        Element(name, ListAllowed(least, most), required) is JsonElement element
            ? Items(element, PlaceOf(name), least, most, Problems)
            : None();

    /// <summary>The items of an array element with their places; none, with a problem noted, when it is no array or its length is not allowed.</summary>
    public static IEnumerable<(JsonElement Element, string Place)> Items(
        JsonElement element, string place, int least, int most, ProblemList problems)
    {
        if (element.ValueKind != JsonValueKind.Array)
        {
            problems.Add(place, $"got {Shown(element)}", ListAllowed(least, most));
            return None();
        }

        int count = element.GetArrayLength();
        if (count < least || count > most)
        {
            problems.Add(place, $"got {count} items", ListAllowed(least, most));
            return None();
        }

        return Numbered(element, place);
    }

    /// <summary>A value as a message shows it: short, and for objects and arrays only what it is.</summary>
    public static string Shown(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => $"an array of {element.GetArrayLength()}",
        JsonValueKind.String => $"\"{JsonText.Shortened(element.GetString()!)}\"",
        _ => JsonText.Shortened(element.GetRawText()),
    };

    private static IEnumerable<(JsonElement Element, string Place)> Numbered(JsonElement array, string place)
    {
        int index = 0;
        foreach (JsonElement item in array.EnumerateArray())
        {
            yield return (item, $"{place}[{index++}]");
        }
    }

    // An iterator, as an empty array of pairs would have to be compiled at every start.
    private static IEnumerable<(JsonElement Element, string Place)> None()
    {
        yield break;
    }

    private static string ListAllowed(int least, int most) => $"an array of {least} to {most} items";
}
