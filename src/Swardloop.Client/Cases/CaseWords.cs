using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Cases;

/// <summary>A case's cause in words.</summary>
public static class CaseWords
{
    /// <summary>The likeliest cause of an open case, as it was last advised; null without advice.</summary>
    public static string? Likely(BenchEntry entry, Speech say) =>
        entry is { Cause: { } name, Probability: { } probability } && WireName.TryReadCause(name, out Cause cause)
            ? $"{Speech.Capital(say.Phrases.Name(cause))}, {say.Phrases.Percent(probability)}"
            : null;

    /// <summary>The cause found; null for a case without one.</summary>
    public static string? Found(RecordState @case, Speech say) =>
        @case.Text("foundCause") is { } name && WireName.TryReadCause(name, out Cause cause) ? Speech.Capital(say.Phrases.Name(cause)) : null;
}
