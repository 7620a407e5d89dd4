using System.Text.Json;

namespace Swardloop.Workshop.Records;

/// <summary>One value of a field, with who brought it.</summary>
/// <param name="Change">The change that brought it.</param>
/// <param name="Value">The value; JSON null when the field was cleared.</param>
/// <param name="By">Who: the name of a person of the workshop, or <c>owner</c> by an owner's link.</param>
/// <param name="MadeAt">When, by the clock of the device.</param>
public sealed record FieldValue(Guid Change, JsonElement Value, string By, DateTimeOffset MadeAt);
