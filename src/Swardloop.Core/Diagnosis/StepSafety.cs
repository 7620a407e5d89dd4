namespace Swardloop.Core.Diagnosis;

/// <summary>Hard limits that no expected value buys off. Every step passes through here before it can be advised.</summary>
public static class StepSafety
{
    /// <summary>The insulation tester's voltage that is ever advised (V): the lowest of IEC 60364-6 table 6.1, for circuits up to 50 V.</summary>
    public const double AdvisedTestVolts = 250;

    /// <summary>Why a step may not be advised in a case, as a short reason; <see langword="null"/>: it may.</summary>
    /// <remarks>Disconnecting, isolating blades, locating buried services and staying away in thunder are conditions of doing a step, not of
    /// choosing it: they are its cautions, and a step is never shown without them.</remarks>
    public static string? Forbids(Step step, ServiceCase serviceCase)
    {
        StepFacts facts = StepCatalogue.Of(step.Kind);
        if (serviceCase.Can.Without.Contains(step.Kind))
        {
            return "not done by this workshop";
        }

        if (step.By == Person.Owner)
        {
            if (!facts.OwnerMay)
            {
                return "not for owners";
            }

            if (!serviceCase.Can.Owner)
            {
                return "the owner will not help";
            }

            if (!serviceCase.Can.OwnerInstruments.HasFlag(facts.Needs))
            {
                return "the owner lacks the instrument";
            }
        }
        else
        {
            if (!serviceCase.Can.Technician)
            {
                return "no technician can come";
            }

            if (!serviceCase.Can.TechnicianInstruments.HasFlag(facts.Needs))
            {
                return "the technician lacks the instrument";
            }
        }

        if (step.Kind == StepKind.Insulation && step.TestVolts is not (> 0 and <= AdvisedTestVolts))
        {
            return "insulation is tested at the lowest sufficient voltage";
        }

        if (serviceCase.Yard.WireMetres(step.Wire) is not { } length)
        {
            return "no such guide wire";
        }

        foreach (double? place in (ReadOnlySpan<double?>)[step.AtMetres, step.FromMetres, step.ToMetres])
        {
            if (place is { } at && !(at >= 0 && at <= length + 0.01))
            {
                return "beyond the wire";
            }
        }

        return null;
    }
}
