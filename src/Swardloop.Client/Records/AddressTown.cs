namespace Swardloop.Client.Records;

/// <summary>The town in an address as people write it.</summary>
public static class AddressTown
{
    /// <summary>The last part that has letters, without postcodes and house numbers; null without one.</summary>
    /// <param name="address">Parts stand in lines or are parted by commas.</param>
    public static string? Of(string? address)
    {
        foreach (string part in (address ?? "").Split(['\n', ',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Reverse())
        {
            string town = string.Join(' ', part.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(word => !word.Any(char.IsAsciiDigit)));
            if (town.Any(char.IsLetter))
            {
                return town;
            }
        }

        return null;
    }
}
