using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Pricing;
using Swardloop.Model.Words;

namespace Swardloop.Model.Sheets.Found;

/// <summary>What we found, for the owner: plain words, the reading beside what this wire should measure, the signal then and in a sound loop, what was done, what to watch for.</summary>
internal static class FoundSheet
{
    public static Sheet Make(SheetSource source)
    {
        SheetWords<FoundWord> words = source.German ? FoundWords.German : FoundWords.English;
        List<SheetBlock> blocks = [.. CommonBlocks.Complaint(source, words[FoundWord.Told])];
        blocks.Add(new SheetBlock.Heading(words[FoundWord.Found]));
        blocks.AddRange(WhatItWas(source, words));
        blocks.AddRange(Readings(source, words));
        blocks.Add(new SheetBlock.Heading(words[FoundWord.Done]));
        string[] done = [.. source.Repairs.Select(seen => CommonBlocks.Capital(ObservationWords.Describe(seen, source.Yard, source.Book, source.Steps)))];
        blocks.Add(done.Length > 0 ? new SheetBlock.Points(done) : new SheetBlock.Paragraph(words[FoundWord.DoneNothing]));
        blocks.Add(new SheetBlock.Heading(words[FoundWord.Watch]));
        blocks.Add(new SheetBlock.Points([.. Watch(source, words)]));
        return source.Sheet(SheetKind.Found, words[FoundWord.Title], blocks);
    }

    private static IEnumerable<SheetBlock> WhatItWas(SheetSource source, SheetWords<FoundWord> words)
    {
        if (source.Case.Observations.Count == 0)
        {
            yield return new SheetBlock.Paragraph(words[FoundWord.Nothing]);
            yield break;
        }

        if (source.Advice.Finished && ClosedCase.CauseOf(source.Case, source.Advise) is { } ended)
        {
            yield return new SheetBlock.Paragraph(words.Say(FoundWord.Ended, source.Book.Name(new Cause(ended))));
            yield break;
        }

        CauseProbability top = source.Advice.Causes[0];
        yield return new SheetBlock.Paragraph(words.Say(FoundWord.Likely, CommonBlocks.Capital(source.Book.HowSure(top.Probability)), source.Book.Name(top.Cause)));
        if (source.Advice.Location is { } location)
        {
            yield return new SheetBlock.Paragraph(words.Say(FoundWord.LikelyPlace, PlaceWords.Describe(source.Yard, location.AtMetres, source.Book)));
        }
    }

    private static IEnumerable<SheetBlock> Readings(SheetSource source, SheetWords<FoundWord> words)
    {
        (Observation.LoopResistance Seen, double? Ohms)[] readings = [.. source.LoopReadings];
        double sound = source.Budget.ExpectedOhms.Nominal;
        List<(string, string)> facts = [];
        if (readings.Length > 0)
        {
            facts.Add((words[readings.Length > 1 ? FoundWord.Before : FoundWord.Now], CommonBlocks.Reading(source, readings[0].Seen)));
        }

        if (readings.Length > 1)
        {
            facts.Add((words[FoundWord.Now], CommonBlocks.Reading(source, readings[^1].Seen)));
        }

        yield return CommonBlocks.Loop(source, facts);
        bool wasHigh = readings.Length > 0 && readings[0].Ohms is { } first && first > source.Budget.ExpectedOhms.High;
        yield return new SheetBlock.Paragraph(wasHigh
            ? words.Say(FoundWord.Means, CommonBlocks.Reach(source, readings[0].Ohms!.Value), CommonBlocks.Reach(source, sound))
            : words.Say(FoundWord.MeansSound, CommonBlocks.Reach(source, sound)));
        if (wasHigh)
        {
            yield return CommonBlocks.Picture(source, words[FoundWord.PictureBefore], readings[0].Ohms!.Value);
        }

        yield return CommonBlocks.Picture(source, words[FoundWord.PictureSound], sound);
    }

    private static IEnumerable<string> Watch(SheetSource source, SheetWords<FoundWord> words)
    {
        yield return words[FoundWord.WatchReach];
        yield return words[FoundWord.WatchReading];
        Joint[] weak = [.. source.Yard.Loop.Joints.Where(FaultRate.IsSuspicious)];
        if (weak.Length > 0)
        {
            yield return words.Say(FoundWord.WatchJoints, string.Join("; ", weak.Select(joint => PlaceWords.Describe(source.Yard, joint.AtMetres, source.Book))));
        }

        yield return words[FoundWord.WatchDigging];
        yield return words[FoundWord.WatchBlades];
    }
}
