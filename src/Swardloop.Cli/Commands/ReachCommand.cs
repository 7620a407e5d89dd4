using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis.Drawn;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Pictures;
using Swardloop.Model.Yards;
using Swardloop.Pictures;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop reach</c>: where the mower hears the wire, how well, and how much resistance that leaves to spare.</summary>
internal sealed class ReachCommand : ICommand
{
    // Far above any picture's need, far below what would fill a machine's memory.
    private const double LeastCellMetres = 0.01, MostCellMetres = 10, MostOhms = 1e9, MostPlaces = 5e7;

    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("reach", "Where the mower has reception: share of the lawn, weakest place, signal margin, pictures.")
    {
        Positionals = [new("YARD", "The yard file.")],
        Options =
        [
            new("--ohms", "R", "Resistance of the whole loop, in ohms (default: what the loop should measure)."),
            new("--case", "CASE", "Draw the fault that this case of the yard makes likeliest, with its currents in wire and metal."),
            new("--as", "sound|now|practice", "With --case: the loop as drawn, as it likely is now (the default), or as practice knows such a fault."),
            new("--at", "x,y", "A place, in metres east and north; may be given several times.") { AnotherValue = text => TryPlace(text, out _) },
            new("--cell", "M", "Spacing of the map in metres (default 0.25; less on very small lawns, more on very large ones)."),
            new("--png", "F", "Draw the map into this PNG file."),
            new("--svg", "F", "Draw the map into this SVG file."),
            new("--geojson", "F", "Write lines of equal margin into this GeoJSON file."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        double? givenOhms = call.Number("--ohms", 0, MostOhms, "Ω");
        double? givenCell = call.Number("--cell", LeastCellMetres, MostCellMetres, "m");
        PlanPoint[] places = [.. call.Values("--at").Select(text => TryPlace(text, out PlanPoint place)
            ? place
            : throw call.Wrong("--at", $"\"{text}\" is not a place", "x,y in metres, such as 12.5,3"))];
        LoopState? state = StateOf(call);
        OutputFile.RefuseRead(call, ["--png", "--svg", "--geojson"], call.Positionals[0], call.Value("--case"));
        Yard yard = call.ReadChecked<YardFile>(YardFile.Read).Yard;
        double cell = givenCell ?? LoopReach.DefaultCellMetres(yard.Lawn);
        if (yard.Lawn.AreaSquareMetres / (cell * cell) > MostPlaces)
        {
            throw call.Wrong("--cell", $"{cell.ToString(CultureInfo.InvariantCulture)} m is too fine for this lawn", $"at most {MostPlaces:0} places on the map");
        }

        CancellationToken cancellation = call.Terminal.OnCancel();
        LoopBudget budget = LoopBudget.For(yard);
        double expectedOhms = budget.ExpectedOhms.Nominal, ohms = givenOhms ?? expectedOhms;
        SignalBudget signal = new(yard.Mower.ReachConstantOhmMetres, yard.Station.SourceOhms, budget.ReactanceOhms);
        using Progress progress = new(call.Terminal);
        CaseFault? caseFault = call.Value("--case") is { } path ? CaseFault.Of(call, path, yard, state ?? LoopState.Now, cancellation) : null;
        if (caseFault is not null && givenOhms is not null && caseFault.State != LoopState.Sound)
        {
            throw call.Wrong("--ohms", "is given beside a fault", "--ohms for a sound loop, or --case with --as now or practice");
        }

        FaultyReach? faulty = caseFault is null ? null : FaultyReach.Of(yard, caseFault.Fault, caseFault.State, cell, progress, cancellation);
        LoopReach reach = faulty?.Reach ?? new(yard, cell, againstNeighbours: false, progress, cancellation);
        LoopReach? against = yard.Neighbours.Any(neighbour => neighbour.SameCoding)
            ? new LoopReach(yard, cell, againstNeighbours: true, progress, cancellation)
            : null;
        ReachResult result = new(reach, against, signal, ohms, expectedOhms, places, caseFault is null ? null : caseFault with { MetalShare = faulty!.MetalShare });
        Draw(call, reach, signal, ohms, caseFault?.Caption, cancellation);
        return result;
    }

    private static LoopState? StateOf(Invocation call)
    {
        if (call.Value("--as") is not { } word)
        {
            return null;
        }

        if (call.Value("--case") is null)
        {
            throw call.Wrong("--as", "is given without a case", "--case CASE --as sound, now or practice");
        }

        return word switch
        {
            "sound" => LoopState.Sound,
            "now" => LoopState.Now,
            "practice" => LoopState.Practice,
            _ => throw call.Wrong("--as", $"{SafeText.Quoted(word)} is no state of the loop", "sound, now, practice"),
        };
    }

    private static void Draw(Invocation call, LoopReach reach, SignalBudget signal, double ohms, string? caption, CancellationToken cancellation)
    {
        if (call.Value("--png") is { } png)
        {
            ReachPicture picture = new(reach, signal, ohms, cancellation) { Caption = caption };
            using PngPen pen = new(picture.Width, picture.Height);
            picture.Draw(pen);
            Write(call, "--png", png, pen.ToPng());
        }

        if (call.Value("--svg") is { } svg)
        {
            ReachPicture picture = new(reach, signal, ohms, cancellation) { Caption = caption };
            SvgPen pen = new();
            picture.Draw(pen);
            Write(call, "--svg", svg, Encoding.UTF8.GetBytes(pen.Document(picture.Width, picture.Height, picture.Description)));
        }

        if (call.Value("--geojson") is { } geoJson)
        {
            Write(call, "--geojson", geoJson, ReachGeoJson.Write(reach, signal, ohms, cancellation));
        }
    }

    private static void Write(Invocation call, string option, string path, byte[] bytes)
    {
        try
        {
            File.WriteAllBytes(path, bytes);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw call.Wrong(option, $"\"{path}\" cannot be written", "a file in a directory that exists and may be written to");
        }
    }

    private static bool TryPlace(string text, out PlanPoint place)
    {
        place = default;
        string[] parts = text.Split(',');
        if (parts.Length != 2
            || !double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double east)
            || !double.TryParse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture, out double north)
            || !YardLimits.Coordinate.Holds(east)
            || !YardLimits.Coordinate.Holds(north))
        {
            return false;
        }

        place = new(east, north);
        return true;
    }

    /// <summary>A line on standard error now and then, but only when the work is long enough for someone to wonder.</summary>
    private sealed class Progress(Terminal terminal) : IProgress<double>, IDisposable
    {
        private readonly long _started = Stopwatch.GetTimestamp();
        private TextWriter? _error;
        private int _next = 1;

        public void Report(double value)
        {
            if ((value * 10) < _next || Stopwatch.GetElapsedTime(_started) < TimeSpan.FromSeconds(2))
            {
                return;
            }

            _next = (int)(value * 10) + 1;
            _error ??= Terminal.TextOnto(terminal.Error);
            _error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"map {100 * value:F0} %"));
            _error.Flush();
        }

        public void Dispose() => _error?.Dispose();
    }

    private sealed class ReachResult(
        LoopReach reach, LoopReach? against, SignalBudget signal, double ohms, double expectedOhms, PlanPoint[] places, CaseFault? caseFault) : CommandResult
    {
        private readonly double _required = signal.RequiredFieldPerAmpere(ohms);

        public override void WriteText(TextWriter text)
        {
            WeakestPlace weakest = reach.Weakest;
            ReachDistance distance = reach.Profile.At(_required);
            text.WriteLine(Plain(reach.Yard.Name));
            text.WriteLine(Line($"Loop          {ohms:0.##} Ω{(ohms == expectedOhms ? ", as it should measure" : Line($"; it should measure {expectedOhms:0.##} Ω"))}"));
            caseFault?.WriteText(text);
            text.WriteLine(Line($"Reception on  {100 * reach.HeardShare(_required):F1} % of {reach.AreaSquareMetres:0} m²"));
            text.WriteLine(distance.CoversEverything
                ? "Reach         the whole lawn"
                : Line($"Reach         {distance.Metres:F1} m from the wire"));
            text.WriteLine(Line($"Weakest place {weakest.Point.EastMetres:F1} m east, {weakest.Point.NorthMetres:F1} m north: {Margin(weakest.FieldPerAmpere)}"));
            text.WriteLine(Line($"Reserve       {Spare(reach.Weakest.FieldPerAmpere)} beyond a healthy loop until the weakest place loses reception,"));
            text.WriteLine(Line($"              {Spare(reach.FieldQuantile(0.05))} until 5 % of the lawn does"));
            if (against is not null)
            {
                text.WriteLine(Line($"Neighbour     same coding: at worst reception on {100 * against.HeardShare(_required):F1} %, weakest {Margin(against.Weakest.FieldPerAmpere)}"));
            }

            foreach (PlanPoint place in places)
            {
                double strength = reach.StrengthAt(place);
                text.WriteLine(Line($"At {place.EastMetres:0.##},{place.NorthMetres:0.##}: {Margin(strength)}, {SideWords(reach.SideAt(place, _required))}"));
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteFigure("ohms", ohms);
            json.WriteFigure("heardShare", reach.HeardShare(_required));
            WriteWeakest(json, "weakest", reach.Weakest);
            ReachDistance distance = reach.Profile.At(_required);
            json.WriteStartObject("reach");
            json.WriteFigure("distanceM", distance.Metres);
            json.WriteString("bound", distance.CoversEverything ? "at-least" : "exact");
            json.WriteEndObject();
            json.WriteStartObject("ohmsToSpare");
            json.WriteFigure("weakest", signal.OhmsToSpare(reach.Weakest.FieldPerAmpere, expectedOhms));
            json.WriteFigure("fivePercent", signal.OhmsToSpare(reach.FieldQuantile(0.05), expectedOhms));
            json.WriteEndObject();
            if (against is not null)
            {
                json.WriteStartObject("withNeighbours");
                json.WriteFigure("heardShareAtWorst", against.HeardShare(_required));
                WriteWeakest(json, "weakestAtWorst", against.Weakest);
                json.WriteEndObject();
            }

            caseFault?.WriteJson(json);
            json.WriteStartArray("at");
            foreach (PlanPoint place in places)
            {
                double strength = reach.StrengthAt(place);
                json.WriteStartObject();
                json.WriteFigure("x", place.EastMetres);
                json.WriteFigure("y", place.NorthMetres);
                json.WriteFigure("fieldPerAmp", reach.FieldPerAmpereAt(place));
                json.WriteFigure("marginDb", signal.MarginDecibels(strength, ohms));
                json.WriteBoolean("heard", strength >= _required);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        private void WriteWeakest(Utf8JsonWriter json, string property, WeakestPlace weakest)
        {
            json.WriteStartObject(property);
            json.WriteFigure("x", weakest.Point.EastMetres);
            json.WriteFigure("y", weakest.Point.NorthMetres);
            json.WriteFigure("marginDb", signal.MarginDecibels(weakest.FieldPerAmpere, ohms));
            json.WriteEndObject();
        }

        private string Margin(double strength) => signal.MarginDecibels(strength, ohms) switch
        {
            < -60 => "no signal",
            < 0 and var margin => Line($"{-margin:F1} dB too little"),
            var margin => Line($"{margin:F1} dB to spare"),
        };

        private string Spare(double field) => signal.OhmsToSpare(field, expectedOhms) switch
        {
            null => "nothing, no loop would do",
            < 0 => "nothing",
            { } spare => Line($"{spare:0} Ω"),
        };

        private static string SideWords(HeardSide side) => side switch
        {
            HeardSide.Inside => "reception, as inside",
            HeardSide.Outside => "reception, as outside",
            _ => "no reception",
        };

        private static string Plain(string name) => string.Concat(name.Where(c => !char.IsControl(c)));

        private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
