using System.Globalization;
using Swardloop.Client.Cases;
using Swardloop.Client.Wording;
using Swardloop.Model.Steps;

namespace Swardloop.Client.Garden;

/// <summary>What is typed on the number pad for one field.</summary>
public sealed class NumberPad(StepField asked, Speech say)
{
    private const int MostCharacters = 10;

    /// <summary>The field.</summary>
    public StepField Field => asked;

    /// <summary>Units to choose from, the field's own first.</summary>
    public IReadOnlyList<PadUnit> Units { get; } = PadUnit.Of(asked, say);

    /// <summary>The unit typed in.</summary>
    public PadUnit Unit { get; private set; } = PadUnit.Of(asked, say)[0];

    /// <summary>Digits and a point.</summary>
    public string Digits { get; private set; } = "";

    /// <summary>Whether the meter showed that it cannot measure so much.</summary>
    public bool IsOverRange { get; private set; }

    /// <summary>The key between whole and parts.</summary>
    public string Point => say.Tongue == Tongue.German ? "," : ".";

    /// <summary>What is typed, as the person writes it.</summary>
    public string Shown => IsOverRange ? "OL" : Digits.Replace(".", Point, StringComparison.Ordinal).Replace('-', '−');

    /// <summary>The number in the field's own unit (a length in the person's); null when there is none.</summary>
    public decimal? Value => decimal.TryParse(Digits, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out decimal typed) ? typed * Unit.Factor : null;

    /// <summary>Readings typed before this one; with it, their mean is the answer.</summary>
    public IReadOnlyList<decimal> Earlier => _earlier;

    private readonly List<decimal> _earlier = [];

    /// <summary>The mean of all readings; null without one.</summary>
    public decimal? Mean => Value is { } last ? (_earlier.Sum() + last) / (_earlier.Count + 1) : _earlier.Count > 0 ? _earlier.Average() : null;

    /// <summary>Whether it may be measured again for a mean: what is read off a scale or a meter, not what is counted or where something lies.</summary>
    public bool MayRepeat => asked.MayBeOverRange && asked.Type == StepFieldType.Number;

    /// <summary>Puts what is typed aside and waits for the next reading.</summary>
    public void Repeat()
    {
        if (Value is { } typed && MayRepeat)
        {
            _earlier.Add(typed);
            Digits = "";
        }
    }

    /// <summary>Whether there is an answer.</summary>
    public bool IsAnswered => IsOverRange || Mean is not null;

    /// <summary>Takes a key: a digit, or a point or comma.</summary>
    public void Press(char key)
    {
        IsOverRange = false;
        if (Digits.Length >= MostCharacters)
        {
            return;
        }

        if (key is '.' or ',')
        {
            Digits = Digits.Contains('.', StringComparison.Ordinal) ? Digits : Digits is "" or "-" ? Digits + "0." : Digits + ".";
        }
        else if (char.IsAsciiDigit(key))
        {
            Digits = Digits == "0" ? key.ToString() : Digits + key;
        }
    }

    /// <summary>Whether the number may have a sign.</summary>
    public bool MayBeNegative => asked.Least < 0;

    /// <summary>Turns the sign round.</summary>
    public void ChangeSign() =>
        (Digits, IsOverRange) = (!MayBeNegative ? Digits : Digits.StartsWith('-') ? Digits[1..] : "-" + Digits, false);

    /// <summary>Takes the last key back.</summary>
    public void Erase() => (Digits, IsOverRange) = (IsOverRange || Digits.Length == 0 ? Digits : Digits[..^1], false);

    /// <summary>Chooses the unit; the digits stay as the meter shows them.</summary>
    public void Choose(PadUnit unit) => (Unit, IsOverRange) = (unit, false);

    /// <summary>Says that the meter showed over-range.</summary>
    public void SetOverRange()
    {
        (IsOverRange, Digits) = (asked.MayBeOverRange, "");
        _earlier.Clear();
    }

    /// <summary>What is wrong with the number; null for nothing.</summary>
    /// <param name="mostMetres">Length of the wire, for places on it (m).</param>
    public string? Fault(double? mostMetres)
    {
        if (IsOverRange)
        {
            return null;
        }

        if (Mean is not { } value)
        {
            return say.Texts.AnswerMissing;
        }

        bool isLength = ReadingDraft.IsLength(asked);
        double own = isLength ? say.Metres((double)value) : (double)value;
        double least = asked.Least ?? 0;
        double? most = asked.Type == StepFieldType.Place ? mostMetres : asked.Most;
        return own >= least && !(own > most) ? null : say.Texts.PadRange(Words(least), most is { } end ? Words(end) : null);

        string Words(double number) => isLength ? say.Length(number, 2)
            : Units.Where(unit => number > 0 && number >= (double)unit.Factor).MaxBy(unit => unit.Factor) is { } large
                ? $"{say.Number(number / (double)large.Factor, 3)} {large.Name}" : $"{say.Number(number, 3)} {asked.Unit}";
    }

    /// <summary>Writes the answer into the form.</summary>
    public void WriteTo(ReadingDraft draft)
    {
        if (IsOverRange)
        {
            draft.SetOverRange(asked.Name, true);
        }
        else
        {
            draft[asked.Name] = Mean is { } value ? value.ToString("0.#########", CultureInfo.InvariantCulture).Replace(".", Point, StringComparison.Ordinal) : "";
        }
    }

    /// <summary>What is typed, to be kept.</summary>
    public string ToText() => $"{(IsOverRange ? "OL" : Digits)} {Unit.Name}{string.Concat(_earlier.Select(each => " " + each.ToString(CultureInfo.InvariantCulture)))}";

    /// <summary>Takes up what was kept; whatever does not fit is left out.</summary>
    public void Take(string text)
    {
        string[] parts = text.Split(' ');
        _earlier.Clear();
        if (parts.Length >= 2 && Units.FirstOrDefault(unit => unit.Name == parts[1]) is { } unit)
        {
            Choose(unit);
            _earlier.AddRange(parts.Skip(2).Select(each => decimal.TryParse(each, NumberStyles.Number, CultureInfo.InvariantCulture, out decimal earlier) ? earlier : (decimal?)null).OfType<decimal>());
            if (parts[0] == "OL")
            {
                SetOverRange();
            }
            else if (parts[0].Skip(MayBeNegative && parts[0].StartsWith('-') ? 1 : 0).All(c => char.IsAsciiDigit(c) || c == '.') && parts[0].Length <= MostCharacters && parts[0].Count(c => c == '.') <= 1)
            {
                Digits = parts[0];
            }
        }
    }
}
