using System.Net;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Workshop.Owners;

/// <summary>Line drawings for an owner's page and the workshop's steps, our own, as SVG of a kilobyte or two. Colours come from the page's stylesheet by class.</summary>
public static class OwnerDrawings
{
    private const string Station =
        """<path class="ground" d="M10 170h300"/><path d="M40 168V70q0-14 14-14h74q14 0 14 14v98z"/><path d="M58 168v-50h66v50"/><circle class="accent" cx="91" cy="84" r="9"/>""";

    /// <summary>The meter on its smallest range of ohms, the leads in COM and VΩ, the handles of the probes beside it; what it shows and what the
    /// tips touch comes over it.</summary>
    private const string Meter =
        """
        <rect x="16" y="8" width="150" height="182" rx="12"/><rect x="34" y="22" width="114" height="40"/>
        <circle cx="91" cy="106" r="26"/><path class="accent" d="M91 106l-17-19"/><text x="70" y="84" text-anchor="end">Ω 200</text><text x="124" y="94">V</text><text x="124" y="130">A</text><text x="58" y="134" text-anchor="end" class="small">OFF</text>
        <text x="62" y="157" text-anchor="middle" class="small">COM</text><text x="120" y="157" text-anchor="middle" class="small">VΩ</text><circle cx="62" cy="170" r="6"/><circle class="accent" cx="120" cy="170" r="6"/>
        <path d="M62 176q0 18 40 18h94q40 0 40-40v-22"/><path class="accent" d="M120 176q0 8 30 8h100q30 0 30-30v-22"/><path stroke-width="9" d="M236 132V96"/><path class="accent" stroke-width="9" d="M280 132V96"/>
        """;

    /// <summary>The drawings that go with a question: what it is to look like, first thing first; none where words do.</summary>
    /// <param name="step">The question.</param>
    /// <param name="texts">Language of what they say.</param>
    public static IReadOnlyList<OwnerPicture> Of(StepKind step, OwnerTexts texts) => step switch
    {
        StepKind.LoopResistance =>
        [
            Drawing(texts[OwnerText.PictureEnds], Ends) with { Line = 1 }, Drawing(texts[OwnerText.PictureTips], Tips) with { Line = 5 },
            Drawing(texts[OwnerText.PictureMeter], OnEnds) with { Line = 6 }, Drawing(texts[OwnerText.PictureTooMuch], TooMuch, height: 76) with { Line = 7 },
        ],
        StepKind.StationLamp => [Drawing(texts[OwnerText.PictureLamp], Lamp)],
        StepKind.OutletCheck or StepKind.RestoreMains => [Drawing(texts[OwnerText.PictureOutlet], Outlet)],
        StepKind.MowerStart or StepKind.MowerCheck => [Drawing(texts[OwnerText.PictureStart], Start)],
        StepKind.MowerReach => [Drawing(texts[OwnerText.PictureReach], Reach)],
        _ => ConnectionDrawings.Of(step) is { } drawn ? [Drawing(texts[drawn.Shows], drawn.Inside)] : [],
    };

    // The mower from the side, and whoever started it behind.
    private const string Start =
        """
        <path class="ground" d="M10 170h300"/><path d="M150 158h122q10 0 10-10q0-34-40-38l-40-4q-34 0-44 24z"/><circle cx="176" cy="156" r="14"/><circle cx="258" cy="160" r="9"/><path class="accent" d="M204 104h26"/>
        <circle cx="70" cy="52" r="14"/><path d="M70 66v52M70 118l-14 50M70 118l16 50M70 80l30 22M70 80l-20 26"/><path d="M292 140h18M302 132l8 8l-8 8"/>
        """;

    // The lawn from above: the wire round it, the way from the wire to where the mower stopped.
    private const string Reach =
        """
        <rect class="grass" x="20" y="20" width="280" height="160"/><rect class="wire" x="30" y="30" width="260" height="140"/>
        <path class="accent" d="M30 100h110M40 94v12M140 90v20"/><path d="M132 82h30v36h-30z"/><text x="88" y="90" text-anchor="middle">m</text>
        """;

    private const string Lamp = Station +
        """<path class="accent" d="M91 66v-12M74 72l-9-9M108 72l9-9"/><path d="M300 40q-60-14-104 2q-40 10-62 22q-10 8 2 12q22 0 44-10q30-4 50 4q34 8 70-4"/><path d="M196 42q-34 6-56 24M206 48q-30 8-50 20"/>""";

    private const string Outlet =
        """
        <rect x="30" y="60" width="84" height="84" rx="8"/><circle cx="72" cy="102" r="28"/><circle cx="62" cy="102" r="4"/><circle cx="82" cy="102" r="4"/>
        <path d="M196 102h-62m0-14v28h-14v-8m0-12v-8h14"/><path d="M196 102q34 0 34-34v-6"/><path d="M206 62h48l-10-40h-28z"/><path class="accent" d="M230 70v12M212 68l-8 10M248 68l8 10"/>
        """;

    // Left the plug, out of its outlet; right the two ends, off their clamps.
    private const string Ends =
        """
        <path class="ground" d="M10 170h300"/><path d="M104 168V70q0-14 14-14h62q14 0 14 14v98z"/><circle cx="149" cy="84" r="9"/>
        <rect x="40" y="14" width="36" height="36" rx="6"/><circle cx="52" cy="32" r="3"/><circle cx="64" cy="32" r="3"/><path d="M52 90V78M64 90V78"/><rect x="46" y="90" width="24" height="22" rx="4"/><path stroke-width="7" d="M58 114v14q0 14 14 14h28"/>
        <rect x="194" y="112" width="16" height="14"/><rect x="194" y="140" width="16" height="14"/><text x="188" y="125" text-anchor="end">A</text><text x="188" y="153" text-anchor="end">B</text>
        <path class="wire" d="M304 170q-10-44-46-50l-18-2"/><path class="wire" d="M284 170q-6-18-28-20l-16-2"/><path class="accent" d="M240 118l-14-1M240 148l-14-1"/>
        """;

    private const string Tips = Meter + """<text class="digits" x="140" y="53" text-anchor="end">0.3</text><path d="M236 96l20-50M280 96l-22-50"/>""";

    private const string OnEnds = Meter +
        """<text class="digits" x="140" y="53" text-anchor="end">5.6</text><path d="M236 96V52M280 96V74"/><path class="wire" d="M312 28q-46 0-74 20M312 58q-16 2-30 14"/><text x="312" y="20" text-anchor="end">A</text><text x="312" y="86" text-anchor="end">B</text>""";

    private const string TooMuch =
        """<rect x="16" y="12" width="134" height="52"/><text class="digits" x="138" y="48" text-anchor="end">OL</text><rect x="170" y="12" width="134" height="52"/><text class="digits" x="184" y="48">1</text>""";

    private static OwnerPicture Drawing(string words, string inside, int height = 200) => new(
        $"""<svg class="drawing" role="img" viewBox="0 0 320 {height}" xmlns="http://www.w3.org/2000/svg"><title>{WebUtility.HtmlEncode(words)}</title>{inside}</svg>""", words);
}
