using System.Text.Json;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Cases;

/// <summary>Fields that a case file may leave out. Programs that write cases differ in how they say "nothing":
/// an absent property, <c>null</c>, and for texts the empty string all mean it.</summary>
internal static class OptionalFields
{
    /// <summary>Whether something other than <c>null</c> stands there.</summary>
    public static bool Given(this JsonFields fields, string name) =>
        fields.Element(name, "") is { } element && element.ValueKind != JsonValueKind.Null;

    /// <summary>A number, or what to take when there is none.</summary>
    public static double NumberOr(this JsonFields fields, string name, NumberRange range, double fallback) =>
        fields.Given(name) ? fields.Number(name, range, fallback) : fallback;

    /// <summary>A number, or null when there is none.</summary>
    public static double? NumberOrNull(this JsonFields fields, string name, NumberRange range) =>
        fields.Given(name) ? fields.Number(name, range) : null;

    /// <summary>A yes or no, or what to take when there is none.</summary>
    public static bool FlagOr(this JsonFields fields, string name, bool fallback) =>
        fields.Given(name) ? fields.Flag(name) ?? fallback : fallback;

    /// <summary>A text, or null when there is none.</summary>
    public static string? TextOrNull(this JsonFields fields, string name, int mostCharacters)
    {
        bool empty = fields.Element(name, "") is { ValueKind: JsonValueKind.String } text && text.ValueEquals("");
        return fields.Given(name) && !empty ? fields.Text(name, mostCharacters) : null;
    }

    /// <summary>An object, or null when there is none.</summary>
    public static JsonFields? NestedOrNull(this JsonFields fields, string name) =>
        fields.Given(name) ? fields.Nested(name) : null;
}
