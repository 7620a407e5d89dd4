using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Circuits;

public sealed class LoopReferenceTests
{
    // References H1: a 10 V source, 140 m of 12.1 Ω/km with a 15 Ω splice at 80 m and 2 kΩ + 120 Ω to earth at 140 m, 60 m more, 100 Ω.
    // Values: ngspice 39.3, seven digits printed. Tolerance: those digits.
    [Fact]
    public void Splice_and_leak_netlist_has_its_published_voltages()
    {
        Network network = new(
            ["t1", "a", "b", "f", "t2", "e"],
            [
                new Element.VoltageSource("V1", "t1", "0", 10, 0),
                new Element.Resistor("R1", "t1", "a", 0.968),
                new Element.Resistor("Rs", "a", "b", 15),
                new Element.Resistor("R2", "b", "f", 0.726),
                new Element.Resistor("R3", "f", "t2", 0.726),
                new Element.Resistor("Rload", "t2", "0", 100),
                new Element.Resistor("Rleak", "f", "e", 2000),
                new Element.Resistor("Re", "e", "0", 120),
            ],
            "0");
        NetworkResult.Solved solved = Assert.IsType<NetworkResult.Solved>(network.SolveDc());

        Assert.Equal(9.914223, solved.Volts("a").Real, 1e-6);
        Assert.Equal(8.585041, solved.Volts("b").Real, 1e-6);
        Assert.Equal(8.520709, solved.Volts("f").Real, 1e-6);
        Assert.Equal(8.459294, solved.Volts("t2").Real, 1e-6);
        Assert.Equal(0.4823043, solved.Volts("e").Real, 1e-7);
        Assert.Equal(-0.0886121, solved.Amperes("V1").Real, 1e-7);
        Assert.InRange(solved.Power.RelativeMismatch, 0, 1e-14);
    }

    // References D2, aged wire 12.1 Ω/km, 1 µS/m, 200 m: √(r/g)·coth(√(rg)L), far end open, and √(r/g)·tanh(√(rg)L), far end earthed;
    // seven digits from ngspice, D1's formulas from line theory. Tolerance 1e-6, as the reference states.
    [Fact]
    public void Evenly_leaking_wire_reads_as_line_theory_says()
    {
        WireLine aged = new(200, 0.0121, leakSiemensPerMetre: 1e-6);
        DcChain chain = DcChain.Of(aged, []);
        double earthed = 1 / chain.Leak(1e12).EarthSiemensFromA;

        Assert.Equal(5000.807, 1 / chain.EarthSiemensFromA, 1e-6 * 5000.807);
        Assert.Equal(2.419610, earthed, 1e-6 * 2.419610);
        Assert.Equal(5000.807 + 250, new LoopNetwork(aged, []).EarthResistanceOhms(WireEnd.A, stakeOhms: 250), 1e-6 * 5000.807);
    }
}
