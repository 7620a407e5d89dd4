using Swardloop.Core.Forecasting;

namespace Swardloop.Core.Tests.Forecasting;

public sealed class PolyaAeppliTests
{
    // Moments of a Poisson sum of geometric jumps: mean θm, variance θ(2m² − m). Tolerance: what the cut tail holds.
    [Theory]
    [InlineData(0.3, 4)]
    [InlineData(2, 1)]
    [InlineData(5, 7.5)]
    [InlineData(60, 3)]
    public void Moments_are_those_of_a_sum_of_jumps(double jumps, double mean)
    {
        double[] p = new double[4000];
        PolyaAeppli.Fill(jumps, mean, p);
        double first = p.Select((share, k) => share * k).Sum(), second = p.Select((share, k) => share * k * k).Sum();
        Assert.Equal(1, p.Sum(), tolerance: 1e-9);
        Assert.Equal(jumps * mean, first, tolerance: 1e-7 * jumps * mean);
        Assert.Equal(jumps * ((2 * mean * mean) - mean), second - (first * first), tolerance: 1e-6 * jumps * mean * mean);
    }

    // Second route: the sum over the number of jumps, each a negative binomial.
    [Fact]
    public void Probabilities_are_the_sum_over_the_number_of_jumps()
    {
        const double Jumps = 1.7, Mean = 2.5;
        double[] p = new double[30];
        PolyaAeppli.Fill(Jumps, Mean, p);
        for (int k = 1; k < p.Length; k++)
        {
            double sum = 0, poisson = Math.Exp(-Jumps), choose = 1;
            for (int n = 1; n <= k; n++)
            {
                poisson *= Jumps / n;
                choose = n == 1 ? 1 : choose * (k - n + 1) / (n - 1);
                sum += poisson * choose * Math.Pow(1 / Mean, n) * Math.Pow(1 - (1 / Mean), k - n);
            }

            Assert.Equal(sum, p[k], tolerance: 1e-13);
        }
    }
}
