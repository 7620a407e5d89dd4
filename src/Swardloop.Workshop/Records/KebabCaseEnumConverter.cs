using System.Text.Json;
using System.Text.Json.Serialization;

namespace Swardloop.Workshop.Records;

/// <summary>Writes a value as <c>in-the-visit</c> for <c>InTheVisit</c>; reads nothing else, numbers least of all.</summary>
/// <typeparam name="T">The enumeration.</typeparam>
public sealed class KebabCaseEnumConverter<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;
