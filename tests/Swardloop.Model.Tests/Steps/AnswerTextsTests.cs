using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Model.Tests.Steps;

public class AnswerTextsTests
{
    public static TheoryData<AnswerTexts> Languages => [AnswerTexts.English, AnswerTexts.German];

    [Theory]
    [MemberData(nameof(Languages), DisableDiscoveryEnumeration = true)]
    public void Every_field_and_every_word_of_every_form_has_a_text(AnswerTexts texts)
    {
        foreach (StepKind step in Enum.GetValues<StepKind>())
        {
            StepForm form = StepForm.Of(step);
            foreach (StepField field in form.Parameters.Concat(form.Outcomes))
            {
                Assert.NotEmpty(texts.Label(step, field));
                Assert.All(field.Words, word => Assert.NotEmpty(texts.Answer(step, field, word)));
            }
        }
    }
}
