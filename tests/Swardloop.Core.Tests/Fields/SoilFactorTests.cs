using System.Numerics;
using Swardloop.Core.Fields;

namespace Swardloop.Core.Tests.Fields;

public sealed class SoilFactorTests
{
    // References B5, a = 10 m: Ward and Hohmann 1988, eq. 4.98, checked there against the integral. Tolerance 1 % of size as stated there, and half
    // of the last printed digit of the phase.
    [Theory]
    [InlineData(1e3, 10, 0.99831, -1.0, 0.05)]
    [InlineData(1e3, 100, 0.99994, -0.1, 0.05)]
    [InlineData(1e3, 1000, 1.00000, -0.01, 0.005)]
    [InlineData(1e4, 10, 0.9655, -8.0, 0.05)]
    [InlineData(1e4, 100, 0.99831, -1.0, 0.05)]
    [InlineData(1e4, 1000, 0.99994, -0.1, 0.05)]
    [InlineData(5e4, 10, 0.807, -27, 0.5)]
    [InlineData(5e4, 100, 0.985, -4.4, 0.05)]
    [InlineData(5e4, 1000, 0.9994, -0.5, 0.05)]
    public void The_factor_of_a_ten_metre_loop_is_the_worked_one(double hertz, double ohmMetres, double size, double degrees, double degreesTolerance)
    {
        Complex factor = SoilFactor.AtLoopCentre(10, hertz, ohmMetres);

        Assert.Equal(size, factor.Magnitude, tolerance: 0.01 * size);
        Assert.Equal(degrees, factor.Phase * 180 / Math.PI, tolerance: degreesTolerance);
    }

    // The series and the closed form meet at |ka| = 0.02; they may differ by the series' next term, 7e-9.
    [Fact]
    public void Series_and_closed_form_meet()
    {
        double hertz = 0.02 * 0.02 * 100 / (2 * Math.PI * PhysicalConstants.VacuumPermeability);
        Complex below = SoilFactor.AtLoopCentre(1 - 1e-9, hertz, 100), above = SoilFactor.AtLoopCentre(1 + 1e-9, hertz, 100);
        Assert.True((below - above).Magnitude < 1e-8);
        Assert.NotEqual(Complex.One, below);
    }

    // References B5: copper and soil; printed to four figures, so half of the last: 3e-4.
    [Theory]
    [InlineData(1e3, 1.7241e-8, 2.0898e-3)]
    [InlineData(1e4, 1.7241e-8, 0.6609e-3)]
    [InlineData(5e4, 1.7241e-8, 0.2955e-3)]
    [InlineData(1e3, 10, 50.33)]
    [InlineData(1e4, 10, 15.92)]
    [InlineData(5e4, 10, 7.118)]
    [InlineData(1e4, 100, 50.33)]
    [InlineData(5e4, 100, 22.51)]
    [InlineData(1e3, 1000, 503.3)]
    [InlineData(5e4, 1000, 71.18)]
    public void Skin_depth_is_the_textbook_one(double hertz, double ohmMetres, double metres) =>
        Assert.Equal(metres, SoilFactor.SkinDepthMetres(hertz, ohmMetres), tolerance: 3.2e-4 * metres);

    [Fact]
    public void Nothing_but_positive_numbers_is_taken() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SoilFactor.AtLoopCentre(10, double.NaN, 100));
}
