namespace Swardloop.Core.Conductors;

/// <summary>American wire gauge. Source: ASTM B258-02: d = 0.127 mm × 92^((36 − n)/39), exact by definition.</summary>
public static class WireGauge
{
    /// <summary>Diameter of a solid wire (m). Gauges 4/0 to 1/0 are −3 to 0.</summary>
    /// <param name="awg">Gauge number, −3 to 40.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static double DiameterMetres(int awg) =>
        awg is >= -3 and <= 40
            ? 0.127e-3 * Math.Pow(92, (36 - awg) / 39.0)
            : throw new ArgumentOutOfRangeException(nameof(awg), awg, "Needs a gauge from −3 (4/0) to 40.");

    /// <summary>Section of metal (m²).</summary>
    /// <inheritdoc cref="DiameterMetres" path="/param"/>
    /// <inheritdoc cref="DiameterMetres" path="/exception"/>
    public static double AreaSquareMetres(int awg)
    {
        double diameter = DiameterMetres(awg);
        return Math.PI / 4 * diameter * diameter;
    }
}
