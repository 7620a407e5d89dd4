using Swardloop.Model.Sheets;
using Swardloop.Server.Input;

namespace Swardloop.Server.Sheets;

/// <summary>Which sheet is wanted, and how.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="German">Whether in German; else in English.</param>
/// <param name="Feet">Whether lengths are in feet.</param>
internal sealed record SheetWish(SheetKind Kind, bool German, bool Feet)
{
    /// <summary>Reads it from an address.</summary>
    /// <exception cref="BadInputException">A word is not known.</exception>
    public static SheetWish Of(string kind, string? language, string? units) => new(
        SheetKinds.Find(kind) ?? throw BadInputException.Of("kind", "is not known", string.Join(", ", SheetKinds.Names)),
        language is null or "en" or "de" ? language == "de" : throw BadInputException.Of("language", "is not known", "en, de"),
        units is null or "metric" or "feet" ? units == "feet" : throw BadInputException.Of("units", "is not known", "metric, feet"));
}
