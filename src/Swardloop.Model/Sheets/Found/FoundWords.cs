namespace Swardloop.Model.Sheets.Found;

/// <summary>Texts of the sheet for the owner.</summary>
internal enum FoundWord
{
    Title, Told, Found, Ended, Likely, LikelyPlace, Nothing, Before, Now, Means, MeansSound, PictureBefore, PictureSound, Done, DoneNothing, Watch, WatchReach, WatchReading, WatchJoints, WatchDigging, WatchBlades,
}

/// <summary>Those texts.</summary>
internal static class FoundWords
{
    public static SheetWords<FoundWord> English { get; } = new(new()
    {
        [FoundWord.Title] = "What we found",
        [FoundWord.Told] = "What you told us",
        [FoundWord.Found] = "What it was",
        [FoundWord.Ended] = "It was: {0}. The mower runs again.",
        [FoundWord.Likely] = "{0}: {1}.",
        [FoundWord.LikelyPlace] = "The likeliest place: {0}.",
        [FoundWord.Nothing] = "Nothing was tried yet.",
        [FoundWord.Before] = "The loop measured first",
        [FoundWord.Now] = "The loop measures now",
        [FoundWord.Means] = "The wire carries the signal that keeps the mower in. What its resistance exceeds a sound loop's weakens that signal everywhere: by the first reading it was received {0}, in a sound loop {1}.",
        [FoundWord.MeansSound] = "The wire carries the signal that keeps the mower in. A sound loop is received {0}.",
        [FoundWord.PictureBefore] = "The signal as it was at the first reading.",
        [FoundWord.PictureSound] = "The signal of a sound loop.",
        [FoundWord.Done] = "What was done",
        [FoundWord.DoneNothing] = "Nothing was mended yet.",
        [FoundWord.Watch] = "What to watch for",
        [FoundWord.WatchReach] = "If the mower turns back earlier than it did, or skips a part of the lawn, tell us: that is how a bad joint begins.",
        [FoundWord.WatchReading] = "Have the loop measured once a year. Growing readings tell of a failure years before the mower does.",
        [FoundWord.WatchJoints] = "Joints that often fail lie here: {0}.",
        [FoundWord.WatchDigging] = "Before you dig, edge or aerate, look where the wire lies; power, gas and water lines may lie there too.",
        [FoundWord.WatchBlades] = "Switch the mower off and take its key or battery out before hands go near the blades.",
    });

    public static SheetWords<FoundWord> German { get; } = new(new()
    {
        [FoundWord.Title] = "Was wir gefunden haben",
        [FoundWord.Told] = "Was Sie uns gesagt haben",
        [FoundWord.Found] = "Was es war",
        [FoundWord.Ended] = "Es war: {0}. Der Mäher läuft wieder.",
        [FoundWord.Likely] = "{0}: {1}.",
        [FoundWord.LikelyPlace] = "Wahrscheinlichste Stelle: {0}.",
        [FoundWord.Nothing] = "Bisher wurde nichts versucht.",
        [FoundWord.Before] = "Die Schleife maß zuerst",
        [FoundWord.Now] = "Die Schleife misst jetzt",
        [FoundWord.Means] = "Der Draht trägt das Signal, das den Mäher auf dem Rasen hält. Jeder Widerstand über dem einer heilen Schleife schwächt es überall: Beim ersten Messwert war Empfang {0}, bei einer heilen Schleife ist er {1}.",
        [FoundWord.MeansSound] = "Der Draht trägt das Signal, das den Mäher auf dem Rasen hält. Bei einer heilen Schleife ist Empfang {0}.",
        [FoundWord.PictureBefore] = "Das Signal beim ersten Messwert.",
        [FoundWord.PictureSound] = "Das Signal einer heilen Schleife.",
        [FoundWord.Done] = "Was getan wurde",
        [FoundWord.DoneNothing] = "Bisher wurde nichts repariert.",
        [FoundWord.Watch] = "Worauf Sie achten sollten",
        [FoundWord.WatchReach] = "Wenn der Mäher früher umkehrt als sonst oder einen Teil des Rasens auslässt, sagen Sie uns Bescheid: So beginnt ein schlechter Verbinder.",
        [FoundWord.WatchReading] = "Lassen Sie die Schleife einmal im Jahr messen. Steigende Werte verraten einen Ausfall Jahre früher als der Mäher.",
        [FoundWord.WatchJoints] = "Verbinder, die oft versagen, liegen hier: {0}.",
        [FoundWord.WatchDigging] = "Bevor Sie graben, Kanten stechen oder lüften: Sehen Sie nach, wo der Draht liegt; auch Strom-, Gas- und Wasserleitungen können dort liegen.",
        [FoundWord.WatchBlades] = "Schalten Sie den Mäher aus und ziehen Sie Schlüssel oder Akku ab, bevor Hände in die Nähe der Messer kommen.",
    });
}
