using System.Globalization;
using System.IO.Compression;
using System.Text.Json.Nodes;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Hardening;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Input;

/// <summary>Starts from a valid workshop and changes one thing at a time to something odd that is allowed. It must be kept; and then every page, file, export,
/// backup, restore and advice must still be read. What is refused at the door is the other fuzz's part.</summary>
public sealed class StatefulFuzzTests
{
    private const int BetweenPages = 50, BetweenBackups = 1_000;

    private static readonly string[] Texts =
    [
        "x", "<script>alert(1)</script>", "'; DROP TABLE \"Records\"; --", "\u202eabc\u202c", "e\u0301\u0301\u0301", "🦔🦔", "a\nb\r\nc\td", "../../etc/passwd", "%00%0a", "{{7*7}}", "[red]markup[/]",
        "=1+1", "\"quoted\" and \\back", "ß İ ı ſ", "\u200bfirst", "null", "0", "-0", "NaN", "C:\\nul", "very " + "long", "\ufeffmark", "x\ud7ff\ue000", "&amp;amp;",
    ];

    private static readonly string[] Readings =
    [
        """{"test":"station-lamp","value":"normal"}""", """{"test":"station-lamp","value":"off"}""", """{"test":"loop-resistance","ohms":0}""", """{"test":"loop-resistance","ohms":1000000}""",
        """{"test":"loop-resistance","ohms":5.2,"leadOhms":0.3,"meter":{"percent":0.8,"digits":3,"resolutionOhms":1}}""", """{"test":"loop-resistance","value":"over-range"}""",
        """{"test":"loop-resistance","value":"not-done"}""", """{"test":"mower-reach","distanceM":0,"bound":"exact"}""", """{"test":"mower-reach","distanceM":1000,"bound":"at-least"}""",
        """{"test":"mower-start","place":"mid-lawn","value":"no-signal"}""", """{"test":"mower-check","value":"runs"}""", """{"test":"mower-check","value":"same"}""", """{"repair":"renew-loop"}""",
        """{"repair":"remake-terminals","found":"green"}""", """{"test":"earth-resistance","ohms":0.001}""", """{"test":"insulation","testVolts":250,"megohms":0}""", """{"test":"end-capacitance","nanofaradA":0,"nanofaradB":0}""",
        """{"test":"tone-trace","atM":0,"from":"A","value":"none"}""", """{"test":"look","fromM":0,"toM":2,"value":"nothing"}""", """{"test":"split-resistance","atM":5,"ohmsA":null,"ohmsB":3}""",
        """{"test":"earth-ratio","voltsA":0,"voltsB":0}""", """{"test":"supply-voltage","volts":0,"nominalVolts":24}""", """{"test":"outlet-check","value":"live","conditions":["wet","frost"],"by":"owner","at":"2026-05-14T09:30:00+02:00"}""",
    ];

    [Fact]
    public async Task Whatever_odd_thing_is_kept_every_page_file_and_backup_is_still_read()
    {
        int count = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 100_000 : 2_000;
        int seed = Environment.GetEnvironmentVariable("SWARDLOOP_SEED") is { } given ? int.Parse(given, CultureInfo.InvariantCulture) : 20261129;
        Random random = new(seed);
        WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal), owner = served.Client();
        World world = await World.MakeAsync(principal);
        List<string> wrong = [];
        for (int i = 0; i < count && wrong.Count < 5; i++)
        {
            if (i > 0 && i % 500 == 0)
            {
                // A case in which a thousand things were seen is a story of its own; here the world stays the size of a workshop's.
                world = await World.MakeAsync(principal);
            }

            Change change = world.Odd(random);
            string what = $"seed {seed}, change {i}, {change.Kind} {JsonSerializer.Serialize(change.Set)}";
            ChangeResult result = Assert.Single(await principal.SendAsync(change));
            if (result.Status == ChangeStatus.Refused)
            {
                wrong.Add($"{what} was refused: {string.Join("; ", result.Problems)}");
                continue;
            }

            await ReadAsync(principal, $"/api/records/{change.Record}", what, wrong);
            await ReadAsync(principal, i % 2 == 0 ? $"/api/cases/{world.Case}/file" : $"/api/yards/{world.Yard}/file", what, wrong);
            if (i % BetweenPages == BetweenPages - 1)
            {
                foreach (string call in (string[])
                    [$"/api/records/{change.Record}/history", "/api/records?since=0&limit=2000", $"/api/cases/{world.Case}/bundle", "/api/bench", "/api/search?q=x", $"/api/yards/{world.Yard}/geojson", "/api/priors", "/api/sessions", $"/api/owners/{world.Owner}/forget"])
                {
                    await ReadAsync(principal, call, what, wrong);
                }

                await ReadAsync(owner, $"{world.Link}?language=de", what, wrong);
                string file = await principal.GetStringAsync($"/api/cases/{world.Case}/file");
                using HttpResponseMessage advice = await principal.PostAsync("/api/advice?priors=workshop", Served.Json(file));
                string text = await advice.Content.ReadAsStringAsync();
                if (advice.StatusCode != HttpStatusCode.OK || !IsFinite(JsonNode.Parse(text)))
                {
                    wrong.Add($"{what}: advice {(int)advice.StatusCode} {text[..Math.Min(300, text.Length)]}");
                }
            }

            if (i % BetweenBackups == BetweenBackups - 1)
            {
                await BackUpAsync(principal, place, what, wrong);
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    private static async Task ReadAsync(HttpClient client, string call, string what, List<string> wrong)
    {
        using HttpResponseMessage answer = await client.GetAsync(call);
        string text = await answer.Content.ReadAsStringAsync();
        if (answer.StatusCode == HttpStatusCode.OK)
        {
            if (answer.Content.Headers.ContentType?.MediaType?.EndsWith("json", StringComparison.Ordinal) == true)
            {
                _ = JsonNode.Parse(text);
            }
        }
        else
        {
            wrong.Add($"{what}: {call} {(int)answer.StatusCode} {text[..Math.Min(300, text.Length)]}");
        }
    }

    private static async Task BackUpAsync(HttpClient principal, WorkshopPlace place, string what, List<string> wrong)
    {
        string backup = Path.Combine(place.Folder, Path.GetRandomFileName() + ".zip"), into = TestPlaces.Sqlite().Folder, files = Path.Combine(TestPlaces.Sqlite().Folder, "out");
        await File.WriteAllBytesAsync(backup, await principal.GetByteArrayAsync("/api/backup"));
        foreach (string[] call in (string[][])[["restore", backup, "--data", into], ["export", "--everything", "--into", files, "--data", into]])
        {
            (int exitCode, _, string error) = CommandRun.Run(call);
            if (exitCode != 0)
            {
                wrong.Add($"{what}: {call[0]} {exitCode} {error}");
                return;
            }
        }

        using ZipArchive export = new(new MemoryStream(await principal.GetByteArrayAsync("/api/export")));
        string[] names = [.. export.Entries.Select(entry => entry.FullName).Order(StringComparer.Ordinal)];
        string[] there = [.. Directory.EnumerateFiles(files, "*", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(files, path)).Order(StringComparer.Ordinal)];
        if (!names.SequenceEqual(there))
        {
            wrong.Add($"{what}: the restored workshop exports other files");
        }

        foreach (string yard in Directory.EnumerateFiles(Path.Combine(files, "yards")).Take(3))
        {
            (int exitCode, _, string error) = CommandRun.Run("budget", yard, "--json");
            if (exitCode != 0)
            {
                wrong.Add($"{what}: budget {exitCode} {error}");
            }
        }

        File.Delete(backup);
    }

    private static bool IsFinite(JsonNode? node) => node switch
    {
        JsonObject whole => whole.All(member => IsFinite(member.Value)),
        JsonArray list => list.All(IsFinite),
        JsonValue value when value.GetValueKind() == JsonValueKind.Number => double.IsFinite(value.GetValue<double>()),
        _ => true,
    };

    /// <summary>One owner's yard with a case and everything that can hang on it.</summary>
    private sealed class World
    {
        private readonly Dictionary<RecordKind, Guid> _records = [];

        public Guid Owner => _records[RecordKind.Owner];

        public Guid Yard => _records[RecordKind.Yard];

        public Guid Case => _records[RecordKind.Case];

        public string Link { get; private set; } = "";

        public static async Task<World> MakeAsync(HttpClient principal)
        {
            World world = new();
            foreach (RecordKind kind in Enum.GetValues<RecordKind>())
            {
                world._records[kind] = Ids.OnlyOneOf(kind) ?? Guid.CreateVersion7();
            }

            await principal.KeepAsync(
                Made.Owner(world.Owner), Made.Yard(world.Yard, world.Owner), Made.Case(world.Case, world.Yard),
                Made.Observation(world._records[RecordKind.Observation], world.Yard, world.Case, Readings[0]),
                Made.Change(RecordKind.Visit, world._records[RecordKind.Visit], new() { ["yard"] = world.Yard.ToString(), ["on"] = "2026-05-20" }),
                Made.Change(RecordKind.Instrument, world._records[RecordKind.Instrument], new() { ["name"] = "Meter" }),
                Made.Change(RecordKind.Conductor, world._records[RecordKind.Conductor], new() { ["name"] = "Wire" }),
                Made.Change(RecordKind.Profile, world._records[RecordKind.Profile], new() { ["name"] = "Station" }),
                Made.Change(RecordKind.Code, world._records[RecordKind.Code], new() { ["machine"] = "Any", ["shown"] = "E1" }),
                Made.Change(RecordKind.Photo, world._records[RecordKind.Photo], new() { ["of"] = world.Case.ToString() }));
            world.Link = await principal.LinkAsync(world.Yard, world.Case, world._records[RecordKind.OwnerLink]);
            return world;
        }

        /// <summary>A change of one field to something odd that is allowed; or one more observation.</summary>
        public Change Odd(Random random)
        {
            if (random.Next(6) == 0)
            {
                JsonObject reading = JsonNode.Parse(Pick(random, Readings))!.AsObject();
                if (random.Next(3) == 0)
                {
                    reading["note"] = Text(random, 200);
                }

                JsonObject set = new() { ["yard"] = Yard.ToString(), ["case"] = Case.ToString(), ["reading"] = reading };
                return Made.Change(RecordKind.Observation, Guid.CreateVersion7(), set);
            }

            while (true)
            {
                RecordKind kind = Pick(random, Enum.GetValues<RecordKind>());
                RecordField field = Pick(random, RecordFields.Of(kind).Values.Where(one => !one.Once && !one.ByServer).OrderBy(one => one.Name, StringComparer.Ordinal).ToArray());
                // The link and the case stay open: their ends have tests of their own.
                if ((kind, field.Name) is (RecordKind.OwnerLink, "expiresAt" or "revoked") or (RecordKind.Case, "state" or "archived") || ValueOf(random, kind, field) is not { } value)
                {
                    continue;
                }

                return Made.Change(kind, _records[kind], new() { [field.Name] = value.Value });
            }
        }

        private (JsonNode? Value, int None)? ValueOf(Random random, RecordKind kind, RecordField field)
        {
            if (!field.Required && random.Next(10) == 0)
            {
                return (null, 0);
            }

            return field.Type switch
            {
                FieldType.Text when field.IsWebAddress => (JsonValue.Create("https://lawns.example.org/under/here/"), 0),
                FieldType.Text when field.Name is "ask" or "cannot" => (JsonValue.Create(Pick(random, "station-lamp mower-reach", "no-such-step", "")), 0),
                FieldType.Text when kind == RecordKind.Case && field.Name == "foundCause" => (JsonValue.Create(Pick(random, "open", "leak+open", "no such cause")), 0),
                FieldType.Text => (JsonValue.Create(Text(random, field.MostCharacters)), 0),
                FieldType.Number => (JsonValue.Create(Pick(random, field.Least, field.Most, (field.Least + field.Most) / 2, Math.Max(field.Least, 1e-12), Math.BitDecrement(field.Most))), 0),
                FieldType.Flag => (JsonValue.Create(random.Next(2) == 0), 0),
                FieldType.Day => (JsonValue.Create(Pick(random, "0001-01-01", "9999-12-31", "2024-02-29", "2026-05-20")), 0),
                FieldType.Moment => (JsonValue.Create(Pick(random, "0001-01-02T00:00:00Z", "9999-12-30T23:59:59+14:00", "2026-05-20T00:00:00.1234567-11:00")), 0),
                FieldType.Word => (JsonValue.Create(Pick(random, field.Words.ToArray())), 0),
                FieldType.Reference => ReferenceOf(random, kind, field) is { } id ? (JsonValue.Create(id.ToString()), 0) : null,
                FieldType.YardFile => (OddYard(random), 0),
                FieldType.Observation => (JsonNode.Parse(Pick(random, Readings)), 0),
                FieldType.Capabilities => (JsonNode.Parse(Pick(random, "{}", """{"technician":false,"owner":false}""", """{"instruments":[],"ownerInstruments":["multimeter"],"without":["earth-ratio"],"other":{"a":[1]}}""")), 0),
                FieldType.Position => (new JsonObject { ["latitude"] = Pick(random, -90.0, 90, 0), ["longitude"] = Pick(random, -180.0, 180, 1e-300) }, 0),
                _ => null, // a bench file is computed with, and takes its time
            };
        }

        private Guid? ReferenceOf(Random random, RecordKind kind, RecordField field) => (kind, field.Name) switch
        {
            (RecordKind.Photo, "of") => Pick(random, Case, _records[RecordKind.Observation], Yard),
            (_, "yard") => Yard,
            (_, "case") => Case,
            _ when field.Of.Count > 0 => _records[field.Of[0]],
            _ => null,
        };

        private static JsonObject OddYard(Random random)
        {
            JsonObject file = Made.YardFile.DeepClone().AsObject(), loop = file["loop"]!.AsObject();
            switch (random.Next(12))
            {
                case 0: file["name"] = Text(random, 200); break;
                case 1: loop["depthM"] = Pick(random, 0, 1e-9, 1.0); break;
                case 2: loop["lengthToleranceM"] = Pick(random, 0, 1e-9, 1000.0); break;
                case 3: loop["capacitancePFPerM"] = Pick(random, 1e-9, 100_000.0); break;
                case 4: loop["conductor"] = new JsonObject { ["ohmsPerKmAt20C"] = Pick(random, 1e-6, 100_000.0) }; break;
                case 5: file["station"] = new JsonObject { ["sourceOhms"] = Pick(random, 1e-6, 1e9), ["frequencyHz"] = Pick(random, 1, 1_000_000.0), ["lampAlarmOhms"] = Pick(random, 1e-6, 1e9) }; break;
                case 6: file["mower"] = new JsonObject { ["reachConstantOhmM"] = Pick(random, 1e-6, 1e9), ["sensorHeightM"] = Pick(random, 1e-3, 2.0) }; break;
                case 7: file["soil"] = new JsonObject { ["resistivityOhmM"] = Pick(random, 1e-6, 1e6), ["temperatureC"] = Pick(random, -40.0, 60) }; break;
                case 8: file["datum"] = new JsonObject { ["latitude"] = Pick(random, -90.0, 90, 52), ["longitude"] = Pick(random, -180.0, 180), ["bearingDeg"] = Pick(random, -360.0, 360) }; break;
                case 9: file["riskSpots"] = new JsonArray(new JsonObject { ["fromM"] = 0, ["toM"] = 1, ["kind"] = Text(random, 200), ["weight"] = Pick(random, 1e-9, 1e6) }); break;
                case 10: file["metal"] = new JsonArray(new JsonObject { ["kind"] = Text(random, 200), ["path"] = new JsonArray(new JsonArray(-10_000, 0), new JsonArray(10_000, 1e-9)), ["earthOhms"] = Pick(random, 1e-6, 1e9) }); break;
                default: file["unknown" + random.Next(100)] = new JsonObject { ["deep"] = new JsonArray(1e308, Text(random, 100), null) }; break;
            }

            return file;
        }

        private static string Text(Random random, int most)
        {
            string text = Pick(random, Texts);
            if (random.Next(10) == 0)
            {
                text = string.Concat(Enumerable.Repeat(text, most)); // as long as may be
            }

            text = text.Length > most ? text[..most] : text;
            return char.IsHighSurrogate(text[^1]) ? text[..^1] + "x" : text;
        }

        private static T Pick<T>(Random random, params T[] from) => from[random.Next(from.Length)];
    }
}
