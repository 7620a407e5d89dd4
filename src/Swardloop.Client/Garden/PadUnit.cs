using Swardloop.Client.Wording;
using Swardloop.Client.Cases;
using Swardloop.Model.Steps;

namespace Swardloop.Client.Garden;

/// <summary>A unit that a number may be typed in.</summary>
/// <param name="Name">As the meter shows it.</param>
/// <param name="Factor">How many of the field's own unit it is.</param>
public sealed record PadUnit(string Name, decimal Factor)
{
    /// <summary>The units of a field, its own first.</summary>
    public static IReadOnlyList<PadUnit> Of(StepField field, Speech say) => field.Unit switch
    {
        "Ω" => [new("Ω", 1), new("kΩ", 1e3m), new("MΩ", 1e6m)],
        "MΩ" => [new("MΩ", 1), new("GΩ", 1e3m), new("kΩ", 1e-3m)],
        "V" => [new("V", 1), new("mV", 1e-3m)],
        "nF" => [new("nF", 1), new("µF", 1e3m), new("pF", 1e-3m)],
        "ns" => [new("ns", 1), new("µs", 1e3m)],
        _ => [new(ReadingDraft.IsLength(field) ? say.LengthUnit : field.Unit ?? "", 1)],
    };
}
