using System.Numerics;
using System.Text.Json.Nodes;
using Swardloop.Worlds;

namespace Swardloop.Trial.Tests.Worlds;

using Scene = Swardloop.Worlds.Scene;

public sealed class JudgeTests
{
    [Fact]
    public void The_judge_refers_to_nothing_of_the_solution() =>
        Assert.DoesNotContain(typeof(Judge).Assembly.GetReferencedAssemblies(), name => name.Name!.StartsWith("Swardloop", StringComparison.OrdinalIgnoreCase));

    /// <summary>References H1, ngspice 39.3.</summary>
    [Fact]
    public void Nodes_of_a_leaking_loop_stand_as_ngspice_has_them()
    {
        const int T1 = 0, A = 1, B = 2, F = 3, T2 = 4, E = 5;
        Network net = new(6);
        net.Source(-1, T1, 10, 1e-7);
        foreach ((int from, int to, double ohms) in new[] { (T1, A, 0.968), (A, B, 15), (B, F, 0.726), (F, T2, 0.726), (T2, -1, 100), (F, E, 2000), (E, -1, 120) })
        {
            net.Join(from, to, 1 / ohms);
        }

        Complex[] volts = net.Solve();
        Assert.Equal(9.914223, volts[A].Real, 5e-6);
        Assert.Equal(8.585041, volts[B].Real, 5e-6);
        Assert.Equal(8.520709, volts[F].Real, 5e-6);
        Assert.Equal(8.459294, volts[T2].Real, 5e-6);
        Assert.Equal(0.4823043, volts[E].Real, 5e-7);
    }

    /// <summary>References D2, ngspice: aged wire of 12.1 Ω/km and 1 µS/m, 200 m: 5000.807 Ω open, 2.419610 Ω with the far end earthed.</summary>
    [Theory]
    [InlineData(false, 5000.807, 1e-3)]
    [InlineData(true, 2.419610, 1e-5)]
    public void An_evenly_leaking_wire_reads_as_line_theory_has_it(bool earthed, double ohms, double within)
    {
        const int Sections = 200;
        Network net = new(Sections + 1);
        for (int i = 0; i < Sections; i++)
        {
            net.Join(i, i + 1, 1 / 0.0121);
            net.Join(i, -1, 0.5e-6);
            net.Join(i + 1, -1, 0.5e-6);
        }

        if (earthed)
        {
            net.Join(Sections, -1, 1e9);
        }

        net.Drive(-1, 0, 1);
        Assert.Equal(ohms, net.Solve()[0].Real, within);
    }

    /// <summary>A ladder of 200 sections, 200 m of 1.5 mm², 250 pF/m, 1 kHz (model, section 5, ac-ratio): the share of the far end's volts.
    /// The model does not say its series inductance; with the 2 µH/m used here 10 Ω reads within 0.004 of it, without any 0.009 lower.</summary>
    [Theory]
    [InlineData(100, 0.307)]
    [InlineData(1e9, 0.302)]
    [InlineData(10, 0.346)]
    public void A_tone_places_resistance_by_the_capacitance_on_either_side(double ohms, double share)
    {
        Network net = new(202);
        int Node(int i) => i <= 60 ? i : i + 1;
        Complex farad = new(0, 2 * Math.PI * 1000 * 250e-12);
        for (int i = 0; i < 200; i++)
        {
            int from = i == 60 ? 61 : Node(i);
            net.Join(from, Node(i + 1), 1 / new Complex(0.01149, 2 * Math.PI * 1000 * 2e-6));
            net.Join(from, -1, farad / 2);
            net.Join(Node(i + 1), -1, farad / 2);
        }

        net.Join(60, 61, 1 / ohms);
        net.Source(201, 0, 1, 1e-3);
        Complex[] volts = net.Solve();
        Assert.Equal(share, volts[201].Magnitude / (volts[0].Magnitude + volts[201].Magnitude), 0.004);
    }

    /// <summary>References B2: rectangle 30 m by 20 m, 1 A, nT over μ0.</summary>
    [Theory]
    [InlineData(5, 3, 0, 100.4061137)]
    [InlineData(15, 10, 0.3, 48.03152563)]
    [InlineData(15, 1, 0.15, 213.02877)]
    [InlineData(15, -1, 0.15, -179.6591365)]
    [InlineData(15, 0, 0.2, 16.66363754)]
    [InlineData(0.5, 0.5, 0.15, 627.0540524)]
    public void Field_of_a_rectangle_is_that_of_two_other_routes(double x, double y, double height, double nanotesla)
    {
        Plan plan = new([(0, 0), (30, 0), (30, 20), (0, 20), (0, 0)]);
        Assert.Equal(nanotesla, plan.FieldPerAmpere(x, y, height) * 4e-7 * Math.PI * 1e9, Math.Abs(nanotesla) * 1e-6);
    }

    /// <summary>One who answers with the right repair and a check pays what the clairvoyant pays, in every world.</summary>
    [Fact]
    public void One_who_knows_the_truth_pays_what_the_clairvoyant_pays()
    {
        foreach (World world in World.All)
        {
            for (int i = 0; i < 12; i++)
            {
                Scene scene = Scene.Of(world, 5, i);
                Queue<JsonObject> plan = new(Clairvoyant.Repairs(scene).Select(step => (JsonObject)step.DeepClone()));
                bool visits = plan.Any(step => !Tariff.Owners(step)), owner = scene.Owner && Tariff.Price(scene, Clairvoyant.Check(true)) <= Tariff.Price(scene, Clairvoyant.Check(false));
                plan.Enqueue(Clairvoyant.Check(owner || (scene.Owner && !visits)));
                Verdict verdict = Judge.Play(_ => Said(plan.Count > 0 ? plan.Dequeue() : null), scene);
                Assert.True(verdict.Cured, $"{world.Name} {i}: {verdict.Trouble}");
                Assert.Equal(verdict.TruthCost, verdict.Cost, 1e-9);
                Assert.True(verdict.Visit.WrongRepairs == 0, $"{world.Name} {i}: {string.Join('+', scene.Troubles)} | {verdict.Visit.Case["observations"]!.ToJsonString()}");
            }
        }
    }

    [Fact]
    public void The_account_is_the_sum_of_its_steps_and_the_card_never_pays_less_than_nothing()
    {
        foreach (World world in World.All)
        {
            foreach (Verdict verdict in Judge.Play(_ => Said(new() { ["step"] = "loop-resistance", ["by"] = "technician" }), world, 3, 4, 1, cancellation: TestContext.Current.CancellationToken))
            {
                Assert.False(verdict.Cured);
                Assert.Equal(Judge.MostSteps, verdict.Turns.Count);
                Assert.Equal(Judge.MostSteps - 1, verdict.Visit.Repeats);
                Assert.Equal(verdict.Turns.Sum(turn => turn.Cost), verdict.Visit.Cost, 1e-9);
                Assert.Equal(verdict.Scene.Travel + (Judge.MostSteps * 5 / 60.0 * verdict.Scene.Labour), verdict.Visit.Cost, 1e-9);
                Assert.Equal(verdict.Visit.Cost + verdict.Card.Cost, verdict.Cost, 1e-9);
                Assert.Equal(verdict.Card.Money.Values.Sum(), verdict.Card.Cost, 1e-9);
                // What comes and goes may stay away for as long as the card's last check takes.
                Assert.True(verdict.Card.Runs || verdict.Card.Left.All(trouble => !trouble.Harmful || trouble.Cause == "unsteady"), $"{world.Name} {verdict.Scene.Index}: the card did not end {verdict.Scene.Troubles[0].Cause}");
            }
        }
    }

    /// <summary>Whatever is said to be wrong shows in what the mower does, and is gone when it is mended.</summary>
    [Fact]
    public void A_wire_that_harms_silences_the_middle_and_a_mended_one_does_not()
    {
        int silenced = 0;
        foreach (World world in World.All)
        {
            for (int i = 0; i < 20; i++)
            {
                Scene scene = Scene.Of(world, 11, i);
                JsonObject start = new() { ["step"] = "mower-start", ["place"] = "mid-lawn" };
                if (scene.Troubles[0].Cause is "series-resistance" or "open" or "layout")
                {
                    Assert.NotEqual("runs", Asked(scene, [.. scene.Troubles]));
                    silenced++;
                }

                Assert.Equal("runs", Asked(scene, [.. scene.Troubles.Where(trouble => !trouble.Harmful)]));

                string? Asked(Scene yard, List<Trouble> left)
                {
                    JsonObject seen = [];
                    // Oddness would hide the physics: the truth is asked of the wire, not of a person.
                    new Answers(yard, left, oddness: 0).Give(start, "technician", 1, seen);
                    return (string?)seen["value"];
                }
            }
        }

        Assert.True(silenced > 50);
    }

    [Fact]
    public void The_same_seed_gives_the_same_dialogue_however_many_threads()
    {
        static string Told(int threads) => string.Join('\n', Judge.Play(
            _ => Said(new() { ["step"] = "split-resistance", ["atM"] = 12, ["by"] = "technician" }), World.All[5], 9, 6, threads, cancellation: TestContext.Current.CancellationToken).Select(verdict => verdict.Visit.Case.ToJsonString() + verdict.Cost + verdict.Card.Cost));
        Assert.Equal(Told(1), Told(3));
    }

    [Fact]
    public void An_adviser_that_fails_costs_its_yard_and_not_the_trial()
    {
        Verdict verdict = Judge.Play(_ => "{\"error\":\"no\"}", Scene.Of(World.All[0], 1, 0));
        Assert.True(verdict.AdviserFailed);
        Assert.False(verdict.Cured);
        Assert.Equal(verdict.Card.Cost, verdict.Cost, 1e-9);
    }

    private static string Said(JsonObject? step) =>
        (step is null ? new JsonObject { ["finished"] = true } : new JsonObject { ["finished"] = false, ["next"] = new JsonArray(step.DeepClone()) }).ToJsonString();
}
