using System.Text.Json;
using Swardloop.Cli;

namespace Swardloop.Server.Keeping;

/// <summary>What a command of keeping did.</summary>
/// <param name="sentence">For people.</param>
/// <param name="figures">For machines: texts and whole numbers.</param>
internal sealed class KeepingResult(string sentence, params (string Name, object Value)[] figures) : CommandResult
{
    /// <inheritdoc/>
    public override void WriteText(TextWriter text) => text.WriteLine(SafeText.OneLine(sentence, 1000));

    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        foreach ((string name, object value) in figures)
        {
            if (value is string text)
            {
                json.WriteString(name, text);
            }
            else
            {
                json.WriteNumber(name, Convert.ToInt64(value, System.Globalization.CultureInfo.InvariantCulture));
            }
        }

        json.WriteEndObject();
    }
}
