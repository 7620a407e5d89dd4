namespace Swardloop.Model.Pictures;

/// <summary>One shade of a picture of margin.</summary>
/// <param name="Decibels">Its lower end (dB above silence); the next shade's is its upper end.</param>
/// <param name="Colour">Its colour on light paper, as <c>#RRGGBB</c>.</param>
/// <param name="DarkColour">Its colour on dark paper.</param>
/// <remarks>On light paper shades run from light to dark, on dark paper from dark to light: what is strong stands out from the paper. Both in even
/// steps of lightness, so they read without colour and for every kind of colour sight. Source: our own, equal steps in the OKLCH scale.</remarks>
public sealed record MarginShade(double Decibels, string Colour, string DarkColour)
{
    /// <summary>All shades, from the line of silence upwards.</summary>
    public static IReadOnlyList<MarginShade> All { get; } =
    [
        new(0, "#E5EDCB", "#21464F"), new(3, "#BDDAAC", "#056468"), new(6, "#8FC899", "#008376"), new(9, "#61B392", "#36A07D"),
        new(12, "#419B8C", "#72B885"), new(18, "#3A8081", "#AACE98"), new(24, "#3F656D", "#D9E4BC"),
    ];
}
