using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Steps;
using Swardloop.Model.Tests.Yards;
using Swardloop.Model.Words;

namespace Swardloop.Model.Tests.Advising;

/// <summary>Ten sheets in both languages as approved text: a technician reads them aloud without stumbling. What was observed and what is
/// advised is made by hand here, so that the sheets change with the words and not with the inference.</summary>
public sealed class TenCasesTests
{
    private static readonly (string Name, string Complaint, Observation[] Seen, (CauseKind Cause, double Share)[] Likely, Step Next, Step Else, double Minutes)[] Cases =
    [
        ("01-dark-station", "nothing moves, the station is dark",
            [new Observation.StationLamp(LampState.Off) { By = Person.Owner }],
            [(CauseKind.NoMains, 0.55), (CauseKind.Supply, 0.33), (CauseKind.Station, 0.12)],
            new(StepKind.OutletCheck) { By = Person.Owner }, new(StepKind.SupplyVoltage), 4),
        ("02-live-outlet", "still dark, the outlet works",
            [new Observation.StationLamp(LampState.Off) { By = Person.Owner }, new Observation.OutletCheck(Live: true) { By = Person.Owner }],
            [(CauseKind.Supply, 0.74), (CauseKind.Station, 0.26)],
            new(StepKind.SupplyVoltage), new(StepKind.ReplaceSupply), 4),
        ("03-owner-with-a-meter", "no signal since the weekend",
            [new Observation.StationLamp(LampState.Normal) { By = Person.Owner }, new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal) { By = Person.Owner }],
            [(CauseKind.SeriesResistance, 0.61), (CauseKind.Open, 0.2), (CauseKind.Receiver, 0.19)],
            new(StepKind.LoopResistance) { By = Person.Owner }, new(StepKind.SubstituteLoop), 10),
        ("04-broken-wire", "lamp in alarm since the hedge was dug",
            [new Observation.StationLamp(LampState.Alarm), new Observation.LoopResistance(null, 0.2, MeterAccuracy.Plain), new Observation.MowerStart(StartPlace.AtWire, StartOutcome.NoSignal)],
            [(CauseKind.Open, 0.97), (CauseKind.SeriesResistance, 0.03)],
            new(StepKind.EndCapacitance), new(StepKind.ToneTrace) { AtMetres = 121, From = WireEnd.A }, 8),
        ("05-bad-joint", "covers only the edge",
            [new Observation.LoopResistance(83, 0.2, MeterAccuracy.Plain), new Observation.FollowWire(FollowOutcome.Wavering)],
            [(CauseKind.SeriesResistance, 0.95), (CauseKind.Layout, 0.05)],
            new(StepKind.SplitResistance) { AtMetres = 172 }, new(StepKind.RemakeJoint) { AtMetres = 172 }, 12),
        ("06-earth-fault", "drives over the wire at the fence",
            [new Observation.WireCrossing(Crossed: true, 160, NearMetal: true) { By = Person.Owner }, new Observation.EarthResistance(4800)],
            [(CauseKind.Leak, 0.71), (CauseKind.LeakPair, 0.29)],
            new(StepKind.EarthRatio), new(StepKind.EarthGradient) { AtMetres = 160, SpacingMetres = 1 }, 10),
        ("07-swapped-ends", "says it is outside since the wire was mended",
            [new Observation.StationLamp(LampState.Normal), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Outside)],
            [(CauseKind.EndsSwapped, 0.96), (CauseKind.Receiver, 0.04)],
            new(StepKind.SwapEnds) { By = Person.Owner }, new(StepKind.RemakeTerminals), 4),
        ("08-look-first", "stops at the bed that was edged",
            [new Observation.StationLamp(LampState.Flicker) { By = Person.Owner }],
            [(CauseKind.SeriesResistance, 0.64), (CauseKind.Open, 0.36)],
            new(StepKind.Look) { FromMetres = 30, ToMetres = 48, By = Person.Owner }, new(StepKind.LoopResistance), 11),
        ("09-does-not-charge", "empty in the station every morning",
            [new Observation.ChargeCheck(Charges: false), new Observation.StationLamp(LampState.Normal)],
            [(CauseKind.Charging, 0.93), (CauseKind.Supply, 0.07)],
            new(StepKind.CleanContacts), new(StepKind.ReplaceBattery), 10),
        ("10-after-the-repair", "ran an hour, then stopped again",
            [new Observation.RepairDone(StepKind.RemakeJoint, 84.5, null, null, "green copper"), new Observation.MowerCheck(Runs: false)],
            [(CauseKind.SeriesResistance, 0.58), (CauseKind.Unsteady, 0.42)],
            new(StepKind.Wiggle) { AtMetres = 121 }, new(StepKind.PinProbe) { AtMetres = 140 }, 5),
    ];

    public static TheoryData<string, string> Sheets => [.. Cases.SelectMany(one => (string[])["en", "de"], (one, language) => (one.Name, language))];

    /// <summary>SWARDLOOP_APPROVE=1 writes them anew: read them aloud before committing them.</summary>
    [Theory]
    [MemberData(nameof(Sheets))]
    public void Sheet_reads_as_approved(string name, string language)
    {
        string path = Path.Combine(Examples.Repository, "tests/Swardloop.Model.Tests/Advising/approved-cases", $"{name}.{language}.txt");
        string written = Written(name, language);
        Assert.All(written.Split('\n'), line => Assert.InRange(line.Length, 0, AdviceText.Columns));
        if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
        {
            File.WriteAllText(path, written);
        }

        Assert.Equal(File.ReadAllText(path), written);
    }

    private static string Written(string name, string language)
    {
        (_, string complaint, Observation[] seen, (CauseKind Cause, double Share)[] likely, Step next, Step other, double minutes) = Cases.Single(one => one.Name == name);
        ServiceCase serviceCase = new() { Yard = SampleAdvice.ExampleYard("marram-reach"), Complaint = complaint, Observations = seen };
        Cause first = new(likely[0].Cause), second = new(likely[1].Cause);
        Advice advice = new()
        {
            Causes = [.. likely.Select(cause => new CauseProbability(new(cause.Cause), cause.Share))],
            Density = [],
            Evidence = [.. seen.Select((_, i) => new EvidenceWeight(i, [new(first, 1.6 + i), new(second, -2.1 - i)]))],
            Next =
            [
                new(next, minutes, next.By == Person.Owner ? 1 : 55, 88, new(0, [first, second], null, null, 12)),
                new(other, minutes + 2, 57, 97, new(0, [], null, null, 0)),
            ],
        };
        using StringWriter text = new() { NewLine = "\n" };
        bool german = language == "de";
        AdviceText.Write(advice, serviceCase, text, german ? Phrasebook.German : Phrasebook.English, german ? StepTexts.German : StepTexts.English);
        return text.ToString();
    }
}
