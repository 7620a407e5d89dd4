using Swardloop.Model.Steps;

namespace Swardloop.Model.Tests.Steps;

public class TypedReadingTests
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
        Assert.True(TypedReading.TryRead(text, text.EndsWith(" m", StringComparison.Ordinal) ? "m" : "Ω", out double number));
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
    public void What_cannot_be_known_is_not_guessed(string text) => Assert.False(TypedReading.TryRead(text, "Ω", out _));

    [Theory]
    [InlineData("1.2 M", "Ω", 1.2e6)]
    [InlineData("1.2 m", "m", 1.2)]
    [InlineData("96k", "Ω", 96_000)]
    [InlineData("0,096k", "Ω", 96)]
    [InlineData("1,5M", "Ω", 1.5e6)]
    [InlineData("96 ohm", "Ω", 96)]
    [InlineData("96Ω", "Ω", 96)]
    [InlineData("2 GΩ", "MΩ", 2000)]
    [InlineData("500k", "MΩ", 0.5)]
    [InlineData("80 mV", "V", 0.08)]
    [InlineData("1,5 µF", "nF", 1500)]
    [InlineData("30 ft", "ft", 30)]
    public void Suffix_is_read_by_the_unit_of_the_field(string text, string unit, double expected)
    {
        Assert.True(TypedReading.TryRead(text, unit, out double number));
        Assert.Equal(expected, number, tolerance: 1e-9 * expected);
    }

    [Theory]
    [InlineData("OL")]
    [InlineData("0.L")]
    [InlineData(" o.l ")]
    public void Over_range_in_letters_is_known(string text) => Assert.True(TypedReading.IsOverRange(text));

    [Theory]
    [InlineData("1", true)]
    [InlineData("1 .", true)]
    [InlineData("1.0", false)]
    [InlineData("10", false)]
    public void One_without_a_point_is_what_many_meters_show_for_over_range(string text, bool expected) => Assert.Equal(expected, TypedReading.IsLoneOne(text));

    [Theory]
    [InlineData("-0.3", true)]
    [InlineData("\u22120,3", true)]
    [InlineData("0.3", false)]
    public void Minus_is_known(string text, bool expected) => Assert.Equal(expected, TypedReading.IsNegative(text));
}
