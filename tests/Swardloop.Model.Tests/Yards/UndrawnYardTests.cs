using System.Text;
using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Words;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Yards;

/// <summary>Yards of which only the wire's length is known, and wires whose course was heard.</summary>
public sealed class UndrawnYardTests
{
    [Theory]
    [InlineData(LengthClue.Length, 120, 120, 6)]
    [InlineData(LengthClue.Area, 900, 141, 35.2)]
    [InlineData(LengthClue.Capacitance, 30, 120, 72)]
    public void A_yard_comes_from_its_length_alone_and_says_how_wide_that_is(LengthClue clue, double value, double metres, double tolerance)
    {
        Checked<YardFile> made = UndrawnYard.Make("Dock Leaf", clue, value, null);

        Loop loop = made.Value!.Yard.Loop;
        Assert.Equal(metres, loop.LengthMetres, 0.1);
        Assert.Equal(tolerance, loop.LengthToleranceMetres, 0.1);
        Assert.Equal(WireCourse.Unknown, loop.Course);
        Assert.False(made.Value.DrawsLawn);
        Assert.Contains(made.Value.Notes, note => note.Message == YardNotes.CourseUnknown);
    }

    [Theory]
    [InlineData(LengthClue.Length, 0)]
    [InlineData(LengthClue.Area, -3)]
    [InlineData(LengthClue.Capacitance, double.NaN)]
    [InlineData(LengthClue.Capacitance, 100000)]
    public void What_cannot_be_a_wire_is_refused_with_what_is_allowed(LengthClue clue, double value)
    {
        Problem problem = Assert.Single(UndrawnYard.Make("Dock Leaf", clue, value, null).Problems);

        Assert.Equal(UndrawnYard.RangeOf(clue).ToString(), problem.Allowed);
    }

    // The wire round a rectangle of the area, up to five times as long as wide, is within what the area allows for.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    public void A_lawns_area_allows_for_its_shape(double longer)
    {
        (double metres, double tolerance) = UndrawnYard.LengthOf(LengthClue.Area, 600);
        double wide = Math.Sqrt(600 / longer);

        Assert.InRange(2 * (wide + (longer * wide)), metres - tolerance, metres + tolerance);
    }

    [Fact]
    public void Advice_on_it_is_given_and_tells_places_along_the_wire_only()
    {
        Yard yard = UndrawnYard.Make("Dock Leaf", LengthClue.Capacitance, 30, new() { AreaSquareMetres = 1e-6 }).Value!.Yard;
        ServiceCase asked = new() { Yard = yard, OnSite = true, Observations = [new Observation.LoopResistance(null, 0.3, MeterAccuracy.Plain), new Observation.EndCapacitance(9e-9, 21e-9)] };

        Advice advice = Advisor.Advise(asked, CausePriors.Default, TestContext.Current.CancellationToken);

        Assert.NotEmpty(advice.Next);
        Assert.InRange(advice.Location!.AtMetres, 28, 44);
        string words = PlaceWords.Describe(yard, advice.Location.AtMetres), german = PlaceWords.DescribeStretch(yard, 12, 20, Phrasebook.German);
        Assert.EndsWith("m along the wire from terminal A", words, StringComparison.Ordinal);
        Assert.Equal("12 bis 20 m am Draht entlang ab Klemme A", german);
        Assert.Equal("terminal A, at the station", PlaceWords.Describe(yard, 0.1));
        LoopBudget budget = LoopBudget.For(yard);
        Assert.True(budget.ExpectedOhms.High > 1.5 * budget.ExpectedOhms.Nominal);
    }

    [Fact]
    public void A_heard_course_comes_back_from_its_file_and_from_geojson()
    {
        Yard drawn = UndrawnYard.Make("Dock Leaf", LengthClue.Length, 80, null).Value!.Yard;
        Yard yard = drawn with { Datum = new(52.1, 5.3), Loop = drawn.Loop with { Course = WireCourse.Heard, CourseToleranceMetres = 1.4, LengthToleranceMetres = 5.5 } };

        byte[] file = YardFile.Create(yard).ToUtf8();
        Loop read = YardFile.Read(file, "heard").Value!.Yard.Loop;
        ProblemList problems = new("heard");
        Loop imported = SketchYard.Make(SketchReader.Read(YardGeoJson.Write(yard), SketchReader.FormatOf(YardGeoJson.Write(yard)), problems)!, "Dock Leaf", null, "heard").Value!.Yard.Loop;

        Assert.All([read, imported], loop => Assert.Equal((WireCourse.Heard, 1.4, 5.5), (loop.Course, loop.CourseToleranceMetres, loop.LengthToleranceMetres)));
        Assert.EndsWith("(wire heard, to within 1.4 m)", PlaceWords.Describe(yard, 30), StringComparison.Ordinal);
        Assert.Equal(file, YardFile.Read(file, "heard").Value!.ToUtf8());
        Assert.DoesNotContain("course", Encoding.UTF8.GetString(YardFile.Create(yard with { Loop = yard.Loop with { Course = WireCourse.Drawn, CourseToleranceMetres = 0 } }).ToUtf8()), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "how far beside the line it may lie is not said")]
    [InlineData(",\"courseToleranceM\":1.4", "within 1.4 m of the line, 19 times in 20")]
    public void A_heard_course_says_how_far_the_wire_may_lie_beside_it_or_that_it_is_not_said(string tolerance, string said)
    {
        Checked<YardFile> read = YardFile.Read(Encoding.UTF8.GetBytes($$"""{"format":"swardloop-yard/1","name":"x","loop":{"path":[[0,0],[9,0],[9,9],[0,0]],"course":"heard"{{tolerance}}},"conductor":"copper-1.5"}"""), "x");

        Assert.EndsWith(said, Assert.Single(read.Value!.Notes, note => note.Place == "loop.course").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_word_that_is_no_course_is_refused()
    {
        Checked<YardFile> read = YardFile.Read(Encoding.UTF8.GetBytes("""{"format":"swardloop-yard/1","name":"x","loop":{"path":[[0,0],[9,0],[9,9],[0,0]],"course":"guessed"}}"""), "x");

        Assert.Contains(read.Problems, problem => problem.Place == "loop.course" && problem.Allowed.Contains("heard", StringComparison.Ordinal));
    }
}
