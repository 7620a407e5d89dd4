using System.Text.Json;
using Swardloop.Core.Calibration;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Bench;

/// <summary>A bench file, <c>*.bench.json</c>: known resistors put into known loops, and what the mower then did. Immutable.</summary>
public sealed class BenchFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-bench/1";

    /// <summary>Most trials of one file.</summary>
    public const int MostTrials = 200;

    /// <summary>Most resistors to predict for.</summary>
    public const int MostPredictions = 100;

    /// <summary>How well a distance is seen when the file is silent (m), one standard deviation. Common practice, no source.</summary>
    public const double DefaultDistanceDeviationMetres = 0.3;

    /// <summary>How well a limit is found when the file is silent, as a share of the loop's ohms, one standard deviation. Common practice, no source.</summary>
    public const double DefaultLimitDeviationShare = 0.1;

    /// <summary>Resistors to predict for when the file names none (Ω).</summary>
    public static IReadOnlyList<double> DefaultPredictOhms { get; } = [0, 47, 100, 220, 470, 1000, 2200];

    private static readonly NumberRange AddedOhms = new(0, 1e6, "Ω");
    private static readonly NumberRange LoopOhms = NumberRange.AboveZero(1e6, "Ω");
    private static readonly NumberRange Distance = new(0, 1000, "m");
    private static readonly NumberRange DistanceDeviation = new(0.01, 100, "m");
    private static readonly NumberRange LimitDeviation = new(0.01, 1e5, "Ω");

    private static readonly IReadOnlyList<KeyValuePair<string, Seen>> SeenWords =
    [
        new("turns-back", Seen.TurnsBack),
        new("limit", Seen.Limit),
        new("covers-all", Seen.CoversAll),
        new("silent-in-middle", Seen.SilentInMiddle),
    ];

    private BenchFile(string name, BenchSite site, IReadOnlyList<BenchTrial> trials, IReadOnlyList<double> predictOhms) =>
        (Name, Site, Trials, PredictOhms) = (name, site, trials, predictOhms);

    private enum Seen
    {
        TurnsBack,
        Limit,
        CoversAll,
        SilentInMiddle,
    }

    /// <summary>What people call these trials.</summary>
    public string Name { get; }

    /// <summary>The loop that the file's <c>yard</c> describes; predictions and suggestions are for it.</summary>
    public BenchSite Site { get; }

    /// <summary>The trials, in the file's order.</summary>
    public IReadOnlyList<BenchTrial> Trials { get; }

    /// <summary>Resistors, added to the loop of <see cref="Site"/>, to predict for (Ω).</summary>
    public IReadOnlyList<double> PredictOhms { get; }

    /// <summary>Reads a bench file, and computes the fields of its loops.</summary>
    /// <param name="utf8">The file's bytes; see <see cref="JsonText"/> for what is refused before it is looked into.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <param name="openYard">Gives the bytes of a yard file that the file names, relative to it; null when there is none.</param>
    /// <returns>The file, or all its problems.</returns>
    public static Checked<BenchFile> Read(ReadOnlyMemory<byte> utf8, string sourceName, Func<string, byte[]?> openYard)
    {
        ProblemList problems = new(sourceName);
        using JsonDocument? document = JsonText.Parse(utf8, problems);
        return document is not null
            && JsonFields.Of(document.RootElement, "", problems) is { } fields
            && Read(fields, openYard) is { } file
            ? Checked<BenchFile>.Good(file)
            : Checked<BenchFile>.Bad(problems);
    }

    /// <summary>Notes what is wrong with a bench file that stands in another document, its yards inside it. No field is computed.</summary>
    /// <param name="element">The file's object.</param>
    /// <param name="place">Its path in the document.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static void Check(JsonElement element, string place, ProblemList problems)
    {
        if (JsonFields.Of(element, place, problems) is { } fields)
        {
            _ = Read(fields, _ => null, computes: false);
        }
    }

    private static BenchFile? Read(JsonFields fields, Func<string, byte[]?> openYard, bool computes = true)
    {
        ProblemList problems = fields.Problems;
        if (fields.Word<bool>("format", [new(Format, true)], required: true) is null && fields.Has("format"))
        {
            return null; // another format's properties would only be misread
        }

        Sites sites = new(openYard, computes);
        string name = fields.Text("name", YardLimits.TextCharacters, required: true) ?? "";
        BenchSite? site = sites.Read(fields);
        List<BenchTrial> trials = [];
        foreach ((JsonElement element, string place) in fields.Items("trials", 1, MostTrials, required: true))
        {
            if (JsonFields.Of(element, place, problems) is { } trial && ReadTrial(trial, site, sites) is { } read)
            {
                trials.Add(read);
            }
        }

        IReadOnlyList<double> predict = fields.Has("predict") ? ReadPredictions(fields) : DefaultPredictOhms;
        return problems.Any || site is null ? null : new(name, site, trials, predict);
    }

    private static List<double> ReadPredictions(JsonFields fields)
    {
        List<double> ohms = [];
        foreach ((JsonElement element, string place) in fields.Items("predict", 0, MostPredictions))
        {
            if (element.ValueKind == JsonValueKind.Number && element.TryGetDouble(out double value) && AddedOhms.Holds(value))
            {
                ohms.Add(value);
            }
            else
            {
                fields.Problems.Add(place, $"got {JsonFields.Shown(element)}", AddedOhms.ToString());
            }
        }

        return ohms;
    }

    private static BenchTrial? ReadTrial(JsonFields fields, BenchSite? commonSite, Sites sites)
    {
        ProblemList problems = fields.Problems;
        int before = problems.Count;
        BenchSite? site = fields.Has("yard") ? sites.Read(fields) : commonSite;
        double? added = fields.Number("addedOhms", AddedOhms), loop = fields.Number("loopOhms", LoopOhms);
        if (fields.Has("addedOhms") == fields.Has("loopOhms"))
        {
            problems.Add(fields.Place, fields.Has("addedOhms") ? "got addedOhms and loopOhms" : "no resistance given", "exactly one of addedOhms, loopOhms");
        }

        Seen? seen = fields.Word("seen", SeenWords, required: true);
        double? distance = fields.Number("distanceM", Distance, required: seen == Seen.TurnsBack);
        double distanceDeviation = fields.Number("uncertaintyM", DistanceDeviation, DefaultDistanceDeviationMetres);
        double? limitDeviation = fields.Number("uncertaintyOhms", LimitDeviation);
        RefuseUnless(seen is null or Seen.TurnsBack, "distanceM", "turns-back");
        RefuseUnless(seen is null or Seen.TurnsBack, "uncertaintyM", "turns-back");
        RefuseUnless(seen is null or Seen.Limit, "uncertaintyOhms", "limit");

        if (problems.Count > before || site is null || seen is null)
        {
            return null;
        }

        double ohms = loop ?? (site.WireOhms + added!.Value);
        return seen switch
        {
            Seen.TurnsBack => new ReachTrial(site, ohms, distance!.Value, distanceDeviation),
            Seen.Limit => new LimitTrial(site, ohms, limitDeviation ?? Math.Max(LimitDeviation.Least, DefaultLimitDeviationShare * ohms)),
            _ => new CoverTrial(site, ohms, seen == Seen.CoversAll),
        };

        void RefuseUnless(bool fits, string name, string word)
        {
            if (!fits && fields.Has(name))
            {
                problems.Add(fields.PlaceOf(name), "given beside another thing seen", $"only with seen \"{word}\"");
            }
        }
    }

    // A yard that several trials name is computed once.
    private sealed class Sites(Func<string, byte[]?> openYard, bool computes)
    {
        private readonly YardShelf _shelf = new();
        private readonly Dictionary<Yard, BenchSite> _known = new(ReferenceEqualityComparer.Instance);

        public BenchSite? Read(JsonFields fields)
        {
            if (YardReference.Read(fields, openYard, _shelf).Yard is not { } yard || !computes)
            {
                return null;
            }

            if (!_known.TryGetValue(yard, out BenchSite? site))
            {
                site = BenchSite.Of(yard);
                if (site is null)
                {
                    fields.Problems.Add(fields.PlaceOf("yard"), "a place on its lawn has no field at all", "a loop whose field reaches all of its lawn");
                    return null;
                }

                _known.Add(yard, site);
            }

            return site;
        }
    }
}
