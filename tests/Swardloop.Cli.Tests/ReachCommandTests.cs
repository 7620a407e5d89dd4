using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class ReachCommandTests
{
    private const string SixByEight = """
        { "format": "swardloop-yard/1", "name": "Trial <square> & co",
          "lawn": [ [[0,0],[6,0],[6,8],[0,8]] ],
          "loop": { "path": [[3,0],[6,0],[6,8],[0,8],[0,0],[3,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
        """;

    // The model's own rule, from the default profile: T = 4581 Ω·m, R0 = 107 Ω. Reactance of so small a loop: 2 to 4 Ω, nothing against 664 Ω.
    [Fact]
    public void The_machine_form_holds_the_contract_s_fields()
    {
        using JsonDocument json = Run("--ohms", "557", "--at", "3,4", "1,4", "--json");
        JsonElement root = json.RootElement;

        JsonElement middle = root.GetProperty("at")[0], side = root.GetProperty("at")[1];
        Assert.Equal(2, root.GetProperty("at").GetArrayLength());
        Assert.Equal(20 * Math.Log10(4581 * middle.GetProperty("fieldPerAmp").GetDouble() / 664), middle.GetProperty("marginDb").GetDouble(), tolerance: 0.01);
        Assert.False(middle.GetProperty("heard").GetBoolean());
        Assert.True(side.GetProperty("heard").GetBoolean());
        Assert.Equal((3.0, 4.0), (middle.GetProperty("x").GetDouble(), middle.GetProperty("y").GetDouble()));

        JsonElement weakest = root.GetProperty("weakest");
        Assert.Equal(3, weakest.GetProperty("x").GetDouble(), tolerance: 0.02);
        Assert.Equal(4, weakest.GetProperty("y").GetDouble(), tolerance: 0.02);
        Assert.Equal(middle.GetProperty("marginDb").GetDouble(), weakest.GetProperty("marginDb").GetDouble(), tolerance: 1e-4);
        Assert.InRange(root.GetProperty("heardShare").GetDouble(), 0.5, 0.95);
        Assert.Equal(2.0, root.GetProperty("reach").GetProperty("distanceM").GetDouble(), tolerance: 0.02);
    }

    [Fact]
    public void A_case_draws_its_likeliest_fault_and_says_where_practice_parts()
    {
        string folder = Path.Combine(Repository.Root, "examples"), yard = Path.Combine(folder, "marram-reach.yard.json"), fence = Path.Combine(folder, "marram-reach-fence.case.json");
        JsonElement Fault(string state, out double weakestDecibels)
        {
            JsonElement root = JsonDocument.Parse(CliRun.Of("reach", yard, "--case", fence, "--as", state, "--cell", "1", "--json").Output).RootElement;
            weakestDecibels = root.GetProperty("weakest").GetProperty("marginDb").GetDouble();
            return root.GetProperty("fault");
        }

        JsonElement now = Fault("now", out double marginNow), practice = Fault("practice", out _);
        using JsonDocument sound = JsonDocument.Parse(CliRun.Of("reach", yard, "--cell", "1", "--json").Output);
        double marginSound = sound.RootElement.GetProperty("weakest").GetProperty("marginDb").GetDouble();
        Assert.Equal(("leak-pair", "now", true), (now.GetProperty("cause").GetString(), now.GetProperty("state").GetString(), now.GetProperty("practiceParts").GetBoolean()));
        Assert.InRange(now.GetProperty("metalShare").GetDouble(), 1e-6, 0.05);
        Assert.InRange(practice.GetProperty("metalShare").GetDouble(), 0.9, 1.05);
        Assert.Equal(marginSound, marginNow, 0.5);

        Assert.Contains("reach: --as: is given without a case", CliRun.Of("reach", yard, "--as", "now").Error, StringComparison.Ordinal);
        Assert.Contains("is of another yard", CliRun.Of("reach", Path.Combine(folder, "sorrel-corner.yard.json"), "--case", fence).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_ohms_the_loop_is_a_healthy_one()
    {
        using JsonDocument json = Run("--json");

        Assert.Equal(1, json.RootElement.GetProperty("heardShare").GetDouble());
        Assert.InRange(json.RootElement.GetProperty("ohms").GetDouble(), 0.5, 2);
        Assert.Equal("at-least", json.RootElement.GetProperty("reach").GetProperty("bound").GetString());
        Assert.InRange(json.RootElement.GetProperty("ohmsToSpare").GetProperty("weakest").GetDouble(), 480, 505);
    }

    [Fact]
    public void The_form_for_people_says_share_place_and_spare()
    {
        CliRun run = CliRun.WithInput(SixByEight, "reach", "-", "--ohms", "1030", "--at", "3,4");

        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Contains("0.8 m from the wire", run.Output, StringComparison.Ordinal);
        Assert.Contains("At 3,4: ", run.Output, StringComparison.Ordinal);
        Assert.Contains("no reception", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Pictures_and_lines_are_written_and_well_formed()
    {
        string directory = Directory.CreateTempSubdirectory().FullName;
        try
        {
            string png = Path.Combine(directory, "a.png"), svg = Path.Combine(directory, "a.svg"), lines = Path.Combine(directory, "a.geojson");
            CliRun run = CliRun.WithInput(SixByEight, "reach", "-", "--ohms", "600", "--png", png, "--svg", svg, "--geojson", lines);

            Assert.Equal((0, ""), (run.ExitCode, run.Error));
            Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(png)[..4]);
            System.Xml.Linq.XDocument picture = System.Xml.Linq.XDocument.Load(svg);
            Assert.Contains(picture.Descendants(), element => element.Name.LocalName == "text" && element.Value == "Trial <square> & co");
            using JsonDocument json = JsonDocument.Parse(File.ReadAllBytes(lines));
            JsonElement silence = json.RootElement.GetProperty("features")[0];
            Assert.Equal("limit-of-reception", silence.GetProperty("properties").GetProperty("kind").GetString());
            Assert.Equal("MultiLineString", silence.GetProperty("geometry").GetProperty("type").GetString());

            byte[] first = File.ReadAllBytes(svg);
            CliRun.WithInput(SixByEight, "reach", "-", "--ohms", "600", "--svg", svg);
            Assert.Equal(first, File.ReadAllBytes(svg));
        }
        finally
        {
            Directory.Delete(directory, recursive: true);
        }
    }

    // With a datum the lines are longitude and latitude: 53.4° north, 7.1° east and within 130 m of it.
    [Fact]
    public void Lines_of_a_yard_with_a_datum_lie_on_the_earth()
    {
        string directory = Directory.CreateTempSubdirectory().FullName;
        try
        {
            string lines = Path.Combine(directory, "a.geojson");
            CliRun run = CliRun.Of("reach", Repository.At("examples/marram-reach.yard.json"), "--geojson", lines);

            Assert.Equal((0, ""), (run.ExitCode, run.Error));
            using JsonDocument json = JsonDocument.Parse(File.ReadAllBytes(lines));
            JsonElement point = json.RootElement.GetProperty("features").EnumerateArray()
                .Single(feature => feature.GetProperty("properties").GetProperty("kind").GetString() == "weakest-place")
                .GetProperty("geometry").GetProperty("coordinates");
            Assert.Equal(7.1, point[0].GetDouble(), tolerance: 0.002);
            Assert.Equal(53.4, point[1].GetDouble(), tolerance: 0.002);
        }
        finally
        {
            Directory.Delete(directory, recursive: true);
        }
    }

    [Theory]
    [InlineData("--at", "3;4")]
    [InlineData("--at", "3,NaN")]
    [InlineData("--ohms", "-1")]
    [InlineData("--ohms", "NaN")]
    [InlineData("--cell", "0")]
    [InlineData("--png", "/nowhere/at/all.png")]
    public void Wrong_arguments_are_refused_by_name(string option, string value) =>
        Assert.Contains(option, CliRun.WithInput(SixByEight, "reach", "-", option, value).RefusedLine(), StringComparison.Ordinal);

    private static JsonDocument Run(params string[] arguments)
    {
        CliRun run = CliRun.WithInput(SixByEight, ["reach", "-", .. arguments]);
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        return JsonDocument.Parse(run.Output);
    }
}
