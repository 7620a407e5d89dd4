namespace Swardloop.Drawing.Tests;

public class DrawingWordsTests
{
    [Fact]
    public void Lengths_are_written_and_read_in_the_unit_shown()
    {
        DrawingWords feet = DrawingWords.English with { Feet = true };
        Assert.Equal("3.5 m", DrawingWords.English.Length(3.5));
        Assert.Equal("11.5 ft", feet.Length(3.5));
        Assert.Equal(3.048, feet.ParseLength("10")!.Value, 1e-9);
        Assert.Equal(8.5, DrawingWords.English.ParseLength(" 8,5 "));
        Assert.Null(DrawingWords.English.ParseLength("ten"));
        Assert.Null(DrawingWords.English.ParseLength("1e999"));
    }
}
