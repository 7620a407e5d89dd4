using Swardloop.Core.Geometry;

namespace Swardloop.Core.Surveying;

/// <summary>Least squares places of a network's points.</summary>
/// <remarks>Gauss–Newton steps with Marquardt's damping. Source: Ghilani, Adjustment Computations, chapter 14 (from memory); Marquardt, J. SIAM 11 (1963) 431 (from memory).</remarks>
internal sealed class TapeFit
{
    private const int MostSteps = 100;

    private TapeFit(PlanPoint[] places, double chiSquare, int weak) => (Places, ChiSquare, WeakPoint) = (places, chiSquare, weak);

    /// <summary>Places of all points, fixed ones first.</summary>
    public PlanPoint[] Places { get; }

    /// <summary>Sum of squared residuals over their variances.</summary>
    public double ChiSquare { get; }

    /// <summary>A point whose place the tapes leave open along some line, or −1.</summary>
    public int WeakPoint { get; }

    /// <summary>Adjusts from a start.</summary>
    public static TapeFit From(TapeNetwork network, bool[] used, PlanPoint[] start)
    {
        PlanPoint[] places = (PlanPoint[])start.Clone();
        int size = 2 * network.FreeCount;
        double chiSquare = ChiSquareOf(network, used, places), damping = 0;
        for (int step = 0; step < MostSteps; step++)
        {
            double[] change = new double[size];
            NormalMatrix normal = Normal(network, used, places, change);
            if (normal.Factor(damping) >= 0)
            {
                damping = Math.Max(1e-6, damping * 10);
                if (damping > 1e6)
                {
                    break;
                }

                continue;
            }

            normal.Solve(change);
            PlanPoint[] next = (PlanPoint[])places.Clone();
            double largest = 0;
            for (int i = 0; i < network.FreeCount; i++)
            {
                PlanPoint from = places[network.FixedCount + i];
                next[network.FixedCount + i] = new(from.EastMetres + change[2 * i], from.NorthMetres + change[(2 * i) + 1]);
                largest = Math.Max(largest, Math.Max(Math.Abs(change[2 * i]), Math.Abs(change[(2 * i) + 1])));
            }

            double nextChiSquare = ChiSquareOf(network, used, next);
            if (nextChiSquare <= chiSquare + 1e-12)
            {
                (places, chiSquare, damping) = (next, nextChiSquare, damping < 1e-6 ? 0 : damping / 10);
                if (largest < 1e-10)
                {
                    break;
                }
            }
            else if (largest < 1e-10)
            {
                break; // rounding only
            }
            else
            {
                damping = Math.Max(1e-3, damping * 10);
            }
        }

        int weak = Normal(network, used, places, new double[size]).Factor();
        return new(places, chiSquare, weak < 0 ? -1 : network.FixedCount + (weak / 2));
    }

    /// <summary>Normal equations about some places; the right side is added to <paramref name="right"/>.</summary>
    public static NormalMatrix Normal(TapeNetwork network, bool[] used, PlanPoint[] places, double[] right)
    {
        NormalMatrix normal = new(2 * network.FreeCount);
        for (int t = 0; t < network.Tapes.Length; t++)
        {
            if (!used[t])
            {
                continue;
            }

            TapeNetwork.Link tape = network.Tapes[t];
            (double east, double north, double length) = Direction(places, tape);
            int from = 2 * (tape.From - network.FixedCount), to = 2 * (tape.To - network.FixedCount);
            double miss = tape.Metres - length;
            Span<int> index = [from, from + 1, to, to + 1];
            Span<double> slope = [-east, -north, east, north];
            for (int i = from < 0 ? 2 : 0; i < (to < 0 ? 2 : 4); i++)
            {
                right[index[i]] += tape.Weight * slope[i] * miss;
                for (int j = from < 0 ? 2 : 0; j < (to < 0 ? 2 : 4); j++)
                {
                    normal[index[i], index[j]] += tape.Weight * slope[i] * slope[j];
                }
            }
        }

        return normal;
    }

    /// <summary>Direction of a tape from its first end, of length one, and its length (m).</summary>
    public static (double East, double North, double Metres) Direction(PlanPoint[] places, TapeNetwork.Link tape)
    {
        PlanPoint a = places[tape.From], b = places[tape.To];
        double length = a.DistanceTo(b);
        return length > 1e-9 ? ((b.EastMetres - a.EastMetres) / length, (b.NorthMetres - a.NorthMetres) / length, length) : (1, 0, length);
    }

    private static double ChiSquareOf(TapeNetwork network, bool[] used, PlanPoint[] places)
    {
        double sum = 0;
        for (int t = 0; t < network.Tapes.Length; t++)
        {
            if (used[t])
            {
                TapeNetwork.Link tape = network.Tapes[t];
                double miss = tape.Metres - places[tape.From].DistanceTo(places[tape.To]);
                sum += tape.Weight * miss * miss;
            }
        }

        return sum;
    }
}
