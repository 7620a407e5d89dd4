using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;

namespace Swardloop.Model.Advising;

/// <summary>An advice for a person to read on a phone, 60 characters wide: what is known, what is likely, where, the next
/// step with its dangers before its doing, and what else could be done.</summary>
public static class AdviceText
{
    /// <summary>Widest line (characters).</summary>
    public const int Columns = 60;

    private const int BarColumns = 12;
    private const int MostCauses = 5;
    private const int MostAlternatives = 4;

    /// <summary>A share of 'not modelled' from here on is said in words.</summary>
    private const double UnmodelledWorthSaying = 0.15;

    /// <summary>Writes the text.</summary>
    /// <param name="advice">What to write.</param>
    /// <param name="serviceCase">The case it was given for.</param>
    /// <param name="text">Where to.</param>
    /// <param name="words">Wording; English when null.</param>
    /// <param name="steps">Wording of the steps; English when null.</param>
    public static void Write(
        Advice advice, ServiceCase serviceCase, TextWriter text, Phrasebook? words = null, StepTexts? steps = null)
    {
        Sheet sheet = new(advice, serviceCase, text, words ?? Phrasebook.English, steps ?? StepTexts.English);
        sheet.Write();
    }

    private sealed class Sheet(Advice advice, ServiceCase serviceCase, TextWriter text, Phrasebook words, StepTexts steps)
    {
        public void Write()
        {
            string title = PlaceWords.OneLine(serviceCase.Yard.Name);
            Line(serviceCase.Complaint.Length > 0 ? $"{title}: {PlaceWords.OneLine(serviceCase.Complaint, 300)}" : title);
            if (advice.ComplaintBits.Count > 0)
            {
                Line(Telling(advice.ComplaintBits), "  → ", "    ");
            }

            if (advice.Finished)
            {
                Line(words[Phrase.SheetFinished]);
            }

            WriteKnown();
            WriteTrouble();
            if (!advice.Finished)
            {
                WriteLikely();
                WritePlace();
                WriteNext();
                WriteAlternatives();
            }
        }

        private void WriteKnown()
        {
            Heading(words[Phrase.SheetKnown]);
            if (serviceCase.Observations.Count == 0)
            {
                Line(words[Phrase.SheetNothingYet], "  ");
            }

            for (int i = 0; i < serviceCase.Observations.Count; i++)
            {
                string seen = ObservationWords.Describe(serviceCase.Observations[i], serviceCase.Yard, words, steps);
                Line(Capital(seen), "  ", "    ");
                if (advice.Evidence.FirstOrDefault(weight => weight.Observation == i) is { Bits.Count: > 0 } weight)
                {
                    Line(Telling(weight.Bits), "    → ", "      ");
                }
            }
        }

        private string Telling(IReadOnlyList<CauseBits> weights)
        {
            string said = string.Join("; ", EvidenceWords.Telling(weights).Select(bits => EvidenceWords.Of(bits, words)));
            return said.Length > 0 ? said : words[Phrase.TellsLittle];
        }

        private void WriteTrouble()
        {
            if (!serviceCase.Yard.Loop.ConductorIsKnown)
            {
                text.WriteLine();
                Line(words[Phrase.SheetConductorUnknown], "! ", "  ");
            }

            if (advice.Disagreement is { } odd)
            {
                text.WriteLine();
                string seen = ObservationWords.Describe(serviceCase.Observations[odd.Observation], serviceCase.Yard, words, steps);
                Line(words.Say(Phrase.SheetDisagreement, seen), "! ", "  ");
                Line(words.Say(Phrase.SheetRepeat, Named(odd.Repeat)), "! ", "  ");
            }

            double unmodelled = advice.Causes.Where(cause => cause.Cause.Includes(CauseKind.Unmodelled)).Sum(cause => cause.Probability);
            if (unmodelled >= UnmodelledWorthSaying)
            {
                text.WriteLine();
                Line(words.Say(Phrase.SheetUnmodelled, words.Percent(unmodelled)), "! ", "  ");
            }
        }

        private void WriteLikely()
        {
            Heading(words[Phrase.SheetLikely]);
            CauseProbability top = advice.Causes[0];
            Line(words.Say(Phrase.SheetVerdict, Capital(words.HowSure(top.Probability)), words.Name(top.Cause)), "  ", "  ");

            // One more line than needed to fold is no gain: a single rest is shown.
            int shown = advice.Causes.Count <= MostCauses + 1 ? advice.Causes.Count : MostCauses;
            foreach (CauseProbability cause in advice.Causes.Take(shown))
            {
                string bar = $"  {Bar(cause.Probability)} {words.Percent(cause.Probability),9}  ";
                Line(words.Name(cause.Cause), bar, new string(' ', bar.Length));
            }

            if (advice.Causes.Count > shown)
            {
                string rest = words.Percent(advice.Causes.Skip(shown).Sum(cause => cause.Probability));
                Line(words.Say(Phrase.SheetMore, advice.Causes.Count - shown, rest), new string(' ', BarColumns + 14));
            }
        }

        private static string Bar(double probability)
        {
            // Never empty for what is possible, never full for what is not certain.
            int length = probability is 0 or 1
                ? (int)probability * BarColumns
                : (int)Math.Clamp(Math.Round(probability * BarColumns), 1, BarColumns - 1);
            return new string('#', length).PadRight(BarColumns, '.');
        }

        private void WritePlace()
        {
            if (advice.Location is { } location)
            {
                Heading(words[Phrase.SheetPlace]);
                Line(Capital(PlaceWords.Describe(serviceCase.Yard, location.AtMetres, words)), "  ", "  ");
                Line(
                    words.Say(
                        Phrase.SheetInterval, words.Length(location.AtMetres), words.Percent(location.Credibility),
                        words.LengthNumber(location.LowMetres), words.Length(location.HighMetres)),
                    "  ", "  ");
            }

            if (advice.ExcessOhms is { } excess && advice.Causes[0].Cause.Includes(CauseKind.SeriesResistance))
            {
                Line(words.Say(Phrase.SheetExcess, words.Ohms(excess.Median), words.Ohms(excess.Low), words.Ohms(excess.High)), "  ", "  ");
            }
        }

        private void WriteNext()
        {
            if (advice.Next.Count == 0)
            {
                text.WriteLine();
                Line(words[Phrase.SheetNobody]);
                return;
            }

            AdvisedStep next = advice.Next[0];
            Heading(words.Say(Phrase.SheetNext, steps[next.Step.Kind].Title));
            if (StepWords.Place(next.Step, serviceCase.Yard, words) is { } place)
            {
                Line(Capital(place), "  ", "  ");
            }

            Line(Capital(Who(next)), "  ", "  ");
            Line(words.Say(Phrase.SheetCost, words.Money(next.CostNow, serviceCase.Rates.Currency), About(next.ExpectedCostToFinish)), "  ", "  ");
            Line(words.Say(Phrase.SheetWhy, WhyWords.Say(next.Reason, serviceCase.Rates.Currency, words)), "  ", "  ");
            Line(words[Phrase.SheetFirst], "  ");
            foreach (string caution in steps.Cautions(next.Step.Kind))
            {
                Line(caution, "  ! ", "    ");
            }

            Line(words[Phrase.SheetThen], "  ");
            int number = 0;
            foreach (string line in StepWords.How(next.Step, serviceCase.Yard, steps))
            {
                string numbered = $"  {++number}. ";
                Line(line, numbered, new string(' ', numbered.Length));
            }
        }

        private void WriteAlternatives()
        {
            if (advice.Next.Count < 2)
            {
                return;
            }

            Heading(words[Phrase.SheetElse]);
            foreach (AdvisedStep other in advice.Next.Skip(1).Take(MostAlternatives))
            {
                string cost = words.Say(Phrase.SheetCostInAll, About(other.ExpectedCostToFinish));
                Line(words.Say(Phrase.SheetAlternative, Named(other.Step), Who(other), cost), "  - ", "    ");
            }
        }

        private string Named(Step step) => StepWords.Place(step, serviceCase.Yard, words) is { } place
            ? words.Say(Phrase.WithPlace, steps[step.Kind].Title, place)
            : steps[step.Kind].Title;

        private string Who(AdvisedStep step) => words.Say(
            Phrase.SheetWho, words[step.Step.By == Person.Owner ? Phrase.Owner : Phrase.Technician], words.Number(step.Minutes, 0));

        private string About(double amount) => words.AboutMoney(amount, serviceCase.Rates.Currency);

        private void Heading(string heading)
        {
            text.WriteLine();
            Line(heading);
        }

        private void Line(string line, string first = "", string? further = null)
        {
            string indent = first;
            further ??= new string(' ', first.Length);
            for (string rest = line.Trim(); rest.Length > 0; indent = further)
            {
                int room = Columns - indent.Length;
                int end = rest.Length <= room ? rest.Length : rest.LastIndexOf(' ', room);
                end = end > 0 ? end : room;
                text.WriteLine((indent + rest[..end]).TrimEnd());
                rest = rest[end..].TrimStart();
            }
        }

        private static string Capital(string line) => char.ToUpperInvariant(line[0]) + line[1..];
    }
}
