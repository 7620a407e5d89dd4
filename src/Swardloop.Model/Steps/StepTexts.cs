using System.Collections.Frozen;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>The wording of steps and cautions in one language. Another language is another table. Immutable.</summary>
public sealed class StepTexts
{
    private readonly FrozenDictionary<StepKind, StepText> _steps;
    private readonly FrozenDictionary<Caution, string> _cautions;

    /// <summary>Makes a wording.</summary>
    /// <param name="language">Its IETF tag, such as <c>en</c>.</param>
    /// <param name="steps">A text for every step.</param>
    /// <param name="cautions">A text for every caution.</param>
    /// <exception cref="ArgumentException">A step or a caution has no text, or an owner's step no owner's words, or the other way round.</exception>
    public StepTexts(string language, IReadOnlyDictionary<StepKind, StepText> steps, IReadOnlyDictionary<Caution, string> cautions)
    {
        foreach (StepFacts facts in StepCatalogue.All)
        {
            if (!steps.TryGetValue(facts.Kind, out StepText? text) || text.Title.Length == 0 || text.How.Count == 0)
            {
                throw new ArgumentException($"{facts.Kind} has no text in {language}.", nameof(steps));
            }

            if (facts.OwnerMay != (text.HowForOwner is { Count: > 0 }))
            {
                throw new ArgumentException($"{facts.Kind} and its words for an owner in {language} do not agree.", nameof(steps));
            }
        }

        foreach (Caution caution in Enum.GetValues<Caution>())
        {
            if (!cautions.TryGetValue(caution, out string? text) || text.Length == 0)
            {
                throw new ArgumentException($"{caution} has no text in {language}.", nameof(cautions));
            }
        }

        (Language, _steps, _cautions) = (language, steps.ToFrozenDictionary(), cautions.ToFrozenDictionary());
    }

    /// <summary>English.</summary>
    public static StepTexts English { get; } = EnglishSteps.Make();

    /// <summary>German.</summary>
    public static StepTexts German { get; } = GermanSteps.Make();

    /// <summary>The language's IETF tag.</summary>
    public string Language { get; }

    /// <summary>All words of one step.</summary>
    public StepText this[StepKind kind] => _steps[kind];

    /// <summary>A caution in words.</summary>
    public string this[Caution caution] => _cautions[caution];

    /// <summary>What to do, line by line.</summary>
    /// <param name="kind">Which step.</param>
    /// <param name="by">Who does it.</param>
    /// <param name="atJoint">Whether its place is a joint or terminal; matters to steps that open the wire.</param>
    /// <exception cref="ArgumentException">An owner must not do this step.</exception>
    public IReadOnlyList<string> How(StepKind kind, Person by, bool atJoint = true)
    {
        StepText text = _steps[kind];
        return by == Person.Owner
            ? text.HowForOwner ?? throw new ArgumentException($"An owner must not do {kind}.", nameof(by))
            : (atJoint ? null : text.HowInPlainWire) ?? text.How;
    }

    /// <summary>The cautions of a step in words, gravest first.</summary>
    public IReadOnlyList<string> Cautions(StepKind kind) => [.. StepCautions.Required(kind).Select(caution => _cautions[caution])];
}
