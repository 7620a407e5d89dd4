namespace Swardloop.Core.Diagnosis;

/// <summary>Probability that a change of the yard ends a fault, by the catalogue's own rules and a stated chance that work goes wrong.</summary>
internal sealed class RepairModel(YardPhysics physics)
{
    private const double JointReach = Yards.Loop.JointReachMetres;

    /// <summary>Words for "there was nothing to mend", in the languages of the screens, each as a whole word; they outdo the others ("no damage").</summary>
    private static readonly string[] NothingFound =
    [
        "nothing", "sound", "healthy", "intact", "no", "none", "ok", "okay", "fine", "undamaged", "unbroken",
        "nichts", "ordnung", "heil", "kein", "keine", "keinen", "unbeschädigt",
    ];

    /// <summary>Beginnings of words that leave no doubt that something was mended.</summary>
    private static readonly string[] FaultFound =
    [
        "broke", "break", "bad", "corro", "damage", "cut", "torn", "rust", "loose", "worn", "crack", "chafe", "leak", "bare", "open", "resistance",
        "bruch", "gebroch", "riss", "rost", "korro", "schad", "schäd", "beschäd", "lose", "locker", "blank",
    ];

    /// <summary>How much likelier the note on a repair of the wire is when a fault was there than when none was; 1 when it says nothing or the repair
    /// shows no wire.</summary>
    public static double FoundRatio(Observation.RepairDone done)
    {
        string found = done.Found?.Trim() ?? "";
        if (found.Length == 0 || done.Repair is not (StepKind.MendSpan or StepKind.RemakeJoint or StepKind.RemakeTerminals or StepKind.RenewLoop))
        {
            return 1;
        }

        string[] words = found.Split([' ', ',', '.', ';', ':', '-', '/', '(', ')', '!'], StringSplitOptions.RemoveEmptyEntries);
        return Array.Exists(words, word => NothingFound.Contains(word, StringComparer.OrdinalIgnoreCase)) ? StatedProbabilities.FoundSaysNothing / StatedProbabilities.SoundSaysNothing
            : Array.Exists(words, word => Array.Exists(FaultFound, start => word.StartsWith(start, StringComparison.OrdinalIgnoreCase))) ? StatedProbabilities.FoundSaysFault / StatedProbabilities.SoundSaysFault
            : StatedProbabilities.UnclearWords;
    }

    /// <summary>For causes that do not lie at a place.</summary>
    public static double Cures(StepKind repair, CauseKind kind)
    {
        // Contacts are cleaned first; a battery that is replaced with them ends what is left.
        if (kind == CauseKind.Charging)
        {
            return repair switch { StepKind.CleanContacts => 0.5, StepKind.ReplaceBattery => 0.95, StepKind.ReplaceStation => 0.05, _ => 0 };
        }

        bool cures = (repair, kind) is (StepKind.RestoreMains, CauseKind.NoMains) or (StepKind.ReplaceSupply, CauseKind.Supply) or (StepKind.ReplaceStation, CauseKind.Station)
            or (StepKind.RemakeTerminals or StepKind.SwapEnds, CauseKind.EndsSwapped) or (StepKind.RelayLayout, CauseKind.Layout) or (StepKind.RecodeStation, CauseKind.Crosstalk)
            or (StepKind.ServiceReceiver, CauseKind.Receiver) or (StepKind.ServiceDrive, CauseKind.Drive) or (StepKind.AskMaker, CauseKind.Unmodelled);
        return cures ? StatedProbabilities.RepairWorks : 0;
    }

    /// <summary>For a fault of the wire at a place. Opening a joint to split the loop remakes it and so counts as its repair.</summary>
    public double Cures(Observation change, Place place)
    {
        const double Works = StatedProbabilities.RepairWorks;
        if (change.Wire is not null)
        {
            return 0;
        }

        switch (change)
        {
            case Observation.SplitResistance split:
                return AtJoint(split.AtMetres, place) ? Works : 0;

            case Observation.RepairDone { Repair: StepKind.RemakeTerminals }:
                return place.Kind == PlaceKind.Terminal ? Works : 0;

            case Observation.RepairDone { Repair: StepKind.RemakeJoint, AtMetres: { } at }:
                return AtJoint(at, place) ? Works : 0;

            case Observation.RepairDone { Repair: StepKind.MendSpan, FromMetres: { } from, ToMetres: { } to }:
                return Works * PlaceTestModel.Overlap(place, Math.Min(from, to), Math.Max(from, to));

            case Observation.RepairDone { Repair: StepKind.RenewLoop }:
                return Works;

            case Observation.RepairDone { Repair: StepKind.RelayLayout }:
                return 0.5; // New wire where the course changed, old wire elsewhere.

            default:
                return 0;
        }
    }

    private bool AtJoint(double atMetres, Place place) =>
        (place.Kind == PlaceKind.Joint && Math.Abs(place.AtMetres - atMetres) <= JointReach)
        || (place.Kind == PlaceKind.Terminal && Math.Abs(place.AtMetres - Math.Clamp(atMetres, 0, physics.LengthMetres)) <= JointReach
            && physics.Yard.Loop.JointNear(atMetres) is null && (atMetres <= JointReach || atMetres >= physics.LengthMetres - JointReach));
}
