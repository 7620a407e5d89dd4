using System.Text.Json;
using System.Text.RegularExpressions;

namespace Swardloop.Cli.Tests;

/// <summary>Lawns, resistances and readings in examples, demo, samples, schemas and pages are our own. The figures of references P stay in
/// tests that are marked "common practice, no source". No lamp has a colour: what a maker's lamp shows is the maker's own.</summary>
public sealed class OwnFiguresTests
{
    private static readonly (string What, Regex Pattern)[] Figures =
    [
        ("a resistance of P5", new(@"(?<![\d.,])(557|1030)(?![\d.,]\d|\d)")),
        ("a resistance of P5", new(@"(?<![\d.,])250(\.0)? ?(Ω(?!·)|ohms?\b)|[oO]hms""?: ?250\b")),
        ("a resistance of P6", new(@"(?<!\d)40 ?(–|-|to|bis) ?50 ?(Ω|ohm)")),
        ("a reach of P5", new(@"""distanceM"": ?2(\.0+)?\b(?!\.)|(?<![\d.,])2([.,]0)? m (from|vom) (the |nächsten )?(nearest )?(wire|Draht)")),
        ("a lawn of P5", new(@"(?<![\d.,])6 m (wide|from wire|breit)|\bBox\(6,")),
        ("a lawn of P6", new(@"(?<![\d.,])20 ?(m )?[×x] ?70\b|\bBox\(20, 70\)|\[20, ?70\]")),
        ("a loop of P2", new(@"(?<![\d.,])300 m\b[^.\n]{0,60}(?<![\d.,])[45]([.,]0)? ?Ω(?!·)")),
    ];

    private static readonly Regex LampColour = new(
        @"\b(lamp|led|lampe|leuchte)\w*\b[^.;""\n]{0,30}\b(red|green|blue|amber|orange|yellow|rot|grün|blau|gelb)\b|\b(red|green|blue|amber|orange|yellow|rote|grüne|blaue|gelbe)\w* (lamp|led|light|lampe|leuchte)\b",
        RegexOptions.IgnoreCase);

    [Fact]
    public void No_example_demo_sample_schema_or_page_repeats_a_figure_of_common_practice()
    {
        string[] places =
        [
            Repository.At("README.md"), Repository.At("CHANGELOG.md"), Repository.At("src/Swardloop.Server/Serving/api-examples.json"),
            .. Under("examples"), .. Under("docs"), .. Under("src/Swardloop.Server/Demo"), .. Under("deploy"),
            .. Under("tests").Where(file => file.Contains("pproved", StringComparison.Ordinal) && file.EndsWith(".txt", StringComparison.Ordinal)),
        ];
        Assert.True(places.Length > 100, $"{places.Length} files");
        Assert.Empty(places.SelectMany(file => Lines(file, Figures)));
    }

    [Fact]
    public void No_example_is_a_lawn_or_a_loop_of_common_practice()
    {
        foreach (string file in Under("examples").Where(file => file.EndsWith(".yard.json", StringComparison.Ordinal)))
        {
            using JsonDocument budget = JsonDocument.Parse(CliRun.Of("budget", file, "--json").Output);
            double metres = budget.RootElement.GetProperty("lengthM").GetDouble();
            double ohms = budget.RootElement.GetProperty("expectedOhms").GetProperty("nominal").GetDouble();
            Assert.False(Math.Abs(metres - 300) < 5 && ohms is > 3.8 and < 5.2, $"{file}: {metres} m with {ohms} Ω");
        }

        foreach (string file in Under("examples"))
        {
            using JsonDocument document = JsonDocument.Parse(File.ReadAllText(file));
            foreach ((double width, double depth) in Lawns(document.RootElement))
            {
                Assert.False(width == 6 || (width, depth) == (20, 70), $"{file}: a lawn of {width} m × {depth} m");
            }
        }
    }

    [Fact]
    public void No_lamp_has_a_colour()
    {
        IEnumerable<string> files =
            [Repository.At("README.md"), .. Under("examples"), .. Under("docs"), .. Under("src").Where(file => Path.GetExtension(file) is ".cs" or ".razor" or ".json")];
        Assert.Empty(files.SelectMany(file => Lines(file, [("a lamp's colour", LampColour)])));
    }

    [Theory]
    [InlineData("loop reads 557 Ω", true)]
    [InlineData("at 250 Ω it runs", true)]
    [InlineData("soil of 250 Ω·m", false)]
    [InlineData("a 300 m loop reads 5 Ω", true)]
    [InlineData("\"distanceM\": 2.0", true)]
    [InlineData("\"distanceM\": 2.5", false)]
    [InlineData("turns back 2 m from the wire", true)]
    [InlineData("0.557", false)]
    [InlineData("a lawn of 20 m × 70 m", true)]
    public void The_scan_finds_what_it_looks_for(string text, bool found) =>
        Assert.Equal(found, Figures.Any(figure => figure.Pattern.IsMatch(text)));

    [Theory]
    [InlineData("the lamp blinks red", true)]
    [InlineData("Lampe leuchtet grün", true)]
    [InlineData("eine rote Lampe", true)]
    [InlineData("lamp normal; green copper", false)]
    public void The_scan_finds_colours_of_lamps(string text, bool found) => Assert.Equal(found, LampColour.IsMatch(text));

    private static IEnumerable<string> Lines(string file, IReadOnlyList<(string What, Regex Pattern)> patterns) =>
        from line in File.ReadLines(file).Select((text, number) => (text, number: number + 1))
        from pattern in patterns
        where pattern.Pattern.IsMatch(line.text)
        select $"{Path.GetRelativePath(Repository.Root, file)}:{line.number}: {pattern.What}: {line.text.Trim()[..Math.Min(120, line.text.Trim().Length)]}";

    private static IEnumerable<string> Under(string folder) => Directory.EnumerateFiles(Repository.At(folder), "*", SearchOption.AllDirectories)
        .Where(file => !file.Split('/').Any(part => part is "bin" or "obj") && Path.GetExtension(file) is not (".png" or ".woff2" or ".ttf"));

    private static IEnumerable<(double Width, double Depth)> Lawns(JsonElement element)
    {
        if (element.ValueKind == JsonValueKind.Object)
        {
            foreach (JsonProperty property in element.EnumerateObject())
            {
                if (property.Name == "lawn")
                {
                    foreach (JsonElement ring in property.Value.EnumerateArray())
                    {
                        double[] east = [.. ring.EnumerateArray().Select(point => point[0].GetDouble())], north = [.. ring.EnumerateArray().Select(point => point[1].GetDouble())];
                        double width = east.Max() - east.Min(), depth = north.Max() - north.Min();
                        yield return (Math.Min(width, depth), Math.Max(width, depth));
                    }
                }
                else
                {
                    foreach ((double, double) lawn in Lawns(property.Value))
                    {
                        yield return lawn;
                    }
                }
            }
        }
        else if (element.ValueKind == JsonValueKind.Array)
        {
            foreach ((double, double) lawn in element.EnumerateArray().SelectMany(Lawns))
            {
                yield return lawn;
            }
        }
    }
}
