using CsCheck;

namespace Swardloop.Drawing.Tests;

public class OhmScaleTests
{
    [Fact]
    public void A_step_comes_back_within_its_own_rounding() => Gen.Select(Gen.Double[80, 100_000], Gen.Double[0, 1]).Sample((most, share) =>
    {
        OhmScale scale = OhmScale.For([most / 1.3]);
        double ohms = share * scale.MostOhms;
        Assert.Equal(ohms, scale.OhmsAt(scale.StepOf(ohms)), Math.Max(0.06, Math.Max(0.02 * ohms, ohms < 10 ? 0.06 : ohms < 1000 ? 0.51 : 5.1)));
    });

    [Theory]
    [InlineData(552, 750)]
    [InlineData(10, 100)]
    [InlineData(-5, 100)]
    [InlineData(double.NaN, 100)]
    [InlineData(1e9, 100_000)]
    public void Scale_has_room_for_its_marks(double mark, double most) => Assert.Equal(most, OhmScale.For([mark]).MostOhms, 1e-6);

    [Fact]
    public void Ends_hold()
    {
        OhmScale scale = new(500);
        Assert.Equal(0, scale.OhmsAt(-1));
        Assert.Equal(500, scale.OhmsAt(5000));
        Assert.Equal(OhmScale.Steps, scale.StepOf(1e9), 1e-9);
    }
}
