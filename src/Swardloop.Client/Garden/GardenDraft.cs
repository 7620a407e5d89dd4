using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

namespace Swardloop.Client.Garden;

/// <summary>What a person has done of one step in the garden and not yet recorded. It is kept on the device at every touch, so that a page that
/// dies in between goes on where it was.</summary>
public sealed class GardenDraft
{
    // How a key ends by who does the step. Earlier builds kept drafts of steps that an owner might do, too; in the garden all are ours.
    private const string OwnersStep = " owner", OurStep = " technician";

    private static readonly TimeSpan TicksHold = TimeSpan.FromHours(1);

    /// <summary>The step, as <see cref="KeyOf"/>; null for the one advised first.</summary>
    public string? Step { get; set; }

    /// <summary>Id of the observation that it will become, given at the first touch. Once there is one, the draft is done.</summary>
    public Guid? Observation { get; set; }

    /// <summary>Cautions ticked, and when and by whom.</summary>
    public Dictionary<Caution, CautionTick> Ticks { get; } = [];

    /// <summary>When it was last touched.</summary>
    public DateTimeOffset At { get; set; }

    /// <summary>Which question is open; −1 for the instructions.</summary>
    public int Question { get; set; } = -1;

    /// <summary>What is typed, by field.</summary>
    public Dictionary<string, string> Values { get; } = new(StringComparer.Ordinal);

    /// <summary>What stands on the number pad.</summary>
    public string Pad { get; set; } = "";

    /// <summary>Photos taken during the step.</summary>
    public List<Guid> Photos { get; } = [];

    /// <summary>A step by its kind, its place and who does it: the same advised again has the same key.</summary>
    public static string KeyOf(Step step) => string.Join(
        ' ', WireName.Of(step.Kind) + (step.Guide is { } guide ? $":{guide}" : ""), Number(step.AtMetres) + (step.Wire is { } wire ? $"@{wire}" : ""), Number(step.FromMetres), Number(step.ToMetres), step.From is { } end ? WireName.Of(end) : "-",
        step.Place is { } place ? WireName.Of(place) : "-", WireName.Of(step.By));

    /// <summary>As a text to keep.</summary>
    public string ToText() => new JsonObject
    {
        ["step"] = Step,
        ["observation"] = Observation?.ToString(),
        ["ticks"] = new JsonArray([.. Ticks.Values.Select(tick => tick.ToJson())]),
        ["at"] = At.ToString("O", CultureInfo.InvariantCulture),
        ["question"] = Question,
        ["values"] = new JsonObject([.. Values.Select(value => KeyValuePair.Create(value.Key, (JsonNode?)JsonValue.Create(value.Value)))]),
        ["pad"] = Pad,
        ["photos"] = new JsonArray([.. Photos.Select(photo => JsonValue.Create(photo.ToString()))]),
    }.ToJsonString();

    /// <summary>What was kept; a new one when there is nothing, or nothing that can be read.</summary>
    /// <param name="text">The text.</param>
    /// <param name="now">Cautions ticked long ago are ticked again.</param>
    public static GardenDraft Read(string? text, DateTimeOffset now)
    {
        GardenDraft draft = new();
        try
        {
            if (text is null || JsonNode.Parse(text) is not JsonObject kept)
            {
                return draft;
            }

            draft.Step = (string?)kept["step"];
            if (draft.Step?.EndsWith(OwnersStep, StringComparison.Ordinal) == true)
            {
                draft.Step = draft.Step[..^OwnersStep.Length] + OurStep;
            }

            draft.Observation = Guid.TryParse((string?)kept["observation"], out Guid observation) ? observation : null;
            draft.At = DateTimeOffset.Parse((string)kept["at"]!, CultureInfo.InvariantCulture);
            draft.Question = (int)kept["question"]!;
            draft.Pad = (string)kept["pad"]!;
            foreach ((string field, JsonNode? value) in kept["values"]!.AsObject())
            {
                draft.Values[field] = (string)value!;
            }

            draft.Photos.AddRange(kept["photos"]!.AsArray().Select(photo => Guid.Parse((string)photo!)));
            if ((now - draft.At).Duration() < TicksHold)
            {
                foreach (CautionTick tick in CautionTick.Read(kept["ticks"]))
                {
                    draft.Ticks[tick.Caution] = tick;
                }
            }

            return draft;
        }
        catch (Exception wrong) when (wrong is JsonException or FormatException or InvalidOperationException or NullReferenceException or ArgumentNullException)
        {
            return new(); // a draft of another build
        }
    }

    private static string Number(double? metres) => metres?.ToString("0.###", CultureInfo.InvariantCulture) ?? "-";
}
