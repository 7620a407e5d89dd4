using System.Numerics;
using CsCheck;
using Swardloop.Core.Circuits;

namespace Swardloop.Core.Tests.Circuits;

public sealed class NetworkTests
{
    private const double Hertz = 10_000;

    // ngspice adds conductances in plain double precision: with 0.1 Ω beside 10 MΩ it keeps nine digits of the largest voltage (with 1 mΩ, seven).
    // What should be 0 comes out as some 1e-11 V.
    private const double SpiceDigits = 1e-8, SpiceZeroVolts = 1e-9;

    [Theory]
    [InlineData(null)]
    [InlineData(Hertz)]
    public void Sixty_random_networks_agree_with_ngspice(double? hertz) =>
        Networks.Of(alternating: hertz is not null, decades: 2).Array[60].Sample(
            networks =>
            {
                IReadOnlyList<IReadOnlyDictionary<string, Complex>> expected = Spice.NodeVolts(networks, hertz);
                for (int i = 0; i < networks.Length; i++)
                {
                    NetworkResult.Solved solved = Solve(networks[i], hertz);
                    double scale = expected[i].Values.Max(volts => volts.Magnitude);
                    foreach ((string node, Complex volts) in expected[i])
                    {
                        Assert.True((solved.Volts(node) - volts).Magnitude <= (SpiceDigits * scale) + SpiceZeroVolts, $"network {i}, {node}: ngspice {volts}, here {solved.Volts(node)}");
                    }
                }

                // Most have a source and so something to compare.
                Assert.InRange(expected.Count(volts => volts.Values.Any(value => value != Complex.Zero)), 30, 60);
            },
            iter: 1,
            threads: 1);

    [Theory]
    [InlineData(null)]
    [InlineData(Hertz)]
    public void Currents_at_every_node_and_powers_balance(double? hertz) =>
        Networks.Of(alternating: hertz is not null).Sample(
            network =>
            {
                NetworkResult.Solved solved = Solve(network, hertz);
                foreach (string node in network.Nodes)
                {
                    Complex[] leaving = [.. network.Elements.Where(e => e.From == node).Select(e => solved.Amperes(e.Name)),
                        .. network.Elements.Where(e => e.To == node).Select(e => -solved.Amperes(e.Name))];
                    Complex sum = leaving.Aggregate(Complex.Zero, (total, current) => total + current);

                    // Each current is right to its last digit; what is left is their rounding, and less than an electron in a month where nothing flows.
                    Assert.InRange(sum.Magnitude, 0, (1e-14 * leaving.Sum(current => current.Magnitude)) + 1e-25);
                }

                // Sums over elements, whose terms may be larger than the total.
                Complex missing = solved.Power.DeliveredVoltAmperes - solved.Power.TakenVoltAmperes;
                Assert.InRange(missing.Magnitude, 0, (1e-10 * solved.Power.DeliveredVoltAmperes.Magnitude) + 1e-20);
            },
            iter: 200);

    [Fact]
    public void Source_and_meter_may_change_places() =>
        Gen.Select(Networks.Of(alternating: true), Gen.Int[0, 8], Gen.Int[0, 8]).Sample(
            (network, first, second) =>
            {
                string one = network.Nodes[1 + (first % (network.Nodes.Count - 1))], two = network.Nodes[1 + (second % (network.Nodes.Count - 1))];
                Element[] passive = [.. network.Elements.Where(e => e is not Element.CurrentSource).Select(
                    e => e is Element.VoltageSource source ? source with { Volts = 0 } : e)];
                Complex Transfer(string into, string at) =>
                    Solve(new Network(network.Nodes, [.. passive, new Element.CurrentSource("probe", "ground", into, 1)], "ground"), Hertz).Volts(at);
                Complex there = Transfer(one, two), back = Transfer(two, one);

                // Refined answers of two equal systems of equations.
                Assert.InRange((there - back).Magnitude, 0, 1e-12 * there.Magnitude);
            },
            iter: 100);

    [Fact]
    public void Ten_times_the_source_gives_ten_times_everything()
    {
        NetworkResult.Solved Loop(double volts, double ohms) => Solve(
            new(["a", "b"], [new Element.VoltageSource("v", "a", "0", volts, 2 * ohms), new Element.Resistor("r", "a", "b", 3 * ohms), new Element.Resistor("s", "b", "0", 5 * ohms)], "0"), null);

        Assert.Equal(10 * Loop(1, 1).Volts("b").Real, Loop(10, 1).Volts("b").Real, 1e-14);
        Assert.Equal(Loop(1, 1).Volts("b").Real, Loop(1, 7).Volts("b").Real, 1e-14);
        Assert.Equal(Loop(1, 1).Amperes("r").Real / 7, Loop(1, 7).Amperes("r").Real, 1e-14);
    }

    // Two leaks of 1 GΩ and 1/3 GΩ at the ends of 1 mΩ under 1 V: the earth lies at three quarters and one quarter, to the last digits.
    // Solved the plain way, adding 1e-9 S to 1000 S before elimination, four digits are left.
    [Fact]
    public void A_milliohm_beside_a_gigaohm_leaves_every_digit()
    {
        NetworkResult.Solved solved = Solve(
            new(
                ["A", "B", "earth"],
                [
                    new Element.VoltageSource("drive", "A", "B", 1, 1e-3),
                    new Element.Resistor("wire", "A", "B", 1e-3),
                    new Element.Resistor("leak A", "A", "earth", 1e9),
                    new Element.Resistor("leak B", "B", "earth", 1e9 / 3),
                ],
                "A"),
            null);
        double across = solved.Volts("A", "B").Real;

        // Across: 1 mΩ in parallel with 4/3 GΩ against 1 mΩ; 4e-15 is a few units in the last place.
        double both = 1 / (1000 + (0.75e-9));
        Assert.Equal(both / (both + 1e-3), across, 4e-15 * across);
        Assert.Equal(0.75, solved.Volts("A", "earth").Real / across, 4e-15);
        Assert.Equal(across * 0.75e-9, solved.Amperes("leak A").Real, 4e-15 * across * 0.75e-9);
    }

    [Fact]
    public void Floating_part_is_named()
    {
        NetworkResult result = new Network(
            ["a", "b", "c"],
            [new Element.Resistor("r", "a", "0", 1), new Element.Resistor("s", "b", "c", 1), new Element.CurrentSource("i", "0", "b", 1)],
            "0").SolveDc();

        NetworkResult.Singular singular = Assert.IsType<NetworkResult.Singular>(result);
        Assert.Equal((SingularReason.Floating, "b"), (singular.Reason, singular.Node));
    }

    [Fact]
    public void Capacitor_joins_at_a_frequency_and_not_at_dc()
    {
        Network network = new(["a"], [new Element.Capacitor("c", "a", "0", 1e-9), new Element.CurrentSource("i", "0", "a", 1e-3)], "0");

        Assert.Equal(SingularReason.Floating, Assert.IsType<NetworkResult.Singular>(network.SolveDc()).Reason);
        Assert.Equal(-1e-3 / (2 * Math.PI * Hertz * 1e-9), network.SolveAt(Hertz).OrThrow().Volts("a").Imaginary, 1e-9);
    }

    [Theory]
    [InlineData(5.0, 6.0, SingularReason.ConflictingSources)]
    [InlineData(5.0, 5.0, SingularReason.UndividedCurrent)]
    public void Ideal_sources_in_a_ring_are_named(double first, double second, SingularReason reason)
    {
        NetworkResult result = new Network(
            ["a"],
            [new Element.VoltageSource("v", "a", "0", first, 0), new Element.VoltageSource("w", "a", "0", second, 0), new Element.Resistor("r", "a", "0", 1)],
            "0").SolveDc();

        NetworkResult.Singular singular = Assert.IsType<NetworkResult.Singular>(result);
        Assert.Equal((reason, "a"), (singular.Reason, singular.Node));
    }

    // ωL = 1/ωC exactly: with L = C = 1/2π at 1 Hz both reactances are 1 Ω, and the two in parallel conduct nothing.
    [Fact]
    public void Lossless_resonance_is_named()
    {
        NetworkResult result = new Network(
            ["a", "b"],
            [
                new Element.CurrentSource("i", "0", "b", 1),
                new Element.Impedance("z", "b", "0", new Complex(0, 1)),
                new Element.Impedance("y", "b", "0", new Complex(0, -1)),
                new Element.Resistor("r", "a", "b", 1),
            ],
            "0").SolveAt(1);

        NetworkResult.Singular singular = Assert.IsType<NetworkResult.Singular>(result);
        Assert.Equal(SingularReason.IllConditioned, singular.Reason);
        Assert.True(singular.Node is "a" or "b");
    }

    [Fact]
    public void Every_broken_rule_is_reported_at_once()
    {
        Network network = new(
            ["a", "a", " "],
            [
                new Element.Resistor("zero", "a", "0", 0),
                new Element.Resistor("not a number", "a", "0", double.NaN),
                new Element.Capacitor("negative", "a", "0", -1e-9),
                new Element.Resistor("nowhere", "a", "q", 1),
                new Element.Resistor("ring", "a", "a", 1),
                new Element.Resistor("ring", "a", "0", 1),
                new Element.Impedance("reactive", "a", "0", new Complex(0, 1)),
                new Element.VoltageSource("ideal", "a", "0", 9, 0),
                new Element.Ammeter("short", "0", "a", 0),
                new Element.VoltageSource("negative source", "a", "0", 9, -1),
            ],
            "0");
        NetworkResult.Refused refused = Assert.IsType<NetworkResult.Refused>(network.SolveDc());

        Assert.Equal(
            new[]
            {
                (CircuitRule.NameTwice, "a"), (CircuitRule.NameMissing, " "), (CircuitRule.NameTwice, "ring"), (CircuitRule.NotPositive, "zero"),
                (CircuitRule.NotFinite, "not a number"), (CircuitRule.NotPositive, "negative"), (CircuitRule.UnknownNode, "nowhere"),
                (CircuitRule.SameNodeTwice, "ring"), (CircuitRule.NotRealAtDc, "reactive"), (CircuitRule.NotPositive, "negative source"),
                (CircuitRule.ShortAcrossIdealSource, "ideal"),
            }.OrderBy(rule => rule.ToString()),
            refused.Violations.Select(violation => (violation.Rule, violation.Where)).OrderBy(rule => rule.ToString()));
        Assert.Throws<InvalidOperationException>(() => refused.OrThrow());
        Assert.Throws<ArgumentOutOfRangeException>(() => network.SolveAt(double.NaN));
    }

    private static NetworkResult.Solved Solve(Network network, double? hertz) =>
        Assert.IsType<NetworkResult.Solved>(hertz is { } frequency ? network.SolveAt(frequency) : network.SolveDc());
}
