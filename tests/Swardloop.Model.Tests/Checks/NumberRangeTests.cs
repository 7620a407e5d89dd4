using Swardloop.Model.Checks;

namespace Swardloop.Model.Tests.Checks;

public class NumberRangeTests
{
    [Theory]
    [InlineData(0, 1e9, "a number from 0 to 1\u00a0000\u00a0000\u00a0000 Ω")]
    [InlineData(-10_000, 10_002.5, "a number from -10\u00a0000 to 10\u00a0002.5 Ω")]
    [InlineData(0.01, 1000, "a number from 0.01 to 1000 Ω")]
    [InlineData(0, double.MaxValue, "a number from 0 to 1.7976931348623157E+308 Ω")]
    public void Large_numbers_stand_in_threes(double least, double most, string said) => Assert.Equal(said, new NumberRange(least, most, "Ω").ToString());
}
