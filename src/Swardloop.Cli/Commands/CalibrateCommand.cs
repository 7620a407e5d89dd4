using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Calibration;
using Swardloop.Model.Bench;
using Swardloop.Model.Checks;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop calibrate</c>: reach constant and source resistance of a station and mower, from trials with known resistors.</summary>
internal sealed class CalibrateCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("calibrate", "From trials with known resistors: a mower's profile, and what it will do with others.")
    {
        Positionals = [new("BENCH", "A bench file; - reads standard input.")],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        InputText input = call.ReadFile();
        Checked<BenchFile> read = BenchFile.Read(input.Bytes, input.Name, path => input.ReadBeside(path, call.Terminal));
        return read.IsGood ? new CalibrateResult(read.Value) : throw WrongInputException.Of(read);
    }
}

/// <summary>A fitted profile with its predictions and, while it is not known well, the trial to add.</summary>
internal sealed class CalibrateResult : CommandResult
{
    /// <summary>A trial that misses the fit by more than this many standard deviations disagrees with the others.</summary>
    private const double Disagrees = 3;

    /// <summary>Below this a further trial on the same loop teaches next to nothing.</summary>
    private const double WorthwhileBits = 0.1;

    // Resistors that a drawer holds: E6 series, and none at all.
    private static readonly double[] Drawer =
        [0, .. new double[] { 1, 10, 100, 1000 }.SelectMany(decade => new[] { 10, 15, 22, 33, 47, 68 }.Select(value => decade * value))];

    private readonly BenchFile _bench;
    private readonly ProfileFit _fit;
    private readonly IReadOnlyList<ReachPrediction> _predictions;
    private readonly SuggestedTrial? _next;

    /// <summary>Fits and predicts.</summary>
    public CalibrateResult(BenchFile bench)
    {
        _bench = bench;
        _fit = ProfileFit.To(bench.Trials);
        _predictions = [.. bench.PredictOhms.Select(added => _fit.Predict(bench.Site, bench.Site.WireOhms + added))];
        _next = _fit.IsEnough
            ? null
            : _fit.Suggest(bench.Site, [.. Drawer.Select(added => bench.Site.WireOhms + added)], BenchFile.DefaultDistanceDeviationMetres);
    }

    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        Write(json, "reachConstantOhmM", _fit.ReachConstantOhmMetres);
        Write(json, "sourceOhms", _fit.SourceOhms);
        json.WriteBoolean("enough", _fit.IsEnough);
        json.WriteStartArray("predictions");
        for (int i = 0; i < _predictions.Count; i++)
        {
            json.WriteStartObject();
            json.WriteFigure("addedOhms", _bench.PredictOhms[i]);
            json.WriteFigure("loopOhms", _predictions[i].LoopOhms);
            Write(json, "reachM", _predictions[i].DistanceMetres);
            json.WriteFigure("coversProbability", Math.Round(_predictions[i].CoversProbability, 4));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("trials");
        for (int i = 0; i < _bench.Trials.Count; i++)
        {
            json.WriteStartObject();
            json.WriteFigure("loopOhms", _bench.Trials[i].LoopOhms);
            json.WriteFigure("missedByDeviations", Math.Round(_fit.MissedBy[i], 2));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (_next is null)
        {
            json.WriteNull("nextTrial");
        }
        else
        {
            json.WriteStartObject("nextTrial");
            json.WriteFigure("addedOhms", Added(_next));
            json.WriteFigure("bits", Math.Round(_next.Bits, 3));
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    /// <inheritdoc/>
    public override void WriteText(TextWriter text)
    {
        text.WriteWrapped(SafeText.OneLine(_bench.Name, 200));
        text.WriteLine();
        text.WriteLine($"Reach constant  {Interval(_fit.ReachConstantOhmMetres, 3)} Ω·m");
        text.WriteLine($"Source          {Interval(_fit.SourceOhms, 2)} Ω");
        text.WriteLine();
        text.WriteLine("With a resistor of");
        for (int i = 0; i < _predictions.Count; i++)
        {
            text.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{_bench.PredictOhms[i],8:0.##} Ω    {Words(_predictions[i])}"));
        }

        foreach (string note in Notes())
        {
            text.WriteLine();
            text.WriteWrapped(note);
        }
    }

    private static string Words(ReachPrediction prediction) => prediction.CoversProbability > 0.95
        ? "covers everything"
        : $"runs to {Metres(prediction.DistanceMetres.Best)} m ({Metres(prediction.DistanceMetres.Low)} to {Metres(prediction.DistanceMetres.High)})"
            + (prediction.CoversProbability < 0.05 ? "" : $", covers all {Figures.Plain(100 * prediction.CoversProbability)} %");

    private static string Metres(double metres) => metres.ToString("0.0", CultureInfo.InvariantCulture);

    private static string Interval(Estimate estimate, int digits) =>
        $"{Figures.Plain(estimate.Best, digits)} ({Figures.Plain(estimate.Low, digits)} to {Figures.Plain(estimate.High, digits)})";

    // Five digits: the search for the best values ends a hundred-millionth short of them, on each machine in its own way.
    private static void Write(Utf8JsonWriter json, string name, Estimate estimate)
    {
        json.WriteStartObject(name);
        json.WriteFigure("low", FiveDigits(estimate.Low));
        json.WriteFigure("best", FiveDigits(estimate.Best));
        json.WriteFigure("high", FiveDigits(estimate.High));
        json.WriteEndObject();
    }

    private static double FiveDigits(double value) =>
        double.Parse(value.ToString("G5", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private double Added(SuggestedTrial trial) => Math.Round(trial.LoopOhms - _bench.Site.WireOhms, 6) + 0.0;

    private IEnumerable<string> Notes()
    {
        IReadOnlyList<double> missedBy = _fit.MissedBy;
        int worst = Enumerable.Range(0, missedBy.Count).MaxBy(i => missedBy[i]);
        if (missedBy[worst] > Disagrees)
        {
            yield return $"Trial {worst + 1} disagrees with the others: {Figures.Plain(missedBy[worst])} standard deviations from the fit. Repeat it first.";
        }

        if (_next is null)
        {
            yield return "Both are known well enough for a profile.";
        }
        else if (_next.Bits < WorthwhileBits)
        {
            yield return "Not known well enough yet, and no resistor on this loop would teach much. Try the mower on a larger or smaller loop.";
        }
        else
        {
            yield return $"Not known well enough yet. Next, try a resistor of {Figures.Plain(Added(_next))} Ω on this loop: that would teach most.";
        }
    }
}
