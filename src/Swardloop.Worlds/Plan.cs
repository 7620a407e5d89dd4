namespace Swardloop.Worlds;

/// <summary>The wire's path in plan and its field.</summary>
/// <param name="points">Corners in metres east and north, from terminal A to terminal B.</param>
internal sealed class Plan(IReadOnlyList<(double X, double Y)> points)
{
    /// <summary>Corners.</summary>
    public IReadOnlyList<(double X, double Y)> Points => points;

    /// <summary>Drawn length (m).</summary>
    public double Length { get; } = Enumerable.Range(1, points.Count - 1).Sum(i => Apart(points[i - 1], points[i]));

    /// <summary>The place a number of metres along the wire.</summary>
    public (double X, double Y) At(double metres)
    {
        for (int i = 1; i < points.Count; i++)
        {
            double piece = Apart(points[i - 1], points[i]);
            if (metres <= piece && piece > 0)
            {
                double t = Math.Max(0, metres / piece);
                return (points[i - 1].X + (t * (points[i].X - points[i - 1].X)), points[i - 1].Y + (t * (points[i].Y - points[i - 1].Y)));
            }

            metres -= piece;
        }

        return points[^1];
    }

    /// <summary>Vertical field for 1 A (A/m per A) at a height above the wire: the finite-segment law of references B1, vector form.</summary>
    public double FieldPerAmpere(double x, double y, double height)
    {
        double sum = 0;
        for (int i = 1; i < points.Count; i++)
        {
            double ax = x - points[i - 1].X, ay = y - points[i - 1].Y, bx = x - points[i].X, by = y - points[i].Y;
            double a = Math.Sqrt((ax * ax) + (ay * ay) + (height * height)), b = Math.Sqrt((bx * bx) + (by * by) + (height * height));
            double dot = (ax * bx) + (ay * by) + (height * height);
            double below = a * b * ((a * b) + dot);
            sum += below > 1e-18 ? ((ax * by) - (ay * bx)) * (a + b) / below : 0;
        }

        return sum / (4 * Math.PI);
    }

    internal static double Apart((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));
}
