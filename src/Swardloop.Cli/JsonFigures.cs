using System.Globalization;
using System.Text.Json;

namespace Swardloop.Cli;

/// <summary>Computed numbers in JSON.</summary>
internal static class JsonFigures
{
    /// <summary>Writes a computed number to 12 significant digits, so that the same file gives the same bytes on every machine although
    /// logarithms differ in their last bit; null where there is no finite number.</summary>
    public static void WriteFigure(this Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, double.Parse(number.ToString("G12", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture));
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
