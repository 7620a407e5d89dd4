using Swardloop.Core.Diagnosis;
using Swardloop.Model.Pricing;
using Swardloop.Model.Words;

namespace Swardloop.Model.Sheets.Work;

/// <summary>Work sheet for the garden: what is known, the next step with its cautions before its doing, what to take along, joints and map.</summary>
internal static class WorkSheet
{
    private const int MostAlternatives = 3;

    public static Sheet Make(SheetSource source)
    {
        SheetWords<WorkWord> words = source.German ? WorkWords.German : WorkWords.English;
        List<SheetBlock> blocks = [.. CommonBlocks.Complaint(source, words[WorkWord.Complaint])];
        blocks.Add(new SheetBlock.Heading(words[WorkWord.Known]));
        string[] known = [.. source.Case.Observations.Select(seen => CommonBlocks.Capital(ObservationWords.Describe(seen, source.Yard, source.Book, source.Steps)))];
        blocks.Add(known.Length > 0 ? new SheetBlock.Points(known) : new SheetBlock.Paragraph(words[WorkWord.Nothing]));
        blocks.Add(CommonBlocks.Loop(source));
        blocks.AddRange(Steps(source, words));
        blocks.AddRange(CommonBlocks.Joints(source));
        blocks.Add(CommonBlocks.Picture(source, words[WorkWord.Picture], source.Budget.ExpectedOhms.Nominal));
        return source.Sheet(SheetKind.Work, words[WorkWord.Title], blocks);
    }

    private static IEnumerable<SheetBlock> Steps(SheetSource source, SheetWords<WorkWord> words)
    {
        Advice advice = source.Advice;
        if (advice.Finished || advice.Next.Count == 0)
        {
            yield return new SheetBlock.Paragraph(words[WorkWord.Finished]);
            yield break;
        }

        AdvisedStep next = advice.Next[0];
        yield return new SheetBlock.Heading(words.Say(WorkWord.Next, source.PriceWords.Named(next.Step, source.Yard)));
        yield return new SheetBlock.Paragraph(words.Say(
            WorkWord.Who, source.Book.Number(next.Minutes, 0), source.Book[next.Step.By == Person.Owner ? Phrase.Owner : Phrase.Technician]));
        if (advice.Location is { } place)
        {
            yield return new SheetBlock.Paragraph(words.Say(
                WorkWord.Place, PlaceWords.Describe(source.Yard, place.AtMetres, source.Book), source.Book.LengthNumber(place.LowMetres), source.Book.Length(place.HighMetres)));
        }

        yield return new SheetBlock.Heading(words[WorkWord.Cautions]);
        yield return new SheetBlock.Points(source.Steps.Cautions(next.Step.Kind), PointMark.Caution);
        yield return new SheetBlock.Heading(words[WorkWord.How]);
        yield return new SheetBlock.Points(StepWords.How(next.Step, source.Yard, source.Steps), PointMark.Number);
        AdvisedStep[] others = [.. advice.Next.Skip(1).Take(MostAlternatives)];
        if (others.Length > 0)
        {
            yield return new SheetBlock.Heading(words[WorkWord.Else]);
            yield return new SheetBlock.Points([.. others.Select(step => source.PriceWords.Named(step.Step, source.Yard))]);
        }

        string[] parts = [.. StepLines.Of(source.Case, advice.Next.Take(MostAlternatives + 1).Select(step => step.Step), source.PriceWords)
            .Where(line => line.Unit == source.PriceWords.Piece).Select(line => $"{line.Text} ({source.PriceWords.Money(line.UnitPrice, source.Prices)})").Distinct()];
        yield return new SheetBlock.Heading(words[WorkWord.Parts]);
        yield return parts.Length > 0 ? new SheetBlock.Points(parts, PointMark.Box) : new SheetBlock.Paragraph(words[WorkWord.NoParts]);
    }
}
