namespace Swardloop.Cli.Tests;

public sealed class InvocationTests
{
    private static readonly CommandSyntax Syntax = new("probe", "For these tests.")
    {
        Positionals = [new("YARD", "A yard."), new("MORE", "Others.") { Required = false, Repeats = true }],
        Options =
        [
            new("--ohms", "R", "A number."),
            new("--quiet", null, "A switch."),
            new("--at", "x,y", "Places.") { AnotherValue = text => text.Contains(',', StringComparison.Ordinal) },
        ],
    };

    private static Invocation Parse(params string[] arguments) =>
        Invocation.Parse(Syntax, arguments, new Terminal(() => Stream.Null, () => Stream.Null, () => Stream.Null));

    private static string Refusal(Action act) => Assert.Throws<WrongInputException>(act).Message;

    [Fact]
    public void Options_may_stand_anywhere_and_in_both_spellings()
    {
        Invocation call = Parse("--ohms=5.5", "a", "--json", "b", "--quiet", "-", "c");
        Assert.Equal(["a", "b", "-", "c"], call.Positionals);
        Assert.Equal(5.5, call.Number("--ohms", 0, 10));
        Assert.True(call.Json);
        Assert.True(call.Flag("--quiet"));
    }

    [Fact]
    public void Repeated_option_takes_further_values_but_not_the_file()
    {
        Invocation call = Parse("--at", "1,2", "-3,4", "a", "--at", "5,6");
        Assert.Equal(["1,2", "-3,4", "5,6"], call.Values("--at"));
        Assert.Equal(["a"], call.Positionals);
    }

    [Fact]
    public void Double_dash_ends_the_options() => Assert.Equal(["--ohms"], Parse("--", "--ohms").Positionals);

    [Fact]
    public void Absent_option_gives_nothing() => Assert.Null(Parse("a").Number("--ohms", 0, 10));

    [Theory]
    [InlineData("NaN")]
    [InlineData("1e400")]
    [InlineData("-0.1")]
    [InlineData("10.1")]
    [InlineData("1,5")]
    [InlineData("ten")]
    public void Number_outside_its_range_is_refused(string text) =>
        Assert.Equal($"swardloop probe: --ohms: \"{text}\" is not a number from 0 to 10; allowed: a number from 0 to 10 Ω",
            Refusal(() => Parse("a", "--ohms", text).Number("--ohms", 0, 10, "Ω")));

    [Theory]
    [InlineData("1.5")]
    [InlineData("0")]
    [InlineData("101")]
    [InlineData("99999999999999999999")]
    public void Whole_number_outside_its_range_is_refused(string text) =>
        Assert.Contains("a whole number from 1 to 100", Refusal(() => Parse("a", "--ohms", text).WholeNumber("--ohms", 1, 100)), StringComparison.Ordinal);

    [Fact]
    public void Missing_argument_is_refused_with_the_usage() =>
        Assert.StartsWith("swardloop probe: YARD: is missing; allowed: swardloop probe YARD [MORE ...]", Refusal(() => Parse()), StringComparison.Ordinal);

    [Fact]
    public void Missing_value_is_refused() =>
        Assert.Equal("swardloop probe: --ohms: its value is missing; allowed: --ohms R", Refusal(() => Parse("a", "--ohms")));

    [Fact]
    public void Option_given_twice_is_refused() =>
        Assert.Equal("swardloop probe: --ohms: is given twice; allowed: once", Refusal(() => Parse("a", "--ohms", "1", "--ohms", "2")));

    [Fact]
    public void Single_dash_option_is_refused() =>
        Assert.StartsWith("swardloop probe: \"-o\": unknown option", Refusal(() => Parse("a", "-o")), StringComparison.Ordinal);

    [Fact]
    public void Argument_too_many_is_refused()
    {
        CommandSyntax one = Syntax with { Positionals = [new("YARD", "A yard.")], Options = [] };
        Terminal nowhere = new(() => Stream.Null, () => Stream.Null, () => Stream.Null);
        Assert.Equal("swardloop probe: \"b\": is one argument too many; allowed: swardloop probe YARD [--json]",
            Refusal(() => Invocation.Parse(one, ["a", "b"], nowhere)));
    }
}
