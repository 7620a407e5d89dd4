using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Api;
using Swardloop.Worlds;

namespace Swardloop.Practice;

/// <summary>A learner's work in a yard whose truth is hidden: one of the trial's own yards. Level and seed make the yard, the steps make the rest,
/// so that a practice is kept as these three. Not thread-safe.</summary>
public sealed class PracticeVisit
{
    /// <summary>More steps than this are not done.</summary>
    public const int MostSteps = 60;

    // The worlds that hard yards are taken from. Left out: the usual one, and paving, whose minutes the judge's tariff does not count as the catalogue does.
    private static readonly (World World, double Weight)[] HardWorlds = [.. World.All.Where(world => world.Name is not ("plain" or "hard-ground")).Select(world => (world, 1.0))];

    private readonly Visit _visit;

    /// <summary>Opens a yard.</summary>
    /// <param name="level">How hard.</param>
    /// <param name="seed">Any number from 0; the same gives the same yard.</param>
    public PracticeVisit(PracticeLevel level, long seed)
    {
        (Level, Seed) = (level, seed);
        Scene = SceneOf(level, seed);
        _visit = Open(Scene);
    }

    /// <summary>How hard.</summary>
    public PracticeLevel Level { get; }

    /// <summary>What the yard is made from.</summary>
    public long Seed { get; }

    /// <summary>The case so far, its yard inside; a copy.</summary>
    public JsonObject Case => (JsonObject)_visit.Case.DeepClone();

    /// <summary>What was done.</summary>
    public IReadOnlyList<PracticeTurn> Turns => TurnsOf(_visit);

    /// <summary>Money spent, travel included.</summary>
    public double Money => _visit.Cost;

    /// <summary>Minutes of whoever did the steps.</summary>
    public double Minutes => _visit.Log.Sum(entry => entry.Minutes);

    /// <summary>Steps done.</summary>
    public int Steps => _visit.Steps;

    /// <summary>Whether a check found the mower running: nothing more is done then.</summary>
    public bool IsOver => _visit.Log is [.., var last] && (string?)last.Seen["test"] == WireName.Of(StepKind.MowerCheck) && (string?)last.Seen["value"] == "runs";

    internal Scene Scene { get; }

    internal IReadOnlyList<Visit.Entry> Log => _visit.Log;

    /// <summary>Whether nothing that the mower minds is left: the truth, not for the learner before the end.</summary>
    internal bool Runs => _visit.Runs;

    /// <summary>The case as the engine reads it.</summary>
    public CaseFile CaseFile() => CaseOf(_visit);

    /// <summary>Reads what a learner asks for: what is wrong with it, or cannot be done in this yard, is a problem.</summary>
    /// <param name="asked">Step, person and parameters, as an advice spells them.</param>
    /// <param name="place">What problems name as its place.</param>
    public Checked<Step> Read(JsonElement asked, string place)
    {
        ProblemList problems = new("step");
        ServiceCase serviceCase = CaseFile().Case;
        Step? step = PracticeStepJson.Read(asked, place, serviceCase.Yard, problems);
        if (step is not null && StepSafety.Forbids(Within(step, serviceCase), serviceCase) is { } reason)
        {
            problems.Add(place, reason, "a step that this yard's people, instruments and wires allow");
        }

        if (step is not null && Steps >= MostSteps)
        {
            problems.Add(place, "is one step too many", $"{MostSteps} steps; the practice can be ended");
        }

        return step is not null && !problems.Any ? Checked<Step>.Good(step) : Checked<Step>.Bad(problems);
    }

    /// <summary>Does a step that was read.</summary>
    /// <exception cref="InvalidOperationException">It is over.</exception>
    public void Do(Step step) => Do(PracticeStepJson.Write(step));

    /// <summary>Does a step as it was kept.</summary>
    /// <exception cref="InvalidOperationException">It is over.</exception>
    public void Do(JsonObject step)
    {
        if (IsOver)
        {
            throw new InvalidOperationException("The mower runs; nothing more is done.");
        }

        _visit.Do((JsonObject)step.DeepClone());
    }

    internal static Scene SceneOf(PracticeLevel level, long seed) => Scene.Of(WorldOf(level, seed), (ulong)seed, 0);

    // A name that says nothing: the judge's own names say the world.
    internal static Visit Open(Scene scene)
    {
        Visit visit = new(scene);
        visit.Case["yard"]!["name"] = "Practice yard";
        return visit;
    }

    internal static CaseFile CaseOf(Visit visit)
    {
        Checked<CaseFile> read = Model.Cases.CaseFile.Read(System.Text.Encoding.UTF8.GetBytes(visit.Case.ToJsonString()), "case", _ => null);
        return read.IsGood ? read.Value : throw new InvalidOperationException(string.Join(" | ", read.Lines()));
    }

    internal static IReadOnlyList<PracticeTurn> TurnsOf(Visit visit, Func<int, string?>? why = null) =>
        [.. visit.Log.Select((entry, i) => new PracticeTurn(entry.Step, entry.Seen, Math.Round(entry.Money, 2), entry.Travel, Math.Round(entry.Minutes, 1), why?.Invoke(i)))];

    // The file's corners are rounded to centimetres, so that its wire may end some before the last metre that was meant; the reader allows no more than that.
    private static Step Within(Step step, ServiceCase serviceCase)
    {
        double end = serviceCase.Yard.WireMetres(step.Wire) ?? double.PositiveInfinity;
        return step with { AtMetres = Ended(step.AtMetres), FromMetres = Ended(step.FromMetres), ToMetres = Ended(step.ToMetres) };

        double? Ended(double? metres) => metres is { } some ? Math.Min(some, end) : null;
    }

    private static World WorldOf(PracticeLevel level, long seed) => level switch
    {
        PracticeLevel.Easy => World.Steady,
        PracticeLevel.Usual => World.Find("plain")!,
        PracticeLevel.Hard => new Draw((ulong)seed).For("practice").Pick("world", HardWorlds),
        _ => throw new ArgumentOutOfRangeException(nameof(level), level, "Not a level."),
    };
}
