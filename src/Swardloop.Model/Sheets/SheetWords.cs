namespace Swardloop.Model.Sheets;

/// <summary>Words of one sheet in one language: a text for every key, or it cannot be made.</summary>
/// <typeparam name="TKey">The sheet's keys.</typeparam>
public sealed class SheetWords<TKey>
    where TKey : struct, Enum
{
    private readonly Dictionary<TKey, string> _texts;

    /// <summary>Makes words.</summary>
    /// <param name="texts">A text for every key.</param>
    /// <exception cref="ArgumentException">A key has no text.</exception>
    public SheetWords(Dictionary<TKey, string> texts)
    {
        foreach (TKey key in Enum.GetValues<TKey>())
        {
            if (!texts.TryGetValue(key, out string? text) || text.Length == 0)
            {
                throw new ArgumentException($"{key} has no text.", nameof(texts));
            }
        }

        _texts = texts;
    }

    /// <summary>A text.</summary>
    public string this[TKey key] => _texts[key];

    /// <summary>A text with its gaps filled; what is put in is never read as a format.</summary>
    public string Say(TKey key, params ReadOnlySpan<object> gaps) => string.Format(System.Globalization.CultureInfo.InvariantCulture, _texts[key], gaps);
}
