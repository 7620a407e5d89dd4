namespace Swardloop.Core.Diagnosis;

/// <summary>Echoes of a break or a bad contact.</summary>
internal sealed partial class PlaceTestModel
{
    /// <summary>Velocity factor of wire in soil and its spread, in natural logarithms (references D3); spread of a distance, as a share and in metres.</summary>
    private const double VelocityFactor = 0.6, VelocityLogSpread = 0.12, EchoLogSpread = 0.03, EchoMetresSpread = 0.25;

    /// <summary>Chance that a break shows in a trace; and the wave impedance of a buried wire (Ω), about which a poor line leaves much open.</summary>
    private const double BreakShows = 0.9, WaveOhms = 100;

    /// <summary>Likelihood of all echoes together: they share one unknown velocity.</summary>
    /// <param name="echoes">What came back from where.</param>
    /// <param name="kind">The wire fault still there; <see langword="null"/>: none.</param>
    /// <param name="place">Where it is.</param>
    /// <param name="shows">Probability that a series resistance of its size shows in the trace.</param>
    public double EchoLikelihood(CaseEvidence.Item[] echoes, CauseKind? kind, Place place, double shows = 0)
    {
        double sum = 0, weights = 0;
        for (int node = -2; node <= 2; node++)
        {
            double weight = Math.Exp(-node * node / 2.0);
            double velocity = VelocityFactor * PhysicalConstants.SpeedOfLight * Math.Exp(node * VelocityLogSpread);
            double product = weight;
            foreach (CaseEvidence.Item item in echoes)
            {
                product *= item.Weighted(Echo((Observation.Reflection)item.Seen, kind, place.AtMetres, velocity, shows));
            }

            sum += product;
            weights += weight;
        }

        return sum / weights;
    }

    /// <summary>How far away an echo comes from at the usual velocity (m).</summary>
    public static double EchoMetres(double delaySeconds) => delaySeconds * VelocityFactor * PhysicalConstants.SpeedOfLight / 2;

    /// <summary>Probability that a series resistance shows in a trace: a line of wave impedance Z sends back R/(R + 2Z) of the pulse.</summary>
    /// <param name="ohms">The resistance (Ω).</param>
    public static double EchoShows(double ohms) => double.IsInfinity(ohms) ? BreakShows : BreakShows * ohms / (ohms + (2 * WaveOhms));

    private double Echo(Observation.Reflection seen, CauseKind? kind, double at, double velocity, double shows)
    {
        const double OpenAtEnd = 0.35, NoneOfSound = 0.6, NoneOfBreak = 0.07;
        double toFault = seen.From == WireEnd.A ? at : physics.LengthMetres - at;
        return kind switch
        {
            CauseKind.Open => Echo(seen, toFault, velocity, BreakShows, NoneOfBreak),
            CauseKind.SeriesResistance => (shows * Echo(seen, toFault, velocity, 1, 0)) + ((1 - shows) * Echo(seen, physics.LengthMetres, velocity, OpenAtEnd, NoneOfSound)),
            _ => Echo(seen, physics.LengthMetres, velocity, OpenAtEnd, NoneOfSound),
        };
    }

    private static double Echo(Observation.Reflection seen, double distance, double velocity, double open, double none)
    {
        switch (seen.Kind)
        {
            case EchoKind.None:
                return none;
            case EchoKind.ShortCircuit:
                return 1 - open - none;
            default:
                if (seen.DelaySeconds is not > 0)
                {
                    return open;
                }

                // Of the pulse's edges some decimetres are left open; density by the logarithm of the delay.
                double metres = seen.DelaySeconds.Value * velocity / 2, density = metres * NormalDensity(metres, distance, EchoMetresSpread + (EchoLogSpread * distance));
                return open * ((0.95 * density) + (0.05 * 0.25));
        }
    }
}
