using System.Text.RegularExpressions;

namespace Swardloop.Core.Diagnosis;

/// <summary>What an owner's complaint says of the cause: its words are sorted into a few kinds, in the languages of the screens, and each cause
/// brings each kind with a stated probability. Words that fit no kind say nothing.</summary>
/// <remarks>Judgement from common practice, no source. Owners tell what they see and mix things up: no kind rules a cause out.</remarks>
internal sealed partial class ComplaintModel(YardPhysics physics, string complaint)
{
    // "Through the roses in the middle" is no mower that turns back in the middle.
    private readonly int[] _kinds = [.. Kinds().Select((words, kind) => (words, kind)).Where(entry => entry.words.IsMatch(complaint) || (entry.kind == 5 && SaysNeighbour(complaint)))
        .Select(entry => entry.kind).Where(kind => kind != 2 || !new ComplaintOfWires(physics, complaint).NamesIsland)];

    private readonly ComplaintOfWires _ofWires = new(physics, complaint);

    /// <summary>Whether it speaks of somebody else's mower.</summary>
    public bool NamesNeighbour { get; } = SaysNeighbour(complaint);

    /// <summary>Whether the mower is said to be locked, or to show an error.</summary>
    public bool SaysLocked { get; } = Locked().IsMatch(complaint);

    /// <summary>Whether its words fit any kind.</summary>
    public bool Says => _kinds.Length > 0 || _ofWires.Says;

    /// <summary>Probability of such words under a condition, up to a factor that is the same for all; 1 when they fit no kind.</summary>
    public double Likelihood(Condition condition)
    {
        if (!Says)
        {
            return 1;
        }

        double ofWires = _ofWires.Likelihood(condition, true);
        if (_kinds.Length == 0)
        {
            return ofWires;
        }

        double sum = 0;
        int causes = 0;
        for (int cause = 0; cause <= (int)CauseKind.None; cause++)
        {
            if (condition.Has((CauseKind)cause))
            {
                // Of two causes either is complained of.
                double[] shares = Shares((CauseKind)cause, condition);
                sum += _kinds.Sum(kind => Weight(kind) * shares[kind]) / _kinds.Sum(Weight);
                causes++;
            }
        }

        return ofWires * (causes > 0 ? sum / causes : 1.0 / Kinds().Length);
    }

    /// <summary>When it fails says more than what it then does; whom it comes from says the rest.</summary>
    private double Weight(int kind) => kind == 5 && !NamesNeighbour ? 3 : 1;

    // In the order of the shares below.
    private static Regex[] Kinds() =>
        [Dark(), NoSignal(), TurnsBackEarly(), CrossesTheWire(), ThinksOutside(), NowAndThen(), Erratic(), Flat(), Locked(), AllSeemsWell()];

    /// <summary>Share of the kinds among an owner's complaints of a cause: dark, no signal, turns back early, crosses the wire, thinks it is outside, now and
    /// then, erratic, flat battery, locked or an error shown, all seems well.</summary>
    private double[] Shares(CauseKind cause, Condition condition) => cause switch
    {
        CauseKind.NoMains or CauseKind.Supply or CauseKind.Station => [0.44, 0.33, 0.04, 0.03, 0.03, 0.03, 0.03, 0.05, 0.01, 0.01],
        CauseKind.Open or CauseKind.SeriesResistance => InSeries(condition.ExtraOhms),
        CauseKind.Leak => [0.02, 0.07, 0.13, 0.52, 0.05, 0.09, 0.06, 0.02, 0.01, 0.03],
        CauseKind.LeakPair => [0.02, 0.06, 0.09, 0.58, 0.05, 0.08, 0.08, 0.01, 0.01, 0.02],
        CauseKind.EndsSwapped => [0.02, 0.13, 0.08, 0.08, 0.53, 0.04, 0.08, 0.01, 0.02, 0.01],
        CauseKind.Crosstalk => [0.02, 0.08, 0.12, 0.12, 0.12, 0.33, 0.17, 0.01, 0.02, 0.01],
        CauseKind.Layout => [0.02, 0.08, 0.68, 0.05, 0.04, 0.05, 0.04, 0.01, 0.01, 0.02],
        CauseKind.Unsteady => [0.02, 0.16, 0.08, 0.04, 0.03, NamesNeighbour ? 0.15 : 0.57, 0.05, 0.02, 0.01, 0.02],
        CauseKind.ShortCircuit => [0.02, 0.05, 0.08, 0.6, 0.05, 0.06, 0.1, 0.01, 0.01, 0.02],
        CauseKind.Guide => [0.03, 0.11, 0.11, 0.09, 0.07, 0.26, 0.23, 0.05, 0.01, 0.04],
        CauseKind.Charging => [0.08, 0.19, 0.04, 0.02, 0.03, 0.17, 0.06, 0.38, 0.02, 0.01],
        CauseKind.Receiver => [0.03, 0.57, 0.1, 0.05, 0.07, 0.07, 0.07, 0.01, 0.02, 0.01],
        CauseKind.Drive => [0.03, 0.06, 0.1, 0.07, 0.05, 0.09, 0.54, 0.03, 0.02, 0.01],
        CauseKind.None => [0.03, 0.06, 0.06, 0.04, 0.03, 0.14, 0.06, 0.02, 0.02, 0.54],
        _ => condition.Locked ? [0.08, 0.15, 0.04, 0.03, 0.03, 0.1, 0.06, 0.08, 0.4, 0.03] : [0.08, 0.13, 0.12, 0.13, 0.12, 0.18, 0.16, 0.03, 0.02, 0.03],
    };

    /// <summary>A mower that hears the wire beside it comes out; one that does not says so.</summary>
    private double[] InSeries(double extraOhms)
    {
        double heard = 1 / (1 + Math.Exp(-physics.LogMarginAtWire(extraOhms, 1) / 0.3));
        return [0.03, 0.13 + (0.49 * (1 - heard)), 0.1 + (0.5 * heard), 0.07, 0.04, 0.05, 0.05, 0.01, 0.01, 0.02];
    }

    private static bool SaysNeighbour(string complaint) => Neighbour().IsMatch(NeighboursGround().Replace(complaint, ""));

    // Beginnings of words.
    [GeneratedRegex(@"\b((?<!display (is |stays )?)dark|no (power|light|lamp)|nothing (is )?(lit|lights?)|station (is )?(dead|dark)|lamp (is )?(off|out)|(?<!display (ist |bleibt )?)dunkel|nichts leuchtet|(kein|ohne) strom|lampe (ist )?aus|leuchtet nicht)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Dark();

    [GeneratedRegex(@"\b(no (\w+ )?signal|signal (is )?(gone|lost|missing)|blink|kein(e|en)? (\w+)?signal|signal (fehlt|ist weg))", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NoSignal();

    [GeneratedRegex(@"\b(middle(?! of (last|this|next|the (week|month|day|night|season|summer)))|mid-?lawn|(too|turns back) early|turns back|hugs?|edges?|only near|along the wire|mitte(?! (der|letzter|dieser|nächster|vergangener) woche|  ?(januar|februar|märz|april|mai|juni|juli|august|september|oktober|november))|zu früh|kehrt um|dreht um|nur am|am rand|am draht entlang)\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex TurnsBackEarly();

    [GeneratedRegex(@"\b(over the wire|(over|off|past|beyond) the (edge|border|line)|(drove|drives|driving|went|goes|ran|runs|rolled|rolls) (right |straight )?(off|out of|into|onto|through|down) (a|the|our|his|her|their|next|my|it|neighbou?r\w*)\b|(escape|climb|cross)\w*|(leaves|left|leaving) (the|its|his|her|our|my) (lawn|garden|plot|area|yard)|fence|shed|runs away|über (den|die) (draht|rand|kante|grenze|begrenzung)|(fährt|fuhr|rollt|rollte|läuft|lief) \w* ?(hinaus|raus|davon|(in|auf|zu) (den|die|das|unsere?n?|nachbars?)|(ins|zum|zur) \w)|überfähr|verlässt|zaun|schuppen|haut ab|büxt aus)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex CrossesTheWire();

    [GeneratedRegex(@"\b(outside|außerhalb|ausserhalb)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex ThinksOutside();

    [GeneratedRegex(@"\b(at times|sometimes|now and then|oddly|some (days|mornings|nights|times)|(on )?most (mornings|afternoons|evenings|nights|days)|every time it (rains|freezes)|(after|when|whenever|since) (the |it )?rain|cold nights|(goes|runs|works) again|by itself|(on and off|off and on)|comes? and goes?|by noon|intermittent|each time it (rains|freezes)|(when(ever)?|if|once) (the ground is|it is|it gets|it's) (wet|damp|cold)|after (the |a )?(dew|frost|shower)|manchmal|zeitweise|hin und wieder|ab und zu|mal (läuft|geht|fährt|mäht)|von (selbst|allein)|(bei|nach) (jedem |dem )?(regen|frost|nässe)|an manchen tagen|(seit|bei) (dem |jedem )?tau|wenn es (regnet|nass|feucht|friert|kalt))", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NowAndThen();

    [GeneratedRegex(@"\b(circl|in circles|random|zig-?zag|wobbl|im kreis|kreuz und quer|planlos|zufällig)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Erratic();

    [GeneratedRegex(@"\b(batter(y|ies)|charg(e|es|ing)|(runs|goes|is|always|again) (flat|empty)|flat (every|again|in|after|by|since)|display (is |stays )?(dead|dark|blank)|dead display|akku|lädt|laden|aufladen|aufgeladen|ladekontakt|leer|display (ist |bleibt )?(dunkel|schwarz|aus))", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Flat();

    [GeneratedRegex(@"\b(pin|(a|the|for|wrong) code|lock(ed|s)? ?(sign|symbol|itself)?\b|error|beeps|anti-?theft|gesperrt|sperrt|code|fehler(code|meldung|nummer)?|piept|diebstahl)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Locked();

    [GeneratedRegex(@"\b(please check|(wants?|want) (it|everything|all)? ?checked|seems (fine|all right|ok)|mower works|works (fine|well)|just a check|bitte (einmal |nur |alles )?(prüfen|durchsehen)|durchsicht|läuft (gut|einwandfrei)|scheint in ordnung)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex AllSeemsWell();

    [GeneratedRegex(@"\b(neighbou?r|next door|nachbar)", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Neighbour();

    // Where it drove to: the neighbour's bed is no neighbour's mower.
    [GeneratedRegex(@"\b(neighbou?rs?['’]?s?|next door['’]?s?) (\w+ )?(bed|border|drive|flower|garden|grass|ground|hedge|land|lawn|patio|pavement|plot|pond|pool|propert|rose|side|terrace|veg|yard)|\b(into|onto|over to) (the |our |my )?(neighbou?r|next door)|\bnachbar(s|n|lich\w*)? ?(\w+ )?(beet|garten|grund|hecke|rasen|seite|teich|terrasse|wiese|einfahrt)|\b(in|auf|zu[mr]?|beim?|ins) (unser\w* |de[nrm] |die )?nachbar(n|s|in)?\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex NeighboursGround();
}
