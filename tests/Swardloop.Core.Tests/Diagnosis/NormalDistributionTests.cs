using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Values from 120-digit arithmetic: the power series of the integral for |z| &lt; 8, the continued fraction of its tail
/// beyond, written apart from the code (Abramowitz and Stegun, 26.2.11 and 26.2.14).</summary>
public sealed class NormalDistributionTests
{
    // Tolerance: exp(−z²/2) alone loses z²/2 units in the last place (z = 37: 8e-14); the approximations themselves are good to 1e-15.
    [Theory]
    [InlineData(-37, 5.72557122252457682268e-300)]
    [InlineData(-30, 4.90671392714818705953e-198)]
    [InlineData(-20, 2.75362411860623369507e-89)]
    [InlineData(-12, 1.77648211207767899769e-33)]
    [InlineData(-8, 6.22096057427178412351e-16)]
    [InlineData(-5.5, 1.89895624658877193838e-8)]
    [InlineData(-5, 2.86651571879193911673e-7)]
    [InlineData(-3, 1.34989803163009452665e-3)]
    [InlineData(-1.5, 6.68072012688580660044e-2)]
    [InlineData(-0.66, 2.54626914671336147611e-1)]
    [InlineData(-0.5, 3.08537538725986896362e-1)]
    [InlineData(0, 0.5)]
    [InlineData(0.1, 5.39827837277028981465e-1)]
    [InlineData(0.5, 6.91462461274013103637e-1)]
    [InlineData(0.66, 7.45373085328663852388e-1)]
    [InlineData(1, 8.41344746068542948585e-1)]
    [InlineData(2, 9.77249868051820792799e-1)]
    [InlineData(3, 9.98650101968369905473e-1)]
    [InlineData(5, 9.99999713348428120806e-1)]
    [InlineData(8, 9.99999999999999377903e-1)]
    public void Cumulative_matches_long_arithmetic_in_both_tails(double z, double expected) =>
        Assert.Equal(expected, NormalDistribution.Cumulative(z), expected * (1e-14 + (3e-16 * z * z)));

    // Tolerance: as above, times what the subtraction loses (5 to 5.001: the two tails differ by 1/190).
    [Theory]
    [InlineData(-0.25, 0.25, 1.97412651365847448481e-1, 1e-14)]
    [InlineData(-1, 2, 8.18594614120363741384e-1, 1e-14)]
    [InlineData(5, 5.001, 1.48300865601730786666e-9, 4e-12)]
    [InlineData(-20, -19.9, 1.75928079692204875323e-88, 3e-13)]
    [InlineData(8, 9, 6.21983198586583028286e-16, 1e-13)]
    [InlineData(10, 11, 7.61966195820307619840e-24, 1e-13)]
    [InlineData(30, 31, 4.90671392714791753452e-198, 1e-12)]
    public void Between_keeps_its_digits_in_either_tail(double low, double high, double expected, double tolerance)
    {
        Assert.Equal(expected, NormalDistribution.Between(low, high), expected * tolerance);
        Assert.Equal(expected, NormalDistribution.Between(-high, -low), expected * tolerance);
    }

    [Fact]
    public void Beyond_all_doubles_the_tail_is_nothing_and_the_rest_is_one()
    {
        Assert.Equal(0, NormalDistribution.Cumulative(-60));
        Assert.Equal(1, NormalDistribution.Cumulative(60));
        Assert.Equal(1, NormalDistribution.Between(double.NegativeInfinity, double.PositiveInfinity));
    }
}
