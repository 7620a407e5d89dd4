using CsCheck;
using Swardloop.Core.Circuits;

namespace Swardloop.Core.Tests.Circuits;

/// <summary>Random wires with random faults.</summary>
internal static class Wires
{
    private static readonly Gen<double> LogOhms = Gen.Double[-1, 7].Select(exponent => Math.Pow(10, exponent));

    private static readonly Gen<double> OhmsOrInfinite = Gen.Frequency((3, LogOhms), (1, Gen.Const(double.PositiveInfinity)));

    private static readonly Gen<WireLine> Lines = Gen.Select(
        Gen.Double[5, 400],
        Gen.Double[0.005, 0.1],
        OneOf(0, WiringPractice.SoundWireLeakSiemensPerMetre, 1e-5)).Select(
        (length, ohms, leak) => new WireLine(length, ohms, inductanceHenry: length * 2e-6, capacitanceFaradPerMetre: 250e-12, leakSiemensPerMetre: leak));

    /// <summary>Up to five faults of every kind but metal, on wires with and without leakage.</summary>
    public static Gen<LoopNetwork> Loops { get; } = Gen.Select(Lines, FaultsOf().List[0, 5]).Select(
        (line, faults) => new LoopNetwork(line, faults.Select(fault => fault(line.LengthMetres))));

    private static Gen<Func<double, WireFault>> FaultsOf() => Gen.OneOf(
        Gen.Select(Places, LogOhms).Select((share, ohms) => new Func<double, WireFault>(length => new WireFault.SeriesResistance(share * length, ohms))),
        Gen.Select(Places, LogOhms).Select((share, ohms) => new Func<double, WireFault>(length => new WireFault.Leak(share * length, ohms))),
        Gen.Select(Places, OhmsOrInfinite, OhmsOrInfinite, OhmsOrInfinite).Select(
            (share, residual, endA, endB) => new Func<double, WireFault>(length => new WireFault.Open(share * length, residual, endA, endB))));

    // Terminals and the middle come up often: faults there meet the corner cases.
    private static Gen<double> Places => Gen.Frequency((4, Gen.Double[0, 1]), (1, OneOf(0, 0.5, 1)));

    private static Gen<double> OneOf(params double[] values) => Gen.OneOf([.. values.Select(value => Gen.Const(value))]);
}
