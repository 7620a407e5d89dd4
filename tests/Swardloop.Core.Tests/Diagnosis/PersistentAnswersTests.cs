using Swardloop.Core.Diagnosis;
using Answer = Swardloop.Core.Diagnosis.PersistentAnswers.Answer;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Answers to one question share what was odd about the first.</summary>
public sealed class PersistentAnswersTests
{
    // By hand: all oddness is the yard's (0.5), else the person's (0.7 of the rest), else the moment's.
    [Theory]
    [InlineData(0.1, 0.1, false)]
    [InlineData(0.1, 0.1, true)]
    [InlineData(0.1, 0.8, false)]
    [InlineData(0.1, 0.8, true)]
    public void Two_answers_are_a_mixture_by_hand(double first, double second, bool otherPerson)
    {
        bool equal = first == second;
        double yard = equal ? first : 0, person = otherPerson ? first * second : (0.7 * (equal ? first : 0)) + (0.3 * first * second);

        double likelihood = Math.Exp(PersistentAnswers.LogLikelihood(
            [new(Person.Owner, first, 1, Math.Log(first)), new(otherPerson ? Person.Technician : Person.Owner, second, 1, Math.Log(second))]));

        Assert.Equal((0.5 * yard) + (0.5 * person), likelihood, 1e-12);
    }

    // However often it is said, one person's word moves the odds of one answer by little: what made the first odd makes the tenth odd.
    [Fact]
    public void Tenth_equal_answer_moves_the_odds_by_less_than_half_again()
    {
        double once = Odds(1), often = Odds(10);

        Assert.InRange(often / once, 1, 1.5);

        static double Odds(int count) =>
            Math.Exp(PersistentAnswers.LogLikelihood([new(Person.Owner, 1, count, Math.Log(0.95))]) - PersistentAnswers.LogLikelihood([new(Person.Owner, 1, count, Math.Log(0.05))]));
    }

    [Fact]
    public void Order_changes_nothing()
    {
        Answer a = new(Person.Owner, 1, 2, Math.Log(0.9)), b = new(Person.Owner, 0, 1, Math.Log(0.1)), c = new(Person.Technician, 1, 1, Math.Log(0.95));

        Assert.Equal(PersistentAnswers.LogLikelihood([a, b, c]), PersistentAnswers.LogLikelihood([c, b, a]), 1e-12);
    }
}
