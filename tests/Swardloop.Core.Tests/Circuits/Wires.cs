using CsCheck;
using Swardloop.Core.Circuits;

namespace Swardloop.Core.Tests.Circuits;

/// <summary>Random wires with random faults.</summary>
internal static class Wires
{
    /// <summary>Shares of the wire's length in steps, both terminals among them, so that several faults and cuts often meet at one place.</summary>
    public static Gen<double> Places { get; } = Gen.Int[0, 24].Select(step => step / 24.0);

    private static readonly Gen<double> LogOhms = Gen.Int[-20, 140].Select(twentieths => Math.Pow(10, twentieths / 20.0));

    private static readonly Gen<double> OhmsOrInfinite = Gen.Frequency((3, LogOhms), (1, Gen.Const(double.PositiveInfinity)));

    private static readonly Gen<WireLine> Lines = Gen.Select(
        Gen.Int[5, 400],
        Gen.Int[5, 100],
        OneOf(0, WiringPractice.SoundWireLeakSiemensPerMetre, 1e-5)).Select(
        (length, milliohms, leak) => new WireLine(length, milliohms / 1000.0, inductanceHenry: length * 2e-6, capacitanceFaradPerMetre: 250e-12, leakSiemensPerMetre: leak));

    /// <summary>Up to five faults of every kind but metal, on wires with and without leakage.</summary>
    public static Gen<LoopNetwork> Loops { get; } = Gen.Select(Lines, FaultsOf().List[0, 5]).Select(
        (line, faults) => new LoopNetwork(line, faults.Select(fault => fault(line.LengthMetres))));

    private static Gen<Func<double, WireFault>> FaultsOf() => Gen.OneOf(
        Gen.Select(Places, LogOhms).Select((share, ohms) => new Func<double, WireFault>(length => new WireFault.SeriesResistance(share * length, ohms))),
        Gen.Select(Places, LogOhms).Select((share, ohms) => new Func<double, WireFault>(length => new WireFault.Leak(share * length, ohms))),
        Gen.Select(Places, OhmsOrInfinite, OhmsOrInfinite, OhmsOrInfinite).Select(
            (share, residual, endA, endB) => new Func<double, WireFault>(length => new WireFault.Open(share * length, residual, endA, endB))));

    private static Gen<double> OneOf(params double[] values) => Gen.OneOf([.. values.Select(value => Gen.Const(value))]);
}
