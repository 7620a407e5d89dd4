using System.Reflection;
using Swardloop.Client.Wording;
using Swardloop.Drawing;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Wording;

public class TextsTests
{
    public static TheoryData<string> Plain => [.. typeof(Texts).GetProperties().Where(text => text.PropertyType == typeof(string)).Select(text => text.Name)];

    [Theory]
    [MemberData(nameof(Plain))]
    public void Every_text_is_there_in_both_languages(string name)
    {
        PropertyInfo text = typeof(Texts).GetProperty(name)!;
        foreach (Texts tongue in (Texts[])[Texts.English, Texts.German])
        {
            string said = (string)text.GetValue(tongue)!;
            Assert.False(string.IsNullOrWhiteSpace(said));
            Assert.Equal(said.Trim(), said);
        }
    }

    [Fact]
    public void Languages_differ_where_they_should()
    {
        string[] same = [.. Plain.Select(row => row.Data).Where(name => Equals(typeof(Texts).GetProperty(name)!.GetValue(Texts.English), typeof(Texts).GetProperty(name)!.GetValue(Texts.German)))];

        Assert.All(same, name => Assert.Contains(name, (string[])["NameWord", "Codes", "Passkeys"]));
    }

    [Fact]
    public void Every_kind_field_and_word_of_the_records_has_a_name()
    {
        foreach (FieldTexts texts in (FieldTexts[])[FieldTexts.English, FieldTexts.German])
        {
            foreach (RecordKind kind in Enum.GetValues<RecordKind>())
            {
                Assert.NotEqual("", texts[kind]);
                foreach (RecordField field in RecordFields.Of(kind).Values)
                {
                    Assert.True(texts.Has(kind, field.Name), $"{kind}.{field.Name}");
                    Assert.All(field.Words, word => Assert.True(texts.Has(kind, $"{field.Name}.{word}"), $"{kind}.{field.Name}.{word}"));
                }
            }
        }
    }

    [Fact]
    public void Drawings_speak_german_in_every_text_with_the_same_gaps()
    {
        foreach (PropertyInfo text in typeof(DrawingWords).GetProperties().Where(text => text.PropertyType == typeof(string) && text.CanWrite))
        {
            string english = (string)text.GetValue(DrawingWords.English)!, german = (string)text.GetValue(GermanDrawing.Words)!;
            Assert.True(english != german || text.Name is "North" or "GuideName", text.Name);
            Assert.Equal(Gaps(english), Gaps(german));
        }

        static IEnumerable<char> Gaps(string text) => text.Where((c, i) => i > 0 && text[i - 1] == '{').Order();
    }

    [Theory]
    [InlineData("12.5", 12.5)]
    [InlineData("12,5", 12.5)]
    [InlineData(" 1 200,5", 1200.5)]
    [InlineData("−3", -3)]
    public void Numbers_are_read_with_point_or_comma(string typed, double expected) => Assert.Equal(expected, Speech.Read(typed));

    [Theory]
    [InlineData("")]
    [InlineData("12.5.1")]
    [InlineData("NaN")]
    [InlineData("many")]
    public void What_is_no_number_is_none(string typed) => Assert.Null(Speech.Read(typed));

    [Fact]
    public void Feet_are_shown_and_read_back_to_the_millimetre()
    {
        Speech say = new(new MemoryPage());
        say.Choose(Tongue.German, feet: true, null);

        Assert.Equal("32,8 ft", say.Length(10));
        Assert.Equal(10, say.Metres(say.Shown(10)), 3);
        Assert.Equal("14.05.2026", say.Day(new(2026, 5, 14)));
    }
}
