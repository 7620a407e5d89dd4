using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>One step's money.</summary>
/// <param name="Kind">The step.</param>
/// <param name="By">Who did it.</param>
/// <param name="Money">Minutes at their rate, and parts; travel apart.</param>
/// <param name="Travel">Travel paid with it.</param>
/// <param name="Mended">Whether it ended something that was wrong.</param>
public sealed record Payment(StepKind Kind, Person By, double Money, double Travel, bool Mended)
{
    /// <summary>What the money went for.</summary>
    public Purpose Purpose => Kind switch
    {
        StepKind.MowerCheck => Purpose.Check,
        _ when StepCatalogue.Of(Kind).IsRepair => Mended ? Purpose.RightRepair : Purpose.VainRepair,
        StepKind.Look => Purpose.Look,
        StepKind.EarthResistance or StepKind.Insulation or StepKind.EarthRatio => Purpose.Earth,
        StepKind.LoopResistance => Purpose.Ohms,
        StepKind.SplitResistance => Purpose.Split,
        StepKind.Bypass => Purpose.Bypass,
        StepKind.EndCapacitance or StepKind.ToneTrace or StepKind.Reflection => Purpose.Break,
        _ => By == Person.Owner ? Purpose.Question : Purpose.Symptom,
    };
}

/// <summary>What a step's money goes for.</summary>
public enum Purpose
{
    /// <summary>Something the owner is asked to look at or try.</summary>
    Question,

    /// <summary>The same by a technician, substitutions included.</summary>
    Symptom,

    /// <summary>The loop's resistance.</summary>
    Ohms,

    /// <summary>Opening joints and cutting.</summary>
    Split,

    /// <summary>Surface wires.</summary>
    Bypass,

    /// <summary>Capacitance, tone, reflection.</summary>
    Break,

    /// <summary>Readings to earth.</summary>
    Earth,

    /// <summary>Walking along the wire.</summary>
    Look,

    /// <summary>Checks that the mower runs.</summary>
    Check,

    /// <summary>A repair that mended something.</summary>
    RightRepair,

    /// <summary>A repair that mended nothing.</summary>
    VainRepair,
}
