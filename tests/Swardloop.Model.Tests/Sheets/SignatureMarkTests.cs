using Swardloop.Model.Sheets;

namespace Swardloop.Model.Tests.Sheets;

/// <summary>A signature as text: what is drawn comes back, what is anything else is none.</summary>
public sealed class SignatureMarkTests
{
    [Theory]
    [InlineData("10,20 30,40;0,0;300,100")]
    [InlineData("5,5")]
    public void What_was_drawn_is_read_back(string text) => Assert.Equal(text, SignatureMark.Read(text)!.ToString());

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData(";;")]
    [InlineData("301,20")]
    [InlineData("20,101")]
    [InlineData("-1,20")]
    [InlineData("1.5,20")]
    [InlineData("10;20")]
    [InlineData("10,20\"/><script>")]
    public void What_is_no_mark_is_none(string? text) => Assert.Null(SignatureMark.Read(text));
}
