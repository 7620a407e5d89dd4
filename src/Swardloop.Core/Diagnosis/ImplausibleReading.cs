namespace Swardloop.Core.Diagnosis;

/// <summary>A loop reading that cannot be what it says, whatever is wrong: taken again before anything else is done.</summary>
internal static class ImplausibleReading
{
    /// <summary>A reading below this share of what the wire at least has is not one of the loop: clips touch, or a plug was left in. A short across a double
    /// run reads less, too, but hardly by so much. Judgement, no source.</summary>
    private const double LeastOfBudget = 0.75;

    /// <summary>The mower hears at this many times the distance that the field reaches at such a resistance. Judgement, no source.</summary>
    private const double HeardTooFar = 2;

    /// <summary>The newest reading of the loop, where it is implausible; null: it is not.</summary>
    public static Disagreement? Find(CaseHistory history, YardPhysics physics)
    {
        if (history.LoopReading is not { Ohms: { } shown } reading)
        {
            return null;
        }

        double ohms = shown - reading.LeadOhms, least = physics.Budget.ExpectedOhms.Low;
        bool tooLittle = ohms + (0.5 * reading.Meter.LimitOhms(shown)) + 0.1 < LeastOfBudget * least;
        bool slipOfUnit = ohms / 1000 > 0.7 * least && ohms / 1000 < 1.4 * physics.Budget.ExpectedOhms.High && Heard(history, physics, ohms);
        return tooLittle || slipOfUnit
            ? new(history.After(seen => seen is Observation.LoopResistance) - 1, new(StepKind.LoopResistance) { By = reading.By })
            : null;
    }

    /// <summary>Whether the mower was seen where it could not hear anything at such a resistance.</summary>
    private static bool Heard(CaseHistory history, YardPhysics physics, double ohms)
    {
        double reach = physics.Reach(ohms - physics.Budget.MeanOhms, 1).Metres;
        return history.Since(Math.Max(history.AfterChange, history.AfterRenewal)).Any(seen => seen switch
        {
            Observation.MowerReach o => o.AtLeast ? !physics.Reach(ohms - physics.Budget.MeanOhms, HeardTooFar).CoversEverything : o.DistanceMetres > HeardTooFar * reach,
            Observation.MowerStart { Place: StartPlace.MidLawn, Outcome: StartOutcome.Runs } => physics.LogMarginMidLawn(ohms - physics.Budget.MeanOhms, 1) < -Math.Log(HeardTooFar),
            _ => false,
        });
    }
}
