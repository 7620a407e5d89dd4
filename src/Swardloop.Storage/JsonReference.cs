using System.Text.Json;

namespace Swardloop.Storage;

internal static class JsonReference
{
    /// <summary>A field's value as the id of another record; false when it is cleared.</summary>
    public static bool TryGetReference(this JsonElement value, out Guid id)
    {
        id = default;
        return value.ValueKind == JsonValueKind.String && value.TryGetGuid(out id);
    }
}
