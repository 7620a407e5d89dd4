using System.Text.RegularExpressions;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Browser.Tests;

/// <summary>What a screen says, turned back into steps, fields and answers, in the language of a device.</summary>
/// <param name="locale">Of the device.</param>
internal sealed class WalkTexts(string locale)
{
    private readonly StepTexts _steps = locale.StartsWith("de", StringComparison.Ordinal) ? StepTexts.German : StepTexts.English;
    private readonly AnswerTexts _answers = locale.StartsWith("de", StringComparison.Ordinal) ? AnswerTexts.German : AnswerTexts.English;

    /// <summary>As records name it.</summary>
    public string Language => _steps.Language;

    /// <summary>The step under a heading.</summary>
    public StepKind StepOf(string heading) => Assert.Single(StepCatalogue.All, facts => _steps[facts.Kind].Title == heading.Trim()).Kind;

    /// <summary>The field that a number pad asks for. The leads have a question of their own.</summary>
    public StepField FieldOf(StepKind kind, string question) =>
        Fields(kind).FirstOrDefault(field => _answers.Label(kind, field) == question.Trim()) ?? Fields(kind).First(field => field.Name == "leadOhms");

    /// <summary>The button that answers a question.</summary>
    /// <param name="kind">The step.</param>
    /// <param name="question">What is asked; empty where a step has one question only.</param>
    /// <param name="answer">The word that is true, by field.</param>
    public Regex AnswerTo(StepKind kind, string question, Func<StepField, string?> answer)
    {
        StepField field = Fields(kind).First(each => each.Type == StepFieldType.Word && (question.Length == 0 || _answers.Label(kind, each) == question.Trim()));
        return new($"^{Regex.Escape(_answers.Answer(kind, field, answer(field) ?? field.Words[0]))}$");
    }

    /// <summary>What an answer is called.</summary>
    public string Answer(StepKind kind, StepField field, string word) => _answers.Answer(kind, field, word);

    /// <summary>All fields of a step's form, as typed.</summary>
    public static IEnumerable<StepField> Fields(StepKind kind) => [.. StepForm.Of(kind).Parameters, .. StepForm.Of(kind).Entered];
}
