using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop budget</c>: what a healthy loop measures, and what it can lose before its mower stops hearing.</summary>
internal sealed class BudgetCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("budget", "What a yard's healthy loop measures, and how many ohms it can lose.")
    {
        Positionals = [new("YARD", "A yard file; - reads standard input.")],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call) => new BudgetResult(call.ReadChecked<YardFile>(YardFile.Read).Yard);
}

/// <summary>A yard's loop budget with its ohms to spare.</summary>
internal sealed class BudgetResult : CommandResult
{
    /// <summary>The rule of thumb misleads when it is out by more than this factor.</summary>
    private const double RuleOfThumbGoodWithin = 1.25;

    private const double SmallShare = 0.05;

    private readonly Yard _yard;
    private readonly LoopBudget _budget;
    private readonly SignalBudget _signal;
    private readonly WeakestPlace _weakest;
    private readonly double _smallShareField;

    /// <summary>Computes it.</summary>
    public BudgetResult(Yard yard)
    {
        _yard = yard;
        _budget = LoopBudget.For(yard);
        _signal = SignalBudget.Of(yard, _budget.InductanceHenry);
        LoopReach reach = new(yard);
        _weakest = reach.Weakest;
        _smallShareField = reach.FieldQuantile(SmallShare);
    }

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
        int joints = _yard.Loop.Joints.Count;
        text.WriteLine(SafeText.OneLine(_yard.Name, 60));
        text.WriteLine($"{Figures.Plain(_budget.LengthMetres, 3)} m of wire, {joints} {(joints == 1 ? "joint" : "joints")}");
        text.WriteLine();
        text.WriteLine($"Healthy loop    {Band(expected)}");
        text.WriteLine($"                above {Figures.Plain(expected.High)} Ω, something adds ohms");
        text.WriteLine($"Rule of thumb   {Figures.Plain(_budget.RuleOfThumbOhms)} Ω (1 Ω per 100 m)");
        text.WriteLine($"Inductance      {Figures.Plain(_budget.InductanceHenry * 1e6, 3)} µH");
        text.WriteLine($"Current         {Figures.Plain(100 * _budget.CurrentShare)} % of what the station can give");
        text.WriteLine();
        text.WriteLine("To spare, before the mower stops hearing");
        text.WriteLine($"weakest place   {Spare(SpareAtWeakest, _weakest.FieldPerAmpere)}");
        text.WriteLine($"                at {Place(_weakest.Point)}");
        text.WriteLine($"5 % of the lawn {Spare(SpareAtSmallShare, _smallShareField)}");
        foreach (string note in Notes())
        {
            text.WriteLine();
            text.WriteWrapped(note);
        }
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
        double byReach = most * most / resistive * _yard.Mower.ReachRelativeDeviation;
        double bySource = _signal.SourceOhms * _yard.Station.SourceRelativeDeviation;
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
        else if (_yard.Station.HasContinuityLamp && expected.Nominal + spare < _yard.Station.LampAlarmOhms)
        {
            yield return $"The station's lamp alarms only at about {Figures.Plain(_yard.Station.LampAlarmOhms / 1000)} kΩ, long after the mower has stopped: a good lamp says little.";
        }

        if (_yard.Neighbours.Count > 0)
        {
            yield return "The neighbours' loops are not counted in the ohms to spare.";
        }
    }
}
