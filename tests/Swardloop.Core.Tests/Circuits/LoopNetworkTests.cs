using System.Numerics;
using CsCheck;
using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Circuits;

public sealed class LoopNetworkTests
{
    private const double Hertz = 10_000;

    // Both sides are solved to the last digits; sums and quotients round a few times more.
    private const double RoundingOnly = 1e-12;

    private static readonly WireLine Sound = new(200, 0.0121, inductanceHenry: 300e-6, capacitanceFaradPerMetre: 250e-12);

    private static readonly WireLine Bare = new(200, 0.0121, inductanceHenry: 300e-6, leakSiemensPerMetre: 0);

    [Fact]
    public void Exchanging_the_terminals_mirrors_every_reading() =>
        Gen.Select(Wires.Loops, Wires.Places.Where(share => share > 0 && share < 1)).Sample(
            (loop, share) =>
            {
                LoopNetwork mirror = loop.Reversed();
                double at = share * loop.Line.LengthMetres;

                // As the mirror counts it: a fault just there must stay just there.
                double mirrored = loop.Line.LengthMetres - at;
                Near(loop.LoopResistanceOhms(0.3), mirror.LoopResistanceOhms(0.3));
                Near(loop.EarthResistanceOhms(WireEnd.A), mirror.EarthResistanceOhms(WireEnd.B));
                Near(loop.EarthRatioVolts().VoltsA, mirror.EarthRatioVolts().VoltsB);
                Near(loop.SplitResistanceOhms(at).OhmsA, mirror.SplitResistanceOhms(mirrored).OhmsB);

                Near(loop.EndCapacitance(WireEnd.A), mirror.EndCapacitance(WireEnd.B));
                Assert.Equal(loop.Reflection(WireEnd.A).Kind, mirror.Reflection(WireEnd.B).Kind);
            },
            iter: 100);

    // A fault of no size only divides the wire: readings must not depend on how it is divided, at DC and at a frequency.
    [Fact]
    public void Dividing_the_wire_changes_no_reading() =>
        Gen.Select(Wires.Loops, Wires.Places.Array[1, 4]).Sample(
            (loop, shares) =>
            {
                LoopNetwork divided = new(
                    loop.Line, [.. loop.Faults, .. shares.Select(share => new WireFault.SeriesResistance(share * loop.Line.LengthMetres, 0))]);
                Near(loop.LoopResistanceOhms(), divided.LoopResistanceOhms());
                Near(loop.EndCapacitance(WireEnd.A), divided.EndCapacitance(WireEnd.A));
                DriveSetup station = new DriveSetup.Station(1, 107, Hertz);
                Complex whole = loop.DriveAmperes(station)!.Value, parts = divided.DriveAmperes(station)!.Value;
                Assert.InRange((whole - parts).Magnitude, 0, (1e-11 * whole.Magnitude) + 1e-20);
            },
            iter: 100);

    [Fact]
    public void Station_current_of_a_bare_loop_is_the_closed_form() =>
        Gen.Select(Gen.Double[0, 2000], Gen.Double[1, 300]).Sample(
            (fault, source) =>
            {
                LoopNetwork loop = new(Bare, [new WireFault.SeriesResistance(71, fault)]);
                double expected = 24 / Math.Sqrt(Math.Pow(source + 2.42 + fault, 2) + Math.Pow(2 * Math.PI * Hertz * 300e-6, 2));
                Near(expected, loop.DriveAmperes(new DriveSetup.Station(24, source, Hertz))!.Value.Magnitude);
            },
            iter: 50);

    [Fact]
    public void Power_balances_with_station_and_battery() =>
        Wires.Loops.Sample(
            loop =>
            {
                foreach (DriveSetup setup in new DriveSetup[] { new DriveSetup.Station(10, 107, Hertz), new DriveSetup.Battery(), new DriveSetup.Ohmmeter(0.4) })
                {
                    if (loop.Solve(setup) is NetworkResult.Solved solved)
                    {
                        PowerBalance power = solved.Power;
                        Assert.InRange(
                            (power.DeliveredVoltAmperes - power.TakenVoltAmperes).Magnitude, 0, (1e-11 * power.DeliveredVoltAmperes.Magnitude) + 1e-20);
                    }
                }
            },
            iter: 60);

    // Model 5: s/L = Va/(Va + Vb) for a uniform wire whatever the leak's resistance: the meter's 10 MΩ and the stake load both readings alike, and
    // what they load differently is the wire's few ohms in 10 MΩ.
    [Fact]
    public void Earth_ratio_of_one_leak_points_at_it_whatever_it_resists() =>
        Gen.Select(Gen.Double[1, 199], Gen.Double[1, 6]).Sample(
            (at, exponent) =>
            {
                (double voltsA, double voltsB) = new LoopNetwork(Bare, [new WireFault.Leak(at, Math.Pow(10, exponent))]).EarthRatioVolts();
                Assert.Equal(at, 200 * voltsA / (voltsA + voltsB), 1e-3);
            },
            iter: 50);

    // References D2: two equal faults at 50 and 150 m of 200 m point to 100 m, where there is no fault. By symmetry to the last digits.
    [Fact]
    public void Earth_ratio_of_two_equal_leaks_points_midway()
    {
        (double voltsA, double voltsB) = new LoopNetwork(Bare, [new WireFault.Leak(50, 2000), new WireFault.Leak(150, 2000)]).EarthRatioVolts();
        Assert.Equal(100, 200 * voltsA / (voltsA + voltsB), 1e-9);
    }

    // References D1: apparent place Σ g·x / Σ g while the leaks draw little: they draw the share wire ohms / leak ohms, here 2.42/20000.
    [Fact]
    public void Earth_ratio_of_two_leaks_points_to_their_mean_by_conductance() =>
        Gen.Select(Gen.Double[1, 199], Gen.Double[1, 199], Gen.Double[4.3, 5], Gen.Double[4.3, 5]).Sample(
            (first, second, one, other) =>
            {
                double g1 = Math.Pow(10, -one), g2 = Math.Pow(10, -other);
                (double voltsA, double voltsB) = new LoopNetwork(Bare, [new WireFault.Leak(first, 1 / g1), new WireFault.Leak(second, 1 / g2)]).EarthRatioVolts();
                double apparent = 200 * voltsA / (voltsA + voltsB);
                Assert.Equal(((g1 * first) + (g2 * second)) / (g1 + g2), apparent, 200 * 2.42 / 20000);
                Assert.InRange(apparent, Math.Min(first, second) - 0.01, Math.Max(first, second) + 0.01);
            },
            iter: 50);

    [Fact]
    public void Sound_loop_reads_megohms_to_earth()
    {
        LoopNetwork sound = new(new WireLine(300, 0.0145), []);
        Assert.Equal(1 / (300 * WiringPractice.SoundWireLeakSiemensPerMetre), sound.EarthResistanceOhms(), tolerance: 300);
        Assert.InRange(sound.EarthRatioVolts().VoltsA, 1, 4.5);
    }

    // References D2: 10 m cable, 100 pF from one end and 400 pF from the other: 2 m from the 100 pF end.
    [Fact]
    public void Clean_break_divides_the_capacitance_by_length()
    {
        LoopNetwork broken = new(new WireLine(10, 0.02, capacitanceFaradPerMetre: 50e-12, leakSiemensPerMetre: 0), [new WireFault.Open(2)]);
        double faradA = broken.EndCapacitance(WireEnd.A).Farad, faradB = broken.EndCapacitance(WireEnd.B).Farad;

        Assert.Equal(100e-12, faradA, 1e-18);
        Assert.Equal(400e-12, faradB, 1e-18);
        Assert.Equal(2, 10 * faradA / (faradA + faradB), 1e-6);
        Assert.Equal(0, broken.EndCapacitance(WireEnd.A).LeakSiemens, 1e-14); // (ωC)²·R/3, the wire's own ohms in series: 5e-15 S
    }

    [Fact]
    public void Wet_break_shows_its_leak_beside_the_capacitance()
    {
        CapacitanceReading wet = new LoopNetwork(Sound, [new WireFault.Open(50, double.PositiveInfinity, SideAEarthOhms: 20e3)]).EndCapacitance(WireEnd.A);

        Assert.Equal(50 * 250e-12, wet.Farad, 1e-4 * 50 * 250e-12); // wire ohms in 20 kΩ
        Assert.Equal(1 / 20e3, wet.LeakSiemens, 0.01 / 20e3); // the sound wire's own leak, 0.1 %, and its ohms
    }

    // References D2: an open cable of 10.09 m is a quarter wave at 4.835 MHz (an analyser's handbook; factor 0.65): there and back takes half a period.
    [Fact]
    public void Echo_of_a_break_takes_half_a_period_of_its_quarter_wave()
    {
        EchoReading echo = new LoopNetwork(Sound, [new WireFault.Open(10.09)]).Reflection(WireEnd.A, velocityFactor: 195_140_600 / PhysicalConstants.SpeedOfLight);

        Assert.Equal(EchoKind.Open, echo.Kind);
        Assert.Equal(1 / (2 * 4.835e6), echo.DelaySeconds!.Value, 1e-5 / (2 * 4.835e6)); // the speed is printed with six sure digits
        Assert.Equal(0.1, echo.RelativeUncertainty);
    }

    [Fact]
    public void Echo_tells_break_from_short_and_passes_what_is_slight()
    {
        LoopNetwork several = new(
            Sound, [new WireFault.SeriesResistance(20, 5), new WireFault.Leak(60, 2), new WireFault.Open(150, 50e3), new WireFault.Leak(170, 5000)]);

        Assert.Equal(EchoKind.ShortCircuit, several.Reflection(WireEnd.A).Kind);
        Assert.Equal(2 * 60 / (0.6 * PhysicalConstants.SpeedOfLight), several.Reflection(WireEnd.A).DelaySeconds!.Value, tolerance: 1e-15);
        Assert.Equal(EchoKind.Open, several.Reflection(WireEnd.B).Kind);
        Assert.Equal(2 * 50 / (0.6 * PhysicalConstants.SpeedOfLight), several.Reflection(WireEnd.B).DelaySeconds!.Value, tolerance: 1e-15);
        Assert.Equal(new EchoReading(EchoKind.None, null, 0.1), new LoopNetwork(Sound, [new WireFault.SeriesResistance(20, 5)]).Reflection(WireEnd.A));
    }

    // Model 5: the current is the same everywhere, so the tone tells nothing of where the resistance lies.
    [Fact]
    public void Tone_is_as_strong_behind_a_series_resistance_as_before_it() =>
        Gen.Select(Gen.Double[10, 190], Gen.Double[0, 3]).Sample(
            (at, exponent) =>
            {
                LoopNetwork loop = new(Bare, [new WireFault.SeriesResistance(at, Math.Pow(10, exponent))]);
                DriveSetup.ToneSender sender = new(WireEnd.A, FarEndEarthed: true);
                double[] levels = [.. new[] { 0, at / 2, at, (at + 200) / 2, 200 }.Select(place => loop.ToneLevelAt(sender, place).Amperes)];
                Assert.All(levels, level => Near(levels[0], level));
                Assert.True(levels[0] > 1e-4);
            },
            iter: 30);

    // With the far end open a probe feels the voltage. 1 kΩ ahead of 250 pF/m × 200 m at 1 kHz: ωRC = 0.3 at most, 5 % at most.
    [Fact]
    public void Probed_tone_ends_at_a_break_and_hardly_notices_a_resistance()
    {
        DriveSetup.ToneSender sender = new(WireEnd.A);
        double Volts(WireFault fault, double at) => new LoopNetwork(Sound, [fault]).ToneLevelAt(sender, at).Volts;

        Assert.InRange(Volts(new WireFault.SeriesResistance(100, 1000), 150) / Volts(new WireFault.SeriesResistance(100, 1000), 50), 0.95, 1.05);
        Assert.InRange(Volts(new WireFault.Open(100), 150) / Volts(new WireFault.Open(100), 50), 0, 1e-6);
        Assert.True(Volts(new WireFault.Open(100), 50) > 4);
        Assert.Equal(new ToneLevel(0, 0), new LoopNetwork(Bare, [new WireFault.Open(100)]).ToneLevelAt(sender, 150));
    }

    [Fact]
    public void Opening_the_faulty_joint_cures_both_sides()
    {
        LoopNetwork loop = new(Bare, [new WireFault.SeriesResistance(42, 555)]);

        Near(555 + 2.42, loop.LoopResistanceOhms());
        Near(0.5 + (42 * 0.0121), loop.SplitResistanceOhms(42, 0.5).OhmsA);
        Near(0.5 + (158 * 0.0121), loop.SplitResistanceOhms(42, 0.5).OhmsB);
        Near(0.5 + (158 * 0.0121) + 555, new LoopNetwork(Bare, [new WireFault.SeriesResistance(42.5, 555)]).SplitResistanceOhms(42, 0.5).OhmsB);
    }

    [Fact]
    public void Bypass_across_the_fault_takes_its_resistance_away()
    {
        LoopNetwork loop = new(Bare, [new WireFault.SeriesResistance(42, 555)]);
        double stretch = (5 * 0.0121) + 555;

        Near(2.42 - (5 * 0.0121) + (stretch * 0.3 / (stretch + 0.3)), loop.BypassOhms(40, 45, 0.3));
        Near(2.42 - (5 * 0.0121) + (stretch * 0.3 / (stretch + 0.3)), loop.BypassOhms(42, 47, 0.3));
        Assert.True(loop.BypassOhms(50, 60, 0.3) > 555);
    }

    [Fact]
    public void Clean_break_reads_without_limit_and_a_wet_one_what_is_left()
    {
        Assert.Equal(double.PositiveInfinity, new LoopNetwork(Bare, [new WireFault.Open(42)]).LoopResistanceOhms());
        Near(50e3 + 2.42, new LoopNetwork(Bare, [new WireFault.Open(42, 50e3)]).LoopResistanceOhms());
        Assert.Equal(double.PositiveInfinity, new LoopNetwork(Bare, []).EarthResistanceOhms());

        // Two damp ends: down through one, up through the other.
        Near(42 * 0.0121 + 20e3 + 30e3 + 158 * 0.0121, new LoopNetwork(Bare, [new WireFault.Open(42, double.PositiveInfinity, 20e3, 30e3)]).LoopResistanceOhms());
    }

    [Fact]
    public void Loose_half_of_a_broken_loop_is_named_as_floating()
    {
        NetworkResult result = new LoopNetwork(Bare, [new WireFault.Leak(10, 1000), new WireFault.Open(42)]).Solve(new DriveSetup.OpenEnds());

        NetworkResult.Singular singular = Assert.IsType<NetworkResult.Singular>(result);
        Assert.Equal(SingularReason.Floating, singular.Reason);
        Assert.Contains("42 m", singular.Node, StringComparison.Ordinal);
    }

    [Fact]
    public void Faults_outside_the_wire_or_without_sense_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoopNetwork(Bare, [new WireFault.Leak(201, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoopNetwork(Bare, [new WireFault.Leak(double.NaN, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoopNetwork(Bare, [new WireFault.Leak(20, 0)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoopNetwork(Bare, [new WireFault.Open(20, double.NaN)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoopNetwork(Bare, [new WireFault.MetalContact(20, 0, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoopNetwork(Bare, []).SplitResistanceOhms(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WireLine(100, double.NaN));
    }

    // Capacitance and leakage are parts of one admittance; only the whole is right to the last digits when one is small beside the other.
    private static void Near(CapacitanceReading expected, CapacitanceReading actual)
    {
        const double Omega = 2 * Math.PI * WiringPractice.CapacitanceMeterHertz;
        double admittance = (Omega * Math.Abs(expected.Farad)) + expected.LeakSiemens;
        Assert.Equal(expected.LeakSiemens, actual.LeakSiemens, RoundingOnly * admittance);
        Assert.Equal(expected.Farad, actual.Farad, RoundingOnly * admittance / Omega);
    }

    private static void Near(double expected, double actual)
    {
        if (expected != actual)
        {
            Assert.True(Math.Abs(actual - expected) <= (RoundingOnly * Math.Abs(expected)) + 1e-20, $"expected {expected:R}, got {actual:R}");
        }
    }
}
