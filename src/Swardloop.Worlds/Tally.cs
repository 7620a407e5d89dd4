namespace Swardloop.Worlds;

/// <summary>One line of the judge's table. Shares are from 0 to 1; what there is nothing to count of is null.</summary>
/// <param name="Name">World or cause.</param>
/// <param name="Yards">How many.</param>
/// <param name="CuredShare">Cured within thirty steps.</param>
/// <param name="FailedShare">The adviser failed.</param>
/// <param name="Steps">Mean steps.</param>
/// <param name="WrongRepairs">Mean repairs that ended nothing.</param>
/// <param name="Repeats">Mean questions asked again with nothing changed.</param>
/// <param name="DearParts">Mean dear parts bought for nothing.</param>
/// <param name="Cost">Mean money.</param>
/// <param name="CardCost">Mean money of the printed card.</param>
/// <param name="CardCuredShare">Cured by the card.</param>
/// <param name="TruthCost">Mean money of who knows cause and place.</param>
/// <param name="TopRightShare">Right cause on top before the cure.</param>
/// <param name="Brier">Mean Brier score there.</param>
/// <param name="Places">Intervals of place before the cure.</param>
/// <param name="PlaceHeldShare">Those that held the truth.</param>
internal sealed record Tally(
    string Name, int Yards, double CuredShare, double FailedShare, double Steps, double WrongRepairs, double Repeats, double DearParts,
    double Cost, double CardCost, double CardCuredShare, double TruthCost, double? TopRightShare, double? Brier, int Places, double? PlaceHeldShare)
{
    /// <summary>(mean − truth) / (card − truth): 0 knows the truth, 1 is the printed card.</summary>
    public double? Excess => CardCost > TruthCost ? (Cost - TruthCost) / (CardCost - TruthCost) : null;

    /// <summary>Sums up.</summary>
    public static Tally Of(string name, IReadOnlyCollection<Verdict> verdicts)
    {
        Verdict[] scored = [.. verdicts.Where(verdict => verdict.TopRight is not null)];
        int places = verdicts.Sum(verdict => verdict.Places.All);
        return new(
            name, verdicts.Count, verdicts.Average(v => v.Cured ? 1.0 : 0), verdicts.Average(v => v.AdviserFailed ? 1.0 : 0), verdicts.Average(v => v.Turns.Count),
            verdicts.Average(v => v.Visit.WrongRepairs), verdicts.Average(v => v.Visit.Repeats), verdicts.Average(v => v.Visit.DearPartsForNothing),
            verdicts.Average(v => v.Cost), verdicts.Average(v => v.Card.Cost), verdicts.Average(v => v.Card.Runs ? 1.0 : 0), verdicts.Average(v => v.TruthCost),
            scored.Length > 0 ? scored.Average(v => v.TopRight == true ? 1.0 : 0) : null, scored.Length > 0 ? scored.Average(v => v.Brier) : null,
            places, places > 0 ? verdicts.Sum(v => v.Places.Held) / (double)places : null);
    }
}
