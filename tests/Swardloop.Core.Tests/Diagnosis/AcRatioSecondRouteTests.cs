using System.Globalization;
using System.Numerics;
using Swardloop.Core.Circuits;
using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Tests;
using Swardloop.Core.Tests.Circuits;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>The AC ratio's closed form against ngspice on ladders of series resistance, inductance and shunt capacitance, and against uneven ones.</summary>
public sealed class AcRatioSecondRouteTests
{
    private const int Sections = 120;

    // Loops of 60 m to 360 m, faults of 15 Ω to 3 kΩ anywhere. 0.004: half a section's length at the fault.
    [Fact]
    public void Closed_form_agrees_with_ngspice_on_random_loops()
    {
        Random random = new(20261129);
        List<Network> ladders = [];
        List<double> expected = [];
        for (int i = 0; i < 12; i++)
        {
            double side = 15 + (75 * random.NextDouble()), ohms = Math.Exp(Math.Log(15) + (random.NextDouble() * Math.Log(200)));
            int at = random.Next(4, Sections - 4);
            YardPhysics physics = new(Square(side));
            expected.Add(AcRatioTest.Share(physics, ((double)at / Sections, ohms)));
            ladders.Add(Ladder(physics, at, ohms, _ => 1));
        }

        IReadOnlyList<IReadOnlyDictionary<string, Complex>> volts = Spice.NodeVolts(ladders, 1000);

        Assert.All(volts.Zip(expected), pair => Assert.Equal(pair.Second, ShareOf(pair.First), 0.004));
    }

    // 3 % unevenness in each tenth of the wire: the spread that the belief allows, 0.008, holds it and a meter of 1 %.
    [Fact]
    public void Uneven_capacitance_moves_the_share_by_less_than_is_allowed_for()
    {
        Random random = new(7);
        YardPhysics physics = new(Square(40));
        List<Network> ladders = [Ladder(physics, 36, 200, _ => 1)];
        for (int i = 0; i < 30; i++)
        {
            double[] tenths = [.. Enumerable.Range(0, 10).Select(_ => 1 + (0.03 * Gauss(random)))];
            ladders.Add(Ladder(physics, 36, 200, section => tenths[section * 10 / Sections]));
        }

        double[] shares = [.. Spice.NodeVolts(ladders, 1000).Select(ShareOf)];

        double spread = Math.Sqrt(shares.Skip(1).Average(share => Math.Pow(share - shares[0], 2)));
        Assert.InRange(spread, 0.0005, 0.008);
    }

    // A guide wire that hangs on the loop pulls the mean towards the potential of its joint: without it the place would be off by up to an eighth of the wire.
    [Fact]
    public void Guide_wire_pulls_the_share_as_ngspice_has_it()
    {
        Random random = new(88);
        List<Network> ladders = [];
        List<(double With, double Without)> expected = [];
        for (int i = 0; i < 12; i++)
        {
            double side = 15 + (75 * random.NextDouble()), ohms = Math.Exp(Math.Log(15) + (random.NextDouble() * Math.Log(200)));
            int at = random.Next(4, Sections - 4), join = Sections / 2;
            YardPhysics plain = new(Square(side)), guided = new(plain.Yard with { Guides = [new("G1", 2 * side, new([new(0, 0), new(side, side)]))] });
            at += at == join ? 1 : 0;
            expected.Add((AcRatioTest.Share(guided, ((double)at / Sections, ohms)), AcRatioTest.Share(plain, ((double)at / Sections, ohms))));
            Network ladder = Ladder(plain, at, ohms, _ => 1);
            double farad = guided.Guides[0].LengthMetres * guided.Yard.Loop.CapacitanceFaradPerMetre;
            ladders.Add(new(ladder.Nodes, [.. ladder.Elements, new Element.Capacitor("guide", "m60", "earth", farad)], "earth"));
        }

        double[] shares = [.. Spice.NodeVolts(ladders, 1000).Select(ShareOf)];

        Assert.All(shares.Zip(expected), pair => Assert.Equal(pair.Second.With, pair.First, 0.006));
        Assert.True(expected.Max(pair => Math.Abs(pair.With - pair.Without)) > 0.05);
    }

    // Leaky joints of 30 kΩ to 1 MΩ all round the wire hardly pull at 1 kHz; by direct current they would say where they leak, and nothing of the fault.
    [Fact]
    public void Leaky_joints_hardly_move_the_share()
    {
        Random random = new(31);
        YardPhysics physics = new(Square(50));
        List<Network> ladders = [];
        for (int i = 0; i < 20; i++)
        {
            (int At, double Ohms)[] leaks = [.. Enumerable.Range(0, 5).Select(_ => (random.Next(1, Sections - 1), Math.Exp(Math.Log(3e4) + (random.NextDouble() * Math.Log(33)))))];
            ladders.Add(Ladder(physics, 36, 300, _ => 1, leaks));
        }

        double sound = ShareOf(Spice.NodeVolts([Ladder(physics, 36, 300, _ => 1)], 1000)[0]);
        double[] tone = [.. Spice.NodeVolts(ladders, 1000).Select(ShareOf)], battery = [.. Spice.NodeVolts(ladders, 1e-3).Select(ShareOf)];

        Assert.All(tone, share => Assert.Equal(sound, share, 0.02));
        Assert.InRange(Math.Sqrt(tone.Average(share => Math.Pow(share - sound, 2))), 0, 0.01);
        Assert.True(battery.Average(share => Math.Abs(share - sound)) > 0.05, $"{battery.Average(share => Math.Abs(share - sound))}");
    }

    private static Yard Square(double side) => new()
    {
        Name = "square",
        Lawn = new([[new(0, 0), new(side, 0), new(side, side), new(0, side)]], []),
        Loop = new() { Path = new([new(0, 0), new(side, 0), new(side, side), new(0, side), new(0, 0)]), Conductor = new Conductor { AreaSquareMetres = 1.5e-6 } },
    };

    private static Network Ladder(YardPhysics physics, int faultAfter, double faultOhms, Func<int, double> evenness, params (int At, double Ohms)[] leaks)
    {
        WireLine line = WireLine.Of(physics.Yard.Loop, physics.Budget);
        double sectionOhms = physics.Budget.MeanOhms / Sections, sectionHenry = line.InductanceHenry / Sections, sectionFarad = line.CapacitanceFaradPerMetre * line.LengthMetres / Sections;
        List<Element> elements = [new Element.VoltageSource("tone", "n0", Node(Sections + 1), 5, 600)];
        string from = "n0";
        for (int i = 0; i < Sections; i++)
        {
            string to = Node(i + 1 >= faultAfter + 1 ? i + 2 : i + 1), middle = $"m{i}";
            if (i == faultAfter)
            {
                elements.Add(new Element.Resistor("fault", from, Node(i + 1), faultOhms));
                from = Node(i + 1);
            }

            elements.Add(new Element.Resistor($"r{i}", from, middle, sectionOhms));
            elements.Add(new Element.Inductor($"l{i}", middle, to, sectionHenry));
            elements.Add(new Element.Capacitor($"a{i}", from, "earth", sectionFarad * evenness(i) / 2));
            elements.Add(new Element.Capacitor($"b{i}", to, "earth", sectionFarad * evenness(i) / 2));

            elements.AddRange(leaks.Where(leak => leak.At == i).Select((leak, j) => new Element.Resistor($"k{i}x{j}", middle, "earth", leak.Ohms)));

            // Simulators need a way for direct current from every node to the ground; that of a sound wire's insulation is next to nothing.
            if (i == 0)
            {
                elements.Add(new Element.Resistor("insulation", from, "earth", 1e10));
            }

            from = to;
        }

        return new(elements.SelectMany(element => new[] { element.From, element.To }).Distinct(), elements, "earth");

        static string Node(int i) => string.Create(CultureInfo.InvariantCulture, $"n{i}");
    }

    private static double ShareOf(IReadOnlyDictionary<string, Complex> volts)
    {
        double a = volts["n0"].Magnitude, b = volts[string.Create(CultureInfo.InvariantCulture, $"n{Sections + 1}")].Magnitude;
        return a / (a + b);
    }

    private static double Gauss(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
