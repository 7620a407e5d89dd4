using Swardloop.Core.Geometry;

namespace Swardloop.Core.Surveying;

/// <summary>Rough places of all points, in every arrangement that the tapes leave open: where to start an adjustment from.</summary>
/// <remarks>Point by point, from those that lie already: circles about two stations meet in two places, further tapes prefer one. The better arrangements are kept.
/// Points that no two placed stations reach, as in a chain of triangles hung on three fixed points, start from places drawn at random.</remarks>
internal static class StartPlaces
{
    private const int MostKept = 32, MostPairs = 28, RandomStarts = 60;
    private const double WorstMiss = 12, FarBehind = 30;

    /// <summary>The arrangements, best first; never none.</summary>
    public static List<PlanPoint[]> Of(TapeNetwork network, bool[] used)
    {
        int count = network.Names.Count;
        bool[] placed = new bool[count];
        Array.Fill(placed, true, 0, network.FixedCount);
        PlanPoint[] first = new PlanPoint[count];
        network.FixedPlaces.CopyTo(first, 0);
        List<(PlanPoint[] Places, double Miss)> kept = [(first, 0)];
        while (true)
        {
            int next = -1, most = 1;
            for (int p = network.FixedCount; p < count; p++)
            {
                int tapes = placed[p] ? 0 : Reaching(network, used, placed, p).Select(link => link.OtherEnd(p)).Distinct().Count();
                (next, most) = tapes > most ? (p, tapes) : (next, most);
            }

            if (next < 0)
            {
                break;
            }

            List<TapeNetwork.Link> reaching = Reaching(network, used, placed, next);
            List<(PlanPoint[] Places, double Miss)> grown = [];
            foreach ((PlanPoint[] places, double miss) in kept)
            {
                foreach ((PlanPoint at, double more) in Candidates(places, reaching, next))
                {
                    PlanPoint[] with = (PlanPoint[])places.Clone();
                    with[next] = at;
                    grown.Add((with, miss + more));
                }
            }

            placed[next] = true;
            TapeNetwork.SideRule[] rules = [.. network.Sides.Where(rule => rule.Point == next && placed[rule.From] && placed[rule.To])];
            List<(PlanPoint[] Places, double Miss)> allowed = grown.FindAll(state => Array.TrueForAll(rules, rule => TapeNetwork.SideHolds(rule, state.Places)));
            grown = allowed.Count > 0 ? allowed : grown;
            grown.Sort((a, b) => a.Miss.CompareTo(b.Miss));
            kept = [.. grown.Where(state => state.Miss < grown[0].Miss + FarBehind).Take(MostKept)];
        }

        return Array.TrueForAll(placed, isPlaced => isPlaced) ? [.. kept.Select(state => state.Places)] : AtRandom(network, placed, kept);
    }

    private static List<TapeNetwork.Link> Reaching(TapeNetwork network, bool[] used, bool[] placed, int point) =>
        [.. network.Tapes.Where((tape, t) => used[t] && tape.OtherEnd(point) is int other && placed[other])];

    /// <summary>The two best places of one point, apart from each other.</summary>
    private static List<(PlanPoint At, double Miss)> Candidates(PlanPoint[] places, List<TapeNetwork.Link> reaching, int point)
    {
        List<(PlanPoint At, double Miss)> all = [];
        for (int i = 0, pairs = 0; i < reaching.Count; i++)
        {
            for (int j = i + 1; j < reaching.Count && pairs < MostPairs; j++)
            {
                PlanPoint a = places[reaching[i].OtherEnd(point)!.Value], b = places[reaching[j].OtherEnd(point)!.Value];
                if (a.DistanceTo(b) > 1e-6)
                {
                    pairs++;
                    (PlanPoint left, PlanPoint right) = Meet(a, reaching[i].Metres, b, reaching[j].Metres);
                    all.Add((left, Miss(left)));
                    all.Add((right, Miss(right)));
                }
            }
        }

        all.Sort((a, b) => a.Miss.CompareTo(b.Miss));
        List<(PlanPoint At, double Miss)> found = [];
        double apart = 0.02 * reaching.Max(tape => tape.Metres);
        foreach ((PlanPoint at, double miss) in all)
        {
            if (found.Count < 2 && found.TrueForAll(other => other.At.DistanceTo(at) > apart))
            {
                found.Add((at, miss));
            }
        }

        return found;

        // A tape that misses by far counts no more than one that misses by much: it may be the odd one.
        double Miss(PlanPoint at) => reaching.Sum(tape =>
            Math.Min(Math.Abs(at.DistanceTo(places[tape.OtherEnd(point)!.Value]) - tape.Metres) * Math.Sqrt(tape.Weight), WorstMiss));
    }

    /// <summary>Where circles about two points meet, left and right of the way from the first to the second; where they come nearest, if they do not meet.</summary>
    private static (PlanPoint Left, PlanPoint Right) Meet(PlanPoint a, double fromA, PlanPoint b, double fromB)
    {
        double apart = a.DistanceTo(b), along = ((apart * apart) + (fromA * fromA) - (fromB * fromB)) / (2 * apart);
        double across = Math.Sqrt(Math.Max(0, (fromA * fromA) - (along * along)));
        if (across == 0)
        {
            along = fromA > apart + fromB ? (fromA + apart + fromB) / 2 : fromB > apart + fromA ? (apart - fromB - fromA) / 2 : (fromA + apart - fromB) / 2;
        }

        double east = (b.EastMetres - a.EastMetres) / apart, north = (b.NorthMetres - a.NorthMetres) / apart;
        PlanPoint foot = new(a.EastMetres + (along * east), a.NorthMetres + (along * north));
        return (new(foot.EastMetres - (across * north), foot.NorthMetres + (across * east)), new(foot.EastMetres + (across * north), foot.NorthMetres - (across * east)));
    }

    private static List<PlanPoint[]> AtRandom(TapeNetwork network, bool[] placed, List<(PlanPoint[] Places, double Miss)> kept)
    {
        double reach = network.Tapes.Max(tape => tape.Metres);
        ulong state = 7;
        List<PlanPoint[]> starts = [];
        for (int s = 0; s < RandomStarts; s++)
        {
            PlanPoint[] places = (PlanPoint[])kept[s % kept.Count].Places.Clone();
            for (int p = 0; p < places.Length; p++)
            {
                if (!placed[p])
                {
                    PlanPoint about = network.FixedPlaces[p % network.FixedCount];
                    places[p] = new(about.EastMetres + (reach * Next()), about.NorthMetres + (reach * Next()));
                }
            }

            starts.Add(places);
        }

        return starts;

        double Next()
        {
            state = (state * 6364136223846793005) + 1442695040888963407;
            return ((state >> 11) * (2.0 / (1UL << 53))) - 1;
        }
    }
}
