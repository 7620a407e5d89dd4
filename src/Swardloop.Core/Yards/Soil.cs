namespace Swardloop.Core.Yards;

/// <summary>The ground the wire lies in.</summary>
public sealed record Soil
{
    /// <summary>Resistivity (Ω·m). Default 100.</summary>
    public double ResistivityOhmMetres { get; init; } = 100;

    /// <summary>Temperature at the wire (°C). Default 12.</summary>
    public double TemperatureCelsius { get; init; } = 12;
}
