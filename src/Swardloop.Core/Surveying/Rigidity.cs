using Swardloop.Core.Geometry;

namespace Swardloop.Core.Surveying;

/// <summary>Whether a pattern of tapes holds its points fast, whatever the lengths.</summary>
/// <remarks>The rank of the tapes' directions at places drawn at random is the same for almost all places.
/// Source: Asimow and Roth, The rigidity of graphs, Trans. AMS 245 (1978) 279 (from memory).</remarks>
internal static class Rigidity
{
    /// <summary>Points, by number, that can move without changing any tape.</summary>
    public static List<int> Loose(TapeNetwork network, bool[] used)
    {
        int size = 2 * network.FreeCount;
        PlanPoint[] places = new PlanPoint[network.Names.Count];
        ulong state = 1;
        for (int i = 0; i < places.Length; i++)
        {
            places[i] = new(Next(), Next());
        }

        List<double[]> rows = [];
        for (int t = 0; t < network.Tapes.Length; t++)
        {
            if (used[t])
            {
                double[] row = new double[size];
                TapeNetwork.Link tape = network.Tapes[t];
                (double east, double north, _) = TapeFit.Direction(places, tape);
                Put(row, tape.From, -east, -north);
                Put(row, tape.To, east, north);
                rows.Add(row);
            }
        }

        // Gauss–Jordan with the largest pivot of each column; what has no pivot is free, and whatever then hangs on a free unknown moves with it.
        bool[] loose = new bool[size];
        List<int> pivots = [];
        int rank = 0;
        for (int column = 0; column < size; column++)
        {
            int best = -1;
            for (int r = rank; r < rows.Count; r++)
            {
                best = best < 0 || Math.Abs(rows[r][column]) > Math.Abs(rows[best][column]) ? r : best;
            }

            if (best < 0 || Math.Abs(rows[best][column]) < 1e-9)
            {
                loose[column] = true;
                continue;
            }

            (rows[rank], rows[best]) = (rows[best], rows[rank]);
            double[] pivot = rows[rank];
            for (int r = 0; r < rows.Count; r++)
            {
                double share = r == rank ? 0 : rows[r][column] / pivot[column];
                if (share != 0)
                {
                    for (int c = column; c < size; c++)
                    {
                        rows[r][c] -= share * pivot[c];
                    }
                }
            }

            pivots.Add(column);
            rank++;
        }

        for (int p = 0; p < pivots.Count; p++)
        {
            for (int column = 0; column < size; column++)
            {
                loose[pivots[p]] |= loose[column] && !pivots.Contains(column) && Math.Abs(rows[p][column]) > 1e-8;
            }
        }

        return [.. Enumerable.Range(0, network.FreeCount).Where(i => loose[2 * i] || loose[(2 * i) + 1]).Select(i => network.FixedCount + i)];

        void Put(double[] row, int point, double east, double north)
        {
            if (point >= network.FixedCount)
            {
                row[2 * (point - network.FixedCount)] = east;
                row[(2 * (point - network.FixedCount)) + 1] = north;
            }
        }

        double Next()
        {
            state = (state * 6364136223846793005) + 1442695040888963407;
            return (state >> 11) * (1.0 / (1UL << 53));
        }
    }
}
