namespace Swardloop.Model.Sheets.Acceptance;

/// <summary>Texts of the acceptance sheet.</summary>
internal enum AcceptanceWord
{
    Title, At20C, Expected20C, Within, Above, Below, Unmeasured, Temperature, ByDate, AsMeasured, Baseline, WillBeBaseline, NoBaseline, Changed, Picture,
}

/// <summary>Those texts.</summary>
internal static class AcceptanceWords
{
    public static SheetWords<AcceptanceWord> English { get; } = new(new()
    {
        [AcceptanceWord.Title] = "Acceptance of the loop",
        [AcceptanceWord.At20C] = "Measured, taken to 20 °C",
        [AcceptanceWord.Expected20C] = "A sound loop at 20 °C",
        [AcceptanceWord.Within] = "The reading lies within what a sound loop of this wire measures.",
        [AcceptanceWord.Above] = "The reading lies above what a sound loop of this wire measures, by {0}. Something adds resistance: find it before this is signed.",
        [AcceptanceWord.Below] = "The reading lies below what this wire can measure, by {0}: another wire lies there than is written down, or two places touch.",
        [AcceptanceWord.Unmeasured] = "The loop was not measured. Fill in the reading before this is signed.",
        [AcceptanceWord.Temperature] = "Ground at the wire",
        [AcceptanceWord.ByDate] = "{0} °C by date and latitude, ± 4 K",
        [AcceptanceWord.AsMeasured] = "{0} °C as filed",
        [AcceptanceWord.Baseline] = "These figures are the yard's new baseline: later readings are compared with them.",
        [AcceptanceWord.WillBeBaseline] = "Once signed, these figures are the yard's new baseline: later readings are compared with them.",
        [AcceptanceWord.NoBaseline] = "These figures do not become the yard's baseline, signed or not: only a reading within the band of a sound loop does.",
        [AcceptanceWord.Changed] = "The reading that was signed for was corrected or struck out since: sign again. Until then there is no new baseline.",
        [AcceptanceWord.Picture] = "The signal with the loop as measured.",
    });

    public static SheetWords<AcceptanceWord> German { get; } = new(new()
    {
        [AcceptanceWord.Title] = "Abnahme der Schleife",
        [AcceptanceWord.At20C] = "Gemessen, auf 20 °C gebracht",
        [AcceptanceWord.Expected20C] = "Eine heile Schleife bei 20 °C",
        [AcceptanceWord.Within] = "Der Messwert liegt in dem Bereich, den eine heile Schleife aus diesem Draht misst.",
        [AcceptanceWord.Above] = "Der Messwert liegt um {0} über dem, was eine heile Schleife aus diesem Draht misst. Etwas fügt Widerstand hinzu: vor der Unterschrift suchen.",
        [AcceptanceWord.Below] = "Der Messwert liegt um {0} unter dem, was dieser Draht messen kann: Dort liegt anderer Draht, als aufgeschrieben ist, oder zwei Stellen berühren sich.",
        [AcceptanceWord.Unmeasured] = "Die Schleife wurde nicht gemessen. Vor der Unterschrift bitte eintragen.",
        [AcceptanceWord.Temperature] = "Boden am Draht",
        [AcceptanceWord.ByDate] = "{0} °C nach Datum und Breitengrad, ± 4 K",
        [AcceptanceWord.AsMeasured] = "{0} °C laut Datei",
        [AcceptanceWord.Baseline] = "Diese Werte sind die neue Grundlage des Gartens: Spätere Messwerte werden mit ihnen verglichen.",
        [AcceptanceWord.WillBeBaseline] = "Mit der Unterschrift sind diese Werte die neue Grundlage des Gartens: Spätere Messwerte werden mit ihnen verglichen.",
        [AcceptanceWord.NoBaseline] = "Diese Werte werden nicht zur Grundlage des Gartens, mit oder ohne Unterschrift: Das wird nur ein Messwert im Bereich einer heilen Schleife.",
        [AcceptanceWord.Changed] = "Der unterschriebene Messwert wurde seitdem berichtigt oder gestrichen: bitte neu unterschreiben. Bis dahin gibt es keine neue Grundlage.",
        [AcceptanceWord.Picture] = "Das Signal mit der Schleife wie gemessen.",
    });
}
