namespace Swardloop.Model.Words;

/// <summary>Everything that advice says to a person, by meaning. A <see cref="Phrasebook"/> holds the wording.</summary>
public enum Phrase
{
#pragma warning disable CS1591 // The English phrasebook shows what each one is, with its gaps.
    // Compass, in steps of 45° clockwise from north: the order is relied on.
    North, NorthEast, East, SouthEast, South, SouthWest, West, NorthWest,

    // Landmarks. The ordinals follow each other: the order is relied on.
    Station, TerminalA, TerminalB, Corner, InnerCorner, Ordinal1, Ordinal2, Ordinal3, OrdinalMore, NthFromA,
    Island, NumberedIsland, IslandCorner, TurnOff, Joint,

    // Places.
    At, AtLandmark, StraightFrom, AlongClockwise, AlongCounterClockwise, AlongPast, AlongBefore, BeyondJoint, ShortOfJoint,
    Beside, LinkOut, LinkBack, Stretch, StretchFrom, OnGuide, StretchOnGuide, AlongFromA, StretchAlongFromA, CourseHeard,

    // Causes, in the order of CauseKind: the order is relied on.
    CauseNoMains, CauseSupply, CauseStation, CauseEndsSwapped, CauseSeriesResistance, CauseOpen, CauseLeak, CauseLeakPair,
    CauseLayout, CauseCrosstalk, CauseReceiver, CauseDrive, CauseShortCircuit, CauseUnsteady, CauseGuide, CauseCharging,
    CauseUnmodelled, CauseNone, CausePair, CauseTwice,

    // How sure, from hardly to all but certain.
    AllButCertain, VeryLikely, Likely, AsLikelyAsNot, Possible, Unlikely, VeryUnlikely, UnderPercent, OverPercent,

    // Why a step: clauses and the sentence they make.
    WhyCures, WhyTellsApart, WhyTellsWhether, WhyNarrows, WhySaves, WhyBestWayOn, WhyAsksAgain, WhyLooksAgain, ClauseAnd, Or,

    // What was seen.
    SeenOutletLive, SeenOutletDead, SeenSupply, SeenLampOff, SeenLampNormal, SeenLampFlicker, SeenLampAlarm,
    AtWire, MidLawn, SeenStartAtWire, SeenStartMidLawn, Runs, NoSignal, ThinksOutside, SeenReach, SeenReachAtLeast,
    SeenFollowSteady, SeenFollowWavering, SeenFollowLost, SeenRespected, SeenCrossed, NearMetal,
    SeenLoop, SeenEarth, SeenInsulation, SeenEarthRatio, SeenEndCapacitance, SeenSplit, SeenBypass,
    SeenTone, ToneStrong, ToneWeak, ToneNone, SeenEcho, EchoOpen, EchoShort, EchoNone, SeenDamage, SeenNothing,
    SeenTestLoop, SeenOtherMower, SeenNeighbourCured, SeenNeighbourSame, SeenCheckRuns, SeenCheckSame,
    SeenSupplyLoaded, SeenAcRatio, SeenGuide, SeenNamedGuide, SeenJointDrop, SeenPinProbe,
    SeenGradientAhead, SeenGradientBehind, SeenGradientHere, SeenGradientNothing, SeenGradientReading,
    SeenEndsSound, SeenEndsLoose, SeenEndsCorroded, SeenWiggleSteady, SeenWiggleJumps, SeenCharges, SeenDoesNotCharge,
    SeenNotDone, SeenUnder, GroundWet, GroundDry, GroundFrost, WireMoved,
    SeenRepair, SeenRepairFound, SeenByOwner, WithPlace, OverRange,

    // The sheet of advice.
    SheetKnown, SheetNothingYet, SheetLikely, SheetPlace, SheetNext, SheetElse, SheetDisagreement, SheetRepeat, SheetUnmodelled, SheetConductorUnknown,
    SheetFinished, SheetNobody, SheetExcess, SheetInterval, SheetVerdict, SheetMore, SheetWho, SheetCost, SheetCostInAll, SheetWhy, SheetFirst, SheetThen,
    SheetAlternative, Technician, Owner, TimesAsLikely, TimesLessLikely, MoreThan, TellsLittle,
#pragma warning restore CS1591
}
