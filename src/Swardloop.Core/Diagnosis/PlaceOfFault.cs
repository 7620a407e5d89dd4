namespace Swardloop.Core.Diagnosis;

/// <summary>Where a wire fault lies, from a belief: density along the wire, likeliest place, credible interval.</summary>
internal static class PlaceOfFault
{
    /// <summary>Joints hold their probability in lumps, so that a stretch that is to hold at least so much holds the credibility meant on
    /// average. Set by the blind trial: intervals hold the truth as often as they say.</summary>
    private const double LeastHeld = 0.845;

    /// <summary>The likeliest wire fault's place; <see langword="null"/> when no wire fault is left to find or none is likely.</summary>
    /// <param name="belief">The belief.</param>
    /// <param name="causes">The causes, likeliest first.</param>
    /// <param name="left">Whether they are what is left (<see cref="Belief.CausesLeft"/>) rather than what it was.</param>
    public static FaultLocation? Locate(Belief belief, IReadOnlyList<CauseProbability> causes, bool left = false)
    {
        foreach (CauseProbability candidate in causes)
        {
            if (candidate.Probability < 0.2)
            {
                break;
            }

            double[] mass = new double[belief.Grid.Places.Length];
            foreach (FaultAtom atom in left
                ? belief.Faults.SelectMany(fault => fault.Atoms).Where(atom => atom.Cause == candidate.Cause)
                : belief.Faults.First(fault => fault.Cause == candidate.Cause).Atoms)
            {
                AddMass(belief, mass, atom);
            }

            double total = mass.Sum();
            if (total > 0.05 * candidate.Probability * belief.Total)
            {
                return Interval(belief.Grid, mass, total, candidate.Cause);
            }
        }

        return null;
    }

    /// <summary>Probability of the place of whatever wire fault there is, in stretches of even density; empty when there is none.</summary>
    public static List<DensityBin> Density(Belief belief)
    {
        double[] mass = new double[belief.Grid.Places.Length];
        foreach (FaultGroup group in belief.Faults)
        {
            foreach (FaultAtom atom in group.Atoms)
            {
                AddMass(belief, mass, atom);
            }
        }

        double total = mass.Sum();
        if (!(total > 1e-3 * belief.Total))
        {
            return [];
        }

        // A point's probability is shown in a stretch as wide as a joint's reach on either side... of the wire there is.
        const double Half = Yards.Loop.JointReachMetres / 2;
        double length = belief.Grid.Places[^1].ToMetres;
        List<DensityBin> bins = [];
        for (int i = 0; i < mass.Length; i++)
        {
            Place place = belief.Grid.Places[i];
            bool pointBefore = i > 0 && belief.Grid.Places[i - 1].IsPoint, pointAfter = i + 1 < mass.Length && belief.Grid.Places[i + 1].IsPoint;
            double half = Math.Min(Half, place.IsPoint ? Half : place.LengthMetres / 4);
            double from = place.IsPoint ? Math.Max(0, place.FromMetres - Shorter(i - 1)) : place.FromMetres + (pointBefore ? half : 0);
            double to = place.IsPoint ? Math.Min(length, place.ToMetres + Shorter(i + 1)) : place.ToMetres - (pointAfter ? half : 0);
            double probability = mass[i] / total;
            if (bins.Count > 0 && !place.IsPoint && !belief.Grid.Places[i - 1].IsPoint && Alike(bins[^1], from, to, probability))
            {
                bins[^1] = new(bins[^1].FromMetres, to, bins[^1].Probability + probability);
            }
            else
            {
                bins.Add(new(from, to, probability));
            }
        }

        return bins;

        double Shorter(int neighbour) => neighbour >= 0 && neighbour < mass.Length ? Math.Min(Half, belief.Grid.Places[neighbour].LengthMetres / 4) : 0;

        static bool Alike(DensityBin last, double from, double to, double probability)
        {
            double before = last.Probability / (last.ToMetres - last.FromMetres), here = probability / (to - from);
            return Math.Abs(before - here) <= (0.02 * Math.Max(before, here)) + 1e-6;
        }
    }

    private static void AddMass(Belief belief, double[] mass, FaultAtom atom)
    {
        Add(atom.First, atom.Second is { IsInWire: true } ? 0.5 : 1);
        if (atom.Second is { } second)
        {
            Add(second, atom.First.IsInWire ? 0.5 : 1);
        }

        void Add(Part part, double share)
        {
            if (!part.IsInWire)
            {
                return;
            }

            if (part.PlaceIndex >= 0)
            {
                mass[part.PlaceIndex] += share * atom.Weight;
                return;
            }

            // A pair's coarse place is spread evenly over the fine places in it.
            foreach ((int place, double within) in belief.Grid.Within(part.Place))
            {
                mass[place] += share * within * atom.Weight;
            }
        }
    }

    /// <summary>The shortest stretch that holds the credibility meant.</summary>
    private static FaultLocation Interval(PlaceGrid grid, double[] mass, double total, Cause cause)
    {
        Place[] places = grid.Places;
        double[] below = new double[mass.Length + 1];
        for (int i = 0; i < mass.Length; i++)
        {
            below[i + 1] = below[i] + (mass[i] / total);
        }

        double bestLength = double.PositiveInfinity;
        int bestFirst = 0, bestLast = mass.Length - 1;
        int last = 0;
        for (int first = 0; first < mass.Length; first++)
        {
            last = Math.Max(last, first);
            while (last < mass.Length && below[last + 1] - below[first] < LeastHeld)
            {
                last++;
            }

            if (last == mass.Length)
            {
                break;
            }

            double length = places[last].ToMetres - places[first].FromMetres;
            if (length < bestLength - 1e-9)
            {
                (bestLength, bestFirst, bestLast) = (length, first, last);
            }
        }

        // Named is the likeliest place of the stretch: one lone joint outside it would contradict it.
        int likeliest = bestFirst;
        for (int i = bestFirst; i <= bestLast; i++)
        {
            likeliest = mass[i] > mass[likeliest] ? i : likeliest;
        }

        // Places are met to about 0.2 m; a joint is where it is said to be to 0.3 m.
        double margin = Yards.Loop.JointReachMetres, end = places[^1].ToMetres;
        return new(
            cause, places[likeliest].AtMetres,
            places[bestFirst].IsPoint ? Math.Max(0, places[bestFirst].FromMetres - margin) : places[bestFirst].FromMetres,
            places[bestLast].IsPoint ? Math.Min(end, places[bestLast].ToMetres + margin) : places[bestLast].ToMetres,
            Advisor.PlaceCredibility);
    }
}
