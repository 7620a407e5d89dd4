namespace Swardloop.Core.Diagnosis;

/// <summary>Several answers to one question about a yard in one state: what made the first odd is mostly still there at the second.</summary>
/// <remarks>
/// With probability <see cref="YardShare"/> what is odd belongs to the yard and everybody gets one and the same answer; else, with probability
/// <see cref="PersonShare"/>, it belongs to the person, who answers the same each time; else each different answer is drawn anew (the moment, a slip), an equal one said again by the same person being hardly news. One answer
/// alone has the test's own probability, and order does not matter. The planner never asks what was answered. The shares are judgement, no source.
/// </remarks>
internal static class PersistentAnswers
{
    /// <summary>Share of answers whose oddness is the yard's: this damage does not show, this lamp is like that.</summary>
    public const double YardShare = 0.5;

    /// <summary>Of the rest, the share that is the person's: reads it so, looks at the wrong lamp.</summary>
    public const double PersonShare = 0.7;

    /// <summary>However odd an answer is, said again beside another it counts as one of this probability's logarithm (0.018): hardly news.</summary>
    private const double LeastSaidAgain = -4;

    /// <summary>So many equal answers of one person count at all.</summary>
    private const int MostRepeats = 4;

    /// <summary>Logarithm of the probability of all answers together.</summary>
    /// <param name="answers">Who answered what, how often, with the logarithm of the probability of that answer given alone. Equal answers have equal values.</param>
    public static double LogLikelihood(ReadOnlySpan<Answer> answers)
    {
        if (answers.Length == 1 && answers[0].Count == 1)
        {
            return answers[0].Log;
        }

        double everybody = 1, perPerson = 1, logs = 0;
        for (Person person = Person.Owner; ; person = Person.Technician)
        {
            // Answers that are equal as words may differ a little as numbers: what they share counts with their mean.
            double apart = 0, together = double.NaN, sum = 0;
            int different = 0;
            bool any = false, alike = true;
            foreach (Answer answer in answers)
            {
                if (answer.By == person)
                {
                    alike &= !any || answer.Value.Equals(together);
                    (any, together) = (true, answer.Value);
                    apart += answer.Log + (StatedProbabilities.AnswerRepeatWeight * (Math.Min(answer.Count, MostRepeats) - 1) * Math.Max(answer.Log, LeastSaidAgain));
                    sum += answer.Log;
                    different++;
                }
            }

            if (any)
            {
                double same = alike ? Math.Exp(sum / different) : 0;
                perPerson *= (PersonShare * same) + ((1 - PersonShare) * Math.Exp(apart));
            }

            if (person == Person.Technician)
            {
                break;
            }
        }

        double value = answers[0].Value;
        foreach (Answer answer in answers)
        {
            everybody = answer.Value.Equals(value) ? everybody : 0;
            logs += answer.Log;
        }

        return Math.Log((YardShare * everybody * Math.Exp(logs / answers.Length)) + ((1 - YardShare) * perPerson) + 1e-300);
    }

    /// <summary>One person's answer.</summary>
    /// <param name="By">Who.</param>
    /// <param name="Value">Stands for what was said: equal answers, equal values.</param>
    /// <param name="Count">How often.</param>
    /// <param name="Log">Logarithm of its probability, given alone.</param>
    public readonly record struct Answer(Person By, double Value, int Count, double Log);
}
