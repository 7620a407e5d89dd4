using CsCheck;
using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Circuits;

public sealed class DcChainTests
{
    // Both routes are exact up to rounding: the chain by star–mesh without subtraction, the network by refined elimination.
    private const double RoundingOnly = 1e-12;

    [Fact]
    public void Random_wires_read_as_in_the_general_network() =>
        Wires.Loops.Sample(
            loop =>
            {
                DcChain chain = DcChain.Of(loop.Line, [.. loop.Faults]);
                Near(loop.LoopResistanceOhms(), chain.LoopOhms);
                Near(loop.EarthResistanceOhms(WireEnd.A), WiringPractice.StakeOhms + (1 / chain.EarthSiemensFromA));
                Near(loop.EarthResistanceOhms(WireEnd.B), WiringPractice.StakeOhms + (1 / chain.EarthSiemensFromB));
                Near(loop.EarthResistanceOhms(), WiringPractice.StakeOhms + (1 / chain.EarthSiemensJoined));
                (double voltsA, double voltsB) = loop.EarthRatioVolts();
                (double chainA, double chainB) = chain.EarthRatioVolts();
                Near(voltsA, chainA);
                Near(voltsB, chainB);
            },
            iter: 300);

    [Fact]
    public void Split_and_bypass_read_as_in_the_general_network() =>
        Gen.Select(Wires.Loops, Wires.Places, Wires.Places).Where((loop, first, second) => first > 0 && first < 1 && first < second).Sample(
            (loop, first, second) =>
            {
                double from = first * loop.Line.LengthMetres, to = second * loop.Line.LengthMetres;
                WireFault[] faults = [.. loop.Faults];
                (double ohmsA, double ohmsB) = loop.SplitResistanceOhms(from, leadOhms: 0.4);
                (double chainA, double chainB) = DcChain.SplitOhms(loop.Line, faults, from, leadOhms: 0.4);
                Near(ohmsA, chainA);
                Near(ohmsB, chainB);
                Near(loop.BypassOhms(from, to, 0.8, 0.4), DcChain.BypassOhms(loop.Line, faults, from, to, 0.8, 0.4));

                DcChain whole = DcChain.Of(loop.Line, faults);
                DcChain joined = DcChain.Of(loop.Line, faults, 0, from).Then(DcChain.Of(loop.Line, faults, from, loop.Line.LengthMetres));
                Near(whole.LoopOhms, joined.LoopOhms);
                Near(whole.EarthSiemensFromA, joined.EarthSiemensFromA);
            },
            iter: 300);

    // Inference asks thousands of times: nothing may be left for the collector. The first call may load types.
    [Fact]
    public void Chain_of_a_faulty_wire_allocates_nothing()
    {
        WireLine line = new(200, 0.0121);
        WireFault[] faults = [new WireFault.SeriesResistance(42, 555), new WireFault.Leak(80, 2000), new WireFault.Open(150, 50e3)];
        double Readings() => DcChain.Of(line, faults).EarthRatioVolts().VoltsA + DcChain.SplitOhms(line, faults, 90, 0.4).OhmsA
            + DcChain.BypassOhms(line, faults, 40, 50, 0.4, 0.3);
        double first = Readings();
        long before = GC.GetAllocatedBytesForCurrentThread();
        double second = Readings();

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(first, second);
    }

    [Fact]
    public void Contact_to_metal_is_no_chain() =>
        Assert.Throws<ArgumentException>(() => DcChain.Of(new(100, 0.02), [new WireFault.MetalContact(10, 0, 100)]));

    [Fact]
    public void Faults_out_of_order_are_refused() =>
        Assert.Throws<ArgumentException>(() => DcChain.Of(new(100, 0.02), [new WireFault.Leak(20, 1e3), new WireFault.Leak(10, 1e3)]));

    private static void Near(double expected, double actual)
    {
        if (double.IsPositiveInfinity(expected) && double.IsPositiveInfinity(actual))
        {
            return;
        }

        Assert.True(
            Math.Abs(actual - expected) <= (RoundingOnly * Math.Abs(expected)) + 1e-20, // what reads 0 may differ from it by less than anything measurable
            $"network {expected:R}, chain {actual:R}, off by {Math.Abs(actual - expected) / Math.Abs(expected):E2}");
    }
}
