namespace Swardloop.Core.Diagnosis;

/// <summary>A tone followed along the wire.</summary>
internal sealed partial class PlaceTestModel
{
    /// <summary>Likelihood of all tones together: in good conditions a tone rarely misleads, in poor ones (a hum from mains, dry sand, a bad
    /// stake) it often does, and which it is holds for all of them.</summary>
    /// <param name="tones">What was heard where.</param>
    /// <param name="kind">The wire fault still there; <see langword="null"/>: none.</param>
    /// <param name="place">Where it is.</param>
    /// <param name="wet">A break that conducts a little.</param>
    public static double ToneLikelihood(CaseEvidence.Item[] tones, CauseKind? kind, Place place, bool wet)
    {
        double good = 1, poor = 1;
        foreach (CaseEvidence.Item item in tones)
        {
            Observation.ToneTrace tone = (Observation.ToneTrace)item.Seen;
            good *= item.Weighted(InGoodConditions(tone, kind, place.AtMetres, wet));
            poor *= item.Weighted(InPoorConditions(tone, kind, place.AtMetres, wet));
        }

        return Tones(good, poor);
    }

    private static double Tones(double good, double poor) => ((1 - StatedProbabilities.TonesArePoor) * good) + (StatedProbabilities.TonesArePoor * poor);

    private static double InGoodConditions(Observation.ToneTrace seen, CauseKind? kind, double at, bool wet) =>
        (0.97 * Tone(seen, kind, at, wet)) + (0.03 * ToneInPoorConditions(seen));

    private static double InPoorConditions(Observation.ToneTrace seen, CauseKind? kind, double at, bool wet) =>
        (0.45 * Tone(seen, kind, at, wet)) + (0.55 * ToneInPoorConditions(seen));

    private static double ToneInPoorConditions(Observation.ToneTrace seen) => seen.Strength switch
    {
        ToneStrength.Strong => 0.4,
        ToneStrength.Weak => 0.3,
        _ => 0.3,
    };

    private static double Tone(Observation.ToneTrace seen, CauseKind? kind, double at, bool wet)
    {
        bool beyond = seen.From == WireEnd.A ? seen.AtMetres > at : seen.AtMetres < at;
        ReadOnlySpan<double> outcome = (kind, beyond, wet) switch
        {
            (CauseKind.Open, true, false) => [0.05, 0.17, 0.78],
            (CauseKind.Open, true, true) => [0.09, 0.38, 0.53],
            (CauseKind.Leak, true, _) => [0.47, 0.47, 0.06],
            _ => [0.85, 0.11, 0.04],
        };
        return outcome[(int)seen.Strength];
    }
}
