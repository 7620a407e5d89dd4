using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>A double run to an island: the wire goes out along a line, round the island, and back along the same line.</summary>
/// <param name="OutFromMetres">Where the run leaves the loop (m from A).</param>
/// <param name="OutToMetres">Where it meets the island's ring (m from A).</param>
/// <param name="BackFromMetres">Where it leaves the ring again.</param>
/// <param name="BackToMetres">Where it is back at the loop.</param>
public sealed record IslandRun(double OutFromMetres, double OutToMetres, double BackFromMetres, double BackToMetres)
{
    /// <summary>Two wires this near to each other lie in one trench (m). Common practice, no source.</summary>
    private const double SameTrenchMetres = 0.4;

    /// <summary>The shortest run and the shortest ring that count (m).</summary>
    private const double LeastRunMetres = 0.5, LeastRingMetres = 1.5;

    /// <summary>Most samples along a loop; on longer ones runs are found a little more coarsely.</summary>
    private const int MostSamples = 1200;

    /// <summary>Length of the ring round the island (m).</summary>
    public double RingMetres => BackFromMetres - OutToMetres;

    /// <summary>Where the other wire of the run lies beside a place on the way out (m from A).</summary>
    public double Beside(double outMetres) => BackToMetres - ((outMetres - OutFromMetres) * (BackToMetres - BackFromMetres) / Math.Max(OutToMetres - OutFromMetres, 1e-9));

    /// <summary>The double runs of a loop, in order from A. The loop's own two ends side by side at the station are none.</summary>
    public static IReadOnlyList<IslandRun> Of(Loop loop)
    {
        double length = loop.LengthMetres;
        int count = Math.Clamp((int)(4 * length), 8, MostSamples);
        double pace = length / count;
        PlanPoint[] points = [.. Enumerable.Range(0, count + 1).Select(i => loop.Path.PointAt(i * pace))];

        // For each sample the last one behind it that lies beside it with the wire running the other way, less than half of the loop away.
        int[] beside = new int[count + 1];
        for (int i = 1; i < count; i++)
        {
            beside[i] = -1;
            int last = Math.Min(count - 1, i + (count / 2));
            double best = SameTrenchMetres;
            for (int j = i + (int)Math.Ceiling(LeastRingMetres / pace); j <= last; j++)
            {
                double apart = points[i].DistanceTo(points[j]);
                if (apart <= best && Opposed(points, i, j))
                {
                    (best, beside[i]) = (apart, j);
                }
            }
        }

        List<IslandRun> runs = [];
        for (int from = 1; from < count; from++)
        {
            if (beside[from] < 0)
            {
                continue;
            }

            int to = from;
            while (to + 1 < count && beside[to + 1] >= 0 && Math.Abs(beside[to + 1] - beside[to] + 1) <= 2)
            {
                to++;
            }

            if ((to - from) * pace >= LeastRunMetres && beside[to] - to > LeastRingMetres / pace)
            {
                runs.Add(new(from * pace, to * pace, beside[to] * pace, beside[from] * pace));
            }

            from = to;
        }

        return runs;
    }

    private static bool Opposed(PlanPoint[] points, int i, int j)
    {
        (double east1, double north1) = (points[i + 1].EastMetres - points[i - 1].EastMetres, points[i + 1].NorthMetres - points[i - 1].NorthMetres);
        (double east2, double north2) = (points[j + 1].EastMetres - points[j - 1].EastMetres, points[j + 1].NorthMetres - points[j - 1].NorthMetres);
        double dot = (east1 * east2) + (north1 * north2);
        return dot < 0 && dot * dot > 0.64 * ((east1 * east1) + (north1 * north1)) * ((east2 * east2) + (north2 * north2));
    }
}
