namespace Swardloop.Core.Forecasting;

/// <summary>A Poisson number of jumps of geometric size: how far growth by steps has come, in whole cells.</summary>
/// <remarks>Source: Johnson, Kemp and Kotz, Univariate Discrete Distributions, section 9.7 (Pólya and Aeppli), from memory; the recurrence is Panjer's.</remarks>
internal static class PolyaAeppli
{
    /// <summary>Probabilities of 0, 1, 2, … cells.</summary>
    /// <param name="jumps">Expected number of jumps, 0 to 600.</param>
    /// <param name="meanCells">Mean size of one jump (cells), 1 or more; smaller ones are one cell, and as many fewer.</param>
    /// <param name="probabilities">Takes the probabilities; all that fit.</param>
    public static void Fill(double jumps, double meanCells, Span<double> probabilities)
    {
        if (meanCells < 1)
        {
            (jumps, meanCells) = (jumps * meanCells, 1);
        }

        double again = 1 - (1 / meanCells);
        probabilities[0] = Math.Exp(-jumps);
        for (int k = 1; k < probabilities.Length; k++)
        {
            double two = k > 1 ? again * again * (k - 2) * probabilities[k - 2] : 0;
            probabilities[k] = Math.Max(0, (((jumps * (1 - again)) + (2 * again * (k - 1))) * probabilities[k - 1]) - two) / k;
        }
    }
}
