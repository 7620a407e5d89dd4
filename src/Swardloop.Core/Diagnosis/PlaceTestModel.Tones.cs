namespace Swardloop.Core.Diagnosis;

/// <summary>A tone followed along the wire.</summary>
internal sealed partial class PlaceTestModel
{
    /// <summary>Ways in which a break that conducts lets a tone pass, with their shares: hardly weaker, weaker, not to be heard. Against the wire beyond,
    /// some tens of nanofarads, that hangs on its ohms and on the sender's frequency, and it is the same at every place beyond. Judgement, no source.</summary>
    private static readonly (double Share, double[] Beyond)[] WetWays = [(0.08, [0.85, 0.11, 0.04]), (0.42, [0.15, 0.65, 0.2]), (0.5, [0.05, 0.17, 0.78])];
    private static readonly double[] Before = [0.85, 0.11, 0.04], BeyondDry = [0.05, 0.17, 0.78], BeyondLeak = [0.47, 0.47, 0.06], Misled = [0.4, 0.3, 0.3];

    /// <summary>Likelihood of all tones together: in good conditions a tone rarely misleads, in poor ones (a hum from mains, dry sand, a bad
    /// stake) it often does, and which it is holds for all of them.</summary>
    /// <param name="tones">What was heard where.</param>
    /// <param name="kind">The wire fault still there; <see langword="null"/>: none.</param>
    /// <param name="place">Where it is.</param>
    /// <param name="wet">A break that conducts a little.</param>
    public static double ToneLikelihood(ReadOnlySpan<CaseEvidence.Item> tones, CauseKind? kind, Place place, bool wet)
    {
        if (kind != CauseKind.Open || !wet)
        {
            return Tones(tones, place, kind switch { CauseKind.Open => BeyondDry, CauseKind.Leak => BeyondLeak, _ => Before });
        }

        double likelihood = 0;
        foreach ((double share, double[] beyond) in WetWays)
        {
            likelihood += share * Tones(tones, place, beyond);
        }

        return likelihood;
    }

    /// <summary>Probability of the last of some tones along a wire, the others known: what is odd about them is mostly odd still.</summary>
    /// <inheritdoc cref="ToneLikelihood" path="/param"/>
    public static double LastTone(CaseEvidence.Item[] tones, CauseKind? kind, Place place, bool wet) =>
        ToneLikelihood(tones, kind, place, wet) / (tones.Length == 1 ? 1 : ToneLikelihood(tones.AsSpan(..^1), kind, place, wet));

    private static double Tones(ReadOnlySpan<CaseEvidence.Item> tones, Place place, double[] beyond)
    {
        double good = 1, poor = 1;
        foreach (CaseEvidence.Item item in tones)
        {
            Observation.ToneTrace tone = (Observation.ToneTrace)item.Seen;
            bool isBeyond = tone.From == WireEnd.A ? tone.AtMetres > place.AtMetres : tone.AtMetres < place.AtMetres;
            double right = (isBeyond ? beyond : Before)[(int)tone.Strength], misled = Misled[(int)tone.Strength];
            good *= item.Weighted((0.97 * right) + (0.03 * misled));
            poor *= item.Weighted((0.45 * right) + (0.55 * misled));
        }

        return ((1 - StatedProbabilities.TonesArePoor) * good) + (StatedProbabilities.TonesArePoor * poor);
    }
}
