using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>A simulated yard: the case as it comes in, and the truth behind it. Immutable; <see cref="TrialWorld"/> plays it.</summary>
public sealed class TrialYard
{
    internal TrialYard(int index, WorldStyle style, ServiceCase serviceCase, IReadOnlyList<Fault> faults, WorldHabits habits, YardPhysics physics, Chance chance)
    {
        Index = index;
        Style = style;
        Faults = faults;
        Habits = habits;
        Physics = physics;
        Chance = chance;
        Case = serviceCase;
    }

    /// <summary>Its number within the trial, from 0.</summary>
    public int Index { get; }

    /// <summary>The world it lies in.</summary>
    public WorldStyle Style { get; }

    /// <summary>The complaint, with what the owner noted already.</summary>
    public ServiceCase Case { get; init; }

    /// <summary>What is wrong: one fault or two.</summary>
    public IReadOnlyList<Fault> Faults { get; }

    /// <summary>The cause, or the pair.</summary>
    public Cause Truth => new(Faults[0].Kind, Faults.Count > 1 ? Faults[1].Kind : null);

    internal WorldHabits Habits { get; }

    internal YardPhysics Physics { get; }

    internal Chance Chance { get; }
}
