using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Steps;

namespace Swardloop.Model.Words;

/// <summary>What was tried and what came of it, in a line.</summary>
public static class ObservationWords
{
    /// <summary>The line.</summary>
    /// <param name="observation">What was seen.</param>
    /// <param name="yard">Where: places are told by its corners and joints.</param>
    /// <param name="words">Wording; English when null.</param>
    /// <param name="steps">Names of repairs; English when null.</param>
    public static string Describe(Observation observation, Yard yard, Phrasebook? words = null, StepTexts? steps = null)
    {
        words ??= Phrasebook.English;
        string seen = Seen(observation, words, steps ?? StepTexts.English);
        if (Place(observation, yard, words) is { } place)
        {
            seen = words.Say(Phrase.WithPlace, seen, place);
        }

        if (observation is Observation.RepairDone { Found: { } found })
        {
            seen = words.Say(Phrase.SeenRepairFound, seen, PlaceWords.OneLine(found));
        }

        if (Ground(observation.Conditions, words) is { Length: > 0 } ground)
        {
            seen = words.Say(Phrase.SeenUnder, seen, ground);
        }

        return observation.By == Person.Owner ? words.Say(Phrase.SeenByOwner, seen) : seen;
    }

    private static string Seen(Observation observation, Phrasebook words, StepTexts steps) => observation switch
    {
        Observation.OutletCheck o => words[o.Live ? Phrase.SeenOutletLive : Phrase.SeenOutletDead],
        Observation.SupplyVoltage o => words.Say(
            o.Loaded ? Phrase.SeenSupplyLoaded : Phrase.SeenSupply, words.Number(o.Volts), words.Number(o.NominalVolts)),
        Observation.StationLamp o => words[o.State switch
        {
            LampState.Off => Phrase.SeenLampOff,
            LampState.Normal => Phrase.SeenLampNormal,
            LampState.Flicker => Phrase.SeenLampFlicker,
            _ => Phrase.SeenLampAlarm,
        }],
        Observation.MowerStart o => words.Say(
            o.Place == StartPlace.AtWire ? Phrase.SeenStartAtWire : Phrase.SeenStartMidLawn,
            words[o.Outcome switch
            {
                StartOutcome.Runs => Phrase.Runs,
                StartOutcome.NoSignal => Phrase.NoSignal,
                _ => Phrase.ThinksOutside,
            }]),
        Observation.MowerReach o => words.Say(o.AtLeast ? Phrase.SeenReachAtLeast : Phrase.SeenReach, words.Length(o.DistanceMetres)),
        Observation.FollowWire o => words[o.Outcome switch
        {
            FollowOutcome.Steady => Phrase.SeenFollowSteady,
            FollowOutcome.Wavering => Phrase.SeenFollowWavering,
            _ => Phrase.SeenFollowLost,
        }],
        Observation.WireCrossing o => Crossing(words[o.Crossed ? Phrase.SeenCrossed : Phrase.SeenRespected], o.NearMetal, words),
        Observation.LoopResistance o => words.Say(Phrase.SeenLoop, words.Ohms(o.Ohms)),
        Observation.EarthResistance o => words.Say(Phrase.SeenEarth, words.Ohms(o.Ohms)),
        Observation.Insulation o => words.Say(Phrase.SeenInsulation, words.Number(o.Megohms, 2), words.Number(o.TestVolts, 0)),
        Observation.EarthRatio o => words.Say(Phrase.SeenEarthRatio, words.Number(o.VoltsA, 3), words.Number(o.VoltsB, 3)),
        Observation.EndCapacitance o => words.Say(Phrase.SeenEndCapacitance, words.Number(o.FaradA * 1e9, 2), words.Number(o.FaradB * 1e9, 2)),
        Observation.SplitResistance o => words.Say(Phrase.SeenSplit, words.Ohms(o.OhmsA), words.Ohms(o.OhmsB)),
        Observation.Bypass o => words.Say(Phrase.SeenBypass, words.Ohms(o.Ohms)),
        Observation.ToneTrace o => words.Say(Phrase.SeenTone, Terminal(o.From, words), words[o.Strength switch
        {
            ToneStrength.Strong => Phrase.ToneStrong,
            ToneStrength.Weak => Phrase.ToneWeak,
            _ => Phrase.ToneNone,
        }]),
        Observation.Reflection o => words.Say(Phrase.SeenEcho, Terminal(o.From, words), Echo(o, words)),
        Observation.Look o => words[o.Damage ? Phrase.SeenDamage : Phrase.SeenNothing],
        Observation.SubstituteLoop o => words.Say(Phrase.SeenTestLoop, words[o.Runs ? Phrase.Runs : Phrase.NoSignal]),
        Observation.SubstituteMower o => words.Say(Phrase.SeenOtherMower, words[o.Runs ? Phrase.Runs : Phrase.NoSignal]),
        Observation.NeighbourOff o => words[o.Cured ? Phrase.SeenNeighbourCured : Phrase.SeenNeighbourSame],
        Observation.MowerCheck o => words[o.Runs ? Phrase.SeenCheckRuns : Phrase.SeenCheckSame],
        Observation.AcRatio o => words.Say(Phrase.SeenAcRatio, words.Number(o.VoltsA, 3), words.Number(o.VoltsB, 3), words.Number(o.Hertz, 0)),
        Observation.GuideResistance { Guide: { } guide } o => words.Say(
            Phrase.SeenNamedGuide, words.Ohms(o.OhmsA), words.Ohms(o.OhmsB), PlaceWords.OneLine(guide)),
        Observation.GuideResistance o => words.Say(Phrase.SeenGuide, words.Ohms(o.OhmsA), words.Ohms(o.OhmsB)),
        Observation.JointDrop o => words.Say(
            Phrase.SeenJointDrop, words.Number(o.Volts * 1e3, 2), words.Number(o.Amperes * 1e3, 1), words.Ohms(o.Volts / o.Amperes)),
        Observation.PinProbe o => words.Say(Phrase.SeenPinProbe, words.Ohms(o.OhmsA), words.Ohms(o.OhmsB)),
        Observation.EarthGradient o => Gradient(o, words),
        Observation.TerminalLook o => words[o.State switch
        {
            TerminalState.Sound => Phrase.SeenEndsSound,
            TerminalState.Loose => Phrase.SeenEndsLoose,
            _ => Phrase.SeenEndsCorroded,
        }],
        Observation.Wiggle o => words[o.Jumps ? Phrase.SeenWiggleJumps : Phrase.SeenWiggleSteady],
        Observation.ChargeCheck o => words[o.Charges ? Phrase.SeenCharges : Phrase.SeenDoesNotCharge],
        Observation.NotDone o => words.Say(Phrase.SeenNotDone, words.InSentence(steps[o.Asked.Kind].Title)),
        Observation.RepairDone o => words.Say(Phrase.SeenRepair, words.InSentence(steps[o.Repair].Title)),
        _ => throw new ArgumentOutOfRangeException(nameof(observation), observation, "Not an observation that has words."),
    };

    /// <summary>Where an observation was made, in words; null where it has no place.</summary>
    private static string? Place(Observation observation, Yard yard, Phrasebook words) => observation switch
    {
        Observation.WireCrossing { AtMetres: { } at } => StepWords.At(yard, observation.Wire, at, words),
        Observation.SplitResistance o => StepWords.At(yard, observation.Wire, o.AtMetres, words),
        Observation.ToneTrace o => StepWords.At(yard, observation.Wire, o.AtMetres, words),
        Observation.Bypass o => StepWords.Stretch(yard, observation.Wire, o.FromMetres, o.ToMetres, words),
        Observation.Look o => StepWords.Stretch(yard, observation.Wire, o.FromMetres, o.ToMetres, words),
        Observation.JointDrop o => StepWords.At(yard, observation.Wire, o.AtMetres, words),
        Observation.PinProbe o => StepWords.At(yard, observation.Wire, o.AtMetres, words),
        Observation.EarthGradient o => StepWords.At(yard, observation.Wire, o.AtMetres, words),
        Observation.Wiggle o => StepWords.At(yard, observation.Wire, o.AtMetres, words),
        Observation.NotDone o => StepWords.Place(o.Asked, yard, words),
        Observation.RepairDone { AtMetres: { } at } => StepWords.At(yard, observation.Wire, at, words),
        Observation.RepairDone { FromMetres: { } from, ToMetres: { } to } => StepWords.Stretch(yard, observation.Wire, from, to, words),
        _ => null,
    };

    private static string Crossing(string seen, bool nearMetal, Phrasebook words) =>
        nearMetal ? words.Say(Phrase.NearMetal, seen) : seen;

    private static string Gradient(Observation.EarthGradient seen, Phrasebook words)
    {
        string where = words[seen.Outcome switch
        {
            GradientOutcome.Ahead => Phrase.SeenGradientAhead,
            GradientOutcome.Behind => Phrase.SeenGradientBehind,
            GradientOutcome.Here => Phrase.SeenGradientHere,
            _ => Phrase.SeenGradientNothing,
        }];
        return seen.Volts is { } volts
            ? words.Say(Phrase.SeenGradientReading, where, words.Number(volts * 1e6, 0), words.Length(seen.SpacingMetres))
            : where;
    }

    private static string Ground(Conditions conditions, Phrasebook words) => string.Join(", ",
        new (Conditions Condition, Phrase Phrase)[]
        {
            (Conditions.Wet, Phrase.GroundWet), (Conditions.Dry, Phrase.GroundDry), (Conditions.Frost, Phrase.GroundFrost), (Conditions.Moved, Phrase.WireMoved),
        }.Where(entry => conditions.HasFlag(entry.Condition)).Select(entry => words[entry.Phrase]));

    private static string Echo(Observation.Reflection echo, Phrasebook words) => echo switch
    {
        { Kind: EchoKind.None } or { DelaySeconds: null } => words[Phrase.EchoNone],
        { Kind: EchoKind.Open } => words.Say(Phrase.EchoOpen, words.Number(echo.DelaySeconds.Value * 1e9, 0)),
        _ => words.Say(Phrase.EchoShort, words.Number(echo.DelaySeconds.Value * 1e9, 0)),
    };

    private static string Terminal(WireEnd end, Phrasebook words) => words[end == WireEnd.A ? Phrase.TerminalA : Phrase.TerminalB];
}
