using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Forecasting;
using Swardloop.Model.Forecasting;
using Judged = Swardloop.Core.Forecasting.Acceptance;

namespace Swardloop.Model.Sheets.Acceptance;

/// <summary>Acceptance after laying or mending: length, conductor, resistance at 20 °C against its band, reception, insulation, joints with their places, picture, signature.</summary>
internal static class AcceptanceSheet
{
    public static Sheet Make(SheetSource source)
    {
        SheetWords<AcceptanceWord> words = source.German ? AcceptanceWords.German : AcceptanceWords.English;
        SheetWords<CommonWord> common = CommonWords.Of(source);
        Observation.LoopResistance? last = source.AcceptedReading ?? source.Case.Observations.OfType<Observation.LoopResistance>().LastOrDefault();
        Judged? judged = last is null ? null : LoopRecords.Of(last) is { } record ? Judged.Judge(source.Yard, LoopRecords.AsFiled(source.Yard, last, record)) : null;
        Observation.Insulation? insulation = source.Case.Observations.OfType<Observation.Insulation>().LastOrDefault();
        double? ohms = last?.Ohms - last?.LeadOhms;
        List<SheetBlock> blocks = [new SheetBlock.Heading(common[CommonWord.Loop])];

        List<(string, string)> facts = [(common[CommonWord.Measured], CommonBlocks.Reading(source, last))];
        blocks.Add(CommonBlocks.Loop(source, facts));
        blocks.AddRange(At20C(source, words, judged));
        blocks.Add(new SheetBlock.Facts([
            (common[CommonWord.Reach], CommonBlocks.Reach(source, ohms ?? source.Budget.ExpectedOhms.Nominal)),
            (common[CommonWord.Insulation], insulation is null ? common[CommonWord.NotMeasured]
                : common.Say(CommonWord.MegohmsAt, source.Book.Number(insulation.Megohms, 2), source.Book.Number(insulation.TestVolts, 0)))]));
        blocks.AddRange(CommonBlocks.Joints(source));
        blocks.Add(CommonBlocks.Picture(source, ohms is null ? "" : words[AcceptanceWord.Picture], ohms ?? source.Budget.ExpectedOhms.Nominal));
        blocks.Add(new SheetBlock.Paragraph(words[Baseline(source, judged)]));
        blocks.Add(CommonBlocks.Signature(source));
        return source.Sheet(SheetKind.Acceptance, words[AcceptanceWord.Title], blocks);
    }

    private static AcceptanceWord Baseline(SheetSource source, Judged? judged) => source switch
    {
        { SignedReadingChanged: true } => AcceptanceWord.Changed,
        _ when judged is not { Verdict: AcceptanceVerdict.Within } => AcceptanceWord.NoBaseline,
        { SignedBy: null } => AcceptanceWord.WillBeBaseline,
        _ => AcceptanceWord.Baseline,
    };

    private static IEnumerable<SheetBlock> At20C(SheetSource source, SheetWords<AcceptanceWord> words, Judged? judged)
    {
        if (judged is null)
        {
            yield return new SheetBlock.Facts([(words[AcceptanceWord.Expected20C], CommonBlocks.Band(source, Judged.SoundAt20C(source.Yard)))]);
            yield return new SheetBlock.Paragraph(words[AcceptanceWord.Unmeasured]);
            yield break;
        }

        (ReadingAt20C reading, ResistanceBand band, AcceptanceVerdict verdict) = judged;
        yield return new SheetBlock.Facts([
            (words[AcceptanceWord.Temperature], words.Say(reading.TemperatureMeasured ? AcceptanceWord.AsMeasured : AcceptanceWord.ByDate, source.Book.Number(reading.TemperatureCelsius, 0))),
            (words[AcceptanceWord.At20C], source.Ohms(reading.OhmsAt20C, reading.DeviationOhms)),
            (words[AcceptanceWord.Expected20C], CommonBlocks.Band(source, band))]);
        yield return new SheetBlock.Paragraph(verdict switch
        {
            AcceptanceVerdict.Above => words.Say(AcceptanceWord.Above, source.Book.Ohms(reading.OhmsAt20C - band.High)),
            AcceptanceVerdict.Below => words.Say(AcceptanceWord.Below, source.Book.Ohms(band.Low - reading.OhmsAt20C)),
            AcceptanceVerdict.Within => words[AcceptanceWord.Within],
            _ => throw new ArgumentOutOfRangeException(nameof(judged), verdict, "Has no words."),
        });
    }
}
