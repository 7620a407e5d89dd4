using System.Text;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Tests.Cases;

public sealed class CaseReadingTests
{
    internal const string Yard = """
        { "format": "swardloop-yard/1", "name": "Quince Cottage",
          "loop": { "path": [[10,0],[20,0],[20,70],[0,70],[0,0],[10,0]], "conductor": { "material": "copper", "areaMm2": 0.75 },
                    "joints": [ { "atM": 42.0 }, { "atM": 118.5 } ] } }
        """;

    /// <summary>Every test once, every property of the contract.</summary>
    internal const string Full = """
        { "format": "swardloop-case/1",
          "yard": "quince.yard.json",
          "complaint": "stops in the middle of the lawn",
          "rates": { "labourPerHour": 72, "travelPerVisit": 40.5, "ownerPatiencePerHour": 10, "currency": "SEK" },
          "onSite": true,
          "can": { "technician": true, "owner": false, "instruments": ["multimeter", "reflectometer"], "ownerInstruments": ["multimeter"],
                   "without": ["reflection", "relay-layout"] },
          "observations": [
            { "test": "outlet-check", "value": "live", "by": "owner", "at": "2026-05-04T09:30:00+02:00", "note": "kettle works" },
            { "test": "supply-voltage", "volts": 27.5, "nominalVolts": 28 },
            { "test": "station-lamp", "value": "flicker" },
            { "test": "mower-start", "place": "mid-lawn", "value": "no-signal" },
            { "test": "mower-reach", "distanceM": 2.0, "bound": "at-least" },
            { "test": "follow-wire", "value": "wavering" },
            { "test": "wire-crossing", "atM": 60, "nearMetal": true, "value": "crossed" },
            { "test": "loop-resistance", "ohms": 557, "leadOhms": 0.3, "meter": { "percent": 1.2, "digits": 5, "resolutionOhms": 1 } },
            { "test": "earth-resistance", "value": "over-range" },
            { "test": "insulation", "testVolts": 250, "megohms": 3.5 },
            { "test": "earth-ratio", "voltsA": 1.5, "voltsB": 7.25 },
            { "test": "end-capacitance", "nanofaradA": 12.3, "nanofaradB": 30 },
            { "test": "split-resistance", "atM": 42, "ohmsA": null, "ohmsB": 3.5, "leadOhms": 0.5 },
            { "test": "bypass", "fromM": 10, "toM": 30, "ohms": 6.5 },
            { "test": "tone-trace", "atM": 90, "from": "B", "value": "weak" },
            { "test": "reflection", "from": "A", "delayNs": 410, "kind": "short" },
            { "test": "look", "fromM": 30, "toM": 48, "value": "damage" },
            { "test": "substitute-loop", "value": "runs" },
            { "test": "substitute-mower", "value": "no-signal" },
            { "test": "neighbour-off", "value": "same" },
            { "test": "supply-voltage", "volts": 22.5, "nominalVolts": 28, "loaded": true },
            { "test": "ac-ratio", "hertz": 800, "voltsA": 0.125, "voltsB": 0.5, "conditions": ["wet", "moved"] },
            { "test": "guide-resistance", "guide": "G1", "ohmsA": 2.25, "ohmsB": null, "leadOhms": 0.4, "meter": { "percent": 1, "digits": 2, "resolutionOhms": 0.1 } },
            { "test": "joint-drop", "atM": 42, "milliamps": 250, "millivolts": 12.5 },
            { "test": "pin-probe", "atM": 80, "ohmsA": 1.75, "ohmsB": null, "leadOhms": 0.5 },
            { "test": "earth-gradient", "atM": 80, "spacingM": 2, "value": "behind", "microvolts": 350 },
            { "test": "terminal-look", "value": "corroded" },
            { "test": "wiggle", "atM": 118.5, "value": "jumps" },
            { "test": "charge-check", "value": "does-not" },
            { "test": "pin-probe", "atM": 61, "value": "not-done", "conditions": ["frost"] },
            { "test": "look", "fromM": 30, "toM": 48, "value": "not-done", "by": "owner" },
            { "repair": "swap-ends" },
            { "repair": "replace-battery", "found": "swollen" },
            { "repair": "remake-joint", "value": "not-done", "atM": 42 },
            { "repair": "mend-span", "fromM": 61, "toM": 63, "found": "broken wire" },
            { "repair": "remake-joint", "atM": 118.5 },
            { "repair": "renew-loop" },
            { "test": "mower-check", "value": "runs" } ] }
        """;

    internal static Checked<CaseFile> Read(string text, string? yard = Yard) =>
        CaseFile.Read(Encoding.UTF8.GetBytes(text), "test.case.json",
            path => path == "quince.yard.json" && yard is not null ? Encoding.UTF8.GetBytes(yard) : null);

    internal static Checked<CaseFile> ReadObservations(string observations) =>
        Read($$"""{ "format": "swardloop-case/1", "yard": "quince.yard.json", "observations": [ {{observations}} ] }""");

    private static Observation One(string observation)
    {
        Checked<CaseFile> read = ReadObservations(observation);
        Assert.Empty(read.Lines());
        return Assert.Single(read.Value!.Case.Observations);
    }

    [Fact]
    public void Every_property_arrives_in_SI()
    {
        Checked<CaseFile> read = Read(Full);

        Assert.Empty(read.Lines());
        Assert.Equal("quince.yard.json", read.Value!.YardPath);
        ServiceCase got = read.Value.Case;
        Assert.Equal("Quince Cottage", got.Yard.Name);
        Assert.Equal("stops in the middle of the lawn", got.Complaint);
        Assert.Equal(new Rates { LabourPerHour = 72, TravelPerVisit = 40.5, OwnerPatiencePerHour = 10, Currency = "SEK" }, got.Rates);
        Assert.True(got.OnSite);
        Assert.Equal(
            new Capabilities
            {
                Owner = false,
                TechnicianInstruments = Instruments.Multimeter | Instruments.Reflectometer,
                OwnerInstruments = Instruments.Multimeter,
                Without = StepSet.Of(StepKind.RelayLayout, StepKind.Reflection),
            },
            got.Can);
        Observation[] expected =
        [
            new Observation.OutletCheck(true) { By = Person.Owner, At = new(2026, 5, 4, 9, 30, 0, TimeSpan.FromHours(2)), Note = "kettle works" },
            new Observation.SupplyVoltage(27.5, 28),
            new Observation.StationLamp(LampState.Flicker),
            new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal),
            new Observation.MowerReach(2, AtLeast: true),
            new Observation.FollowWire(FollowOutcome.Wavering),
            new Observation.WireCrossing(Crossed: true, 60, NearMetal: true),
            new Observation.LoopResistance(557, 0.3, new(1.2, 5, 1)),
            new Observation.EarthResistance(null),
            new Observation.Insulation(250, 3.5),
            new Observation.EarthRatio(1.5, 7.25),
            new Observation.EndCapacitance(12.3 * 1e-9, 30 * 1e-9),
            new Observation.SplitResistance(42, null, 3.5, 0.5),
            new Observation.Bypass(10, 30, 6.5),
            new Observation.ToneTrace(90, WireEnd.B, ToneStrength.Weak),
            new Observation.Reflection(WireEnd.A, 410 * 1e-9, EchoKind.ShortCircuit),
            new Observation.Look(30, 48, Damage: true),
            new Observation.SubstituteLoop(Runs: true),
            new Observation.SubstituteMower(Runs: false),
            new Observation.NeighbourOff(Cured: false),
            new Observation.SupplyVoltage(22.5, 28, Loaded: true),
            new Observation.AcRatio(0.125, 0.5, 800) { Conditions = Conditions.Wet | Conditions.Moved },
            new Observation.GuideResistance("G1", 2.25, null, 0.4, new(1, 2, 0.1)),
            new Observation.JointDrop(42, 0.25, 0.0125),
            new Observation.PinProbe(80, 1.75, null, 0.5),
            new Observation.EarthGradient(80, 2, GradientOutcome.Behind, 350 * 1e-6),
            new Observation.TerminalLook(TerminalState.Corroded),
            new Observation.Wiggle(118.5, Jumps: true),
            new Observation.ChargeCheck(Charges: false),
            new Observation.NotDone(new Step(StepKind.PinProbe) { AtMetres = 61 }) { Conditions = Conditions.Frost },
            new Observation.NotDone(new Step(StepKind.Look) { FromMetres = 30, ToMetres = 48 }) { By = Person.Owner },
            new Observation.RepairDone(StepKind.SwapEnds, null, null, null, null),
            new Observation.RepairDone(StepKind.ReplaceBattery, null, null, null, "swollen"),
            new Observation.NotDone(new Step(StepKind.RemakeJoint) { AtMetres = 42 }),
            new Observation.RepairDone(StepKind.MendSpan, null, 61, 63, "broken wire"),
            new Observation.RepairDone(StepKind.RemakeJoint, 118.5, null, null, null),
            new Observation.RepairDone(StepKind.RenewLoop, null, null, null, null),
            new Observation.MowerCheck(Runs: true),
        ];
        Assert.Equal(expected, got.Observations);
    }

    [Fact]
    public void Silence_gives_the_stated_defaults()
    {
        ServiceCase got = Read("""{ "format": "swardloop-case/1", "yard": "quince.yard.json" }""").Value!.Case;

        Assert.Equal(("", new Rates(), false, new Capabilities()), (got.Complaint, got.Rates, got.OnSite, got.Can));
        Assert.Empty(got.Observations);
        Assert.Equal(new Observation.LoopResistance(5, 0.2, MeterAccuracy.Plain), One("""{ "test": "loop-resistance", "ohms": 5 }"""));
        Assert.Equal(new Observation.LoopResistance(5, 0.2, new(0.5, 3, 0.1)), One("""{ "test": "loop-resistance", "ohms": 5, "meter": { "percent": 0.5 } }"""));
        Assert.Equal(new Observation.SupplyVoltage(0, 24), One("""{ "test": "supply-voltage", "volts": 0 }"""));
        Assert.Equal(new Observation.MowerStart(StartPlace.AtWire, StartOutcome.Runs), One("""{ "test": "mower-start", "value": "runs" }"""));
        Assert.Equal(new Observation.MowerReach(2, AtLeast: false), One("""{ "test": "mower-reach", "distanceM": 2 }"""));
        Assert.Equal(new Observation.Insulation(500, 20), One("""{ "test": "insulation", "testVolts": 500, "megohms": 20 }"""));
        Assert.Equal(new Observation.WireCrossing(false, null, false), One("""{ "test": "wire-crossing", "value": "respected" }"""));
        Assert.Equal(new Observation.AcRatio(1, 2, 1000), One("""{ "test": "ac-ratio", "voltsA": 1, "voltsB": 2 }"""));
        Assert.Equal(new Observation.EarthGradient(5, 1, GradientOutcome.Here, null), One("""{ "test": "earth-gradient", "atM": 5, "value": "here" }"""));
        Assert.Equal(new Observation.GuideResistance(null, null, 4, 0.2, MeterAccuracy.Plain), One("""{ "test": "guide-resistance", "ohmsA": null, "ohmsB": 4 }"""));
        Assert.Equal(new Observation.NotDone(new Step(StepKind.PinProbe)), One("""{ "test": "pin-probe", "value": "not-done" }"""));
        Assert.Equal(new Observation.Reflection(WireEnd.B, null, EchoKind.None), One("""{ "test": "reflection", "from": "B", "kind": "none" }"""));
    }

    [Theory]
    [InlineData("""{ "test": "loop-resistance", "value": "over-range" }""")]
    [InlineData("""{ "test": "loop-resistance", "ohms": "over-range" }""")]
    [InlineData("""{ "test": "loop-resistance", "ohms": null }""")]
    [InlineData("""{ "test": "loop-resistance", "ohms": null, "value": "over-range", "leadOhms": null, "meter": null, "note": null, "at": null, "by": null }""")]
    public void Over_range_may_be_said_in_any_of_its_ways(string observation) =>
        Assert.Equal(new Observation.LoopResistance(null, 0.2, MeterAccuracy.Plain), One(observation));

    [Theory]
    [InlineData("""{ "test": "loop-resistance", "ohms": -1 }""", "observations[0].ohms")]
    [InlineData("""{ "test": "loop-resistance", "ohms": 1e999 }""", "observations[0].ohms")]
    [InlineData("""{ "test": "loop-resistance", "ohms": "NaN" }""", "observations[0].ohms")]
    [InlineData("""{ "test": "loop-resistance" }""", "observations[0].ohms")]
    [InlineData("""{ "test": "loop-resistance", "ohms": 5, "value": "over-range" }""", "observations[0].value")]
    [InlineData("""{ "test": "loop-resistance", "value": "high" }""", "observations[0].value")]
    [InlineData("""{ "test": "loop-resistance", "ohms": 5, "meter": { "percent": -1 } }""", "observations[0].meter.percent")]
    [InlineData("""{ "test": "loop-resistance", "ohms": 5, "leadOhms": "short" }""", "observations[0].leadOhms")]
    [InlineData("""{ "test": "split-resistance", "atM": 42, "ohmsA": 3 }""", "observations[0].ohmsB")]
    [InlineData("""{ "test": "split-resistance", "atM": 180.6, "ohmsA": 3, "ohmsB": 3 }""", "observations[0].atM")]
    [InlineData("""{ "test": "look", "fromM": 40, "toM": 40, "value": "damage" }""", "observations[0].toM")]
    [InlineData("""{ "test": "bypass", "fromM": 40, "toM": 30, "ohms": 4 }""", "observations[0].toM")]
    [InlineData("""{ "test": "reflection", "from": "A", "kind": "open" }""", "observations[0].delayNs")]
    [InlineData("""{ "test": "tone-trace", "atM": 3, "from": "a", "value": "weak" }""", "observations[0].from")]
    [InlineData("""{ "test": "mend-span", "fromM": 1, "toM": 2 }""", "observations[0].test")]
    [InlineData("""{ "repair": "mend-span", "fromM": 1 }""", "observations[0].toM")]
    [InlineData("""{ "repair": "remake-joint" }""", "observations[0].atM")]
    [InlineData("""{ "repair": "station-lamp", "value": "off" }""", "observations[0].repair")]
    [InlineData("""{ "test": "station-lamp", "repair": "renew-loop", "value": "off" }""", "observations[0].test")]
    [InlineData("""{ "value": "off" }""", "observations[0].test")]
    [InlineData("""{ "test": "station-lamp", "value": "off", "by": "cat" }""", "observations[0].by")]
    [InlineData("""{ "test": "station-lamp", "value": "off", "at": "yesterday" }""", "observations[0].at")]
    [InlineData("""{ "test": "station-lamp", "value": "off", "at": "2026-05-04T09:30:00" }""", "observations[0].at")]
    [InlineData("""{ "test": "joint-drop", "atM": 42, "milliamps": 0, "millivolts": 3 }""", "observations[0].milliamps")]
    [InlineData("""{ "test": "joint-drop", "milliamps": 100, "millivolts": 3 }""", "observations[0].atM")]
    [InlineData("""{ "test": "pin-probe", "atM": 42, "ohmsA": 3 }""", "observations[0].ohmsB")]
    [InlineData("""{ "test": "earth-gradient", "atM": 42, "spacingM": 0, "value": "here" }""", "observations[0].spacingM")]
    [InlineData("""{ "test": "terminal-look", "value": "rusty" }""", "observations[0].value")]
    [InlineData("""{ "test": "guide-resistance", "ohmsA": 3, "ohmsB": -3 }""", "observations[0].ohmsB")]
    [InlineData("""{ "test": "ac-ratio", "hertz": 0, "voltsA": 1, "voltsB": 1 }""", "observations[0].hertz")]
    [InlineData("""{ "test": "look", "fromM": 40, "value": "not-done" }""", "observations[0].toM")]
    [InlineData("""{ "test": "station-lamp", "value": "off", "conditions": ["windy"] }""", "observations[0].conditions[0]")]
    [InlineData("""{ "test": "pin-probe", "atM": 4, "wire": "G1", "value": "not-done" }""", "observations[0].wire")]
    [InlineData("""{ "test": "insulation", "megohms": 20 }""", "observations[0].testVolts")] // asked for, never taken as any voltage
    [InlineData("7", "observations[0]")]
    public void A_wrong_observation_is_one_problem_at_its_place(string observation, string place)
    {
        Checked<CaseFile> read = ReadObservations(observation);

        Assert.Null(read.Value);
        Assert.Equal(place, Assert.Single(read.Problems).Place);
    }

    [Fact]
    public void All_problems_come_at_once()
    {
        Checked<CaseFile> read = Read("""
            { "format": "swardloop-case/1", "yard": "quince.yard.json", "onSite": "yes", "rates": { "labourPerHour": -4 },
              "can": { "instruments": ["multimeter", "spade"], "without": ["bypass", "prayer"] },
              "observations": [ { "test": "look", "fromM": 1, "toM": 999, "value": "damaged" }, { "test": "ask-the-cat" } ] }
            """);

        Assert.Equal(
            ["rates.labourPerHour", "onSite", "can.instruments[1]", "can.without[1]", "observations[0].toM", "observations[0].value", "observations[1].test"],
            read.Problems.Select(problem => problem.Place));
    }

    [Fact]
    public void A_bad_yard_is_told_with_its_own_place()
    {
        Checked<CaseFile> read = Read(
            """{ "format": "swardloop-case/1", "yard": "quince.yard.json", "observations": [ { "test": "look" } ] }""",
            Yard.Replace("42.0", "-42", StringComparison.Ordinal));

        Assert.StartsWith("test.case.json: yard: quince.yard.json: loop.joints[0].atM: ", read.Lines().First(), StringComparison.Ordinal);
        Assert.Contains(read.Problems, problem => problem.Place == "observations[0].fromM");
    }

    [Theory]
    [InlineData("\"elsewhere.yard.json\"")]
    [InlineData("\"\"")]
    [InlineData("7")]
    [InlineData("null")]
    public void A_yard_that_is_not_there_is_a_problem_of_yard(string yard) =>
        Assert.Equal("yard", Assert.Single(Read($$"""{ "format": "swardloop-case/1", "yard": {{yard}} }""").Problems).Place);

    [Fact]
    public void A_yard_inside_the_case_is_the_same_yard()
    {
        Checked<CaseFile> read = Read($$"""{ "format": "swardloop-case/1", "yard": {{Yard}} }""");

        Assert.Null(read.Value!.YardPath);
        Assert.Equal(180, read.Value.Case.Yard.Loop.LengthMetres);
    }

    [Fact]
    public void A_shelf_gives_the_same_yard_for_the_same_bytes_only()
    {
        YardShelf shelf = new();
        CaseFile Case(string yard) => CaseFile.Read(
            Encoding.UTF8.GetBytes($$"""{ "format": "swardloop-case/1", "yard": {{yard}} }"""), "-", _ => null, shelf).Value!;

        CaseFile first = Case(Yard);
        for (int i = 0; i < 31; i++)
        {
            Case(Yard.Replace("Quince", $"Quince {i}", StringComparison.Ordinal));
        }

        Assert.Same(first.Case.Yard, Case(Yard).Case.Yard);
        Case(Yard.Replace("Quince", "Pear", StringComparison.Ordinal));
        Assert.NotSame(first.Case.Yard, Case(Yard).Case.Yard);
    }
}
