using System.Globalization;

namespace Swardloop.Server.Input;

/// <summary>Reads values of a query.</summary>
internal static class Query
{
    /// <summary>A whole number in a range; null when it is not given.</summary>
    /// <exception cref="BadInputException">It is no such number.</exception>
    public static long? WholeNumber(string name, string? text, long least, long most)
    {
        if (text is null)
        {
            return null;
        }

        return long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out long number) && number >= least && number <= most
            ? number
            : throw BadInputException.Of(name, $"got \"{(text.Length > 40 ? text[..39] + "…" : text)}\"", $"a whole number from {least} to {most}");
    }
}
