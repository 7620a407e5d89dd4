using Swardloop.Workshop.Owners;

namespace Swardloop.Workshop.Tests.Owners;

public class OwnerNumberTests
{
    [Theory]
    [InlineData("5,6", 5.6)]
    [InlineData(" 5.6 Ohm", 5.6)]
    [InlineData("5,6Ω", 5.6)]
    [InlineData("5.6 \u2126", 5.6)]
    [InlineData("1 200", 1200)]
    [InlineData("1.2 kΩ", 1200)]
    [InlineData("3 MΩ", 3e6)]
    [InlineData("4,5 m", 4.5)]
    [InlineData("0", 0)]
    public void Number_as_people_type_it_is_read(string text, double expected)
    {
        Assert.True(OwnerNumber.TryRead(text, out double number));
        Assert.Equal(expected, number, tolerance: 1e-9 * Math.Max(1, expected));
    }

    [Theory]
    [InlineData("")]
    [InlineData("OL")]
    [InlineData("1.200,5")]
    [InlineData("1,2,3")]
    [InlineData("-5")]
    [InlineData("5e300")]
    [InlineData("five")]
    [InlineData("5 apples")]
    [InlineData("NaN")]
    [InlineData("99999999999999999999999999999999999")]
    public void What_cannot_be_known_is_not_guessed(string text) => Assert.False(OwnerNumber.TryRead(text, out _));
}
