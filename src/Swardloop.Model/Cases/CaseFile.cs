using System.Buffers;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Cases;

/// <summary>A case file, <c>*.case.json</c>: the case it describes, and the document it came from, so that whatever else a
/// program keeps in it survives. Immutable.</summary>
public sealed class CaseFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-case/1";

    /// <summary>Most observations read from one case.</summary>
    public const int MostObservations = 5000;

    private static readonly NumberRange Money = new(0, 1e6, "");

    private readonly JsonElement _document;

    private CaseFile(ServiceCase serviceCase, string? yardPath, JsonElement document) =>
        (Case, YardPath, _document) = (serviceCase, yardPath, document);

    /// <summary>The case, in SI units, with defaults where the file is silent.</summary>
    public ServiceCase Case { get; }

    /// <summary>Where the yard file lies, as the case names it; null when the yard stands in the case itself.</summary>
    public string? YardPath { get; }

    /// <summary>Reads a case file.</summary>
    /// <param name="utf8">The file's bytes; see <see cref="JsonText"/> for what is refused before it is looked into.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <param name="openYard">Gives the bytes of the yard file that the case names, relative to the case; null when there is none.</param>
    /// <param name="shelf">Yards read before, when many cases are read.</param>
    /// <returns>The file, or all its problems.</returns>
    public static Checked<CaseFile> Read(
        ReadOnlyMemory<byte> utf8, string sourceName, Func<string, byte[]?> openYard, YardShelf? shelf = null)
    {
        ProblemList problems = new(sourceName);
        using JsonDocument? document = JsonText.Parse(utf8, problems);
        if (document is null || JsonFields.Of(document.RootElement, "", problems) is not { } fields || !fields.IsOfFormat(Format, "a case file"))
        {
            return Checked<CaseFile>.Bad(problems);
        }

        (Yard? yard, string? yardPath) = YardReference.Read(fields, openYard, shelf ?? new());
        string? complaint = fields.TextOrNull("complaint", ObservationJson.LongestText);
        Rates rates = ReadRates(fields);
        bool onSite = fields.FlagOr("onSite", false);
        Capabilities can = ReadCapabilities(fields);
        List<Observation> observations = [];
        if (fields.Given("observations"))
        {
            foreach ((JsonElement element, string place) in fields.Items("observations", 0, MostObservations))
            {
                if (ObservationJson.Read(element, place, yard?.Loop.LengthMetres, problems, yard?.Guides) is { } observation)
                {
                    observations.Add(observation);
                }
            }
        }

        if (problems.Any || yard is null)
        {
            return Checked<CaseFile>.Bad(problems);
        }

        ServiceCase read = new()
        {
            Yard = yard,
            Complaint = complaint ?? "",
            Rates = rates,
            OnSite = onSite,
            Can = can,
            Observations = observations,
        };
        return Checked<CaseFile>.Good(new(read, yardPath, document.RootElement.Clone()));
    }

    /// <summary>A new case on a yard that has a file of its own.</summary>
    /// <param name="serviceCase">The case.</param>
    /// <param name="yardPath">Where the yard file lies, relative to where the case will lie.</param>
    public static CaseFile Create(ServiceCase serviceCase, string yardPath) =>
        new(serviceCase, yardPath, Patched([], serviceCase, null, JsonValue.Create(yardPath)));

    /// <summary>A new case with its yard inside.</summary>
    /// <param name="serviceCase">The case.</param>
    /// <param name="yard">The yard's file; its yard replaces the case's.</param>
    public static CaseFile Create(ServiceCase serviceCase, YardFile yard)
    {
        ServiceCase whole = serviceCase with { Yard = yard.Yard };
        return new(whole, null, Patched([], whole, null, JsonObject.Create(yard.Document)));
    }

    /// <summary>The same file with its case changed: an observation added, the technician on site. What a program keeps in the
    /// file beside the case stays; an observation that changed is written anew.</summary>
    /// <param name="changed">The case as it is now, on the same yard.</param>
    /// <exception cref="ArgumentException">The yard is another one.</exception>
    public CaseFile With(ServiceCase changed)
    {
        if (!ReferenceEquals(changed.Yard, Case.Yard))
        {
            throw new ArgumentException("A case stays on its yard.", nameof(changed));
        }

        return new(changed, YardPath, Patched(JsonObject.Create(_document)!, changed, Case, null));
    }

    /// <summary>Writes the file: UTF-8, indented, unknown properties included.</summary>
    public void Write(IBufferWriter<byte> output)
    {
        using Utf8JsonWriter writer = new(output, new JsonWriterOptions
        {
            Indented = true,
            NewLine = "\n",
            // A file is no web page: letters stay letters.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        });
        _document.WriteTo(writer);
        writer.Flush();
        output.Write("\n"u8);
    }

    /// <summary>The file's bytes.</summary>
    public byte[] ToUtf8()
    {
        ArrayBufferWriter<byte> bytes = new();
        Write(bytes);
        return bytes.WrittenSpan.ToArray();
    }

    /// <summary>SHA-256 of the content, blanks between its parts aside: the same case is recognised when it comes again.</summary>
    public string Digest
    {
        get
        {
            ArrayBufferWriter<byte> bytes = new();
            using (Utf8JsonWriter writer = new(bytes))
            {
                _document.WriteTo(writer);
            }

            return Convert.ToHexStringLower(SHA256.HashData(bytes.WrittenSpan));
        }
    }

    private static Rates ReadRates(JsonFields fields)
    {
        Rates defaults = new();
        return fields.NestedOrNull("rates") is not { } rates
            ? defaults
            : new()
            {
                LabourPerHour = rates.NumberOr("labourPerHour", Money, defaults.LabourPerHour),
                TravelPerVisit = rates.NumberOr("travelPerVisit", Money, defaults.TravelPerVisit),
                OwnerPatiencePerHour = rates.NumberOr("ownerPatiencePerHour", Money, defaults.OwnerPatiencePerHour),
                Currency = rates.TextOrNull("currency", 12) ?? defaults.Currency,
                Pace = rates.Given("steps") ? StepPaceJson.Read(rates.Element("steps", "")!.Value, rates.PlaceOf("steps"), rates.Problems) : defaults.Pace,
            };
    }

    private static Capabilities ReadCapabilities(JsonFields fields)
    {
        return fields.NestedOrNull("can") is { } can ? CapabilitiesOf(can) : new();
    }

    /// <summary>A <c>can</c> by itself; what is wrong with it is left out.</summary>
    public static Capabilities ReadCapabilities(JsonElement can) => JsonFields.Of(can, "", new ProblemList("")) is { } fields ? CapabilitiesOf(fields) : new();

    /// <summary>Notes what is wrong with a <c>can</c> by itself.</summary>
    /// <param name="can">The value.</param>
    /// <param name="place">Its path.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static void CheckCapabilities(JsonElement can, string place, ProblemList problems)
    {
        if (JsonFields.Of(can, place, problems) is { } fields)
        {
            _ = CapabilitiesOf(fields);
        }
    }

    private static Capabilities CapabilitiesOf(JsonFields can)
    {
        Capabilities defaults = new();
        return new()
        {
            Technician = can.FlagOr("technician", defaults.Technician),
            Owner = can.FlagOr("owner", defaults.Owner),
            TechnicianInstruments = ReadInstruments(can, "instruments", defaults.TechnicianInstruments),
            OwnerInstruments = ReadInstruments(can, "ownerInstruments", defaults.OwnerInstruments),
            Without = ReadWithout(can),
        };
    }

    private static StepSet ReadWithout(JsonFields can)
    {
        List<StepKind> without = [];
        if (can.Given("without"))
        {
            foreach ((JsonElement element, string place) in can.Items("without", 0, 100))
            {
                KeyValuePair<string, StepKind> word = WireName.Words<StepKind>().FirstOrDefault(
                    word => element.ValueKind == JsonValueKind.String && element.ValueEquals(word.Key));
                if (word.Key is null)
                {
                    can.Problems.Add(place, $"got {JsonFields.Shown(element)}", string.Join(", ", WireName.Words<StepKind>().Select(known => known.Key)));
                }
                else
                {
                    without.Add(word.Value);
                }
            }
        }

        return StepSet.Of(without);
    }

    private static Instruments ReadInstruments(JsonFields can, string name, Instruments fallback)
    {
        if (!can.Given(name))
        {
            return fallback;
        }

        Instruments all = Instruments.None;
        foreach ((JsonElement element, string place) in can.Items(name, 0, 100))
        {
            KeyValuePair<string, Instruments> word = InstrumentWords.FirstOrDefault(
                word => element.ValueKind == JsonValueKind.String && element.ValueEquals(word.Key));
            all |= word.Value;
            if (word.Key is null)
            {
                can.Problems.Add(place, $"got {JsonFields.Shown(element)}", string.Join(", ", InstrumentWords.Select(known => known.Key)));
            }
        }

        return all;
    }

    private static IEnumerable<KeyValuePair<string, Instruments>> InstrumentWords =>
        WireName.Words<Instruments>().Where(word => word.Value != Instruments.None);

    private static JsonElement Patched(JsonObject json, ServiceCase now, ServiceCase? before, JsonNode? yard)
    {
        if (before is null)
        {
            json["format"] = Format;
            json["yard"] = yard;
        }

        if (now.Complaint != before?.Complaint)
        {
            json["complaint"] = now.Complaint;
        }

        if (now.Rates != before?.Rates)
        {
            JsonObject rates = ObjectAt(json, "rates");
            rates["labourPerHour"] = now.Rates.LabourPerHour;
            rates["travelPerVisit"] = now.Rates.TravelPerVisit;
            rates["ownerPatiencePerHour"] = now.Rates.OwnerPatiencePerHour;
            rates["currency"] = now.Rates.Currency;
            if (!now.Rates.Pace.Equals(before?.Rates.Pace ?? StepPace.Default))
            {
                rates["steps"] = StepPaceJson.ToJson(now.Rates.Pace);
            }
        }

        if (now.OnSite != before?.OnSite)
        {
            json["onSite"] = now.OnSite;
        }

        if (now.Can != before?.Can)
        {
            JsonObject can = ObjectAt(json, "can");
            can["technician"] = now.Can.Technician;
            can["owner"] = now.Can.Owner;
            can["instruments"] = Names(now.Can.TechnicianInstruments);
            can["ownerInstruments"] = Names(now.Can.OwnerInstruments);
            if (now.Can.Without != (before?.Can.Without ?? StepSet.Empty))
            {
                can["without"] = new JsonArray([.. now.Can.Without.Kinds.Select(kind => (JsonNode)JsonValue.Create(WireName.Of(kind)))]);
            }
        }

        PatchObservations(json, now.Observations, before?.Observations ?? []);
        ArrayBufferWriter<byte> bytes = new();
        using (Utf8JsonWriter writer = new(bytes))
        {
            json.WriteTo(writer);
        }

        using JsonDocument document = JsonDocument.Parse(bytes.WrittenMemory);
        return document.RootElement.Clone();
    }

    private static void PatchObservations(JsonObject json, IReadOnlyList<Observation> now, IReadOnlyList<Observation> before)
    {
        JsonArray written = json["observations"] as JsonArray ?? [];
        json["observations"] = written;
        for (int i = 0; i < now.Count; i++)
        {
            if (i >= written.Count)
            {
                written.Add((JsonNode)ObservationJson.ToJson(now[i]));
            }
            else if (i >= before.Count || now[i] != before[i])
            {
                written[i] = ObservationJson.ToJson(now[i]);
            }
        }

        while (written.Count > now.Count)
        {
            written.RemoveAt(written.Count - 1);
        }
    }

    private static JsonObject ObjectAt(JsonObject json, string name)
    {
        if (json[name] is not JsonObject there)
        {
            json[name] = there = [];
        }

        return there;
    }

    private static JsonArray Names(Instruments instruments) =>
        [.. InstrumentWords.Where(word => instruments.HasFlag(word.Value)).Select(word => JsonValue.Create(word.Key))];
}
