using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop budget</c>: what a healthy loop measures, and what it can lose before its mower stops hearing.</summary>
internal sealed class BudgetCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("budget", "What a yard's healthy loop measures, and how many ohms it can lose.")
    {
        Positionals = [new("YARD", "A yard file; - reads standard input.")],
        Options =
        [
            new("--ohms", "R", "Judge a reading (Ω), as the meter showed it."),
            new("--leads", "R", "What the meter showed with its tips together (Ω); default 0.2."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        double? shown = call.Number("--ohms", 0, 1e9, "Ω");
        double leads = call.Number("--leads", 0, 100, "Ω") ?? ObservationJson.DefaultLeadOhms;
        YardFile file = call.ReadChecked<YardFile>(YardFile.Read);
        LoopBudget budget = LoopBudget.For(file.Yard);
        LoopReading? reading = shown is { } ohms ? LoopReading.Judge(budget, ohms, leads, MeterAccuracy.Plain) : null;
        return new BudgetResult(file, budget, reading);
    }
}

/// <summary>A yard's loop budget with its ohms to spare.</summary>
internal sealed class BudgetResult : CommandResult
{
    /// <summary>The rule of thumb misleads when it is out by more than this factor.</summary>
    private const double RuleOfThumbGoodWithin = 1.25;

    private const double SmallShare = 0.05;

    private readonly YardFile _file;
    private readonly LoopBudget _budget;
    private readonly LoopReading? _reading;
    private readonly SignalBudget _signal;
    private readonly WeakestPlace _weakest;
    private readonly double _smallShareField;

    /// <summary>Computes what the budget alone does not tell: the ohms to spare.</summary>
    public BudgetResult(YardFile file, LoopBudget budget, LoopReading? reading)
    {
        (_file, _budget, _reading) = (file, budget, reading);
        _signal = SignalBudget.Of(file.Yard, budget.InductanceHenry);
        LoopReach reach = new(file.Yard);
        _weakest = reach.Weakest;
        _smallShareField = reach.FieldQuantile(SmallShare);
    }

    private Yard Yard => _file.Yard;

    private double? SpareAtWeakest => _signal.OhmsToSpare(_weakest.FieldPerAmpere, _budget.ExpectedOhms.Nominal);

    private double? SpareAtSmallShare => _signal.OhmsToSpare(_smallShareField, _budget.ExpectedOhms.Nominal);

    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteFigure("lengthM", _budget.LengthMetres);
        json.WriteStartObject("expectedOhms");
        json.WriteFigure("low", _budget.ExpectedOhms.Low);
        json.WriteFigure("nominal", _budget.ExpectedOhms.Nominal);
        json.WriteFigure("high", _budget.ExpectedOhms.High);
        json.WriteEndObject();
        json.WriteFigure("ruleOfThumbOhms", _budget.RuleOfThumbOhms);
        json.WriteFigure("inductanceMicrohenry", _budget.InductanceHenry * 1e6);
        json.WriteFigure("currentShare", _budget.CurrentShare);
        json.WriteStartObject("ohmsToSpare");
        json.WriteFigure("weakest", SpareAtWeakest);
        json.WriteFigure("fivePercent", SpareAtSmallShare);
        json.WriteEndObject();
        if (_reading is not null)
        {
            json.WriteStartObject("reading");
            json.WriteFigure("loopOhms", _reading.LoopOhms);
            json.WriteFigure("limitOhms", _reading.LimitOhms);
            json.WriteFigure("excessOhms", _reading.ExcessOhms);
            json.WriteFigure("excessDeviationOhms", _reading.ExcessDeviationOhms);
            json.WriteString("verdict", WireName.Of(_reading.Verdict));
            json.WriteString("ruleOfThumbVerdict", WireName.Of(_reading.RuleOfThumb));
            json.WriteEndObject();
        }

        json.WriteStartArray("notes");
        foreach (string note in Notes())
        {
            json.WriteStringValue(note);
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <inheritdoc/>
    public override void WriteText(TextWriter text)
    {
        ResistanceBand expected = _budget.ExpectedOhms;
        int joints = Yard.Loop.Joints.Count;
        text.WriteLine(SafeText.OneLine(Yard.Name, 60));
        text.WriteLine($"{Figures.Plain(_budget.LengthMetres, 3)} m of wire, {joints} {(joints == 1 ? "joint" : "joints")}");
        text.WriteLine();
        text.WriteLine($"Healthy loop    {Band(expected)}");
        text.WriteLine($"                above {Figures.Plain(expected.High)} Ω, something adds ohms");
        text.WriteLine($"Rule of thumb   {Figures.Plain(_budget.RuleOfThumbOhms)} Ω (1 Ω per 100 m)");
        text.WriteLine($"Inductance      {Figures.Plain(_budget.InductanceHenry * 1e6, 3)} µH");
        text.WriteLine($"Current         {Figures.Plain(100 * _budget.CurrentShare)} % of what the station can give");
        WriteReading(text);
        text.WriteLine();
        text.WriteLine("Reserve, before the mower loses reception");
        text.WriteLine($"weakest place   {Spare(SpareAtWeakest, _weakest.FieldPerAmpere)}");
        text.WriteLine($"                at {Place(_weakest.Point)}");
        text.WriteLine($"5 % of the lawn {Spare(SpareAtSmallShare, _smallShareField)}");
        foreach (string note in Notes())
        {
            text.WriteLine();
            text.WriteWrapped(note);
        }
    }

    private void WriteReading(TextWriter text)
    {
        if (_reading is null)
        {
            return;
        }

        string verdict = _reading.Verdict switch
        {
            LoopVerdict.Healthy => "healthy: as this wire should read",
            LoopVerdict.Watch => "a little high: read again, keep the number",
            LoopVerdict.Investigate => "too high: something in the loop is at fault, even if the mower runs",
            LoopVerdict.Faulty => "far too high: mowers commonly fail at this",
            LoopVerdict.BelowExpected => "too low: two places touch, or the file's wire is not what lies there",
            _ => throw new InvalidOperationException($"No words for {_reading.Verdict}."),
        };
        string thumb = _reading.RuleOfThumb switch
        {
            RuleOfThumbVerdict.Fine => "fine",
            RuleOfThumbVerdict.Doubtful => "doubtful",
            RuleOfThumbVerdict.AtFault => "at fault",
            _ => throw new InvalidOperationException($"No words for {_reading.RuleOfThumb}."),
        };
        text.WriteLine();
        text.WriteLine($"Reading         {Figures.WithDeviation(_reading.LoopOhms, _reading.ReadingDeviationOhms, "Ω")}, leads taken off");
        text.WriteLine($"Excess          {Figures.WithDeviation(_reading.ExcessOhms, _reading.ExcessDeviationOhms, "Ω")}");
        text.WriteWrapped(verdict, "Verdict         ");
        text.WriteLine($"Rule of thumb   would say: {thumb}");
    }

    private static string Band(ResistanceBand band) =>
        $"{Figures.Plain(band.Nominal)} Ω ({Figures.Plain(band.Low)} to {Figures.Plain(band.High)})";

    private static string Place(PlanPoint point) =>
        string.Create(CultureInfo.InvariantCulture, $"{point.EastMetres + 0.0:0.0} m east, {point.NorthMetres + 0.0:0.0} m north");

    private string Spare(double? ohms, double fieldPerAmpere) => ohms is not { } spare
        ? "not heard, whatever the wire measures"
        : spare < 0
            ? $"not heard: {Figures.WithDeviation(-spare, SpareDeviation(fieldPerAmpere), "Ω")} too many"
            : Figures.WithDeviation(spare, SpareDeviation(fieldPerAmpere), "Ω");

    /// <summary>One standard deviation of the ohms to spare (Ω), to first order: reach constant, source and loop taken as independent.</summary>
    private double SpareDeviation(double fieldPerAmpere)
    {
        double most = _signal.ReachConstantOhmMetres * Math.Abs(fieldPerAmpere);
        double resistive = Math.Sqrt((most - _signal.ReactanceOhms) * (most + _signal.ReactanceOhms));
        double byReach = most * most / resistive * Yard.Mower.ReachRelativeDeviation;
        double bySource = _signal.SourceOhms * Yard.Station.SourceRelativeDeviation;
        double byLoop = _budget.StandardDeviationOhms;
        return Math.Sqrt((byReach * byReach) + (bySource * bySource) + (byLoop * byLoop));
    }

    private IEnumerable<string> Notes()
    {
        ResistanceBand expected = _budget.ExpectedOhms;
        string healthy = Figures.Plain(expected.Nominal), thumb = Figures.Plain(_budget.RuleOfThumbOhms);
        if (expected.Nominal > _budget.RuleOfThumbOhms * RuleOfThumbGoodWithin)
        {
            yield return $"A healthy loop of this wire reads {healthy} Ω, more than the rule of thumb's {thumb} Ω. Judge a reading against the wire that is there.";
        }
        else if (expected.Nominal * RuleOfThumbGoodWithin < _budget.RuleOfThumbOhms)
        {
            yield return $"A healthy loop of this wire reads only {healthy} Ω. A reading that the rule of thumb ({thumb} Ω) lets pass may be a fault here.";
        }

        if (SpareAtWeakest is not { } spare || spare < 0)
        {
            yield return $"Even a healthy loop is not heard at {Place(_weakest.Point)}. Not the wire but the layout needs a change there.";
        }
        else if (Yard.Station.HasContinuityLamp && expected.Nominal + spare < Yard.Station.LampAlarmOhms)
        {
            yield return $"The station's lamp alarms only at about {Figures.Plain(Yard.Station.LampAlarmOhms / 1000)} kΩ, long after the mower has stopped: a good lamp says little.";
        }

        if (Yard.Neighbours.Count > 0)
        {
            yield return "The neighbours' loops are not counted in the reserve.";
        }

        foreach (Problem problem in _file.Notes)
        {
            yield return $"{problem.Place}: {problem.Message}.";
        }
    }
}
