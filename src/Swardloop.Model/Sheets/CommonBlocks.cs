using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Words;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Sheets;

/// <summary>Blocks that several sheets share.</summary>
internal static class CommonBlocks
{
    /// <summary>A share that is said to be all of the lawn.</summary>
    private const double AllButNothing = 0.9995;

    /// <summary>The complaint under a heading; nothing when there is none.</summary>
    public static IEnumerable<SheetBlock> Complaint(SheetSource source, string heading) => source.Case.Complaint.Length == 0
        ? [] : [new SheetBlock.Heading(heading), new SheetBlock.Paragraph(PlaceWords.OneLine(source.Case.Complaint, 1000))];

    /// <summary>Length, wire, what a sound loop measures.</summary>
    public static SheetBlock.Facts Loop(SheetSource source, params IReadOnlyList<(string, string)> further)
    {
        SheetWords<CommonWord> words = CommonWords.Of(source);
        return new([
            (words[CommonWord.Length], $"{source.Book.Length(source.Budget.LengthMetres)} ± {source.Book.Length(source.Yard.Loop.LengthToleranceMetres)}"),
            (words[CommonWord.Wire], Wire(source)),
            (words[CommonWord.ShouldMeasure], Expected(source)),
            .. further]);
    }

    /// <summary>What a sound loop measures, with its band.</summary>
    public static string Expected(SheetSource source) => Band(source, source.Budget.ExpectedOhms);

    /// <summary>A resistance with its band.</summary>
    public static string Band(SheetSource source, ResistanceBand band) => CommonWords.Of(source).Say(
        CommonWord.Above, source.Book.Ohms(band.Nominal), source.Book.Ohms(band.Low), source.Book.Ohms(band.High));

    /// <summary>A loop reading, leads taken off, with what it may be out by.</summary>
    public static string Reading(SheetSource source, Observation.LoopResistance? seen)
    {
        SheetWords<CommonWord> words = CommonWords.Of(source);
        return seen is null ? words[CommonWord.NotMeasured]
            : seen.Ohms is not { } shown ? words[CommonWord.OverRange]
            : source.Ohms(shown - seen.LeadOhms, seen.Meter.LimitOhms(shown) / Math.Sqrt(3));
    }

    /// <summary>All joints with their places.</summary>
    public static IEnumerable<SheetBlock> Joints(SheetSource source)
    {
        SheetWords<CommonWord> words = CommonWords.Of(source);
        yield return new SheetBlock.Heading(words[CommonWord.Joints]);
        if (source.Yard.Loop.Joints.Count == 0)
        {
            yield return new SheetBlock.Paragraph(words[CommonWord.NoJoints]);
            yield break;
        }

        yield return new SheetBlock.Table(
            [words[CommonWord.Joint], source.Book.LengthUnit, words[CommonWord.Place], words[CommonWord.Style]],
            [true, true, false, false],
            [.. source.Yard.Loop.Joints.Select((joint, i) => new[]
            {
                $"{i + 1}", source.Book.LengthNumber(joint.AtMetres), Capital(PlaceWords.Describe(source.Yard, joint.AtMetres, source.Book)), CommonWords.Style(source, joint.Style),
            })]);
    }

    /// <summary>A picture of the signal with the loop at a resistance.</summary>
    public static SheetBlock.Picture Picture(SheetSource source, string title, double ohms)
    {
        SheetWords<CommonWord> words = CommonWords.Of(source);
        YardPicture picture = source.Picture(ohms);
        string silent = picture.SilentShare > 1 - AllButNothing ? " " + words.Say(CommonWord.Silent, source.Book.Percent(picture.SilentShare)) : "";
        return new(picture, $"{title} {words[CommonWord.Caption]}{silent}");
    }

    /// <summary>On how much of the lawn the mower is reached.</summary>
    public static string Reach(SheetSource source, double ohms)
    {
        SheetWords<CommonWord> words = CommonWords.Of(source);
        double share = source.Reach.HeardShare(source.Signal.RequiredFieldPerAmpere(Math.Max(0, ohms)));
        return share >= AllButNothing ? words[CommonWord.ReachAll] : words.Say(CommonWord.ReachShare, source.Book.Percent(share));
    }

    /// <summary>A line to sign on.</summary>
    public static SheetBlock.Signature Signature(SheetSource source) => new(CommonWords.Of(source)[CommonWord.Signed], source.SignedBy) { Mark = source.SignedBy is null ? null : source.Mark };

    /// <summary>The first letter large.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static string Wire(SheetSource source)
    {
        if (!source.Yard.Loop.ConductorIsKnown)
        {
            return CommonWords.Of(source)[CommonWord.WireUnknown];
        }

        Conductor conductor = source.Yard.Loop.Conductor;
        string material = (source.German, conductor.Material) switch
        {
            (true, ConductorMaterial.Copper) => "Kupfer",
            (true, ConductorMaterial.Aluminium) => "Aluminium",
            (true, ConductorMaterial.CopperCladSteel) => "kupferplattierter Stahl",
            (true, ConductorMaterial.CopperCladAluminium) => "kupferplattiertes Aluminium",
            _ => YardWords.Of(conductor.Material).Replace('-', ' '),
        };
        return conductor switch
        {
            { AreaSquareMetres: { } area } => $"{material}, {source.Book.Number(area * 1e6, 2)} mm²",
            { Awg: { } awg } => $"{material}, AWG {awg}",
            { OhmsPerMetreAt20C: { } ohms } => $"{material}, {source.Book.Number(ohms * 1000, 2)} Ω/km",
            _ => material,
        };
    }
}
