using Swardloop.Core.Yards;

namespace Swardloop.Model.Sheets;

/// <summary>Words that several sheets share.</summary>
internal enum CommonWord
{
    Loop, Length, Wire, WireUnknown, Joints, NoJoints, Joint, Place, Style, Measured, ShouldMeasure, NotMeasured, OverRange, Insulation, MegohmsAt, Reach, ReachAll, ReachShare,
    Caption, Silent, Signed, Gel, Crimped, Soldered, Twisted, Clamp, UnknownStyle, Above,
}

/// <summary>Those words in both languages, and what is said with them.</summary>
internal static class CommonWords
{
    public static SheetWords<CommonWord> English { get; } = new(new()
    {
        [CommonWord.Loop] = "The loop",
        [CommonWord.Length] = "Length",
        [CommonWord.Wire] = "Wire",
        [CommonWord.WireUnknown] = "not known",
        [CommonWord.Joints] = "Joints",
        [CommonWord.NoJoints] = "none known",
        [CommonWord.Joint] = "No.",
        [CommonWord.Place] = "Place",
        [CommonWord.Style] = "Made as",
        [CommonWord.Measured] = "Measured, leads taken off",
        [CommonWord.ShouldMeasure] = "A sound loop of this wire measures",
        [CommonWord.NotMeasured] = "not measured",
        [CommonWord.OverRange] = "beyond the meter's range",
        [CommonWord.Insulation] = "Insulation to earth",
        [CommonWord.MegohmsAt] = "{0} MΩ at {1} V",
        [CommonWord.Reach] = "Reception",
        [CommonWord.ReachAll] = "on the whole lawn",
        [CommonWord.ReachShare] = "on {0} of the lawn",
        [CommonWord.Caption] = "North is up. The black square is the station, the line the wire, the numbers its joints.",
        [CommonWord.Silent] = "Hatched: no reception, {0} of the lawn.",
        [CommonWord.Signed] = "Date, name and signature",
        [CommonWord.Gel] = "gel connector",
        [CommonWord.Crimped] = "crimped",
        [CommonWord.Soldered] = "soldered",
        [CommonWord.Twisted] = "twisted",
        [CommonWord.Clamp] = "screw clamp",
        [CommonWord.UnknownStyle] = "not known",
        [CommonWord.Above] = "{0} ({1} to {2})",
    });

    public static SheetWords<CommonWord> German { get; } = new(new()
    {
        [CommonWord.Loop] = "Die Schleife",
        [CommonWord.Length] = "Länge",
        [CommonWord.Wire] = "Draht",
        [CommonWord.WireUnknown] = "nicht bekannt",
        [CommonWord.Joints] = "Verbinder",
        [CommonWord.NoJoints] = "keine bekannt",
        [CommonWord.Joint] = "Nr.",
        [CommonWord.Place] = "Ort",
        [CommonWord.Style] = "Art",
        [CommonWord.Measured] = "Gemessen, ohne Messleitungen",
        [CommonWord.ShouldMeasure] = "Eine heile Schleife aus diesem Draht misst",
        [CommonWord.NotMeasured] = "nicht gemessen",
        [CommonWord.OverRange] = "über dem Messbereich",
        [CommonWord.Insulation] = "Isolation gegen Erde",
        [CommonWord.MegohmsAt] = "{0} MΩ bei {1} V",
        [CommonWord.Reach] = "Empfang",
        [CommonWord.ReachAll] = "auf dem ganzen Rasen",
        [CommonWord.ReachShare] = "auf {0} des Rasens",
        [CommonWord.Caption] = "Norden ist oben. Das schwarze Quadrat ist die Station, die Linie der Draht, die Zahlen seine Verbinder.",
        [CommonWord.Silent] = "Schraffiert: kein Empfang, {0} des Rasens.",
        [CommonWord.Signed] = "Datum, Name und Unterschrift",
        [CommonWord.Gel] = "Gelverbinder",
        [CommonWord.Crimped] = "gequetscht",
        [CommonWord.Soldered] = "gelötet",
        [CommonWord.Twisted] = "verdrillt",
        [CommonWord.Clamp] = "Klemme",
        [CommonWord.UnknownStyle] = "nicht bekannt",
        [CommonWord.Above] = "{0} ({1} bis {2})",
    });

    public static SheetWords<CommonWord> Of(SheetSource source) => source.German ? German : English;

    public static string Style(SheetSource source, JointStyle style) => Of(source)[style switch
    {
        JointStyle.Gel => CommonWord.Gel,
        JointStyle.Crimped => CommonWord.Crimped,
        JointStyle.Soldered => CommonWord.Soldered,
        JointStyle.Twisted => CommonWord.Twisted,
        JointStyle.Clamp => CommonWord.Clamp,
        JointStyle.Unknown => CommonWord.UnknownStyle,
        _ => throw new ArgumentOutOfRangeException(nameof(style), style, "Not a known style."),
    }];
}
