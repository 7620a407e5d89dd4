namespace Swardloop.Core.Circuits;

/// <summary>
/// A stretch of wire at DC with everything wrong in it, as its terminals and the earth see it: one resistance from end to end and one conductance
/// from each end to earth. Built from end A to end B, piece by piece, without allocation: the fast path of <see cref="LoopNetwork"/>.
/// </summary>
/// <remarks>
/// Star–mesh reduction written without a subtraction, so that every digit of a large and a small resistance survives. Equal to the
/// general network within 1e-12, relative (property test). Metal that the wire touches at one place only is a leak of contact plus earth
/// resistance; metal touched twice is a second path and no chain. Source: the star–mesh identity, textbooks; the form is our own.
/// </remarks>
public readonly record struct DcChain
{
    private DcChain(double throughOhms, double sideASiemens, double sideBSiemens) =>
        (ThroughOhms, SideASiemens, SideBSiemens) = (throughOhms, sideASiemens, sideBSiemens);

    /// <summary>Resistance of the arm from end to end (Ω); infinite when nothing joins them but the earth.</summary>
    public double ThroughOhms { get; }

    /// <summary>Conductance of the arm from end A to earth (S).</summary>
    public double SideASiemens { get; }

    /// <summary>Conductance of the arm from end B to earth (S).</summary>
    public double SideBSiemens { get; }

    /// <summary>The chain of a whole wire.</summary>
    /// <param name="line">The sound wire.</param>
    /// <param name="faults">Its faults, in order along the wire.</param>
    /// <exception cref="ArgumentException">Faults out of order or beyond the wire, or a contact to metal, which needs <see cref="LoopNetwork"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static DcChain Of(in WireLine line, ReadOnlySpan<WireFault> faults) => Of(line, faults, 0, line.LengthMetres);

    /// <summary>The chain of one stretch of the wire. Faults at its start belong to it; those at its end belong to the next stretch, if any wire follows:
    /// neighbouring stretches put together by <see cref="Then"/> are the whole.</summary>
    /// <param name="line">The sound wire.</param>
    /// <param name="faults">Its faults, in order along the wire; those outside the stretch are passed over.</param>
    /// <param name="fromMetres">Start of the stretch (m from A).</param>
    /// <param name="toMetres">End of the stretch (m from A).</param>
    /// <exception cref="ArgumentException">Faults out of order or beyond the wire, or a contact to metal, which needs <see cref="LoopNetwork"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static DcChain Of(in WireLine line, ReadOnlySpan<WireFault> faults, double fromMetres, double toMetres) =>
        Between(line, faults, fromMetres, startFaults: true, toMetres, endFaults: toMetres == line.LengthMetres);

    /// <summary>The wire opened at a place, each side measured through a lead (Ω, lead included; infinite when there is no path): as
    /// <see cref="LoopNetwork.SplitResistanceOhms"/>.</summary>
    /// <param name="line">The sound wire.</param>
    /// <param name="faults">Its faults, in order along the wire; those exactly at the place are taken as cured.</param>
    /// <param name="atMetres">Where (m from A).</param>
    /// <param name="leadOhms">The lead (Ω), 0 or more.</param>
    /// <exception cref="ArgumentException">As for <see cref="Of(in WireLine, ReadOnlySpan{WireFault})"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static (double OhmsA, double OhmsB) SplitOhms(
        in WireLine line, ReadOnlySpan<WireFault> faults, double atMetres, double leadOhms)
    {
        Guard.NotNegative(leadOhms);
        return (
            Between(line, faults, 0, startFaults: true, atMetres, endFaults: false).LoopOhms + leadOhms,
            Between(line, faults, atMetres, startFaults: false, line.LengthMetres, endFaults: true).LoopOhms + leadOhms);
    }

    /// <summary>Loop resistance with a wire across a stretch (Ω, leads included): as <see cref="LoopNetwork.BypassOhms"/>.</summary>
    /// <param name="line">The sound wire.</param>
    /// <param name="faults">Its faults, in order along the wire; those at either end of the stretch lie inside it.</param>
    /// <param name="fromMetres">Start of the stretch (m from A).</param>
    /// <param name="toMetres">End of the stretch (m from A).</param>
    /// <param name="bypassOhms">The wire across (Ω), above 0.</param>
    /// <param name="leadOhms">The meter's leads (Ω), 0 or more.</param>
    /// <exception cref="ArgumentException">As for <see cref="Of(in WireLine, ReadOnlySpan{WireFault})"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static double BypassOhms(
        in WireLine line, ReadOnlySpan<WireFault> faults, double fromMetres, double toMetres, double bypassOhms, double leadOhms)
    {
        Guard.NotNegative(leadOhms);
        return Between(line, faults, 0, startFaults: true, fromMetres, endFaults: false)
            .Then(Between(line, faults, fromMetres, startFaults: true, toMetres, endFaults: true).Bridged(bypassOhms))
            .Then(Between(line, faults, toMetres, startFaults: false, line.LengthMetres, endFaults: true)).LoopOhms + leadOhms;
    }

    private static DcChain Between(
        in WireLine line, ReadOnlySpan<WireFault> faults, double fromMetres, bool startFaults, double toMetres, bool endFaults)
    {
        if (!(fromMetres >= 0 && fromMetres <= toMetres && toMetres <= line.LengthMetres))
        {
            throw new ArgumentOutOfRangeException(nameof(fromMetres), fromMetres, $"Needs 0 <= from <= to <= length; to is {toMetres}.");
        }

        DcChain chain = default;
        double at = fromMetres, last = 0;
        foreach (WireFault fault in faults)
        {
            double place = fault.AtMetres;
            if (!(place >= last && place <= line.LengthMetres))
            {
                throw new ArgumentException($"Fault at {place} m is out of order or beyond the wire.", nameof(faults));
            }

            last = place;
            if (place < fromMetres || place > toMetres || (place == fromMetres && !startFaults) || (place == toMetres && !endFaults))
            {
                continue;
            }

            chain = chain.Wire(line, place - at).Fault(fault);
            at = place;
        }

        return chain.Wire(line, toMetres - at);
    }

    /// <summary>The chain lengthened at end B by a piece of sound wire (m, 0 or more), with its even leakage.</summary>
    public DcChain Wire(in WireLine line, double metres)
    {
        Guard.NotNegative(metres);
        double ohms = line.OhmsPerMetre * metres, siemens = line.LeakSiemensPerMetre * metres;

        (double through, double end) = LinePi.Of(ohms, siemens);
        return Leak(end).Series(through).Leak(end);
    }

    /// <summary>The chain lengthened at end B by a resistance (Ω, 0 or more, infinite for a clean break).</summary>
    public DcChain Series(double ohms)
    {
        if (!(ohms >= 0))
        {
            throw new ArgumentOutOfRangeException(nameof(ohms), ohms, "Needs 0 Ω or more.");
        }

        if (double.IsPositiveInfinity(ohms))
        {
            double reached = double.IsPositiveInfinity(ThroughOhms) ? 0 : SideBSiemens / (1 + (SideBSiemens * ThroughOhms));
            return new(ohms, SideASiemens + reached, 0);
        }

        if (double.IsPositiveInfinity(ThroughOhms))
        {
            return new(ThroughOhms, SideASiemens, SideBSiemens / (1 + (SideBSiemens * ohms)));
        }

        double through = ThroughOhms + ohms + (SideBSiemens * ThroughOhms * ohms);
        return through > 0
            ? new(through, SideASiemens + (SideBSiemens * (ohms / through)), SideBSiemens * (ThroughOhms / through))
            : this;
    }

    /// <summary>The chain with a conductance (S, 0 or more) from its end B to earth.</summary>
    public DcChain Leak(double siemens)
    {
        Guard.NotNegative(siemens);

        // While the chain has no length its ends are one node; the conductance stands at B, and Series moves it when length comes.
        return new(ThroughOhms, SideASiemens, SideBSiemens + siemens);
    }

    /// <summary>The chain lengthened at end B by a fault.</summary>
    /// <exception cref="ArgumentException">A contact to metal.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public DcChain Fault(WireFault fault)
    {
        switch (fault)
        {
            case WireFault.SeriesResistance series:
                return Series(series.Ohms);
            case WireFault.Leak leak:
                Guard.Positive(leak.Ohms);
                return Leak(1 / leak.Ohms);
            case WireFault.Open open:
                return Leak(1 / open.SideAEarthOhms).Series(open.ResidualOhms).Leak(1 / open.SideBEarthOhms);
            default:
                throw new ArgumentException($"A chain cannot hold {fault.GetType().Name}; use {nameof(LoopNetwork)}.", nameof(fault));
        }
    }

    /// <summary>This chain with another at its end B.</summary>
    public DcChain Then(in DcChain next) => Leak(next.SideASiemens).Series(next.ThroughOhms).Leak(next.SideBSiemens);

    /// <summary>The chain with a resistance (Ω, above 0) laid from its end A to its end B: a bypass wire.</summary>
    public DcChain Bridged(double ohms)
    {
        Guard.Positive(ohms);
        return new(double.IsPositiveInfinity(ThroughOhms) ? ohms : ThroughOhms * (ohms / (ThroughOhms + ohms)), SideASiemens, SideBSiemens);
    }

    /// <summary>What an ohmmeter from end to end shows (Ω), the earth's path included; infinite when there is no path.</summary>
    public double LoopOhms
    {
        get
        {
            // The earth's path: both arms in series. It does not exist while either arm is missing.
            if (!(SideASiemens > 0 && SideBSiemens > 0))
            {
                return ThroughOhms;
            }

            double earthOhms = (1 / SideASiemens) + (1 / SideBSiemens);
            return double.IsPositiveInfinity(ThroughOhms) ? earthOhms : ThroughOhms * (earthOhms / (ThroughOhms + earthOhms));
        }
    }

    /// <summary>Conductance to remote earth from end A, end B unplugged (S).</summary>
    public double EarthSiemensFromA => SideASiemens + Reached(SideBSiemens);

    /// <summary>Conductance to remote earth from end B, end A unplugged (S).</summary>
    public double EarthSiemensFromB => SideBSiemens + Reached(SideASiemens);

    /// <summary>Conductance to remote earth with both ends joined (S).</summary>
    public double EarthSiemensJoined => SideASiemens + SideBSiemens;

    /// <summary>The earth-ratio test: a battery across the ends, a voltmeter from each end in turn to a stake. Magnitudes (V).</summary>
    /// <param name="batteryVolts">Battery's open-circuit voltage (V).</param>
    /// <param name="batteryOhms">Battery's inner resistance (Ω), 0 or more.</param>
    /// <param name="stakeOhms">Stake's resistance to remote earth (Ω), 0 or more.</param>
    /// <param name="voltmeterOhms">Voltmeter's input resistance (Ω), above 0.</param>
    public (double VoltsA, double VoltsB) EarthRatioVolts(
        double batteryVolts = WiringPractice.BatteryVolts,
        double batteryOhms = WiringPractice.BatteryOhms,
        double stakeOhms = WiringPractice.StakeOhms,
        double voltmeterOhms = WiringPractice.VoltmeterInputOhms)
    {
        Guard.Finite(batteryVolts);
        Guard.NotNegative(batteryOhms);
        Guard.NotNegative(stakeOhms);
        Guard.Positive(voltmeterOhms);
        return (
            MeterVolts(SideASiemens, SideBSiemens, batteryVolts, batteryOhms, stakeOhms, voltmeterOhms),
            MeterVolts(SideBSiemens, SideASiemens, batteryVolts, batteryOhms, stakeOhms, voltmeterOhms));
    }

    // The voltmeter and the stake hang on the near end and load its arm to earth.
    private double MeterVolts(
        double nearSiemens, double farSiemens, double batteryVolts, double batteryOhms, double stakeOhms, double voltmeterOhms)
    {
        double near = nearSiemens + (1 / (voltmeterOhms + stakeOhms));
        double loopOhms = new DcChain(ThroughOhms, near, farSiemens).LoopOhms;
        double across = double.IsPositiveInfinity(loopOhms) ? batteryVolts : batteryVolts * (loopOhms / (batteryOhms + loopOhms));
        return Math.Abs(across) * (farSiemens / (near + farSiemens)) * (voltmeterOhms / (voltmeterOhms + stakeOhms));
    }

    private double Reached(double farSiemens) =>
        double.IsPositiveInfinity(ThroughOhms) ? 0 : farSiemens / (1 + (farSiemens * ThroughOhms));
}
