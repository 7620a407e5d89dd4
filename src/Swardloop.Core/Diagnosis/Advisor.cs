namespace Swardloop.Core.Diagnosis;

/// <summary>From a case to advice.</summary>
public static class Advisor
{
    /// <summary>What is believed after the case's observations, and what to do next.</summary>
    public static Advice Advise(ServiceCase serviceCase, CausePriors priors, CancellationToken cancellation = default) =>
        throw new NotSupportedException("Inference and decision are being written.");
}
