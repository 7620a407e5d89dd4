using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>Every probability that physics does not give, in one place. Unless a line says otherwise its origin is judgement
/// from common practice, no source; workshops refine the causes' frequencies from their own closed cases.</summary>
internal static class StatedProbabilities
{
    // Where wire faults sit: a joint or terminal counts as so many metres of plain wire.
    public const double SeriesJointMetres = 45;
    public const double SeriesJointShareOfSpans = 0.15;
    public const double SeriesTerminalFactor = 0.6;
    public const double OpenJointMetres = 25;

    /// <summary>What comes and goes is a contact rather than a strand in the middle of a wire: a metre of wire counts so much less.</summary>
    public const double UnsteadySpanFactor = 0.3;

    public const double OpenTerminalMetres = 8;
    public const double LeakJointMetres = 12;
    public const double LeakTerminalMetres = 2;

    /// <summary>Where there is metal, a leaking pair is a pair beside it (references P8); the rest is for metal that the file leaves out.</summary>
    public const double LeakPairBesideMetal = 0.96;

    /// <summary>Insulation is damaged along the wire rather than in a joint.</summary>
    public const double LeakPairJointMetres = 3;

    /// <summary>Two independent causes at once, as a share of what one of them alone has.</summary>
    public const double PairPenalty = 0.06;

    // People: how often a plain answer is simply wrong.
    public const double TechnicianError = 0.01;
    public const double OwnerError = 0.05;
    public const double TechnicianReadingWrong = 0.01;
    public const double OwnerReadingWrong = 0.05;

    /// <summary>What the same reading, taken again of the same yard in the same state, counts for; and how many readings all of them count for at most.</summary>
    public const double RepeatWeight = 0.25;
    public const double MostRepeats = 2;

    /// <summary>What an answer without a number, given again about one place in the same state, counts for: what made the first odd mostly makes the second odd.</summary>
    public const double AnswerRepeatWeight = 0.1;

    /// <summary>A file says another wire than lies there: a somewhat longer or thinner one, or another metal altogether.</summary>
    public const double WireOtherThanFiled = 0.06;
    public const double WireOfOtherMetal = 0.03;

    /// <summary>Some resistance in an old joint that harms nobody, beside whatever is wrong.</summary>
    public const double HarmlessResistance = 0.07;

    /// <summary>Of bad supplies, the share that still reads well with nothing to feed and sags under load.</summary>
    public const double SupplyIsTired = 0.25;

    /// <summary>Whoever remakes the ends, lays the wire anew or changes the station plugs them the wrong way round this often.</summary>
    public const double SwappedByRepair = 0.03;

    /// <summary>A station that makes no signal and whose lamp stays lit.</summary>
    public const double DeadStationIsLit = 0.38;

    /// <summary>Of what is not in the book, the share in which everything that can be measured is sound; the rest is odd in any way.</summary>
    public const double UnmodelledReadsSound = 0.8;

    /// <summary>Of what is not in the book, the shares that look like a deaf receiver, like a bad drive, and like a mower that does nothing at all: locked,
    /// an error shown. The rest looks like nothing else.</summary>
    public const double UnmodelledLooksDeaf = 0.2;
    public const double UnmodelledLooksLikeDrive = 0.3;
    public const double UnmodelledIsLocked = 0.35;

    /// <summary>Of mowers that do not charge, the share that is too flat to start.</summary>
    public const double FlatDoesNotStart = 0.5;

    /// <summary>How often a test that needs a driving mower is not done: with one that does nothing, and otherwise by an owner and by a technician.</summary>
    public const double LockedIsNotDone = 0.85;
    public const double OwnerDoesNot = 0.12;
    public const double TechnicianDoesNot = 0.03;

    /// <summary>A repair of the right thing succeeds.</summary>
    public const double RepairWorks = 0.995;

    /// <summary>Mending one of two leaks ends the trouble: "usually".</summary>
    public const double OneLeakOfTwoSuffices = 0.9;

    /// <summary>A garden in which tones mislead.</summary>
    public const double TonesArePoor = 0.3;

    // A person walking a stretch sees the damage that is in it, if there is any to be seen; some sound stretches look damaged.
    public const double DamageIsVisible = 0.35;
    public const double VisibleDamageIsFound = 0.9;
    public const double VisibleDamageIsFoundByOwner = 0.75;
    public const double FalseMarkAtLeast = 0.01;
    public const double FalseMarksPerMetre = 0.0015;
    public const double MarkSeenAgain = 0.4;

    /// <summary>Whoever digs up a fault says so; whoever digs up sound wire rarely does.</summary>
    public const double FoundSaysFault = 0.9;
    public const double SoundSaysFault = 0.02;

    /// <summary>Hardly anyone who dug up a fault writes that the wire was sound; whoever dug up sound wire mostly does.</summary>
    public const double FoundSaysNothing = 0.03;
    public const double SoundSaysNothing = 0.8;

    /// <summary>How much a note in other words speaks for a fault that was found.</summary>
    public const double UnclearWords = 4;

    /// <summary>A break whose ends are wet or dirty and still conducts.</summary>
    public const double BreakIsWet = 0.35;

    /// <summary>Resistance of such a break where none was measured (Ω).</summary>
    public const double UsualWetBreakOhms = 100e3;

    // A harmless leak of tens of kilohms that has nothing to do with the complaint, or comes with it.
    public const double BrokenEndLeaks = 0.4;
    public const double BadContactLeaks = 0.15;
    public const double SoundWireLeaks = 0.03;

    /// <summary>How unevenly a sound wire leaks along its length: standard deviation of the share that leaks on one side of its middle. It leaks
    /// through all of its insulation and a little more at some joints.</summary>
    public const double LeakageUnevenness = 0.2;

    /// <summary>A wire that leaks most at one place that nobody minds, so that an earth ratio across a fault in series shows anything.</summary>
    public const double SoundWireLeaksOddly = 0.35;

    /// <summary>From about this up (Ω) a leak is hardly one that a mower minds.</summary>
    public const double HarmlessLeakOhms = 10_000;

    // Wire crossing, model 5: two leaks beside metal 0.8, a sound yard 0.02. Common practice, no source.
    public const double CrossesAtLeakPair = 0.8;
    public const double CrossesElsewhere = 0.02;

    // Away from the metal, or away from the places where a pair leaks; and the chance that the mower crosses beside the metal wherever one tries.
    public const double CrossesAwayFromMetal = 0.15;
    public const double CrossesAwayFromLeaks = 0.06;
    public const double CrossesAllAlongMetal = 0.2;
    public const double CrossesAtLeak = 0.1;

    /// <summary>A mower whose wire ends are swapped takes the outside for the lawn, wherever it starts at all.</summary>
    public const double CrossesWhenSwapped = 0.6;

    /// <summary>How much likelier another loop's signal disturbs beside the loops that the yard's file knows of than in any yard: hardly any is
    /// unknown, and one of other coding hardly ever disturbs.</summary>
    public static double CrosstalkFactor(IReadOnlyList<NeighbourLoop> neighbours, bool complaintNamesOne) =>
        neighbours.Count == 0 ? (complaintNamesOne ? 4 : 0.25) : neighbours.Any(neighbour => neighbour.SameCoding) ? 5 : 0.8;

    /// <summary>How much likelier two damaged places are where the yard's file knows of metal beside the wire than in any yard: nearly all of them lie
    /// beside metal (<see cref="LeakPairBesideMetal"/>), as two yards of five have it.</summary>
    public static double LeakPairFactor(bool metal) => metal ? 2.2 : 0.12;

    /// <summary>How fault-prone a kind of joint is, against one of unknown style.</summary>
    public static double JointStyleFactor(JointStyle style) => style switch
    {
        JointStyle.Twisted => 1.6,
        JointStyle.Clamp => 1.2,
        JointStyle.Crimped => 0.7,
        JointStyle.Soldered => 0.5,
        JointStyle.Gel => 0.4,
        _ => 1,
    };
}
