using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Tests.Records;

// Numbers of ranges kept for drama: Ofcom's (020 7946 0xxx) and the Bundesnetzagentur's (030 23125 xxx); from memory.
public class TelephoneDigitsTests
{
    [Theory]
    [InlineData("+44 20 7946 0018", "020 7946 0018")]
    [InlineData("020 7946 0018", "+44 20 7946 0018")]
    [InlineData("0044 20 79460018", "+44 (0)20 7946 0018")]
    [InlineData("020-7946-0018", "0044 20 7946 0018")]
    [InlineData("030/23125-001", "+49 30 23125001")]
    [InlineData("7946 00", "+44 20 7946 0018")]
    [InlineData("0018", "020 7946 0018")]
    public void One_number_is_found_however_it_is_written(string typed, string kept) => Assert.True(TelephoneDigits.Match(typed, kept));

    [Theory]
    [InlineData("+44 20 7946 0018", "020 7946 0019")]
    [InlineData("+49 30 23125001", "020 7946 0018")]
    [InlineData("018", "020 7946 0018")]
    [InlineData("Fen Lane 7946", "020 7946 0018")]
    [InlineData("7946", null)]
    public void Another_number_is_not(string typed, string? kept) => Assert.False(TelephoneDigits.Match(typed, kept));
}
