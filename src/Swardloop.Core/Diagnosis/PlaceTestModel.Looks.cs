namespace Swardloop.Core.Diagnosis;

/// <summary>Walking a stretch and looking at it.</summary>
internal sealed partial class PlaceTestModel
{
    /// <summary>Likelihood of all looks in one state together: damage is either there to be seen or not, whatever stretch is walked.</summary>
    /// <param name="looks">What was seen where.</param>
    /// <param name="place">Where the fault is; <see langword="null"/>: there is none in the ground.</param>
    /// <param name="other">The other of two damaged places, which shows if the first does.</param>
    public static double LookLikelihood(CaseEvidence.Item[] looks, Place? place, Place? other = null)
    {
        (double visible, double hidden) = Looks(looks, place, other);
        return place is null ? hidden : (StatedProbabilities.DamageIsVisible * visible) + ((1 - StatedProbabilities.DamageIsVisible) * hidden);
    }

    /// <summary>Probability that the damage of a fault at a place can be seen, after looks.</summary>
    public static double VisibleProbability(CaseEvidence.Item[] looks, Place place, Place? second = null)
    {
        (double visible, double hidden) = Looks(looks, place, second);
        double weighted = StatedProbabilities.DamageIsVisible * visible;
        return weighted / (weighted + ((1 - StatedProbabilities.DamageIsVisible) * hidden));
    }

    private static (double Visible, double Hidden) Looks(CaseEvidence.Item[] looks, Place? place, Place? second)
    {
        double visible = 1, hidden = 1;
        foreach (CaseEvidence.Item item in looks)
        {
            Observation.Look look = (Observation.Look)item.Seen;
            double inside = place is { } at ? Overlap(at, look.FromMetres, look.ToMetres) : 0;
            double insideToo = second is { } and ? Overlap(and, look.FromMetres, look.ToMetres) : 0;
            double length = look.ToMetres - look.FromMetres;

            // A mark that misleads stays where it is: seen once in a wider stretch, it is seen again in a shorter one.
            bool seenBefore = false;
            foreach (CaseEvidence.Item other in looks)
            {
                Observation.Look wider = (Observation.Look)other.Seen;
                seenBefore |= wider.Damage && wider.ToMetres - wider.FromMetres > length + 1e-9
                    && wider.FromMetres < look.ToMetres && wider.ToMetres > look.FromMetres;
            }

            double misled = seenBefore ? StatedProbabilities.MarkSeenAgain : FalseMark(length);
            double found = look.By == Person.Owner ? StatedProbabilities.VisibleDamageIsFoundByOwner : StatedProbabilities.VisibleDamageIsFound;
            double missed = (1 - (inside * found)) * (1 - (insideToo * found));
            double seenHere = 1 - (missed * (1 - misled));
            visible *= item.Weighted(look.Damage ? seenHere : 1 - seenHere);
            hidden *= item.Weighted(look.Damage ? misled : 1 - misled);
        }

        return (visible, hidden);
    }

    /// <summary>Probability that a sound stretch of some length looks damaged.</summary>
    public static double FalseMark(double lengthMetres) => 1 - ((1 - StatedProbabilities.FalseMarkAtLeast) * Math.Exp(-StatedProbabilities.FalseMarksPerMetre * lengthMetres));

    /// <summary>Share of a place that lies in a stretch, its edges met to about 0.2 m.</summary>
    public static double Overlap(Place place, double fromMetres, double toMetres)
    {
        // Farther from an edge than anybody misses a place: outside, or inside.
        const double PlaceDeviation = 0.2, Clear = 7.5 * PlaceDeviation;
        if (place.ToMetres < fromMetres - Clear || place.FromMetres > toMetres + Clear)
        {
            return 0;
        }

        if (place.FromMetres > fromMetres + Clear && place.ToMetres < toMetres - Clear)
        {
            return 1;
        }

        double Within(double at) =>
            NormalDistribution.Cumulative((at - fromMetres) / PlaceDeviation) * NormalDistribution.Cumulative((toMetres - at) / PlaceDeviation);
        if (place.LengthMetres > 3)
        {
            return Math.Max(0, Math.Min(place.ToMetres, toMetres) - Math.Max(place.FromMetres, fromMetres)) / place.LengthMetres;
        }

        return place.LengthMetres > 0.6
            ? (Within(place.FromMetres + (place.LengthMetres / 6)) + Within(place.AtMetres) + Within(place.ToMetres - (place.LengthMetres / 6))) / 3
            : Within(place.AtMetres);
    }
}
