using System.Numerics;

namespace Swardloop.Core.Circuits;

/// <summary>Complex power, the sum of V·I* over elements (W + j·var when voltages and currents are effective values; twice that when they are amplitudes).</summary>
/// <param name="DeliveredVoltAmperes">What the sources' inner voltages and currents deliver.</param>
/// <param name="TakenVoltAmperes">What resistances, source resistances included, and reactances take.</param>
public sealed record PowerBalance(Complex DeliveredVoltAmperes, Complex TakenVoltAmperes)
{
    /// <summary>What is missing, as a share of the apparent power delivered; 0 when nothing is delivered and nothing taken.</summary>
    public double RelativeMismatch
    {
        get
        {
            double scale = Math.Max(DeliveredVoltAmperes.Magnitude, TakenVoltAmperes.Magnitude);
            return scale > 0 ? (DeliveredVoltAmperes - TakenVoltAmperes).Magnitude / scale : 0;
        }
    }
}
