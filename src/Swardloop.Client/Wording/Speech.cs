using System.Globalization;
using Swardloop.Client.Device;
using Swardloop.Drawing;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;

namespace Swardloop.Client.Wording;

/// <summary>How the program speaks on this device: language, numbers, dates, metres or feet.</summary>
public sealed class Speech(IDevicePage page)
{
    /// <summary>The appearance for sun on the glass.</summary>
    public const string Sun = "sun";

    private const double MetresPerFoot = 0.3048;

    /// <summary>Language, units or appearance were changed.</summary>
    public event Action? Changed;

    /// <summary>The tongue spoken.</summary>
    public Tongue Tongue { get; private set; } = Tongue.English;

    /// <summary>Whether lengths are shown and typed in feet. Files stay in metres.</summary>
    public bool Feet { get; private set; }

    /// <summary><c>light</c>, <c>dark</c>, <c>sun</c>, or null for what the device has.</summary>
    public string? Appearance { get; private set; }

    /// <summary>All texts of the pages.</summary>
    public Texts Texts { get; private set; } = Texts.English;

    /// <summary>Names of fields.</summary>
    public FieldTexts Fields { get; private set; } = FieldTexts.English;

    /// <summary>Words of advice.</summary>
    public Phrasebook Phrases { get; private set; } = Phrasebook.English;

    /// <summary>Words of steps.</summary>
    public StepTexts Steps => Tongue == Tongue.German ? StepTexts.German : StepTexts.English;

    /// <summary>Words of answers.</summary>
    public AnswerTexts Answers => Tongue == Tongue.German ? AnswerTexts.German : AnswerTexts.English;

    /// <summary>Words of the drawings.</summary>
    public DrawingWords Drawing { get; private set; } = DrawingWords.English;

    /// <summary>Unit of lengths.</summary>
    public string LengthUnit => Feet ? "ft" : "m";

    private string DecimalPoint => Tongue == Tongue.German ? "," : ".";

    /// <summary>Reads the settings kept on this device.</summary>
    public void Start()
    {
        string language = page.Remembered("language") ?? page.Language;
        Feet = page.Remembered("units") == "feet";
        Appearance = page.Remembered("appearance");
        Speak(language.StartsWith("de", StringComparison.OrdinalIgnoreCase) ? Tongue.German : Tongue.English);
    }

    /// <summary>Changes the settings of this device.</summary>
    public void Choose(Tongue tongue, bool feet, string? appearance)
    {
        page.Remember("language", Tag(tongue));
        page.Remember("units", feet ? "feet" : null);
        page.Remember("appearance", appearance);
        (Feet, Appearance) = (feet, appearance);
        Speak(tongue);
        Changed?.Invoke();
    }

    /// <summary>A number with at most so many decimals.</summary>
    public string Number(double value, int decimals = 1) => Phrases.Number(value, decimals);

    /// <summary>A size of data in MB, from 1000 MB on in GB.</summary>
    public string Size(double bytes) => bytes < 1e9 ? $"{Number(bytes / 1e6)} MB" : $"{Number(bytes / 1e9)} GB";

    /// <summary>A number as it is typed: all its digits.</summary>
    public string Typed(double value) => value.ToString("0.#########", CultureInfo.InvariantCulture).Replace(".", DecimalPoint, StringComparison.Ordinal);

    /// <summary>Reads a number as people type it: decimal point or comma, blanks ignored.</summary>
    public static double? Read(string? typed)
    {
        string text = (typed ?? "").Replace(" ", "", StringComparison.Ordinal).Replace("\u00a0", "", StringComparison.Ordinal)
            .Replace('−', '-').Replace(',', '.');
        return double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out double value)
            && double.IsFinite(value) ? value : null;
    }

    /// <summary>A length in the person's unit.</summary>
    public string Length(double metres, int decimals = 1) => $"{Number(Shown(metres), decimals)} {LengthUnit}";

    /// <summary>Metres as the person's unit counts them.</summary>
    public double Shown(double metres) => Feet ? metres / MetresPerFoot : metres;

    /// <summary>Metres from the person's unit, to the millimetre.</summary>
    public double Metres(double shown) => Feet ? Math.Round(shown * MetresPerFoot, 3) : shown;

    /// <summary>A day.</summary>
    public string Day(DateOnly day) => Tongue == Tongue.German
        ? day.ToString("dd.MM.yyyy", CultureInfo.InvariantCulture)
        : day.ToString("d MMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>A moment, by the device's clock.</summary>
    public string Moment(DateTimeOffset at)
    {
        DateTimeOffset local = at.ToLocalTime();
        return $"{Day(DateOnly.FromDateTime(local.DateTime))}, {local.ToString("HH:mm", CultureInfo.InvariantCulture)}";
    }

    /// <summary>A text with its first letter raised.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>The tongue's tag.</summary>
    public static string Tag(Tongue tongue) => tongue == Tongue.German ? "de" : "en";

    private void Speak(Tongue tongue)
    {
        Tongue = tongue;
        Texts = tongue == Tongue.German ? Texts.German : Texts.English;
        Fields = tongue == Tongue.German ? FieldTexts.German : FieldTexts.English;
        Phrasebook phrases = tongue == Tongue.German ? Phrasebook.German : Phrasebook.English;
        Phrases = Feet ? phrases.InFeet() : phrases;
        Drawing = (tongue == Tongue.German ? GermanDrawing.Words : DrawingWords.English) with { Feet = Feet, Phrases = Phrases };
        page.Show(Appearance, Tag(tongue));
    }
}
