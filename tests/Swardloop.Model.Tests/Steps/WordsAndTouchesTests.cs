using System.Text.RegularExpressions;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Model.Tests.Steps;

/// <summary>What the lines of a step put into a person's hands, read from the lines themselves: it must be among what the step is declared to
/// touch, for the cautions follow from that. So a line that is added brings its caution, or fails here.</summary>
public sealed class WordsAndTouchesTests
{
    // Words that are about a thing without putting it into anybody's hands.
    private static readonly Regex[] NotDone =
    [
        new("do not start|Starten Sie den Mäher nicht|starten Sie den Mäher nicht", RegexOptions.IgnoreCase),
        new("do not pierce it|do not pull or dig|nothing to dig|nicht graben|nichts zu graben|nicht treffen", RegexOptions.IgnoreCase),
        new("needle still|Nadel ruhig"),
        new("tragen Sie ihn in den Plan ein"),
        new("Measure from the spot|Measure or pace|Messen Sie von der Stelle|Messen Sie von dort"), // with a tape
    ];

    private static readonly (StepTouches Touches, string English, string German)[] Words =
    [
        (StepTouches.Probes, @"\bmeter\b|\bprobes?\b|\btips?\b|\bneedles?\b|easure (the loop|each side|at the low|from)|tester", @"Messgerät|Prüfspitzen?\b|Spitzen?\b|Nadeln?\b|essen Sie (die Schleife|jede Seite|am Klein|von)|Prüfgerät"),
        (StepTouches.LiveLowVoltage, @"on (DC|AC|that kind of) volts|millivolts|microvolts", @"auf (Gleich|Wechsel)spannung|auf diese Spannungsart|\bmV\b|Mikrovolt"),
        (StepTouches.TestVoltage, @"\b[Tt]ester\b", @"Prüfgerät"),
        (StepTouches.Source, @"dry battery|[Tt]one generator (across|between)", @"Trockenbatterie|Tongenerator (an A|zwischen)"),
        (StepTouches.Battery, @"dry battery", @"Trockenbatterie"),
        (StepTouches.Ground, @"\bstakes?\b|[Uu]ncover|\bdig\b", @"\b[Ss]pieße?\b|Erdspieß|frei, mit stumpfem Werkzeug|\bgraben"),
        (StepTouches.CutsWire, @"\bCut (it|the old joint)\b|[Oo]pen the joint|\bpierce\b|through the insulation|needles|cut (old wire|any of it)", @"Schneiden Sie|Öffnen Sie den Verbinder|stechen Sie|durch die Isolation|Nadeln|(ihn|alten Draht) schneiden"),
        (StepTouches.Wire, @"wire ends|ends of the loop|each end\b|the ends\b|[Uu]ncover|both ends|two thin wires", @"Drahtenden|Enden der Schleife|jedes Ende|die Enden|den Draht .*frei|zwei dünnen Drähte"),
        (StepTouches.MowerCarried, @"[Cc]arry (the|it)|[Ss]et (it|the mower) on the station|on the grass, step", @"[Tt]ragen Sie (den Mäher|ihn)|[Ss]etzen Sie (ihn|den Mäher)"),
        (StepTouches.MowerParked, @"[Mm]ower (switched )?off|[Ss]witch the mower off|key out", @"Mäher aus|[Ss]chalten Sie den Mäher|Schlüssel heraus"),
        (StepTouches.MowerOpened, @"battery out|Old one out", @"Akku heraus|alten heraus"),
        (StepTouches.MowerRunning, @"\bstart (it|the mower|your mower)\b|mower home|[Ll]et the mower|[Ww]alk behind|try it there", @"starten Sie ihn|[Ss]tarten Sie (den|Ihren) Mäher|Mäher .*heim|Heimfahrt|[Ll]assen Sie den Mäher|[Gg]ehen Sie hinter|probieren Sie ihn"),
        (StepTouches.MowerMayStart, @"may start by itself|key in, hands off|key goes in", @"von selbst losfahren|Schlüssel hinein, Hände weg|Schlüssel hineinkommt"),
        (StepTouches.Switchboard, @"switchboard|fuse box", @"Verteiler\b|Sicherungskasten"),
        (StepTouches.SupplyChoice, @"safety-isolated", @"sicherer Trennung"),
        (StepTouches.Mains, @"\boutlet\b(?!\.? Never)|[Pp]lug (the supply|the power supply|the station) |switchboard|fuse box|charges", @"Netzteil|Verteiler\b|Sicherungskasten|\blädt\b"),
    ];

    // Pulling the station's plug, and putting it back, is what keeps hands safe in every other step: no work on the mains.
    private static readonly Regex PlugOnly = new(
        @"^(Pull the station's plug out of the outlet\.( Never put the probes into an outlet\.)?|Ziehen Sie den Stecker der Station aus der Steckdose\..*|Plug the station in.*|.*then the plug\.)$");

    [Fact]
    public void What_the_words_put_into_hands_is_what_the_cautions_follow_from()
    {
        List<string> gaps = [];
        foreach (StepKind kind in Enum.GetValues<StepKind>())
        {
            StepTouches declared = StepCautions.Touches(kind);
            foreach (StepTexts texts in (StepTexts[])[StepTexts.English, StepTexts.German])
            {
                foreach (string line in Lines(texts[kind]))
                {
                    string done = NotDone.Aggregate(line, (rest, words) => words.Replace(rest, ""));
                    gaps.AddRange(Words
                        .Where(each => (declared & (each.Touches == StepTouches.MowerMayStart ? StepTouches.MowerMayStart | StepTouches.MowerRunning : each.Touches)) == 0)
                        .Where(each => each.Touches != StepTouches.Mains || !PlugOnly.IsMatch(line))
                        .Where(each => Regex.IsMatch(done, texts.Language == "en" ? each.English : each.German))
                        .Select(each => $"{kind} does not touch {each.Touches}: {line}"));
                }
            }
        }

        Assert.True(gaps.Count == 0, string.Join("\n", gaps));
    }

    // The scan must be able to find: each row meets some step's words, in each language.
    [Fact]
    public void Every_row_of_words_is_met()
    {
        foreach ((StepTouches touches, string english, string german) in Words)
        {
            foreach ((StepTexts texts, string words) in new[] { (StepTexts.English, english), (StepTexts.German, german) })
            {
                Assert.Contains(
                    Enum.GetValues<StepKind>().Where(kind => (StepCautions.Touches(kind) & touches) != 0),
                    kind => Lines(texts[kind]).Any(line => Regex.IsMatch(line, words)));
            }
        }
    }

    private static IEnumerable<string> Lines(StepText text) => [.. text.How, .. text.HowForOwner ?? [], .. text.HowInPlainWire ?? []];
}
