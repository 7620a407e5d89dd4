namespace Swardloop.Core.Conductors;

/// <summary>A wire that nobody wrote down: any of the plain copper wires that the trade lays, 0.5 mm² to 2.5 mm², one as likely as another.
/// Common practice, no source.</summary>
public static class UnknownConductor
{
    private static readonly double[] AreasSquareMillimetres = [0.5, 0.75, 1, 1.5, 2.5];

    /// <summary>What stands in where one conductor must be named: copper of 1 mm², the middle one.</summary>
    public static Conductor StandIn { get; } = OfArea(1);

    /// <summary>One metre of it (Ω/m): as little as the thickest, nominally the middle one, as much as the thinnest.</summary>
    /// <param name="celsius">Temperature (°C).</param>
    public static ResistanceBand OhmsPerMetre(double celsius) => new(
        ConductorResistance.OhmsPerMetre(OfArea(AreasSquareMillimetres[^1]), celsius).Low,
        ConductorResistance.OhmsPerMetre(StandIn, celsius).Nominal,
        ConductorResistance.OhmsPerMetre(OfArea(AreasSquareMillimetres[0]), celsius).High);

    /// <summary>Expectation and one standard deviation of one metre (Ω/m): of the mixture of the wires it may be, each as uncertain as it is by itself.</summary>
    /// <param name="celsius">Temperature (°C).</param>
    public static (double Mean, double StandardDeviation) Moments(double celsius)
    {
        ResistanceBand[] wires = [.. AreasSquareMillimetres.Select(area => ConductorResistance.OhmsPerMetre(OfArea(area), celsius))];
        double mean = wires.Average(wire => wire.Mean);
        return (mean, Math.Sqrt(wires.Average(wire => Math.Pow(wire.Mean - mean, 2) + Math.Pow(wire.StandardDeviation, 2))));
    }

    private static Conductor OfArea(double squareMillimetres) => new() { AreaSquareMetres = squareMillimetres * 1e-6 };
}
