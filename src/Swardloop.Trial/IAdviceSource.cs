using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>Who is on trial. May be asked from several threads at once.</summary>
public interface IAdviceSource
{
    /// <summary>Advice on a case as it stands.</summary>
    TrialAdvice Advise(ServiceCase serviceCase);
}
