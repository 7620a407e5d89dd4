using System.Numerics;

namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>A tone across A–B, volts from each end to a stake: the loop floats to the mean of its capacitance to earth, which is spread nearly evenly.</summary>
/// <remarks>
/// The capacitive current is small beside the loop's own (a loop of 200 m has 50 nF to earth, 3 kΩ at 1 kHz, in series with nothing but itself), so the
/// wire's potential is the drop of one current along it, and no charge goes to earth in sum: ∫c·φ dx = 0. Va/(Va + Vb) is then the share of the wire
/// beyond a fault that takes all of the volts, and is drawn towards one half by the wire's own impedance: a fault that is small beside it is not placed.
/// A guide wire taken off the station hangs on the loop at its joint and has capacitance as any wire has: it pulls the mean towards the potential there.
/// A meter's 10 MΩ and leaks of tens of kilohms hardly matter. Source: network theory; unevenness about 3 % per tenth of the wire and a meter's 1 to 2 %
/// at audio frequency, common practice, no source.
/// </remarks>
internal static class AcRatioTest
{
    /// <summary>Spread of a share: uneven capacitance and meter together.</summary>
    private const double Deviation = 0.008;

    /// <summary>A reading that is simply wrong: mains hum, a stake in dry sand.</summary>
    private const double Wrong = 0.03;

    /// <summary>Va/(Va + Vb) that a yard's loop should show.</summary>
    /// <param name="physics">The yard.</param>
    /// <param name="first">A fault in series: place as a share of the loop, and size (Ω, infinity for a break).</param>
    /// <param name="second">Another one; none: 0 Ω.</param>
    /// <param name="hertz">The tone (Hz).</param>
    public static double Share(YardPhysics physics, (double At, double Ohms) first, (double At, double Ohms) second = default, double hertz = 1000)
    {
        bool broken = double.IsInfinity(first.Ohms), brokenToo = double.IsInfinity(second.Ohms);
        if (broken || brokenToo)
        {
            double beyondFirst = physics.ShareBeyond(first.At), beyondSecond = physics.ShareBeyond(second.At);
            return broken && brokenToo ? (beyondFirst + beyondSecond) / 2 : broken ? beyondFirst : beyondSecond;
        }

        Complex wire = new(physics.Budget.MeanOhms, 2 * Math.PI * hertz * physics.Budget.InductanceHenry);
        Complex atA = (wire * physics.MeanPlaceShare) + (first.Ohms * physics.ShareBeyond(first.At)) + (second.Ohms * physics.ShareBeyond(second.At));
        Complex atB = atA - wire - first.Ohms - second.Ohms;
        return atA.Magnitude / (atA.Magnitude + atB.Magnitude);
    }

    /// <summary>Density of a share.</summary>
    public static double Density(double share, double mean, double extraDeviation)
    {
        double deviation = Deviation + extraDeviation, z = (share - mean) / deviation;
        return ((1 - Wrong) * Math.Exp(-z * z / 2) / (deviation * Math.Sqrt(2 * Math.PI))) + Wrong;
    }

    /// <summary>Probability of a share below a value; the integral of <see cref="Density"/>.</summary>
    public static double Below(double share, double mean, double extraDeviation) =>
        ((1 - Wrong) * NormalDistribution.Cumulative((share - mean) / (Deviation + extraDeviation))) + (Wrong * Math.Clamp(share, 0, 1));

    /// <summary>What was read, as a share; one half where nothing was.</summary>
    public static double ShareOf(Observation.AcRatio seen) => seen.VoltsA + seen.VoltsB > 0 ? seen.VoltsA / (seen.VoltsA + seen.VoltsB) : 0.5;
}
