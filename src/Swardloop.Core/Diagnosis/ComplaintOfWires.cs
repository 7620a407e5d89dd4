using System.Text.RegularExpressions;

namespace Swardloop.Core.Diagnosis;

/// <summary>What a complaint says of a guide wire or an island, where the yard has one: that the mower does not find home, or drives into the pond. It may say so beside anything else.</summary>
/// <remarks>Shares are judgement from common practice, no source.</remarks>
internal sealed partial class ComplaintOfWires(YardPhysics physics, string complaint)
{
    private readonly bool _island = physics.IslandRuns.Count > 0 && Island().IsMatch(complaint);

    private readonly bool _home = physics.Guides.Count > 0 && Home().IsMatch(complaint);

    /// <summary>Whether it speaks of an island's place.</summary>
    public bool NamesIsland => _island;

    /// <summary>Whether it says anything of them.</summary>
    public bool Says => _home || _island;

    /// <summary>Probability of its saying so, or not, under a condition.</summary>
    /// <param name="condition">What is wrong.</param>
    /// <param name="saysAnything">Whether the complaint's words fit any kind; where they do not, silence says nothing.</param>
    public double Likelihood(Condition condition, bool saysAnything) =>
        (physics.Guides.Count == 0 ? 1 : OneOf(_home, saysAnything, Average(condition, NotHome)))
        * (physics.IslandRuns.Count == 0 ? 1 : OneOf(_island, saysAnything, Average(condition, AtIsland)));

    private static double OneOf(bool says, bool saysAnything, double share) => says ? share : saysAnything ? 1 - share : 1;

    private static double NotHome(CauseKind cause) => cause switch
    {
        CauseKind.Guide => 0.7,
        CauseKind.Charging => 0.12,
        CauseKind.Drive or CauseKind.Receiver or CauseKind.Unmodelled or CauseKind.None => 0.08,
        _ => 0.04,
    };

    private static double AtIsland(CauseKind cause) => cause switch
    {
        CauseKind.ShortCircuit => 0.6,
        CauseKind.Leak or CauseKind.LeakPair => 0.06,
        _ => 0.03,
    };

    private static double Average(Condition condition, Func<CauseKind, double> share)
    {
        double sum = 0;
        int causes = 0;
        for (CauseKind cause = 0; cause <= CauseKind.None; cause++)
        {
            if (condition.Has(cause))
            {
                sum += share(cause);
                causes++;
            }
        }

        return causes > 0 ? sum / causes : share(CauseKind.None);
    }

    // Beginnings of words.
    [GeneratedRegex(@"\b(island|pond|pool|flower|bed\b|shrub|bush|tree|roses?|into the|straight through|through (the|my|our)|insel|teich|becken|beet|blumen|baum|bäum|strauch|rabatte|rose|in den|mitten durch|durchs)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Island();

    [GeneratedRegex(@"\b(home|dock|guide|(back|way|return\w*) to (the|its|his) (station|base|charger)|(past|find\w*|reach\w*) (the |its |his )?(station|base|charger)|carry it back|middle wire|heim|nach hause|leitdraht|suchdraht|leitkabel|suchkabel|(zur|die|der) (station|ladestation) (nicht|vorbei)|an der (lade)?station vorbei|kommt nicht (mehr )?zurück)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Home();
}
