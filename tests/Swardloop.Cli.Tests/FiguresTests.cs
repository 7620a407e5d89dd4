namespace Swardloop.Cli.Tests;

public sealed class FiguresTests
{
    [Theory]
    [InlineData(4.96, 2, "5.0")]
    [InlineData(0.0123, 2, "0.012")]
    [InlineData(99.6, 2, "100")]
    [InlineData(19600, 2, "20000")]
    [InlineData(-3.14159, 3, "-3.14")]
    [InlineData(0, 2, "0")]
    [InlineData(double.NaN, 2, "unknown")]
    [InlineData(double.PositiveInfinity, 2, "unlimited")]
    public void Number_is_written_plainly(double value, int digits, string expected) => Assert.Equal(expected, Figures.Plain(value, digits));

    [Theory]
    [InlineData(118.4, 38.2, "118 Ω ± 38")]
    [InlineData(5.63, 0.52, "5.63 Ω ± 0.52")]
    [InlineData(5.63, 5.2, "5.6 Ω ± 5.2")]
    [InlineData(1234, 288, "1230 Ω ± 290")]
    public void Deviation_decides_the_digits(double value, double deviation, string expected) =>
        Assert.Equal(expected, Figures.WithDeviation(value, deviation, "Ω"));

    [Fact]
    public void Long_text_wraps_under_its_own_start()
    {
        using StringWriter text = new() { NewLine = "\n" };
        text.WriteWrapped("Put the wire ends back on the terminals that they came from, A to A.", "  1. ");
        Assert.Equal("  1. Put the wire ends back on the terminals that they came\n     from, A to A.\n", text.ToString());
    }

    [Fact]
    public void Word_longer_than_a_line_stands_alone()
    {
        using StringWriter text = new() { NewLine = "\n" };
        text.WriteWrapped("a " + new string('b', 70) + " c");
        Assert.Equal("a\n" + new string('b', 70) + "\nc\n", text.ToString());
    }
}
