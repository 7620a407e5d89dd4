using CsCheck;
using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Tests;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>The two wires of a double run to an island touching: against the network, and what is advised.</summary>
public sealed class ShortedIslandTests
{
    // 24 by 20 m, an island of 16 m reached by 8 m of double run that leaves the west side: out at 68–76 m, round to 92 m, back at 92–100 m.
    private static readonly Yard Yard = new()
    {
        Name = "Tansy Court",
        Lawn = new([[new(0, 0), new(24, 0), new(24, 20), new(0, 20)]], []),
        Loop = new()
        {
            Path = new([
                new(0, 0), new(24, 0), new(24, 20), new(0, 20), new(0, 20), new(0, 12), new(8, 12), new(8, 14), new(12, 14), new(12, 10), new(8, 10), new(8, 12), new(0, 12), new(0, 0),
            ]),
            Conductor = new() { AreaSquareMetres = 0.5e-6 },
            Joints = [new(20, JointStyle.Gel), new(60, JointStyle.Twisted)],
        },
    };

    private static double RunStart => 24 + 20 + 24 + 8;

    [Fact]
    public void A_double_run_is_found_where_it_is()
    {
        IslandRun run = Assert.Single(IslandRun.Of(Yard.Loop));

        // Found by samples a quarter of a metre apart.
        Assert.Equal(RunStart, run.OutFromMetres, 0.6);
        Assert.Equal(RunStart + 8, run.OutToMetres, 0.6);
        Assert.Equal(RunStart + 24, run.BackFromMetres, 0.6);
        Assert.Equal(RunStart + 32, run.BackToMetres, 0.6);
        Assert.Equal(RunStart + 28, run.Beside(RunStart + 4), 0.4);
    }

    [Fact]
    public void A_plain_loop_has_no_double_run_though_its_ends_meet() => Assert.Empty(IslandRun.Of(DiagnosisScene.Rectangle(20, 30).Loop));

    // Second route: nodal analysis of the loop with the contact across its run. Readings of the whole loop, of both sides of a cut on the ring or
    // elsewhere, and through a needle; tolerance: the solver's.
    [Fact]
    public void Readings_over_a_shorted_run_are_those_of_the_network() => Gen.Select(Gen.Double[0.5, 7.5], Gen.Double[0.01, 5], Gen.Double[1, 119], Gen.Bool).Sample(
        (along, contact, at, needle) =>
        {
            YardPhysics physics = new(Yard);
            double length = physics.LengthMetres, perMetre = physics.OhmsPerMetre, start = RunStart + along, back = RunStart + 32 - along;
            at = Math.Min(at, length - 1);
            if (Math.Abs(at - start) < 0.01 || Math.Abs(at - back) < 0.01 || Yard.Loop.JointNear(at) is not null)
            {
                return;
            }

            double a = Read("A", "P"), b = Read("Q", "B"), whole = Read("A", "B");
            Observation seen = needle ? new Observation.PinProbe(at, a, b, 0) : new Observation.SplitResistance(at, a, b, 0);
            List<OhmsReading> readings = [.. OhmsReading.From(seen, 0, 0, 1, physics), .. OhmsReading.From(new Observation.LoopResistance(whole, 0, MeterAccuracy.Plain), 1, 0, 1, physics)];
            Assert.Equal(3, readings.Count);
            Assert.All(readings, reading => Assert.Equal(reading.Ohms!.Value, ShortedRun.NominalOhms(reading, !reading.IsNeedle, (start, back), contact, perMetre), 1e-6));

            double Read(string from, string to)
            {
                // The whole loop is read before anybody opens it.
                bool open = !needle && to != from && !(from == "A" && to == "B");
                (string Name, double At)[] nodes = [.. new[] { ("A", 0.0), ("S", start), ("T", back), ("P", at), ("Q", at + 1e-9), ("B", length) }.OrderBy(node => node.Item2)];
                List<Element> parts = [new Element.Resistor("contact", "S", "T", contact), new Element.CurrentSource("meter", to, from, 1)];
                for (int i = 0; i + 1 < nodes.Length; i++)
                {
                    bool cut = nodes[i].Name == "P" && nodes[i + 1].Name == "Q";
                    double ohms = cut ? (open ? 1e12 : 1e-9) : Math.Max(1e-9, (nodes[i + 1].At - nodes[i].At) * perMetre);
                    parts.Add(new Element.Resistor($"piece{i}", nodes[i].Name, nodes[i + 1].Name, ohms));
                }

                return new Network(["A", "S", "T", "P", "Q", "B"], parts, to).SolveDc().OrThrow().Volts(from).Real;
            }
        },
        iter: 60, threads: 1);

    private static Observation.LoopResistance Less(double lessOhms)
    {
        double mean = new YardPhysics(Yard).Budget.MeanOhms;
        return new(Math.Round(mean - lessOhms + 0.3, 1), 0.3, MeterAccuracy.Plain);
    }

    [Fact]
    public void A_loop_that_reads_less_than_its_budget_speaks_for_the_short()
    {
        Advice advice = DiagnosisScene.Advise(Yard, new Observation.StationLamp(LampState.Normal), Less(0.9));

        Assert.InRange(advice.Probability(CauseKind.ShortCircuit), 0.5, 1);
        Assert.NotNull(advice.Location);
        Assert.InRange(advice.Location.AtMetres, RunStart - 0.5, RunStart + 8.5);
        Assert.True(advice.Next[0].Step.Kind is not (StepKind.RelayLayout or StepKind.RenewLoop or StepKind.ServiceReceiver or StepKind.ServiceDrive));
    }

    [Fact]
    public void A_mower_that_crosses_the_ring_and_nothing_else_speaks_for_the_short()
    {
        Observation[] sound = [new Observation.StationLamp(LampState.Normal)];
        double before = DiagnosisScene.Advise(Yard, sound).Probability(CauseKind.ShortCircuit);
        double after = DiagnosisScene.Advise(Yard, [.. sound, new Observation.WireCrossing(true, RunStart + 16, false)]).Probability(CauseKind.ShortCircuit);
        double elsewhere = DiagnosisScene.Advise(Yard, [.. sound, new Observation.WireCrossing(true, 10, false)]).Probability(CauseKind.ShortCircuit);

        Assert.True(after > 5 * before, $"{before} to {after}");
        Assert.True(elsewhere < after / 3, $"{elsewhere} and {after}");
    }

    [Fact]
    public void The_run_dug_up_on_either_wire_is_mended()
    {
        double Mended(double from, double to)
        {
            FaultGroup group = DiagnosisScene.Believe(Yard, [], Less(0.9), new Observation.RepairDone(StepKind.MendSpan, null, from, to, "insulation worn")).Group(CauseKind.ShortCircuit);
            return group.Mended / group.Weight;
        }

        Assert.InRange(Mended(RunStart, RunStart + 8), 0.95, 1);
        Assert.InRange(Mended(RunStart + 24, RunStart + 32), 0.95, 1);
        Assert.InRange(Mended(10, 18), 0, 1e-6);
    }

    [Fact]
    public void Where_there_is_no_island_no_short_is_blamed() =>
        Assert.Equal(0, DiagnosisScene.Advise(DiagnosisScene.Rectangle(24, 20), DiagnosisScene.Loop(0.9)).Probability(CauseKind.ShortCircuit));
}
