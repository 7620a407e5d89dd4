using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Client.Device;

namespace Swardloop.Client.Records;

/// <summary>What is filled in of one dialog and not yet added. It is kept on the device at every touch, so that a page that is loaded again, left
/// or killed loses nothing of it.</summary>
/// <param name="page">The device.</param>
/// <param name="name">Name of the dialog, and of what it is about.</param>
public sealed class FormDraft(IDevicePage page, string name)
{
    /// <summary>Keeps what is filled in; nothing but empty fields is nothing.</summary>
    public Task KeepAsync(params (string Field, string Text)[] fields) => page.KeepDraftAsync(
        name,
        fields.All(field => field.Text.Length == 0) ? null
            : new JsonObject([.. fields.Select(field => KeyValuePair.Create(field.Field, (JsonNode?)JsonValue.Create(field.Text)))]).ToJsonString());

    /// <summary>What was kept, by field; empty for nothing, or nothing that can be read.</summary>
    public async Task<IReadOnlyDictionary<string, string>> ReadAsync()
    {
        Dictionary<string, string> fields = new(StringComparer.Ordinal);
        try
        {
            if (await page.DraftAsync(name).ConfigureAwait(true) is { } text && JsonNode.Parse(text) is JsonObject kept)
            {
                foreach ((string field, JsonNode? value) in kept)
                {
                    fields[field] = (string?)value ?? "";
                }
            }
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            fields.Clear(); // a draft of another build
        }

        return fields;
    }

    /// <summary>Added, or thrown away.</summary>
    public Task ForgetAsync() => page.KeepDraftAsync(name, null);
}
