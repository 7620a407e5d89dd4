using System.Net;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Workshop.Owners;

/// <summary>Line drawings for an owner's page, our own, as SVG of a kilobyte or two. Colours come from the page's stylesheet by class.</summary>
public static class OwnerDrawings
{
    private const string Station =
        """<path class="ground" d="M10 170h300"/><path d="M40 168V70q0-14 14-14h74q14 0 14 14v98z"/><path d="M58 168v-50h66v50"/><circle class="accent" cx="91" cy="84" r="9"/>""";

    private const string Meter =
        """
        <rect x="74" y="14" width="172" height="172" rx="12"/><rect x="96" y="28" width="128" height="40"/><text class="digits" x="214" y="59" text-anchor="end">0.3</text>
        <circle cx="160" cy="112" r="30"/><path class="accent" d="M160 112l-20-22"/><text x="132" y="92" text-anchor="end">Ω 200</text><text x="198" y="100">V</text><text x="198" y="136">A</text><text x="122" y="140" text-anchor="end">OFF</text>
        <circle cx="142" cy="166" r="6"/><circle cx="178" cy="166" r="6"/>
        """;

    /// <summary>The drawings that go with a question: what it is to look like, first thing first; none where words do.</summary>
    /// <param name="step">The question.</param>
    /// <param name="texts">Language of what they say to those who cannot see them.</param>
    public static IReadOnlyList<string> Of(StepKind step, OwnerTexts texts) => step switch
    {
        StepKind.LoopResistance => [Ends(texts), MeterOnEnds(texts)],
        StepKind.StationLamp => [Lamp(texts)],
        StepKind.OutletCheck or StepKind.RestoreMains => [Outlet(texts)],
        _ => [],
    };

    private static string Lamp(OwnerTexts texts) => Drawing(texts[OwnerText.PictureLamp], Station +
        """<path class="accent" d="M91 66v-12M74 72l-9-9M108 72l9-9"/><path d="M300 40q-60-14-104 2q-40 10-62 22q-10 8 2 12q22 0 44-10q30-4 50 4q34 8 70-4"/><path d="M196 42q-34 6-56 24M206 48q-30 8-50 20"/>""");

    private static string Outlet(OwnerTexts texts) => Drawing(texts[OwnerText.PictureOutlet],
        """
        <rect x="30" y="60" width="84" height="84" rx="8"/><circle cx="72" cy="102" r="28"/><circle cx="62" cy="102" r="4"/><circle cx="82" cy="102" r="4"/>
        <path d="M196 102h-62m0-14v28h-14v-8m0-12v-8h14"/><path d="M196 102q34 0 34-34v-6"/><path d="M206 62h48l-10-40h-28z"/><path class="accent" d="M230 70v12M212 68l-8 10M248 68l8 10"/>
        """);

    private static string Ends(OwnerTexts texts) => Drawing(texts[OwnerText.PictureEnds], Station +
        """
        <path d="M142 128h20M142 148h20"/><rect x="150" y="122" width="14" height="12"/><rect x="150" y="142" width="14" height="12"/><text x="148" y="115">A</text><text x="168" y="153">B</text>
        <path class="wire" d="M206 100q40 0 56 36t48 34"/><path class="wire" d="M214 146q32 2 48 10t48 14"/><path class="accent" d="M206 100l-16 8M214 146l-14 0"/><path d="M182 124l-6-2 2-6M192 141l-8 5 8 5" /><path d="M176 122l10-9M184 146h14"/>
        """);

    private static string MeterOnEnds(OwnerTexts texts) => Drawing(texts[OwnerText.PictureMeter], Meter +
        """<path d="M142 172q-4 22-62 22q-40-2-44-44v-22"/><path d="M178 172q4 22 62 22q40-2 44-44v-22"/><path class="accent" d="M36 128l-4-26M284 128l4-26"/><path class="wire" d="M32 102V20M288 102V20"/><text x="42" y="32">A</text><text x="278" y="32" text-anchor="end">B</text>""");

    private static string Drawing(string title, string inside) =>
        $"""<svg class="drawing" role="img" viewBox="0 0 320 200" xmlns="http://www.w3.org/2000/svg"><title>{WebUtility.HtmlEncode(title)}</title>{inside}</svg>""";
}
