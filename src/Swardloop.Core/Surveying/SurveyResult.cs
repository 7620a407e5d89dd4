using System.Diagnostics.CodeAnalysis;

namespace Swardloop.Core.Surveying;

/// <summary>A plan, or why there is none; never both, never neither.</summary>
public sealed class SurveyResult
{
    internal SurveyResult(SurveyPlan plan) => Plan = plan;

    internal SurveyResult(SurveyFlaw flaw) => Flaw = flaw;

    /// <summary>The plan.</summary>
    public SurveyPlan? Plan { get; }

    /// <summary>Why there is none.</summary>
    public SurveyFlaw? Flaw { get; }

    /// <summary>Whether there is a plan.</summary>
    [MemberNotNullWhen(true, nameof(Plan))]
    [MemberNotNullWhen(false, nameof(Flaw))]
    public bool IsGood => Plan is not null;
}
