using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Budget;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Demo;

/// <summary>Furnishes the demo workshop: an invented village, three years of readings, cases at every stage, dated so that today is today.
/// The same day gives the same workshop.</summary>
internal sealed class DemoWorkshop
{
    /// <summary>The demo's person, who signs in without a password.</summary>
    public const string Person = "Wren Alder";

    private static readonly Author Wren = new(Person, Role.Principal), Colleague = new("Jory Penhale", Role.Technician), Owner = new(Author.Owner, Role.Principal);

    private readonly DateTimeOffset _today;
    private readonly List<(Change Change, Author Author, DateTimeOffset TakenAt)> _changes = [];
    private readonly List<(DateTimeOffset At, Author By, Guid Yard, Guid? Case, JsonObject Reading)> _observations = [];
    private readonly List<(DemoYard Demo, Guid Id, double Ohms)> _yards = [];
    private ulong _made;

    private DemoWorkshop(DateTimeOffset today) => _today = today;

    /// <summary>All changes that make the demo workshop.</summary>
    /// <param name="now">The moment it is made.</param>
    public static IReadOnlyList<(Change Change, Author Author, DateTimeOffset TakenAt)> Changes(DateTimeOffset now)
    {
        DemoWorkshop demo = new(new DateTimeOffset(now.Year, now.Month, now.Day, 8, 0, 0, now.Offset));
        demo.Trade();
        demo.Yards();
        demo.Readings();
        demo.ClosedCases();
        demo.OpenCases();
        demo.Observations();
        return [.. demo._changes.OrderBy(change => change.TakenAt)];
    }

    private void Trade()
    {
        DateTimeOffset at = Days(-1120);
        Put(at, Wren, RecordKind.Workshop, Ids.Workshop, new()
        {
            ["name"] = "Otterwick Mower Workshop (demo)",
            ["phone"] = "01632 960100",
            ["email"] = "bench@otterwick.example",
            ["address"] = "The Old Forge, Otterwick",
            ["language"] = "en",
            ["units"] = "metric",
        });
        Put(at, Wren, RecordKind.Rates, Ids.Rates, new() { ["labourPerHour"] = 60, ["travelPerVisit"] = 45, ["ownerPatiencePerHour"] = 15, ["currency"] = "EUR" });
        Guid common = Put(at, Wren, RecordKind.Profile, null, new()
        {
            ["name"] = "Station with a straw lid",
            ["sourceOhms"] = 107,
            ["reachConstantOhmM"] = 4581,
            ["frequencyHz"] = 10000,
            ["lampAlarmOhms"] = 20000,
            ["hasContinuityLamp"] = true,
            ["sensorHeightM"] = 0.07,
        });
        Put(at, Wren, RecordKind.Profile, null, new()
        {
            ["name"] = "Small station on a spike",
            ["sourceOhms"] = 150,
            ["reachConstantOhmM"] = 3900,
            ["frequencyHz"] = 8000,
            ["hasContinuityLamp"] = false,
            ["sensorHeightM"] = 0.06,
        });
        foreach ((string name, string type, double? percent, double? digits, double? resolution, double? lead) in new (string, string, double?, double?, double?, double?)[]
        {
            ("Bench meter", "multimeter", 0.5, 2, 0.01, 0.15), ("Van meter", "multimeter", 0.8, 3, 0.1, 0.3), ("Capacitance clip", "capacitance-meter", 2, 4, null, null),
            ("Tone box", "tone-sender", null, null, null, null), ("Lantern battery", "battery", null, null, null, null),
        })
        {
            JsonObject fields = new() { ["name"] = name, ["type"] = type };
            foreach ((string field, double? value) in new (string, double?)[] { ("percent", percent), ("digits", digits), ("resolutionOhms", resolution), ("leadOhms", lead) })
            {
                if (value is { } number)
                {
                    fields[field] = number;
                }
            }

            Put(at, Wren, RecordKind.Instrument, null, fields);
        }

        Put(at, Wren, RecordKind.Conductor, null, new() { ["name"] = "Green copper, drum of 500 m", ["material"] = "copper", ["areaMm2"] = 0.75, ["metresInStock"] = 340, ["pricePerM"] = 0.32 });
        Put(at, Wren, RecordKind.Conductor, null, new() { ["name"] = "Thick copper for long loops", ["material"] = "copper", ["areaMm2"] = 1.5, ["metresInStock"] = 120, ["pricePerM"] = 0.55 });
        foreach ((string shown, string meaning, string reading) in new[]
        {
            ("one long, two short", "The mower has no reception beside the wire.", """{"test":"mower-start","place":"at-wire","value":"no-signal"}"""),
            ("three short", "The mower takes itself to be outside the loop.", """{"test":"mower-start","place":"mid-lawn","value":"outside"}"""),
            ("lamp dark", "The station's lamp is off.", """{"test":"station-lamp","value":"off"}"""),
            ("lamp blinks fast", "The station finds its loop open.", """{"test":"station-lamp","value":"alarm"}"""),
        })
        {
            Put(at, Wren, RecordKind.Code, null, new()
            {
                ["machine"] = "Straw-lid mower",
                ["shown"] = shown,
                ["meaning"] = meaning,
                ["reading"] = JsonNode.Parse(reading),
                ["profile"] = common.ToString(),
            });
        }
    }

    private void Yards()
    {
        int number = 0;
        foreach (DemoYard demo in DemoYards.All)
        {
            number++;
            DateTimeOffset at = Days(-demo.LaidDaysAgo + 2);
            Guid owner = Put(at, Wren, RecordKind.Owner, null, new()
            {
                ["name"] = demo.Owner,
                ["phone"] = $"01632 9602{number:00}",
                ["address"] = demo.Address,
                ["email"] = $"{demo.Owner.Split(' ')[0].ToLowerInvariant()}@otterwick.example",
                ["language"] = number % 5 == 0 ? "de" : "en",
            });
            JsonObject file = demo.File();
            Guid yard = Put(at, Wren, RecordKind.Yard, null, new()
            {
                ["name"] = demo.Name,
                ["owner"] = owner.ToString(),
                ["address"] = demo.Address,
                ["file"] = file,
                ["laidOn"] = Days(-demo.LaidDaysAgo).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            });
            ProblemList problems = new(demo.Name);
            using JsonDocument document = JsonDocument.Parse(file.ToJsonString());
            YardFile read = YardFile.Read(document.RootElement, "", problems)
                ?? throw new InvalidOperationException(string.Join("; ", problems.Kept));
            _yards.Add((demo, yard, LoopBudget.For(read.Yard).MeanOhms));
        }
    }

    /// <summary>Twice a year somebody measures.</summary>
    private void Readings()
    {
        int turn = 0;
        foreach ((DemoYard demo, Guid yard, _) in _yards)
        {
            for (int day = -demo.LaidDaysAgo + 5; day < -20; day += 170 + (turn % 23))
            {
                Observe(Days(day).AddMinutes(30 * (turn % 9)), turn % 3 == 0 ? Colleague : Wren, yard, null, LoopReading(yard, day));
                turn++;
            }
        }
    }

    private void ClosedCases()
    {
        (int Yard, int Day, string Complaint, string Cause, string Repair, string[] Tests)[] closed =
        [
            (0, -700, "stops in the middle of the lawn", "series-resistance", """{"repair":"remake-joint","atM":118.5,"found":"green copper in the twist"}""",
                ["""{"test":"station-lamp","value":"normal"}""", """{"test":"mower-reach","distanceM":3.1,"bound":"exact"}"""]),
            (2, -640, "drives out beside the fence", "leak", """{"repair":"mend-span","fromM":30,"toM":32,"found":"bare wire at a fence post"}""",
                ["""{"test":"station-lamp","value":"normal"}""", """{"test":"wire-crossing","value":"crossed","nearMetal":true}"""]),
            (4, -590, "lamp blinks since the edging was cut", "open", """{"repair":"mend-span","fromM":61,"toM":63,"found":"cut through"}""",
                ["""{"test":"station-lamp","value":"alarm"}""", """{"test":"loop-resistance","value":"over-range"}"""]),
            (6, -520, "nothing happens at all", "no-mains", """{"repair":"restore-mains","found":"outlet switched off in the shed"}""",
                ["""{"test":"station-lamp","value":"off"}""", """{"test":"outlet-check","value":"dead"}"""]),
            (8, -470, "stops half way down", "series-resistance", """{"repair":"remake-joint","atM":64,"found":"clamp rusted"}""",
                ["""{"test":"station-lamp","value":"normal"}"""]),
            (10, -410, "lamp dark after the thunder", "supply", """{"repair":"replace-supply","found":"supply burnt"}""",
                ["""{"test":"station-lamp","value":"off"}""", """{"test":"outlet-check","value":"live"}""", """{"test":"supply-voltage","volts":0,"nominalVolts":24}"""]),
            (12, -360, "says it is outside", "ends-swapped", """{"repair":"remake-terminals","found":"ends swapped after the paint"}""",
                ["""{"test":"station-lamp","value":"normal"}""", """{"test":"mower-start","place":"mid-lawn","value":"outside"}"""]),
            (15, -300, "stops near the old pond", "open", """{"repair":"mend-span","fromM":40,"toM":42,"found":"spade"}""",
                ["""{"test":"station-lamp","value":"alarm"}"""]),
            (16, -200, "does not start", "receiver", """{"repair":"service-receiver","found":"coil loose"}""",
                ["""{"test":"station-lamp","value":"normal"}""", """{"test":"substitute-mower","value":"runs"}"""]),
            (17, -120, "loses its way in the narrow part", "series-resistance", """{"repair":"remake-joint","atM":58,"found":"clamp wet inside"}""",
                ["""{"test":"station-lamp","value":"normal"}"""]),
        ];
        foreach ((int index, int day, string complaint, string cause, string repair, string[] tests) in closed)
        {
            Guid yard = _yards[index].Id;
            Guid @case = Open(Days(day), yard, complaint, Wren, "open");
            int minutes = 20;
            foreach (string test in tests)
            {
                Observe(Days(day).AddMinutes(minutes += 25), Wren, yard, @case, Reading(test));
            }

            DateTimeOffset visit = Days(day + 2).AddHours(2);
            Put(Days(day).AddHours(3), Wren, RecordKind.Visit, null, new()
            {
                ["yard"] = yard.ToString(),
                ["case"] = @case.ToString(),
                ["on"] = Day(visit),
                ["at"] = "10:00",
                ["minutes"] = 60,
                ["who"] = Colleague.Name,
                ["done"] = true,
            });
            Observe(visit, Colleague, yard, @case, Reading(repair));
            Observe(visit.AddMinutes(20), Colleague, yard, @case, Reading("""{"test":"mower-check","value":"runs"}"""));
            Set(visit.AddMinutes(30), Colleague, RecordKind.Case, @case, new()
            {
                ["state"] = "closed",
                ["closedAt"] = Moment(visit.AddMinutes(30)),
                ["foundCause"] = cause,
            });
            Observe(visit.AddMinutes(40), Colleague, yard, null, LoopReading(yard, day + 2));
        }
    }

    private void OpenCases()
    {
        // 1: just called.
        Open(Days(0).AddMinutes(-30), Yard(3), "has not moved since yesterday, no idea why", Wren, "open");

        // 2: asked on the telephone: no power.
        Guid second = Open(Days(-1).AddHours(3), Yard(6), "lamp dark, mower dead", Wren, "open");
        Observe(Days(-1).AddHours(3.2), Wren, Yard(6), second, Reading("""{"test":"station-lamp","value":"off","by":"owner"}"""));
        Observe(Days(-1).AddHours(3.3), Wren, Yard(6), second, Reading("""{"test":"outlet-check","value":"live","by":"owner"}"""));

        // 3: the owner is to look.
        Guid third = Open(Days(-3), Yard(4), "stops at the step", Wren, "waiting-for-owner");
        Observe(Days(-3).AddMinutes(20), Wren, Yard(4), third, Reading("""{"test":"station-lamp","value":"normal","by":"owner"}"""));

        // 4: the owner has answered just now.
        Guid fourth = Open(Days(-2), Yard(14), "turns round long before the hedge", Wren, "waiting-for-owner");
        Observe(Days(-2).AddMinutes(15), Wren, Yard(14), fourth, Reading("""{"test":"station-lamp","value":"normal","by":"owner"}"""));
        Observe(Days(0).AddMinutes(-50), Owner, Yard(14), fourth, Reading("""{"test":"mower-reach","distanceM":4.5,"bound":"exact","by":"owner"}"""));
        Observe(Days(0).AddMinutes(-44), Owner, Yard(14), fourth, Reading(
            """{"test":"loop-resistance","ohms":152,"leadOhms":0.5,"meter":{"percent":1,"digits":5,"resolutionOhms":0.1},"by":"owner"}"""));

        // 5: a visit this morning; the joint is as good as known.
        Guid fifth = Open(Days(-4), Yard(0), "stops in the middle of the lawn again", Wren, "visit-planned");
        Observe(Days(-4).AddMinutes(10), Wren, Yard(0), fifth, Reading("""{"test":"station-lamp","value":"normal","by":"owner"}"""));
        Observe(Days(-4).AddMinutes(30), Wren, Yard(0), fifth, Reading("""{"test":"mower-reach","distanceM":1.9,"bound":"exact","by":"owner"}"""));
        Observe(Days(-2).AddMinutes(45), Colleague, Yard(0), fifth, Reading(
            """{"test":"loop-resistance","ohms":338,"leadOhms":0.3,"meter":{"percent":0.8,"digits":3,"resolutionOhms":1}}"""));
        Set(Days(-2).AddHours(1), Wren, RecordKind.Case, fifth, new() { ["promisedOn"] = Day(Days(0)) });
        Visit(Days(-2).AddHours(1), Yard(0), fifth, 0, "09:30", 60, Colleague);

        // 6: a visit in the afternoon: a break.
        Guid sixth = Open(Days(-2).AddHours(5), Yard(9), "lamp blinks since the trampoline was put up", Wren, "visit-planned");
        Observe(Days(-2).AddHours(5.1), Wren, Yard(9), sixth, Reading("""{"test":"station-lamp","value":"alarm","by":"owner"}"""));
        Observe(Days(-1).AddHours(1), Colleague, Yard(9), sixth, Reading("""{"test":"loop-resistance","value":"over-range"}"""));
        Visit(Days(-1).AddHours(2), Yard(9), sixth, 0, "14:00", 90, Wren);

        // 7: somebody is there.
        Guid seventh = Open(Days(-1), Yard(2), "crosses the wire beside the fence", Wren, "visit-planned");
        Observe(Days(-1).AddMinutes(20), Wren, Yard(2), seventh, Reading("""{"test":"wire-crossing","value":"crossed","nearMetal":true,"by":"owner"}"""));
        Observe(Days(0).AddMinutes(-40), Colleague, Yard(2), seventh, Reading("""{"test":"earth-resistance","ohms":2300}"""));
        Observe(Days(0).AddMinutes(-25), Colleague, Yard(2), seventh, Reading("""{"test":"earth-ratio","voltsA":2.1,"voltsB":3.4}"""));
        Set(Days(0).AddMinutes(-55), Colleague, RecordKind.Case, seventh, new() { ["onSite"] = true, ["assignedTo"] = Colleague.Name });
        Visit(Days(-1).AddHours(1), Yard(2), seventh, 0, "08:00", 90, Colleague);

        // 8: promised for yesterday.
        Guid eighth = Open(Days(-6), Yard(17), "loses its way in the narrow part, still", Wren, "open");
        Observe(Days(-6).AddMinutes(15), Wren, Yard(17), eighth, Reading("""{"test":"station-lamp","value":"normal","by":"owner"}"""));
        Observe(Days(-5), Colleague, Yard(17), eighth, Reading("""{"test":"follow-wire","value":"wavering"}"""));
        Set(Days(-5).AddHours(1), Wren, RecordKind.Case, eighth, new() { ["promisedOn"] = Day(Days(-1)) });
        Visit(Days(-5).AddHours(1), Yard(17), eighth, -1, "11:00", 60, Colleague);

        // 9: mended, not yet seen running.
        Guid ninth = Open(Days(-5), Yard(8), "stops half way down again", Wren, "visit-planned");
        Observe(Days(-5).AddMinutes(20), Wren, Yard(8), ninth, Reading("""{"test":"station-lamp","value":"normal","by":"owner"}"""));
        Observe(Days(-1).AddHours(3.8), Colleague, Yard(8), ninth, Reading("""{"test":"loop-resistance","ohms":16.8,"leadOhms":0.3}"""));
        Observe(Days(-1).AddHours(4), Colleague, Yard(8), ninth, Reading("""{"test":"split-resistance","atM":64,"ohmsA":2.6,"ohmsB":2.5,"leadOhms":0.3}"""));
        Observe(Days(-1).AddHours(4.2), Colleague, Yard(8), ninth, Reading("""{"repair":"remake-joint","atM":64,"found":"clamp rusted again"}"""));

        // 10: another loop next door.
        Guid tenth = Open(Days(-7), Yard(12), "wanders when the neighbour's mower is out", Wren, "waiting-for-owner");
        Observe(Days(-7).AddMinutes(10), Wren, Yard(12), tenth, Reading("""{"test":"neighbour-off","value":"cured","by":"owner"}"""));

        // 11: the mower itself, in the workshop.
        Guid eleventh = Open(Days(-3).AddHours(2), Yard(16), "stands at the wire and hums", Wren, "open");
        Observe(Days(-3).AddHours(2.2), Wren, Yard(16), eleventh, Reading("""{"test":"station-lamp","value":"normal","by":"owner"}"""));
        Observe(Days(-2).AddHours(2), Colleague, Yard(16), eleventh, Reading("""{"test":"substitute-loop","value":"no-signal"}"""));

        // 12: two people wrote down two days, neither knowing of the other.
        Guid twelfth = Open(Days(-2).AddHours(4), Yard(10), "drives over the wire at the gate", Wren, "open");
        Observe(Days(-2).AddHours(4.2), Wren, Yard(10), twelfth, Reading("""{"test":"station-lamp","value":"flicker","by":"owner"}"""));
        Put(Days(-1).AddHours(5), Wren, RecordKind.Case, twelfth, new() { ["promisedOn"] = Day(Days(2)) });
        Put(Days(-1).AddHours(5.1), Colleague, RecordKind.Case, twelfth, new() { ["promisedOn"] = Day(Days(3)) });
    }

    private Guid Yard(int index) => _yards[index].Id;

    private Guid Open(DateTimeOffset at, Guid yard, string complaint, Author by, string state) => Put(at, by, RecordKind.Case, null, new()
    {
        ["yard"] = yard.ToString(),
        ["complaint"] = complaint,
        ["state"] = state,
        ["openedAt"] = Moment(at),
        ["can"] = new JsonObject { ["technician"] = true, ["owner"] = true, ["instruments"] = new JsonArray("multimeter", "capacitance-meter", "battery", "tone-sender"), ["ownerInstruments"] = new JsonArray("multimeter") },
    });

    private void Visit(DateTimeOffset at, Guid yard, Guid @case, int inDays, string time, int minutes, Author who) => Put(at, Wren, RecordKind.Visit, null, new()
    {
        ["yard"] = yard.ToString(),
        ["case"] = @case.ToString(),
        ["on"] = Day(Days(inDays)),
        ["at"] = time,
        ["minutes"] = minutes,
        ["who"] = who.Name,
    });

    private JsonObject LoopReading(Guid yard, int day)
    {
        (DemoYard demo, _, double ohms) = _yards.Single(one => one.Id == yard);
        double years = (day + demo.LaidDaysAgo) / 365.25;
        // A meter's last figure wavers; the same reading wavers the same way every time.
        double waver = 0.1 * Math.Sin((day * 1.7) + ohms);
        return new()
        {
            ["test"] = "loop-resistance",
            ["ohms"] = Math.Round(ohms + (demo.OhmsPerYear * years) + waver + 0.3, 1),
            ["leadOhms"] = 0.3,
            ["meter"] = new JsonObject { ["percent"] = 0.8, ["digits"] = 3, ["resolutionOhms"] = 0.1 },
        };
    }

    private static JsonObject Reading(string json) => JsonNode.Parse(json)!.AsObject();

    private void Observe(DateTimeOffset at, Author by, Guid yard, Guid? @case, JsonObject reading) => _observations.Add((at, by, yard, @case, reading));

    /// <summary>Writes the observations down in the order in which they were made, each after the one before it.</summary>
    private void Observations()
    {
        Dictionary<Guid, Guid> last = [];
        foreach ((DateTimeOffset at, Author by, Guid yard, Guid? @case, JsonObject reading) in _observations.OrderBy(one => one.At))
        {
            reading["at"] = Moment(at);
            JsonObject fields = new() { ["yard"] = yard.ToString(), ["reading"] = reading };
            if (@case is { } of)
            {
                fields["case"] = of.ToString();
            }

            Guid line = @case ?? yard;
            if (last.TryGetValue(line, out Guid after))
            {
                fields["after"] = after.ToString();
            }

            last[line] = Put(at, by, RecordKind.Observation, null, fields);
        }
    }

    /// <summary>Sets fields of a record, having seen what they hold.</summary>
    private void Set(DateTimeOffset at, Author by, RecordKind kind, Guid record, JsonObject fields)
    {
        Dictionary<string, IReadOnlyList<Guid>> seen = [];
        foreach (string name in fields.Select(field => field.Key))
        {
            if (_changes.Where(one => one.Change.Record == record && one.Change.Set.ContainsKey(name)).Select(one => one.Change.Id).ToList() is { Count: > 0 } before)
            {
                seen[name] = before;
            }
        }

        Put(at, by, kind, record, fields, seen);
    }

    private Guid Put(
        DateTimeOffset at, Author by, RecordKind kind, Guid? record, JsonObject fields, Dictionary<string, IReadOnlyList<Guid>>? seen = null)
    {
        Guid id = record ?? Id(at);
        using JsonDocument document = JsonDocument.Parse(fields.ToJsonString());
        Dictionary<string, JsonElement> set = document.RootElement.EnumerateObject().ToDictionary(field => field.Name, field => field.Value.Clone());
        _changes.Add((new(Id(at), kind, id, set, seen ?? [], at), by, at.ToUniversalTime()));
        return id;
    }

    /// <summary>A UUID of version 7 with that moment, the same every time.</summary>
    private Guid Id(DateTimeOffset at)
    {
        Span<byte> bytes = stackalloc byte[16];
        System.Buffers.Binary.BinaryPrimitives.WriteInt64BigEndian(bytes, at.ToUnixTimeMilliseconds() << 16);
        System.Buffers.Binary.BinaryPrimitives.WriteUInt64BigEndian(bytes[8..], 0x8000_0000_0000_0000 | ++_made);
        bytes[6] = 0x70;
        return new(bytes, bigEndian: true);
    }

    private DateTimeOffset Days(int days) => _today.AddDays(days);

    private static string Day(DateTimeOffset at) => at.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static string Moment(DateTimeOffset at) => at.ToString("yyyy-MM-ddTHH:mm:sszzz", System.Globalization.CultureInfo.InvariantCulture);
}
