using System.Numerics;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Circuits;

/// <summary>
/// A loop with everything wrong in it as one electrical network: the wire's pieces and faults in a chain from A to B, remote earth as one node,
/// metal beside the wire with its own resistance to earth, and whatever is put on the terminals. Immutable.
/// </summary>
/// <remarks>Pieces of sound wire are exact leaking lines (<see cref="LinePi"/>), so results do not depend on how the wire is divided. Inductive
/// coupling between wire and metal is not modelled. Accuracy: that of <see cref="Network"/>.</remarks>
public sealed class LoopNetwork
{
    /// <summary>Terminal A's node.</summary>
    public const string TerminalA = "A";

    /// <summary>Terminal B's node.</summary>
    public const string TerminalB = "B";

    /// <summary>Remote earth's node; absent when nothing touches the earth.</summary>
    public const string Earth = "earth";

    /// <summary>The element on the terminals.</summary>
    public const string Drive = "drive";

    private const string Stake = "stake", Meter = "meter", FarStake = "far stake";

    // Pieces into which a metal object is cut to follow its current.
    private const int MetalSteps = 32;

    // Share of a pulse's height that must come back to be taken for a break or short.
    private const double LeastEcho = 0.5;

    // Wave impedance assumed where the wire's capacitance was left out (Ω): a middle value for insulated wire in soil, common practice, no source.
    private const double FreeWaveOhms = 30;

    /// <summary>Describes a loop.</summary>
    /// <param name="line">The sound wire.</param>
    /// <param name="faults">What is wrong with it, in any order; at equal places the listed order is the order along the wire.</param>
    /// <param name="metals">Metal objects that <see cref="WireFault.MetalContact"/> may name.</param>
    /// <exception cref="ArgumentOutOfRangeException">A fault beyond the wire, a value outside its range, or a metal index without metal.</exception>
    public LoopNetwork(WireLine line, IEnumerable<WireFault> faults, IReadOnlyList<MetalObject>? metals = null)
    {
        Line = line;
        Faults = [.. faults.OrderBy(fault => fault.AtMetres)];
        Metals = metals ?? [];
        foreach (WireFault fault in Faults)
        {
            Check(fault);
        }
    }

    /// <summary>The sound wire.</summary>
    public WireLine Line { get; }

    /// <summary>What is wrong with it, in order along the wire.</summary>
    public IReadOnlyList<WireFault> Faults { get; }

    /// <summary>Metal objects beside the wire.</summary>
    public IReadOnlyList<MetalObject> Metals { get; }

    /// <summary>The same loop with its terminals exchanged.</summary>
    public LoopNetwork Reversed() => new(Line, Faults.Reverse().Select(fault => fault.Mirrored(Line.LengthMetres)), Metals);

    /// <summary>The network under a set-up: nodes <see cref="TerminalA"/>, <see cref="TerminalB"/>, <see cref="Earth"/>, element <see cref="Drive"/>.</summary>
    public NetworkResult Solve(DriveSetup setup) => Draw(setup).Solve();

    /// <summary>What an ohmmeter across the unplugged terminals shows (Ω), its leads included; infinite when there is no path.</summary>
    public double LoopResistanceOhms(double leadOhms = 0) => Draw(new DriveSetup.OpenEnds()).MeteredOhms(TerminalA, TerminalB, leadOhms);

    /// <summary>What an ohmmeter from the unplugged loop to a stake shows (Ω), the stake included; infinite when there is no path.</summary>
    /// <param name="end">The terminal it is held to; null with both joined.</param>
    /// <param name="stakeOhms">The stake's resistance to remote earth (Ω), above 0.</param>
    public double EarthResistanceOhms(WireEnd? end = null, double stakeOhms = WiringPractice.StakeOhms)
    {
        LoopDrawing drawing = Draw(new DriveSetup.OpenEnds());
        drawing.AddStake(Stake, stakeOhms);
        if (end is null)
        {
            drawing.Add(new Element.Ammeter("join", TerminalA, TerminalB, 0));
        }

        return drawing.MeteredOhms(NodeOf(end ?? WireEnd.A), Stake, 0);
    }

    /// <summary>The earth-ratio test: a battery across the terminals, a voltmeter from each terminal in turn to a stake. Magnitudes (V), the mean of
    /// both polarities, which is free of any galvanic voltage.</summary>
    public (double VoltsA, double VoltsB) EarthRatioVolts(
        DriveSetup.Battery? battery = null,
        double stakeOhms = WiringPractice.StakeOhms,
        double voltmeterOhms = WiringPractice.VoltmeterInputOhms)
    {
        double Reading(string node)
        {
            LoopDrawing drawing = Draw(battery ?? new());
            drawing.AddStake(Stake, stakeOhms);
            drawing.Add(new Element.Voltmeter(Meter, node, Stake, voltmeterOhms));
            return (drawing.SolveAround(Stake).OrThrow().Amperes(Meter) * voltmeterOhms).Magnitude;
        }

        return (Reading(TerminalA), Reading(TerminalB));
    }

    /// <summary>The loop opened at a place, each side measured from its terminal through a lead (Ω, lead included; infinite when there is no path).
    /// Faults exactly there are taken as cured by opening and remaking the place.</summary>
    /// <param name="atMetres">Where (m from A), inside the wire.</param>
    /// <param name="leadOhms">The long lead to the open place (Ω), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A place not inside the wire, or a lead below 0.</exception>
    public (double OhmsA, double OhmsB) SplitResistanceOhms(double atMetres, double leadOhms = 0)
    {
        CheckInside(atMetres);
        LoopNetwork opened = new(
            Line, [.. Faults.Where(fault => fault.AtMetres != atMetres), new WireFault.Open(atMetres)], Metals);
        double Side(string terminal, bool afterFaults)
        {
            LoopDrawing drawing = opened.Draw(new DriveSetup.OpenEnds(), new Cut(atMetres, afterFaults));
            return drawing.MeteredOhms(terminal, drawing.CutNodes[0], leadOhms);
        }

        return (Side(TerminalA, afterFaults: false), Side(TerminalB, afterFaults: true));
    }

    /// <summary>What an ohmmeter across the terminals shows (Ω) while a wire lies across a stretch, faults at both its ends included in it.</summary>
    /// <param name="fromMetres">Start of the stretch (m from A).</param>
    /// <param name="toMetres">Its end.</param>
    /// <param name="bypassOhms">The wire laid across (Ω), above 0.</param>
    /// <param name="leadOhms">The meter's leads (Ω), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A stretch that does not lie along the wire, or a value outside its range.</exception>
    public double BypassOhms(double fromMetres, double toMetres, double bypassOhms, double leadOhms = 0)
    {
        Guard.Positive(bypassOhms);
        if (!(fromMetres >= 0 && fromMetres < toMetres && toMetres <= Line.LengthMetres))
        {
            throw new ArgumentOutOfRangeException(nameof(fromMetres), fromMetres, $"Needs 0 <= from < to <= length; to is {toMetres}.");
        }

        LoopDrawing drawing = Draw(new DriveSetup.OpenEnds(), new Cut(fromMetres, AfterFaults: false), new Cut(toMetres, AfterFaults: true));
        drawing.Add(new Element.Resistor("bypass", drawing.CutNodes[0], drawing.CutNodes[1], bypassOhms));
        return drawing.MeteredOhms(TerminalA, TerminalB, leadOhms);
    }

    /// <summary>What a capacitance meter between one terminal and a stake meets, the other terminal unplugged. For a clean break: capacitance per
    /// metre × the length still attached.</summary>
    /// <param name="end">The terminal.</param>
    /// <param name="meterHertz">The meter's frequency (Hz).</param>
    public CapacitanceReading EndCapacitance(WireEnd end, double meterHertz = WiringPractice.CapacitanceMeterHertz)
    {
        Guard.Positive(meterHertz);
        LoopDrawing drawing = new(this, meterHertz);
        drawing.Add(new Element.VoltageSource(Meter, NodeOf(end), Earth, 1, 0));
        Complex siemens = -drawing.SolveAround(Earth).OrThrow().Amperes(Meter);
        return new(siemens.Imaginary / (2 * Math.PI * meterHertz), siemens.Real);
    }

    /// <summary>How strong a sender's tone is in the wire at a place; at a fault, on its A side. A piece that nothing joins to the sender or
    /// the earth rests at the earth's voltage: 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A place beyond the wire.</exception>
    public ToneLevel ToneLevelAt(DriveSetup.ToneSender sender, double atMetres)
    {
        Guard.NotNegative(atMetres);
        LoopDrawing drawing = Draw(sender, new Cut(atMetres, AfterFaults: false));
        string node = drawing.CutNodes[0];
        if (!drawing.Joins(node, Earth))
        {
            return new(0, 0);
        }

        NetworkResult.Solved solved = drawing.SolveAround(Earth).OrThrow();
        return new(drawing.WireAmperesAt(solved, node).Magnitude, solved.Volts(node).Magnitude);
    }

    /// <summary>Current through the drive under a set-up (A, towards A and on through the loop): what a station's lamp responds to.</summary>
    /// <returns>Null when the set-up drives nothing or the network has no single answer.</returns>
    public Complex? DriveAmperes(DriveSetup setup)
    {
        LoopDrawing drawing = Draw(setup);
        return setup is not DriveSetup.OpenEnds
            && drawing.SolveAround(DriveNode(setup)) is NetworkResult.Solved solved
            ? -solved.Amperes(Drive)
            : null;
    }

    /// <summary>Where the current of a set-up flows, in wire and metal.</summary>
    /// <param name="setup">What is on the terminals.</param>
    /// <param name="path">Where the wire runs; places scale with its length when that differs from the line's.</param>
    /// <param name="depthMetres">How deep it lies (m); metal is taken at the ground's surface.</param>
    /// <returns>Null when the set-up drives nothing or the network has no single answer.</returns>
    public LoopCurrents? CurrentsAlong(DriveSetup setup, WirePath path, double depthMetres)
    {
        Guard.Finite(depthMetres);
        LoopDrawing drawing = Draw(setup);
        if (setup is DriveSetup.OpenEnds || drawing.SolveAround(DriveNode(setup)) is not NetworkResult.Solved solved)
        {
            return null;
        }

        double scale = path.LengthMetres / Line.LengthMetres;
        List<WireCurrent> wire = [];
        List<CurrentSegment> segments = [];
        foreach (ChainLink link in drawing.Links.Where(link => link.ToMetres > link.FromMetres))
        {
            // A stretch that nothing joins to the drive carries nothing.
            Complex amperes = solved.NodeVolts.ContainsKey(link.FromNode) ? LoopDrawing.MeanAmperes(solved, link) : Complex.Zero;
            wire.Add(new(link.FromMetres, link.ToMetres, amperes));
            AddSegments(segments, path, link.FromMetres * scale, link.ToMetres * scale, -depthMetres, amperes);
        }

        double metalAmperes = 0;
        for (int metal = 0; metal < Metals.Count; metal++)
        {
            metalAmperes += AddMetal(segments, drawing, solved, metal, path, scale);
        }

        Complex drive = -solved.Amperes(Drive);
        return new(drive, wire, segments, drive == Complex.Zero ? null : metalAmperes / drive.Magnitude);
    }

    // Adds a metal object's pieces and returns the current that passes through it (A): what enters it, which is also what leaves it.
    private double AddMetal(
        List<CurrentSegment> segments, LoopDrawing drawing, NetworkResult.Solved solved, int metal, WirePath wirePath, double scale)
    {
        List<(double AtMetres, Complex Amperes)> contacts = [];
        WirePath path = Metals[metal].Path;
        for (int i = 0; i < Faults.Count; i++)
        {
            if (Faults[i] is WireFault.MetalContact contact && contact.MetalIndex == metal
                && solved.ElementAmperes.TryGetValue(LoopDrawing.FaultElement(i), out Complex amperes))
            {
                contacts.Add((path.NearestTo(wirePath.PointAt(contact.AtMetres * scale)).AtMetres, amperes));
            }
        }

        if (contacts.Count == 0)
        {
            return 0;
        }

        // Metal conducts so much better than soil that its whole length is one node; continuity alone then gives its current: what came in
        // so far, less an even loss to the soil on the way. Steps of a 32nd follow the slope; contacts and corners are added as they are.
        Complex lost = solved.Amperes(LoopDrawing.MetalEarthElement(metal));
        double length = path.LengthMetres;
        double[] places = [.. contacts.Select(contact => contact.AtMetres)
            .Concat(Enumerable.Range(0, MetalSteps + 1).Select(step => length * step / MetalSteps)).Order().Distinct()];
        for (int i = 0; i + 1 < places.Length; i++)
        {
            double middle = (places[i] + places[i + 1]) / 2;
            Complex amperes = -lost * (middle / length);
            foreach ((double at, Complex entered) in contacts)
            {
                amperes += at < middle ? entered : Complex.Zero;
            }

            AddSegments(segments, path, places[i], places[i + 1], 0, amperes);
        }

        return (contacts.Sum(contact => contact.Amperes.Magnitude) + lost.Magnitude) / 2;
    }

    private static void AddSegments(
        List<CurrentSegment> segments, WirePath path, double fromMetres, double toMetres, double upMetres, Complex amperes)
    {
        double at = fromMetres;
        foreach (double stop in path.CornerMetres.Where(corner => corner > fromMetres && corner < toMetres).Append(toMetres))
        {
            if (stop > at)
            {
                PlanPoint start = path.PointAt(at), end = path.PointAt(stop);
                segments.Add(new(new(start.EastMetres, start.NorthMetres, upMetres), new(end.EastMetres, end.NorthMetres, upMetres), amperes));
                at = stop;
            }
        }
    }

    private static string DriveNode(DriveSetup setup) => setup is DriveSetup.ToneSender { From: WireEnd.B } ? TerminalB : TerminalA;

    /// <summary>The first break or short that a reflectometer at one end shows, against the soil.</summary>
    /// <param name="from">The end it stands at.</param>
    /// <param name="velocityFactor">Pulse speed as a share of light's, above 0, at most 1.</param>
    /// <remarks>A series resistance R reflects R/(R + 2Z), a leak R reflects −Z/(Z + 2R), Z the wire's wave impedance, 1/(speed × capacitance per metre);
    /// half the pulse or more coming back is taken for a break or short. A single wire in soil is a poor line: the delay is good to ±10 %
    /// unless calibrated (references D3). Source of the coefficients: textbooks on lines, from memory; the limit of a half: common practice, no source.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A velocity factor outside its range.</exception>
    public EchoReading Reflection(WireEnd from, double velocityFactor = WiringPractice.VelocityFactor)
    {
        if (!(velocityFactor > 0 && velocityFactor <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(velocityFactor), velocityFactor, "Needs more than 0 and at most 1.");
        }

        double speed = velocityFactor * PhysicalConstants.SpeedOfLight;
        double waveOhms = Line.CapacitanceFaradPerMetre > 0 ? 1 / (speed * Line.CapacitanceFaradPerMetre) : FreeWaveOhms;
        foreach (WireFault fault in from == WireEnd.A ? Faults : Faults.Reverse())
        {
            double echo = fault switch
            {
                WireFault.SeriesResistance series => series.Ohms / (series.Ohms + (2 * waveOhms)),
                WireFault.Open open => double.IsPositiveInfinity(open.ResidualOhms) ? 1 : open.ResidualOhms / (open.ResidualOhms + (2 * waveOhms)),
                WireFault.Leak leak => -waveOhms / (waveOhms + (2 * leak.Ohms)),
                WireFault.MetalContact contact => -waveOhms / (waveOhms + (2 * (contact.Ohms + Metals[contact.MetalIndex].EarthOhms))),
                _ => 0,
            };
            if (Math.Abs(echo) >= LeastEcho)
            {
                double metres = from == WireEnd.A ? fault.AtMetres : Line.LengthMetres - fault.AtMetres;
                return new(echo > 0 ? EchoKind.Open : EchoKind.ShortCircuit, 2 * metres / speed, WiringPractice.VelocityFactorRelativeUncertainty);
            }
        }

        return new(EchoKind.None, null, WiringPractice.VelocityFactorRelativeUncertainty);
    }

    private LoopDrawing Draw(DriveSetup setup, params ReadOnlySpan<Cut> cuts)
    {
        LoopDrawing drawing = new(this, setup.FrequencyHertz, cuts);
        switch (setup)
        {
            case DriveSetup.Station station:
                drawing.Add(new Element.VoltageSource(Drive, TerminalA, TerminalB, station.Volts, station.Ohms));
                break;
            case DriveSetup.Ohmmeter meter:
                drawing.Add(new Element.VoltageSource(Drive, TerminalA, TerminalB, 1, meter.LeadOhms));
                break;
            case DriveSetup.Battery battery:
                drawing.Add(new Element.VoltageSource(Drive, TerminalA, TerminalB, battery.Volts, battery.Ohms));
                break;
            case DriveSetup.ToneSender sender:
                drawing.AddStake(Stake, sender.StakeOhms);
                drawing.Add(new Element.VoltageSource(Drive, NodeOf(sender.From), Stake, sender.Volts, sender.Ohms));
                if (sender.FarEndEarthed)
                {
                    drawing.Add(new Element.Resistor(
                        FarStake, NodeOf(sender.From == WireEnd.A ? WireEnd.B : WireEnd.A), Earth, sender.StakeOhms));
                }

                break;
        }

        return drawing;
    }

    private void CheckInside(double atMetres)
    {
        if (!(atMetres > 0 && atMetres < Line.LengthMetres))
        {
            throw new ArgumentOutOfRangeException(nameof(atMetres), atMetres, $"Needs a place inside the wire's {Line.LengthMetres} m.");
        }
    }

    private void Check(WireFault fault)
    {
        if (!(fault.AtMetres >= 0 && fault.AtMetres <= Line.LengthMetres))
        {
            throw new ArgumentOutOfRangeException(nameof(fault), fault.AtMetres, $"Needs a place on the wire's {Line.LengthMetres} m.");
        }

        switch (fault)
        {
            case WireFault.SeriesResistance series:
                Guard.NotNegative(series.Ohms);
                break;
            case WireFault.Leak leak:
                Guard.Positive(leak.Ohms);
                break;
            case WireFault.Open open:
                PositiveOrInfinite(open.ResidualOhms);
                PositiveOrInfinite(open.SideAEarthOhms);
                PositiveOrInfinite(open.SideBEarthOhms);
                break;
            case WireFault.MetalContact contact:
                Guard.Positive(contact.Ohms);
                if (contact.MetalIndex < 0 || contact.MetalIndex >= Metals.Count)
                {
                    throw new ArgumentOutOfRangeException(nameof(fault), contact.MetalIndex, $"There are {Metals.Count} metal objects.");
                }

                Guard.Positive(Metals[contact.MetalIndex].EarthOhms);
                break;
        }
    }

    private static void PositiveOrInfinite(double ohms)
    {
        if (!(ohms > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(ohms), ohms, "Needs more than 0 Ω.");
        }
    }

    private static string NodeOf(WireEnd end) => end == WireEnd.A ? TerminalA : TerminalB;
}
