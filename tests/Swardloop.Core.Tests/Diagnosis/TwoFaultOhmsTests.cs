using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Against plain sums over both sizes, even in their logarithm, and the wire's factor. The code integrates each size by itself, the other at
/// its best value: with a reading's 3 % that is good to a few hundredths; where only the sum is seen it is a stated approximation.</summary>
public sealed class TwoFaultOhmsTests
{
    private const double Factor = 0.03;
    private static readonly TwoFaultOhms.Range Sizes = TwoFaultOhms.Range.Of(CauseKind.SeriesResistance, false, 5);

    private static double ByNumbers(OhmsReading[] readings, Func<int, bool> inA, Func<int, bool> inB)
    {
        const int Nodes = 900;
        double ratio = Math.Log(Sizes.High / Sizes.Low), sum = 0;
        double[] sizes = [.. Enumerable.Range(0, Nodes).Select(i => Sizes.Low * Math.Exp(ratio * (i + 0.5) / Nodes))];
        double weights = 0;
        for (int k = -4; k <= 4; k++)
        {
            double weight = Math.Exp(-k * k / 2.0);
            weights += weight;
            foreach (double a in sizes)
            {
                foreach (double b in sizes)
                {
                    double product = weight;
                    for (int i = 0; i < readings.Length && product > 0; i++)
                    {
                        double expected = ((1 + (k * Factor)) * readings[i].NominalOhms) + (inA(i) ? a : 0) + (inB(i) ? b : 0);
                        product *= 0.99 * OhmsByNumbers.Gauss(readings[i].Ohms!.Value - expected, readings[i].DeviationOhms);
                    }

                    sum += product;
                }
            }
        }

        return sum / weights / Nodes / Nodes;
    }

    [Fact]
    public void Two_sizes_seen_apart_agree_with_numerical_integration()
    {
        OhmsReading[] readings = [OhmsByNumbers.Reading(52, 1.6, 1), OhmsByNumbers.Reading(205, 6, 1.4)];

        TwoFaultOhms.Result result = new TwoFaultOhms(readings, Factor).Of(1, 2, Sizes, Sizes);

        double expected = ByNumbers(readings, i => i == 0, i => i == 1);
        Assert.Equal(expected, result.Likelihood, 0.03 * expected);
        Assert.Equal(51, result.OhmsA, 0.5);
        Assert.Equal(203.6, result.OhmsB, 0.5);
    }

    [Fact]
    public void Size_and_sum_agree_with_numerical_integration()
    {
        OhmsReading[] readings = [OhmsByNumbers.Reading(257, 7, 2.4), OhmsByNumbers.Reading(52, 1.6, 1)];

        TwoFaultOhms.Result result = new TwoFaultOhms(readings, Factor).Of(3, 1, Sizes, Sizes);

        double expected = ByNumbers(readings, _ => true, i => i == 0);
        Assert.Equal(expected, result.Likelihood, 0.03 * expected);
        Assert.Equal(51, result.OhmsA, 0.5);
    }

    // One fault alone explains both readings, and whether a second is there they can't see: it must neither gain nor lose by that. Tolerance: the second
    // size shifts the first a little, which the product of two integrals leaves out.
    [Fact]
    public void Size_far_below_what_the_readings_can_see_is_integrated_over_its_whole_range()
    {
        OhmsReading[] readings = [OhmsByNumbers.Reading(15_300, 2000, 2.4), OhmsByNumbers.Reading(15_000, 2000, 1)];

        TwoFaultOhms.Result result = new TwoFaultOhms(readings, Factor).Of(3, 1, Sizes, Sizes);

        double expected = ByNumbers(readings, _ => true, i => i == 0);
        Assert.Equal(expected, result.Likelihood, 0.2 * expected);
    }

    // Only the sum seen: "the larger makes the sum, the smaller is anything below it" against the true convolution. Tolerance: that approximation.
    [Fact]
    public void Sum_alone_agrees_roughly_with_numerical_integration()
    {
        OhmsReading[] readings = [OhmsByNumbers.Reading(257, 12, 2.4)];

        TwoFaultOhms.Result result = new TwoFaultOhms(readings, Factor).Of(1, 1, Sizes, Sizes);

        double expected = ByNumbers(readings, _ => true, _ => true);
        Assert.Equal(expected, result.Likelihood, 0.3 * expected);
        Assert.Equal(254.6, result.OhmsA + result.OhmsB, 1);
    }
}
