namespace Swardloop.Model.Sheets.Work;

/// <summary>Texts of the work sheet.</summary>
internal enum WorkWord
{
    Title, Complaint, Known, Nothing, Next, Who, Cautions, How, Else, Parts, NoParts, Finished, Place, Picture,
}

/// <summary>Those texts.</summary>
internal static class WorkWords
{
    public static SheetWords<WorkWord> English { get; } = new(new()
    {
        [WorkWord.Title] = "Work sheet",
        [WorkWord.Complaint] = "Complaint",
        [WorkWord.Known] = "Known so far",
        [WorkWord.Nothing] = "Nothing was tried yet.",
        [WorkWord.Next] = "Next: {0}",
        [WorkWord.Who] = "about {0} min, {1}",
        [WorkWord.Cautions] = "First",
        [WorkWord.How] = "Then",
        [WorkWord.Else] = "Or else",
        [WorkWord.Parts] = "To take along",
        [WorkWord.NoParts] = "no parts",
        [WorkWord.Finished] = "The mower runs, nothing is owed.",
        [WorkWord.Place] = "Likeliest place: {0} ({1} to {2} from A in nine of ten).",
        [WorkWord.Picture] = "The yard with the signal of a sound loop.",
    });

    public static SheetWords<WorkWord> German { get; } = new(new()
    {
        [WorkWord.Title] = "Arbeitsblatt",
        [WorkWord.Complaint] = "Beschwerde",
        [WorkWord.Known] = "Bisher bekannt",
        [WorkWord.Nothing] = "Bisher wurde nichts versucht.",
        [WorkWord.Next] = "Als Nächstes: {0}",
        [WorkWord.Who] = "etwa {0} min, {1}",
        [WorkWord.Cautions] = "Zuerst",
        [WorkWord.How] = "Dann",
        [WorkWord.Else] = "Oder aber",
        [WorkWord.Parts] = "Mitzunehmen",
        [WorkWord.NoParts] = "kein Material",
        [WorkWord.Finished] = "Der Mäher läuft, nichts ist offen.",
        [WorkWord.Place] = "Wahrscheinlichste Stelle: {0} ({1} bis {2} von A in neun von zehn Fällen).",
        [WorkWord.Picture] = "Der Garten mit dem Signal einer heilen Schleife.",
    });
}
