using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Trial.Tests;

public class TrialYardsTests
{
    private const int Yards = 400;

    [Fact]
    public void Same_seed_gives_the_same_yard_and_another_seed_another()
    {
        string[] once = [.. Enumerable.Range(0, 24).Select(i => Told(5, i))], again = [.. Enumerable.Range(0, 24).Reverse().Select(i => Told(5, i)).Reverse()];
        Assert.Equal(once, again);
        Assert.Equal(24, once.Distinct().Count());
        Assert.DoesNotContain(Told(6, 3), once);
    }

    [Fact]
    public void Yards_keep_to_what_they_promise()
    {
        HashSet<CauseKind> met = [];
        for (int i = 0; i < Yards; i++)
        {
            TrialYard trial = TrialYards.Generate(11, i);
            Loop loop = trial.Case.Yard.Loop;
            Assert.InRange(loop.LengthMetres, 55, 420);
            Assert.InRange(loop.Joints.Count, 0, 8);
            Assert.All(loop.Joints, joint => Assert.InRange(joint.AtMetres, 1, loop.LengthMetres - 1));
            Assert.InRange(trial.Case.Observations.Count, 0, 3);
            Assert.All(trial.Faults.Where(fault => fault.InWire), fault => Assert.InRange(fault.AtMetres!.Value, 0, loop.LengthMetres));
            Assert.All(trial.Faults.Where(fault => fault.AtJoint), fault => Assert.True(
                fault.AtMetres == 0 || fault.AtMetres == loop.LengthMetres || loop.Joints.Any(joint => joint.AtMetres == fault.AtMetres)));
            Assert.False(new TrialWorld(trial).MowerRuns);
            met.UnionWith(trial.Faults.Select(fault => fault.Kind));
        }

        Assert.Equal(12, met.Count);
    }

    [Fact]
    public void Truth_mended_makes_the_mower_run()
    {
        for (int i = 0; i < Yards; i++)
        {
            TrialYard trial = TrialYards.Generate(12, i);
            TrialWorld world = new(trial);
            foreach (Fault fault in trial.Faults)
            {
                // A yard's breadth round the place, and both places of a pair: the repair is right, not the aim.
                world.Perform(fault.InWire && !fault.AtJoint ? new(StepKind.RenewLoop) : Oracle.Repair(fault, trial.Case.Yard.Loop));
            }

            Assert.True(world.MowerRuns, $"yard {i}: {TrialReport.CauseName(trial.Truth)}");
        }
    }

    [Fact]
    public void Routine_cures_nearly_all_and_never_below_the_oracle()
    {
        int cured = 0;
        for (int i = 0; i < Yards; i++)
        {
            TrialYard trial = TrialYards.Generate(13, i);
            TrialWorld routine = PracticeRoutine.Play(trial);
            cured += routine.MowerRuns ? 1 : 0;
            Assert.True(!routine.MowerRuns || routine.Cost >= Oracle.Cost(trial) - 1e-9, $"yard {i}: {routine.Cost} under {Oracle.Cost(trial)}");
        }

        Assert.True(cured >= 0.97 * Yards, $"{cured} of {Yards}");
    }

    private static string Told(ulong seed, int index)
    {
        TrialYard yard = TrialYards.Generate(seed, index);
        return string.Join("\n", TrialStory.Tell(new(yard, [], false, null, 0, 0, null, PracticeRoutine.Play(yard), Oracle.Cost(yard))))
            + string.Join("\n", yard.Case.Observations);
    }
}
