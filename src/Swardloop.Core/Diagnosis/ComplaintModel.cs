using System.Text.RegularExpressions;

namespace Swardloop.Core.Diagnosis;

/// <summary>What an owner's complaint says of the cause: its words are sorted into a few kinds, in the languages of the screens, and each cause
/// brings each kind with a stated probability. Words that fit no kind say nothing.</summary>
/// <remarks>Judgement from common practice, no source. Owners tell what they see and mix things up: no kind rules a cause out.</remarks>
internal sealed partial class ComplaintModel(YardPhysics physics, string complaint)
{
    private readonly int[] _kinds = [.. Kinds().Select((words, kind) => (words, kind)).Where(entry => entry.words.IsMatch(complaint)).Select(entry => entry.kind)];

    /// <summary>Whether it speaks of somebody else's mower.</summary>
    public bool NamesNeighbour { get; } = Neighbour().IsMatch(complaint);

    /// <summary>Whether its words fit any kind.</summary>
    public bool Says => _kinds.Length > 0;

    /// <summary>Probability of such words under a condition, up to a factor that is the same for all; 1 when they fit no kind.</summary>
    public double Likelihood(Condition condition)
    {
        if (!Says)
        {
            return 1;
        }

        double sum = 0;
        int causes = 0;
        for (int cause = 0; cause <= (int)CauseKind.None; cause++)
        {
            if (condition.Has((CauseKind)cause))
            {
                // Of two causes either is complained of.
                double[] shares = Shares((CauseKind)cause, condition.ExtraOhms);
                sum += _kinds.Average(kind => shares[kind]);
                causes++;
            }
        }

        return causes > 0 ? sum / causes : 1.0 / Kinds().Length;
    }

    // In the order of the shares below.
    private static Regex[] Kinds() => [Dark(), NoSignal(), TurnsBackEarly(), CrossesTheWire(), ThinksOutside(), NowAndThen(), Erratic()];

    /// <summary>Share of the kinds among an owner's complaints of a cause: dark, no signal, turns back early, crosses the wire, thinks it is outside, now and
    /// then, erratic.</summary>
    private double[] Shares(CauseKind cause, double extraOhms) => cause switch
    {
        CauseKind.NoMains or CauseKind.Supply or CauseKind.Station => [0.48, 0.36, 0.04, 0.03, 0.03, 0.03, 0.03],
        CauseKind.Open or CauseKind.SeriesResistance => InSeries(extraOhms),
        CauseKind.Leak => [0.02, 0.08, 0.14, 0.55, 0.05, 0.1, 0.06],
        CauseKind.LeakPair => [0.02, 0.06, 0.09, 0.62, 0.05, 0.08, 0.08],
        CauseKind.EndsSwapped => [0.02, 0.14, 0.08, 0.08, 0.56, 0.04, 0.08],
        CauseKind.Crosstalk => [0.02, 0.08, 0.12, 0.12, 0.12, 0.36, 0.18],
        CauseKind.Layout => [0.02, 0.1, 0.68, 0.05, 0.04, 0.06, 0.05],
        CauseKind.Unsteady => [0.03, 0.25, 0.12, 0.05, 0.05, 0.44, 0.06],
        CauseKind.Charging => [0.14, 0.3, 0.06, 0.04, 0.06, 0.26, 0.14],
        CauseKind.Receiver => [0.03, 0.6, 0.1, 0.05, 0.07, 0.08, 0.07],
        CauseKind.Drive => [0.03, 0.06, 0.1, 0.07, 0.05, 0.1, 0.59],
        _ => [0.1, 0.15, 0.15, 0.15, 0.1, 0.2, 0.15],
    };

    /// <summary>A mower that hears the wire beside it comes out; one that does not says so.</summary>
    private double[] InSeries(double extraOhms)
    {
        double heard = 1 / (1 + Math.Exp(-physics.LogMarginAtWire(extraOhms, 1) / 0.3));
        return [0.03, 0.14 + (0.5 * (1 - heard)), 0.1 + (0.52 * heard), 0.07, 0.04, 0.05, 0.05];
    }

    // Beginnings of words.
    [GeneratedRegex(@"\b(dark|no (power|light|lamp)|lamp (is )?(off|out)|dunkel|(kein|ohne) strom|lampe (ist )?aus|leuchtet nicht)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Dark();

    [GeneratedRegex(@"\b(no (\w+ )?signal|signal (is )?(gone|lost|missing)|stands still|blink|kein(e|en)? (\w+)?signal|steht still|signal (fehlt|ist weg))", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NoSignal();

    [GeneratedRegex(@"\b(middle(?! of (last|this|next|the (week|month|day|night|season|summer)))|mid-?lawn|(too|turns back) early|turns back|hugs?|edges?|only near|along the wire|mitte(?! (der|letzter|dieser|nächster|vergangener) woche|  ?(januar|februar|märz|april|mai|juni|juli|august|september|oktober|november))|zu früh|kehrt um|dreht um|nur am|am rand|am draht entlang)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex TurnsBackEarly();

    [GeneratedRegex(@"\b(over the wire|(escape|climb|cross)\w*|(leaves|left|leaving) (the|its|his|her|our|my) (lawn|garden|plot|area|yard)|fence|shed|runs away|über den draht|überfähr|verlässt|zaun|schuppen|haut ab|büxt aus)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex CrossesTheWire();

    [GeneratedRegex(@"\b(outside|außerhalb|ausserhalb)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex ThinksOutside();

    [GeneratedRegex(@"\b(neighbou?r|at times|sometimes|now and then|oddly|nachbar|manchmal|zeitweise|hin und wieder|ab und zu)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NowAndThen();

    [GeneratedRegex(@"\b(circl|in circles|random|zig-?zag|wobbl|im kreis|kreuz und quer|planlos|zufällig)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Erratic();

    [GeneratedRegex(@"\b(neighbou?r|next door|nachbar)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Neighbour();
}
