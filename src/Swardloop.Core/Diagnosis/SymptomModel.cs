using Swardloop.Core.Reach;

using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>Probability of what people see, given what is wrong: lamp, outlet, supply, mower, swaps. From the field wherever it
/// reaches, else from stated probabilities. None of these depends on where along the wire a fault lies.</summary>
internal sealed class SymptomModel(YardPhysics physics)
{
    /// <summary>Spread of "heard or not heard" about the computed edge, in natural logarithms of field.</summary>
    private const double EdgeSoftness = 0.12;

    /// <summary>A lamp and an outlet are plainer to see than what a mower does: so much of the usual share of mistakes. Judgement, no source.</summary>
    private const double PlainToSee = 0.4;

    private static readonly double[] AnyLamp = [0.25, 0.25, 0.25, 0.25];

    /// <summary>Whether the observation belongs to this model.</summary>
    public static bool Covers(StepKind step) => step is StepKind.OutletCheck or StepKind.SupplyVoltage or StepKind.StationLamp
        or StepKind.MowerStart or StepKind.MowerReach or StepKind.FollowWire or StepKind.SubstituteLoop or StepKind.SubstituteMower
        or StepKind.NeighbourOff or StepKind.MowerCheck or StepKind.ChargeCheck;

    /// <summary>Probability (or, for distances and volts, density) of an observation.</summary>
    /// <param name="seen">What was seen.</param>
    /// <param name="condition">What is wrong at that moment.</param>
    /// <param name="reachFactor">The mower's true reach constant over the profile's.</param>
    public double Likelihood(Observation seen, Condition condition, double reachFactor)
    {
        if (condition.Has(CauseKind.Unsteady) && seen is not Observation.MowerCheck)
        {
            const double Made = UnsteadyContact.MadeShare;
            Condition sound = condition.Without(CauseKind.Unsteady), broken = sound.With(Condition.Of(CauseKind.Open, double.PositiveInfinity));
            return (Made * Likelihood(seen, sound, reachFactor)) + ((1 - Made) * Likelihood(seen, broken, reachFactor));
        }

        (double likelihood, double ifMistaken) = seen switch
        {
            Observation.OutletCheck o => (Two(o.Live, condition.Has(CauseKind.NoMains) ? 0.01 : 0.995), 0.5),
            Observation.SupplyVoltage o => (SupplyVolts(o.Volts / o.NominalVolts, o.Loaded, condition), 1 / 1.6),
            Observation.StationLamp o => (Lamp(condition)[(int)o.State], 0.25),
            Observation.MowerStart o => (Start(o.Place, condition, reachFactor)[(int)o.Outcome], 1 / 3.0),
            Observation.MowerReach o => Reach(o, condition, reachFactor),
            Observation.FollowWire o => (Follow(condition, reachFactor)[(int)o.Outcome], 1 / 3.0),
            Observation.SubstituteLoop o => (Two(o.Runs, RunsOnTestLoop(condition)), 0.5),
            Observation.SubstituteMower o => (Two(o.Runs, OtherMowerRuns(condition, reachFactor)), 0.5),
            Observation.NeighbourOff o => (Two(o.Cured, condition.Has(CauseKind.Crosstalk) ? 0.95 : 0.02), 0.5),
            Observation.MowerCheck o => (Two(o.Runs, Runs(condition)), 0.5),
            Observation.ChargeCheck o => (Two(o.Charges, ChargeCheckTest.Charges(condition)), 0.5),
            Observation.NotDone o => (NotDone(o.By, condition), NotDone(o.By, condition)),
            _ => throw new ArgumentException("Not a symptom.", nameof(seen)),
        };
        double mistaken = seen.By == Person.Owner ? StatedProbabilities.OwnerError : StatedProbabilities.TechnicianError;
        if (seen is Observation.StationLamp or Observation.OutletCheck or Observation.MowerCheck)
        {
            mistaken *= PlainToSee;
        }

        double answered = seen is Observation.MowerStart or Observation.MowerReach or Observation.FollowWire or Observation.SubstituteLoop ? 1 - NotDone(seen.By, condition) : 1;
        return answered * (((1 - mistaken) * likelihood) + (mistaken * ifMistaken));
    }

    /// <summary>Probability that a test which needs a driving mower can't be done.</summary>
    private static double NotDone(Person by, Condition condition) => condition.Locked ? StatedProbabilities.LockedIsNotDone
        : by == Person.Owner ? StatedProbabilities.OwnerDoesNot : StatedProbabilities.TechnicianDoesNot;

    /// <summary>A number that stands for an answer: equal where two people would say that they saw the same.</summary>
    public static double ValueOf(Observation seen) => seen switch
    {
        Observation.OutletCheck o => o.Live ? 1 : 0,
        Observation.SupplyVoltage o => Math.Round(4 * o.Volts / o.NominalVolts),
        Observation.StationLamp o => (int)o.State,
        Observation.MowerStart o => (int)o.Outcome,
        Observation.MowerReach o => o.AtLeast ? -1 : Math.Round(o.DistanceMetres),
        Observation.FollowWire o => (int)o.Outcome,
        Observation.SubstituteLoop o => o.Runs ? 1 : 0,
        Observation.SubstituteMower o => o.Runs ? 1 : 0,
        Observation.NeighbourOff o => o.Cured ? 1 : 0,
        Observation.MowerCheck o => o.Runs ? 1 : 0,
        Observation.ChargeCheck o => o.Charges ? 1 : 0,
        Observation.NotDone => 1,
        _ => throw new ArgumentException("Not a symptom.", nameof(seen)),
    };

    /// <summary>Probability that the mower mows as it should.</summary>
    public static double Runs(Condition condition) =>
        condition.Present == 0 ? 0.997
        : condition.Present == (1 << (int)CauseKind.None) ? 0.97
        : condition.Present == (1 << (int)CauseKind.Unsteady) ? 0.45
        : 0.015;

    private static double Two(bool first, double probabilityOfFirst) => first ? probabilityOfFirst : 1 - probabilityOfFirst;

    /// <summary>Density over volts / nominal, 0 to 1.6: near 1 when alive, an unloaded supply a little high; near 0 when dead. A tired supply reads well
    /// with nothing to feed and sags with the station on it; a good one sags, too, where a dead station draws too much.</summary>
    private static double SupplyVolts(double ratio, bool loaded, Condition condition)
    {
        double alive = Normal(ratio, loaded ? 1 : 1.05, 0.08), none = Normal(ratio, 0, 0.05) * 2, sags = ratio < 0.9 ? 1 / 0.9 : 0;
        double dead = (0.8 * none) + (0.2 * sags);
        return condition.Has(CauseKind.NoMains) ? (0.97 * dead) + (0.03 * alive)
            : condition.Has(CauseKind.Supply) ? (0.97 * (condition.Tired ? (loaded ? sags : alive) : dead)) + (0.03 * alive)
            : condition.Has(CauseKind.Station) && loaded ? (0.93 * alive) + (0.04 * sags) + (0.03 * dead)
            : (0.97 * alive) + (0.03 * dead);
    }

    private double[] Lamp(Condition condition)
    {
        if (condition.Has(CauseKind.Supply) && condition.Tired && !condition.Has(CauseKind.NoMains))
        {
            return [0.5, 0.2, 0.25, 0.05];
        }

        if (condition.Has(CauseKind.NoMains) || condition.Has(CauseKind.Supply))
        {
            return [0.96, 0.02, 0.01, 0.01];
        }

        if (condition.Has(CauseKind.Station))
        {
            const double Lit = StatedProbabilities.DeadStationIsLit;
            return [(1 - Lit) * 0.96, Lit + ((1 - Lit) * 0.02), (1 - Lit) * 0.01, (1 - Lit) * 0.01];
        }

        if (!physics.Yard.Station.HasContinuityLamp)
        {
            return [0.02, 0.94, 0.02, 0.02];
        }

        // Alarm past the limit, within about a factor of two either way: "about", and it varies. Flicker somewhere below.
        double decades = Math.Log10((physics.Budget.MeanOhms + condition.ExtraOhms) / physics.Yard.Station.LampAlarmOhms);
        double alarm = 0.96 * Logistic(decades / 0.12);
        double flicker = (1 - alarm) * (0.02 + (0.4 * Logistic((decades + 0.8) / 0.2)));
        double[] lamp = [0.01, 0.99 - alarm - flicker, flicker, alarm];

        // What is not in the book may make the lamp odd; a wire that it watches still shows on it.
        return condition.Has(CauseKind.Unmodelled) ? [.. lamp.Zip(AnyLamp, (sound, any) => (0.9 * sound) + (0.1 * any))] : lamp;
    }

    private double[] Start(StartPlace place, Condition condition, double reachFactor)
    {
        if (!condition.SignalIsMade)
        {
            return [0.02, 0.95, 0.03];
        }

        if (condition.Locked)
        {
            return [0.05, 0.9, 0.05];
        }

        if (condition.Has(CauseKind.Receiver))
        {
            return [0.1, 0.8, 0.1];
        }

        double logMargin = place == StartPlace.AtWire
            ? physics.LogMarginAtWire(condition.ExtraOhms, reachFactor)
            : physics.LogMarginMidLawn(condition.ExtraOhms, reachFactor);
        double heard = Logistic(logMargin / EdgeSoftness);
        if (condition.Has(CauseKind.Layout) && place == StartPlace.MidLawn)
        {
            heard = Math.Min(heard, 0.2);
        }

        double[] ifHeard = condition.Has(CauseKind.Unmodelled) ? [0.5, 0.37, 0.13]
            : condition.Has(CauseKind.Charging) ? [0.75, 0.2, 0.05]
            : condition.Has(CauseKind.EndsSwapped) ? [0.03, 0.04, 0.93]
            : condition.Has(CauseKind.Crosstalk) ? [0.45, 0.2, 0.35]
            : condition.Has(CauseKind.Drive) ? [0.8, 0.12, 0.08]
            : condition.Has(CauseKind.LeakPair) ? [0.93, 0.04, 0.03]
            : [0.965, 0.02, 0.015];
        return [(heard * ifHeard[0]) + ((1 - heard) * 0.03), (heard * ifHeard[1]) + ((1 - heard) * 0.93), (heard * ifHeard[2]) + ((1 - heard) * 0.04)];
    }

    private (double Likelihood, double IfMistaken) Reach(Observation.MowerReach seen, Condition condition, double reachFactor)
    {
        // Densities over metres, about ten metres wide at most; "covers everything" is a lump of probability of its own.
        const double Flat = 0.1;
        double nothing = Normal(seen.DistanceMetres, 0, 0.4) * 2;
        if (!condition.SignalIsMade || condition.Locked)
        {
            return (seen.AtLeast ? 0.03 : 0.97 * nothing, Flat);
        }

        if (condition.Has(CauseKind.Receiver))
        {
            // Deaf, or hard of hearing.
            return (seen.AtLeast ? 0.03 : 0.97 * ((0.65 * nothing) + (0.35 * Normal(seen.DistanceMetres, 0, 1.6) * 2)), Flat);
        }

        ReachDistance reach = physics.Reach(condition.ExtraOhms, reachFactor);

        // Nobody reads less than nothing: what lies below belongs to what lies above.
        double spread = 0.35 + (0.1 * reach.Metres), above = NormalDistribution.Cumulative(reach.Metres / spread);
        double turnsBack = (0.9 * Normal(seen.DistanceMetres, reach.Metres, spread) / above) + (0.1 * Flat);
        if (condition.Has(CauseKind.EndsSwapped))
        {
            // It believes itself outside. Some do not leave the wire; others are pushed or drive on, and hear it as far as ever.
            return (seen.AtLeast ? (reach.CoversEverything ? 0.4 : 0.05) : (0.4 * nothing) + (0.2 * Flat), Flat);
        }

        if (reach.CoversEverything && (condition.Has(CauseKind.Drive) || condition.Has(CauseKind.Crosstalk) || condition.Has(CauseKind.Unmodelled)))
        {
            return (seen.AtLeast ? 0.45 : (0.2 * nothing) + (0.35 * Flat), Flat);
        }

        double covers = reach.CoversEverything ? (condition.Has(CauseKind.Layout) ? 0.1 : 0.94) : 0.03;
        return (seen.AtLeast ? covers : (1 - covers) * (reach.CoversEverything ? Flat : turnsBack), Flat);
    }

    private double[] Follow(Condition condition, double reachFactor)
    {
        if (!condition.SignalIsMade || condition.Locked)
        {
            return [0.02, 0.05, 0.93];
        }

        if (condition.Has(CauseKind.Receiver))
        {
            return [0.15, 0.3, 0.55];
        }

        if (condition.Has(CauseKind.Drive))
        {
            return [0.35, 0.5, 0.15];
        }

        if (condition.Has(CauseKind.Guide))
        {
            return [0.2, 0.2, 0.6];
        }

        if (condition.Has(CauseKind.EndsSwapped))
        {
            return [0.25, 0.3, 0.45];
        }

        if (condition.Has(CauseKind.Crosstalk) || condition.Has(CauseKind.Unmodelled))
        {
            return [0.4, 0.4, 0.2];
        }

        // Steady while the wire itself is loud, lost where it can't be heard half a metre away; wavering between and on weak lawns.
        double atWire = Logistic((physics.LogMarginAtWire(condition.ExtraOhms, reachFactor) - 0.3) / 0.3);
        double midLawn = Logistic(physics.LogMarginMidLawn(condition.ExtraOhms, reachFactor) / 0.3);
        double steady = (0.92 * midLawn) + (0.5 * (1 - midLawn));
        double wavering = (0.06 * midLawn) + (0.42 * (1 - midLawn));
        if (condition.Has(CauseKind.LeakPair))
        {
            (steady, wavering) = (0.7 * steady, wavering + (0.3 * steady));
        }

        return [
            (atWire * steady) + ((1 - atWire) * 0.05),
            (atWire * wavering) + ((1 - atWire) * 0.25),
            (atWire * (1 - steady - wavering)) + ((1 - atWire) * 0.7),
        ];
    }

    private static double RunsOnTestLoop(Condition condition) =>
        !condition.SignalIsMade || condition.Locked ? 0.03
        : condition.Has(CauseKind.Receiver) ? 0.06
        : condition.Has(CauseKind.Drive) ? 0.5
        : condition.Has(CauseKind.EndsSwapped) ? 0.85
        : condition.Has(CauseKind.Crosstalk) ? 0.6
        : condition.Has(CauseKind.Unmodelled) ? 0.6
        : condition.Has(CauseKind.Charging) ? 0.85
        : 0.97;

    private double OtherMowerRuns(Condition condition, double reachFactor)
    {
        if (!condition.SignalIsMade)
        {
            return 0.02;
        }

        const int MowerOnly = (1 << (int)CauseKind.Receiver) | (1 << (int)CauseKind.Drive) | (1 << (int)CauseKind.Charging);
        const int Unknown = 1 << (int)CauseKind.Unmodelled;
        if ((condition.Present & ~(MowerOnly | Unknown)) == 0 && condition.Present != Unknown)
        {
            return 0.97;
        }

        if (condition.Present == Unknown)
        {
            return condition.Locked ? 0.95 : 0.6;
        }

        if (condition.Present == (1 << (int)CauseKind.None))
        {
            return 0.9;
        }

        // It mows as the first did, and does not come home either: some call that running.
        if (condition.Present == (1 << (int)CauseKind.Guide))
        {
            return 0.3;
        }

        // Another mower of the same make stops where the first did; where the signal suffices after all, it runs.
        bool wireOnly = condition.Has(CauseKind.SeriesResistance);
        return wireOnly ? 0.04 + (0.5 * Logistic(physics.LogMarginMidLawn(condition.ExtraOhms, reachFactor) / EdgeSoftness)) : 0.06;
    }

    private static double Normal(double x, double mean, double deviation)
    {
        double z = (x - mean) / deviation;
        return Math.Exp(-z * z / 2) / (deviation * Math.Sqrt(2 * Math.PI));
    }

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-x));
}
