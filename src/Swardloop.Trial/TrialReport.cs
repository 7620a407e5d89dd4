using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>What a trial's yards come to together.</summary>
public sealed record TrialReport
{
    /// <summary>All yards.</summary>
    public required TrialRow Whole { get; init; }

    /// <summary>By true cause, most frequent first.</summary>
    public required IReadOnlyList<TrialRow> Causes { get; init; }

    /// <summary>By world style.</summary>
    public required IReadOnlyList<TrialRow> Styles { get; init; }

    /// <summary>Probability given to the likeliest cause against how often it was right, over all advices before the cure.</summary>
    public required IReadOnlyList<ReliabilityBin> Reliability { get; init; }

    /// <summary>Yards that were not cured, and why.</summary>
    public required IReadOnlyList<(int Yard, string Cause, string Trouble)> Troubles { get; init; }

    /// <summary>The yards whose cost lies farthest above the oracle's, dearest first: where there is most to learn.</summary>
    public required IReadOnlyList<(int Yard, string Cause, double Cost, double RoutineCost, double OracleCost)> Dearest { get; init; }

    /// <summary>Where the money went, all yards and by true cause: the adviser's and the routine's.</summary>
    public required IReadOnlyList<MoneyRow> Money { get; init; }

    /// <summary>Sums up results.</summary>
    /// <param name="results">At least one.</param>
    public static TrialReport Of(IReadOnlyList<YardResult> results)
    {
        CauseVerdict[] verdicts = [.. results.SelectMany(result => result.Played.Where(step => !step.RanBefore).Select(result.Verdict))];
        return new()
        {
            Whole = TrialRow.Of("all", results),
            Causes = [.. results.GroupBy(result => CauseName(result.Yard.Truth)).OrderByDescending(group => group.Count()).ThenBy(group => group.Key, StringComparer.Ordinal).Select(group => TrialRow.Of(group.Key, [.. group]))],
            Styles = [.. results.GroupBy(result => result.Yard.Style.Name).OrderBy(group => group.Key, StringComparer.Ordinal).Select(group => TrialRow.Of(group.Key, [.. group]))],
            Reliability = [.. verdicts.GroupBy(verdict => Math.Min(9, (int)(10 * verdict.TopProbability))).OrderBy(bin => bin.Key).Select(bin =>
                new ReliabilityBin(bin.Key / 10.0, (bin.Key + 1) / 10.0, bin.Count(), bin.Average(verdict => verdict.TopProbability), bin.Average(verdict => verdict.TopRight ? 1.0 : 0)))],
            Money =
            [
                MoneyRow.Of("all", results),
                .. results.GroupBy(result => CauseName(result.Yard.Truth)).OrderByDescending(group => group.Count()).ThenBy(group => group.Key, StringComparer.Ordinal).Select(group => MoneyRow.Of(group.Key, [.. group])),
            ],
            Dearest = [.. results.OrderByDescending(result => result.Cost - result.OracleCost).Take(12).Select(result =>
                (result.Yard.Index, CauseName(result.Yard.Truth), result.Cost, result.Routine.Cost, result.OracleCost))],
            Troubles = [.. results.Where(result => result.Trouble is not null).Select(result => (result.Yard.Index, CauseName(result.Yard.Truth), result.Trouble!))],
        };
    }

    /// <summary>A cause's name in files; pairs joined by a plus sign.</summary>
    public static string CauseName(Cause cause) =>
        Name(cause.First) + (cause.Second is { } second ? "+" + Name(second) : "");

    private static string Name(CauseKind kind) => Model.Cases.WireName.Of(kind);
}

/// <summary>One line of a trial's table. Shares are from 0 to 1; a figure without anything to count is null.</summary>
/// <param name="Name">What was grouped.</param>
/// <param name="Yards">How many.</param>
/// <param name="CuredShare">Cured within 30 steps.</param>
/// <param name="Steps">Mean steps.</param>
/// <param name="WrongRepairs">Mean repairs that mended nothing.</param>
/// <param name="Cost">Mean money.</param>
/// <param name="RoutineCost">Mean money of the practice routine.</param>
/// <param name="OracleCost">Mean money of the oracle.</param>
/// <param name="RoutineCuredShare">Cured by the routine.</param>
/// <param name="RoutineSteps">Its mean steps.</param>
/// <param name="TopRightShare">Right cause on top of the last advice before the cure.</param>
/// <param name="Brier">Mean Brier score of the causes there, 0 to 2.</param>
/// <param name="PlaceHeldShare">Intervals of place that hold the truth, over all advices before the cure that give one.</param>
/// <param name="Places">How many such intervals.</param>
/// <param name="PlaceMetres">Their median length (m).</param>
public sealed record TrialRow(
    string Name, int Yards, double CuredShare, double Steps, double WrongRepairs, double Cost, double RoutineCost, double OracleCost,
    double RoutineCuredShare, double RoutineSteps, double? TopRightShare, double? Brier, double? PlaceHeldShare, int Places, double? PlaceMetres)
{
    /// <summary>(mean − oracle) / (routine − oracle): 0 knows the truth, 1 is the printed card; null where the card costs no more than the truth.</summary>
    public double? Excess => RoutineCost > OracleCost ? (Cost - OracleCost) / (RoutineCost - OracleCost) : null;

    internal static TrialRow Of(string name, IReadOnlyList<YardResult> results)
    {
        CauseVerdict[] last = [.. results.Select(result => result.LastVerdict).OfType<CauseVerdict>()];
        PlaceVerdict[] places = [.. results.SelectMany(result => result.PlaceVerdicts())];
        return new(
            name,
            results.Count,
            Share(results, result => result.Cured),
            results.Average(result => result.Played.Count),
            results.Average(result => result.WrongRepairs),
            results.Average(result => result.Cost),
            results.Average(result => result.Routine.Cost),
            results.Average(result => result.OracleCost),
            Share(results, result => result.Routine.MowerRuns),
            results.Average(result => result.Routine.Steps),
            last.Length > 0 ? Share(last, verdict => verdict.TopRight) : null,
            last.Length > 0 ? last.Average(verdict => verdict.Brier) : null,
            places.Length > 0 ? Share(places, verdict => verdict.Holds) : null,
            places.Length,
            places.Length > 0 ? places.Select(verdict => verdict.LengthMetres).Order().ElementAt(places.Length / 2) : null);
    }

    private static double Share<T>(IReadOnlyCollection<T> items, Func<T, bool> counts) => items.Count(counts) / (double)items.Count;
}

/// <summary>Advices whose likeliest cause was given a probability in a band.</summary>
/// <param name="From">Band's start.</param>
/// <param name="To">Band's end.</param>
/// <param name="Advices">How many.</param>
/// <param name="MeanProbability">What was said.</param>
/// <param name="RightShare">What came of it.</param>
public sealed record ReliabilityBin(double From, double To, int Advices, double MeanProbability, double RightShare);

/// <summary>Mean money per yard by what it went for.</summary>
/// <param name="Name">What was grouped.</param>
/// <param name="Travel">The adviser's travel, and the routine's.</param>
/// <param name="Purposes">The adviser's money for each purpose, and the routine's.</param>
public sealed record MoneyRow(string Name, (double Adviser, double Routine) Travel, IReadOnlyDictionary<Purpose, (double Adviser, double Routine)> Purposes)
{
    internal static MoneyRow Of(string name, IReadOnlyList<YardResult> results)
    {
        (double, double) Mean(Func<Payment, double> money) => (
            results.Average(result => result.Payments.Sum(money)), results.Average(result => result.Routine.Payments.Sum(money)));
        return new(
            name, Mean(payment => payment.Travel),
            Enum.GetValues<Purpose>().ToDictionary(purpose => purpose, purpose => Mean(payment => payment.Purpose == purpose ? payment.Money : 0)));
    }
}
