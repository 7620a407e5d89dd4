using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Circuits;

/// <summary>Worked examples of fault location (references D2): the printed answer must be the place at which the method's own set-up, solved as a
/// network, balances or reads as printed.</summary>
public sealed class BridgeTests
{
    private const double LeakOhms = 5000;

    // Murray: arms P and Q between the two ends of loop and earth fault, battery from their middle to earth, galvanometer across the ends.
    // Columns: P, Q, ohms from fault round the far side to P's end, ohms per metre on Q's side, printed metres to the fault from Q's end, tolerance.
    [Theory]
    [InlineData(3, 1, 750, 1, 250, 1e-6)] // 500 m + 500 m: Principles of Power System, ch. 11 ex. 22; any ohms per metre
    [InlineData(2.75, 1, 1.192, 1e-3, 433, 1e-3)] // ex. 23: 500 m of 1 Ω/km out, 2.25 Ω/km back: loop 1.625 Ω, less 0.433
    [InlineData(3, 1, 1.35, 1.5e-3, 300, 1e-6)] // examination paper: 600 m of 1.5 Ω/km, twice
    [InlineData(2, 1, 400, 1, 200, 1e-6)] // exercise: 300 m cable, Ra = 2, Rb = 1
    public void Murray_bridge_balances_at_the_printed_place(
        double p, double q, double farOhms, double ohmsPerMetre, double printedMetres, double tolerance)
    {
        double loop = farOhms + (printedMetres * ohmsPerMetre);
        double Galvanometer(double metres)
        {
            double near = metres * ohmsPerMetre;
            return Bridge(p, q, loop - near, near, 0).Amperes("galvanometer").Real;
        }

        Assert.True(Galvanometer(printedMetres * (1 - tolerance)) * Galvanometer(printedMetres * (1 + tolerance)) < 0);
    }

    // Varley: the variable arm S stands in series with the faulty core's near end. Equal arms, 20 km cores of 20 Ω/km, S = 200 Ω: X = 300 Ω, 15 km
    // (same book, ex. 24). Arms 15 and 40 Ω, loop 7.5 Ω, S = 10 Ω: X = 2.727 Ω (four digits).
    [Theory]
    [InlineData(1, 1, 800, 200, 300, 1e-6)]
    [InlineData(15, 40, 7.5, 10, 2.7273, 1e-3)]
    public void Varley_bridge_balances_at_the_printed_resistance(
        double p, double q, double loopOhms, double variableOhms, double printedOhms, double tolerance)
    {
        double Galvanometer(double x) => Bridge(p, q, loopOhms - x, x, variableOhms).Amperes("galvanometer").Real;

        Assert.True(Galvanometer(printedOhms * (1 - tolerance)) * Galvanometer(printedOhms * (1 + tolerance)) < 0);
    }

    // The same set-up with the battery's earth moved to the far end measures the loop first: 15/40 = 7.5/20.
    [Fact]
    public void Varley_loop_reading_gives_the_loop_resistance() =>
        Assert.Equal(0, Bridge(15, 40, 7.5, 1e-9, 20).Amperes("galvanometer").Real, 1e-9);

    // Blavier (classical telegraph testing, references D1, D2): 10 Ω sound, far end open 34 Ω, far end earthed 9 Ω: fault 4 Ω away, so of 30 Ω.
    [Fact]
    public void Blavier_readings_belong_to_a_fault_four_ohms_away()
    {
        DcChain wire = DcChain.Of(new WireLine(10, 1, leakSiemensPerMetre: 0), [new WireFault.Leak(4, 30)]);
        double open = 1 / wire.EarthSiemensFromA, earthed = 1 / wire.Leak(1e15).EarthSiemensFromA;

        Assert.Equal(34, open, 1e-9 * 34);
        Assert.Equal(9, earthed, 1e-9 * 9);
        Assert.Equal(4, earthed - Math.Sqrt((open - earthed) * (10 - earthed)), 1e-8);
    }

    // Two-ended, x = (R_A − R_B + rL)/(2r) (references D1, computed there): the same fault read from either end, the other unplugged.
    [Fact]
    public void Readings_from_both_ends_place_a_leak()
    {
        LoopNetwork loop = new(new WireLine(200, 0.0121, leakSiemensPerMetre: 0), [new WireFault.Leak(137, 2000)]);
        double difference = loop.EarthResistanceOhms(WireEnd.A) - loop.EarthResistanceOhms(WireEnd.B);

        Assert.Equal(137, (difference + (0.0121 * 200)) / (2 * 0.0121), 1e-6); // 1e-13 of 2 kΩ over 0.024 Ω/m
    }

    private static NetworkResult.Solved Bridge(double p, double q, double farOhms, double nearOhms, double variableOhms)
    {
        List<Element> elements =
        [
            new Element.VoltageSource("battery", "middle", "earth", 10, 1),
            new Element.Resistor("P", "middle", "far end", p),
            new Element.Resistor("Q", "middle", "near end", q),
            new Element.Ammeter("galvanometer", "far end", "near end", 100),
            new Element.Resistor("far side", "far end", "fault", farOhms),
            new Element.Resistor("near side", variableOhms > 0 ? "core" : "near end", "fault", nearOhms),
            new Element.Resistor("leak", "fault", "earth", LeakOhms),
        ];
        if (variableOhms > 0)
        {
            elements.Add(new Element.Resistor("S", "near end", "core", variableOhms));
        }

        return new Network(elements.SelectMany(element => new[] { element.From, element.To }).Distinct(), elements, "earth").SolveDc().OrThrow();
    }
}
