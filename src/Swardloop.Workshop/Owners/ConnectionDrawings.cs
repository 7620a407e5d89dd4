using Swardloop.Core.Diagnosis;

namespace Swardloop.Workshop.Owners;

/// <summary>How test instruments are connected: one line drawing a test, ours, signs only. A broken line is what is touched second. Colours come
/// from the page's stylesheet by class.</summary>
internal static class ConnectionDrawings
{
    // Two ends out of the ground, the loop below it.
    private const string Ground = """<path class="ground" d="M10 140h300"/>""";

    private const string Ends = Ground +
        """<path class="wire" d="M40 104V172Q40 184 52 184H288Q300 184 300 174T288 164H102Q90 164 90 152V104"/><text x="40" y="98" text-anchor="middle">A</text><text x="90" y="98" text-anchor="middle">B</text>""";

    private const string ToneAtEnds = """<rect x="44" y="22" width="42" height="30" rx="4"/><path d="M53 37q6-10 12 0t12 0"/><path d="M44 37H28V112H38M86 37h16V112H92"/>""";

    // A hole, the wire in it, a meter above.
    private const string Hole =
        """<path class="ground" d="M10 100h110q10 60 50 60t50-60h90"/><path class="wire" d="M10 150H120Q170 134 220 150H310"/><text x="16" y="176">A</text><text x="304" y="176" text-anchor="end">B</text>""";

    /// <summary>What a test's drawing shows, and the drawing without its frame; null where there is none.</summary>
    public static (OwnerText Shows, string Inside)? Of(StepKind step) => step switch
    {
        StepKind.AcRatio => (OwnerText.PictureAcRatio, Ends + ToneAtEnds + Meter(186, 54, "V~") +
            """<path d="M210 54H262V112"/><path stroke-width="6" d="M262 112V166"/><path class="accent" d="M162 54H130Q118 54 118 66V118H48"/><path class="accent second" d="M118 118v10H98"/>"""),
        StepKind.GuideResistance => (OwnerText.PictureGuide, Ground +
            """<path class="wire" d="M40 104V172Q40 184 52 184H288Q300 184 300 174T288 164H142Q130 164 130 152V104"/><path class="wire thin" d="M85 104V160Q85 174 99 174H200V184"/><circle cx="200" cy="184" r="5"/><text x="40" y="98" text-anchor="middle">A</text><text x="85" y="98" text-anchor="middle">G</text><text x="130" y="98" text-anchor="middle">B</text>""" +
            Meter(220, 50, "Ω") + """<path d="M196 50H85V80"/><path class="accent" d="M220 26V14H40V80"/><path class="accent second" d="M220 74V88H150L138 106"/>"""),
        StepKind.JointDrop => (OwnerText.PictureDrop, Hole +
            """<rect x="150" y="132" width="40" height="16" rx="5"/>""" + Meter(170, 44, "mV") + """<path d="M148 52H128V118L140 138"/><path class="accent" d="M192 52H212V118L200 138"/><path d="M262 40V20M272 35V25M262 30H240M272 30H300"/><text x="254" y="56" text-anchor="middle">A +</text><text x="296" y="56" text-anchor="middle">B −</text>"""),
        StepKind.PinProbe => (OwnerText.PicturePin, Hole + Meter(96, 44, "Ω") +
            """<path class="accent" d="M118 44H170V96"/><path class="accent" stroke-width="5" d="M170 96V126"/><path class="accent" d="M170 126V142"/><path d="M72 44H24V140"/><path class="second" d="M72 52H52V26H296V140"/>"""),
        StepKind.EarthGradient => (OwnerText.PictureGradient,
            """<path class="ground" d="M10 120h300"/><path class="wire" d="M28 96V150Q28 160 38 160H300"/><text x="28" y="90" text-anchor="middle">A</text><path d="M28 96V40H52M52 28V52M62 33V47M62 40H290V98"/><text x="44" y="24" text-anchor="middle">+</text><text x="70" y="24" text-anchor="middle">−</text><path stroke-width="6" d="M290 98V144"/>""" +
            Meter(150, 76, "V") + """<path d="M126 76H112V104"/><path class="accent" d="M174 76H188V104"/><path stroke-width="6" d="M112 104V146"/><path class="accent" stroke-width="6" d="M188 104V146"/><path d="M200 182h44m-10-7l10 7l-10 7"/><text x="252" y="188">B</text>"""),
        StepKind.Wiggle => (OwnerText.PictureWiggle, Hole +
            """<rect x="150" y="132" width="40" height="16" rx="5"/>""" + Meter(96, 44, "Ω") + """<path d="M72 44H24V140"/><path class="accent" d="M118 44H296V140"/><path class="accent" d="M132 128q-6-16 2-28m-8 6l8-6l5 9M208 128q6-16-2-28m8 6l-8-6l-5 9"/>"""),
        StepKind.TerminalLook => (OwnerText.PictureTerminals,
            """<path class="ground" d="M10 170h140"/><path d="M30 168V70q0-14 14-14h62q14 0 14 14v98z"/><rect x="120" y="96" width="16" height="14"/><rect x="120" y="130" width="16" height="14"/><path class="wire" d="M310 70q-60 6-96 24l-36 8"/><path class="wire" d="M310 150q-60 8-132-12"/><path class="accent" stroke-width="6" d="M178 102l-18 2M178 138l-18-2"/><circle cx="176" cy="102" r="26"/><path stroke-width="6" d="M194 84l26-26"/>"""),
        StepKind.ChargeCheck => (OwnerText.PictureCharge,
            """<path class="ground" d="M10 168h300"/><path d="M24 166V96q0-12 12-12h32v82M68 150h150v16"/><path d="M104 148q-4-40 36-44l84-4q52 0 56 48z"/><circle cx="136" cy="152" r="14"/><circle cx="252" cy="156" r="10"/><path class="accent" stroke-width="6" d="M72 112h14M72 128h14"/><path class="accent" d="M104 112H92M104 128H92"/><path class="accent" d="M196 46l-16 24h16l-8 22"/>"""),
        StepKind.SupplyVoltage => (OwnerText.PictureSupply,
            """<rect x="26" y="84" width="76" height="54" rx="8"/><path d="M26 104H8M26 118H8"/><path d="M102 111h52"/><rect x="154" y="100" width="40" height="22" rx="5"/><path d="M194 106h8v10h-8"/>""" +
            Meter(250, 50, "V") + """<path class="accent" d="M226 50H216V111H204"/><path d="M274 50h20V144H176V122"/>"""),
        StepKind.EarthResistance => (OwnerText.PictureEarth, Ends + MeterToStake("Ω")),
        StepKind.Insulation => (OwnerText.PictureInsulation, Ends + MeterToStake("MΩ") + """<path d="M40 112h50"/>"""),
        StepKind.EarthRatio => (OwnerText.PictureEarthRatio, Ends + """<path d="M60 46V22M70 41V27M60 34H28V112H38M70 34H102V112H92"/><text x="52" y="20" text-anchor="middle">+</text><text x="80" y="20" text-anchor="middle">−</text>""" +
            Meter(186, 54, "V") +
            """<path d="M210 54H262V112"/><path stroke-width="6" d="M262 112V166"/><path class="accent" d="M162 54H130Q118 54 118 66V118H48"/><path class="accent second" d="M118 118v10H98"/>"""),
        StepKind.EndCapacitance => (OwnerText.PictureCapacitance, Ends + MeterToStake("nF") + """<path class="accent second" d="M90 44V80"/><path d="M292 166l16 12M292 178l16-12"/>"""),
        StepKind.SplitResistance => (OwnerText.PictureSplit,
            """<path class="ground" d="M10 100h110q10 60 50 60t50-60h90"/><path class="wire" d="M10 150H120L146 142"/><path class="wire" d="M194 142L220 150H310"/><text x="16" y="176">A</text><text x="304" y="176" text-anchor="end">B</text>""" +
            Meter(96, 44, "Ω") + """<path class="accent" d="M118 44H152V134"/><path d="M72 44H24V140"/><path class="accent second" d="M152 64H188V134"/><path class="second" d="M52 44V12H296V140"/>"""),
        StepKind.Bypass => (OwnerText.PictureBypass, Ends + Meter(65, 42, "Ω") + """<path d="M46 58L40 82M84 58L90 82"/><path class="accent" d="M150 160V118H240V160"/><circle cx="150" cy="164" r="4"/><circle cx="240" cy="164" r="4"/>"""),
        StepKind.ToneTrace => (OwnerText.PictureTone, Ends + """<rect x="44" y="22" width="42" height="30" rx="4"/><path d="M53 37q6-10 12 0t12 0"/><path d="M44 37H28V112H38M86 37h42V112"/><path stroke-width="6" d="M128 112V150"/>""" +
            """<path d="M226 28V104"/><path stroke-width="9" d="M226 24V48"/><circle class="accent" cx="226" cy="112" r="9"/><path class="accent" d="M206 156q20-22 40 0M196 148q30-34 60 0"/>"""),
        StepKind.Reflection => (OwnerText.PictureEcho, Ends + """<rect x="36" y="14" width="58" height="38" rx="4"/><path class="accent" d="M44 40h14V24h8v16h8v-8h12"/><path d="M36 34H22V112H38M94 34h34V112"/><path stroke-width="6" d="M128 112V150"/>"""),
        _ => null,
    };

    // A meter from end A to an earth stake.
    private static string MeterToStake(string unit) => Meter(170, 44, unit) + """<path class="accent" d="M146 44H40V80"/><path d="M194 44H262V112"/><path stroke-width="6" d="M262 112V166"/>""";

    private static string Meter(int x, int y, string unit) => $"""<circle cx="{x}" cy="{y}" r="24"/><text x="{x}" y="{y + 6}" text-anchor="middle">{unit}</text>""";
}
