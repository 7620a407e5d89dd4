using System.Text.Json;

namespace Swardloop.Trial.CaseBook;

/// <summary>Steps that a situation of the case book means: a step's name or a group's, and where it matters who does it and where.</summary>
internal sealed class StepPattern
{
    /// <summary>Names for several steps at once.</summary>
    public static readonly IReadOnlyDictionary<string, string[]> Groups = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        ["@mower-running"] = ["mower-start", "mower-reach", "follow-wire", "wire-crossing"],
        ["@opens-wire"] = ["split-resistance", "pin-probe", "remake-joint", "mend-span", "renew-loop", "relay-layout"],
        ["@wire-repair"] = ["remake-joint", "remake-terminals", "mend-span", "renew-loop", "relay-layout"],
        ["@dear"] = ["replace-supply", "replace-station", "replace-battery", "renew-loop", "relay-layout", "service-receiver", "service-drive"],
        ["@any"] = [],
    };

    /// <summary>The steps that repair, by the names the contract gives them; written again here, as the judge shares no code with the judged.</summary>
    public static readonly IReadOnlySet<string> Repairs = new HashSet<string>(StringComparer.Ordinal)
    {
        "restore-mains", "replace-supply", "replace-station", "swap-ends", "clean-contacts", "replace-battery", "ask-maker", "remake-terminals",
        "remake-joint", "mend-span", "renew-loop", "relay-layout", "recode-station", "service-receiver", "service-drive",
    };

    private static readonly string[] Known = ["step", "by", "atM", "withinM", "fromM", "toM", "end", "place", "guide", "answer"];

    private readonly string _step;
    private readonly string? _by, _end, _place, _guide;
    private readonly double? _atMetres, _fromMetres, _toMetres;
    private readonly double _withinMetres;

    private StepPattern(JsonElement pattern)
    {
        bool named = pattern.ValueKind == JsonValueKind.String;
        if (!named && pattern.EnumerateObject().FirstOrDefault(property => !Known.Contains(property.Name)) is { Value.ValueKind: not JsonValueKind.Undefined } strange)
        {
            throw new FormatException($"a step's pattern has no \"{strange.Name}\"; allowed: {string.Join(", ", Known)}");
        }

        _step = named ? pattern.GetString()! : pattern.GetProperty("step").GetString()!;
        if (_step.StartsWith('@') && !Groups.ContainsKey(_step))
        {
            throw new FormatException($"\"{_step}\" is no group of steps; allowed: {string.Join(", ", Groups.Keys)}");
        }

        if (!named)
        {
            (_by, _end, _place, _guide) = (Text(pattern, "by"), Text(pattern, "end"), Text(pattern, "place"), Text(pattern, "guide"));
            (_atMetres, _fromMetres, _toMetres) = (Number(pattern, "atM"), Number(pattern, "fromM"), Number(pattern, "toM"));
        }

        _withinMetres = named ? 1 : Number(pattern, "withinM") ?? 1;
    }

    /// <summary>Reads a list of patterns, each a name or an object; none where there is no such property.</summary>
    /// <exception cref="FormatException">One of them is no pattern.</exception>
    public static IReadOnlyList<StepPattern> List(JsonElement owner, string property) =>
        owner.TryGetProperty(property, out JsonElement list) ? [.. list.EnumerateArray().Select(Of)] : [];

    /// <summary>Reads one pattern.</summary>
    /// <exception cref="FormatException">It is none.</exception>
    public static StepPattern Of(JsonElement pattern) => new(pattern);

    /// <summary>Whether a step of an advice, or one done, is meant.</summary>
    /// <param name="step">An entry of <c>next</c>.</param>
    public bool Matches(JsonElement step)
    {
        string name = step.GetProperty("step").GetString()!;
        return (_step == "@any" || _step == name || (Groups.TryGetValue(_step, out string[]? group) && group.Contains(name)))
            && Same(_by, Text(step, "by")) && Same(_end, Text(step, "from")) && Same(_place, Text(step, "place")) && Same(_guide, Text(step, "guide"))
            && PlaceMatches(Number(step, "atM"), Number(step, "fromM"), Number(step, "toM"));

        static bool Same(string? wanted, string? given) => wanted is null || wanted == given;
    }

    /// <inheritdoc/>
    public override string ToString()
    {
        string place = _atMetres is { } at ? FormattableString.Invariant($" at {at} ± {_withinMetres} m")
            : _fromMetres is not null || _toMetres is not null ? FormattableString.Invariant($" in {_fromMetres}–{_toMetres} m") : "";
        return _step + place + (_by is null ? "" : $" by {_by}") + (_end is null ? "" : $" from {_end}") + (_place is null ? "" : $" {_place}") + (_guide is null ? "" : $" {_guide}");
    }

    // A place or a stretch of the step's has to touch the pattern's.
    private bool PlaceMatches(double? at, double? from, double? to)
    {
        double? wantedFrom = _atMetres - _withinMetres ?? _fromMetres, wantedTo = _atMetres + _withinMetres ?? _toMetres;
        if (wantedFrom is null && wantedTo is null)
        {
            return true;
        }

        double? low = from ?? at, high = to ?? at;
        return low is not null && high is not null && !(high < wantedFrom) && !(low > wantedTo);
    }

    private static string? Text(JsonElement element, string property) =>
        element.TryGetProperty(property, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static double? Number(JsonElement element, string property) =>
        element.TryGetProperty(property, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
