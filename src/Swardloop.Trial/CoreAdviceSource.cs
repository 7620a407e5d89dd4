using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>The product's advisor, asked in this process.</summary>
public sealed class CoreAdviceSource(CausePriors priors) : IAdviceSource
{
    /// <inheritdoc/>
    public TrialAdvice Advise(ServiceCase serviceCase)
    {
        Advice advice = Advisor.Advise(serviceCase, priors);
        return new(advice.Finished, advice.Next.Count > 0 ? advice.Next[0].Step : null, advice.Causes, advice.Location);
    }
}
