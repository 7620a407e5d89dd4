namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>The two wires of a double run touching: what an ohmmeter reads then, and what the mower does.</summary>
/// <remarks>
/// Between the touching places the wire beyond and the contact are in parallel. Over a wire that is not opened a reading loses what that takes away;
/// over one that is opened beyond the contact it loses nothing, as no current can come back along the other side. Source: network theory.
/// How good the contact is, and what a mower does at an island without signal, is judgement, no source.
/// </remarks>
internal static class ShortedRun
{
    /// <summary>Resistances of two wires' bare places touching in wet soil (Ω), with their shares.</summary>
    public static readonly (double Ohms, double Share)[] Contacts = [(0.03, 0.45), (0.3, 0.3), (2, 0.25)];

    private const double CrossesAtIsland = 0.88, CrossesSomewhere = 0.3;

    /// <summary>Healthy resistance of a reading's path when the wire at one place touches the wire at another (Ω).</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="opened">Whether the wire ends where the path ends, as at a cut; a needle leaves the rest of the loop in place.</param>
    /// <param name="run">The place on the way out and the one beside it on the way back (m from A).</param>
    /// <param name="contactOhms">The contact (Ω).</param>
    /// <param name="ohmsPerMetre">The wire (Ω/m).</param>
    public static double NominalOhms(in OhmsReading reading, bool opened, (double Out, double Back) run, double contactOhms, double ohmsPerMetre)
    {
        double beyond = (run.Back - run.Out) * ohmsPerMetre;
        if (reading.Outside)
        {
            // A bypass about the whole run leaves the run out; one elsewhere leaves it as it is; one that ends on it is no one's idea.
            bool within = run.Out >= reading.FromMetres && run.Back <= reading.ToMetres;
            return within ? reading.NominalOhms : reading.NominalOhms - Lost(beyond, contactOhms);
        }

        bool hasOut = reading.Includes(run.Out), hasBack = reading.Includes(run.Back);
        if (hasOut && hasBack)
        {
            return reading.NominalOhms - Lost(beyond, contactOhms);
        }

        if (opened || hasOut == hasBack)
        {
            return reading.NominalOhms;
        }

        // A needle on the ring: the wire to it, and back through the contact the other way round.
        double direct = (hasOut ? reading.ToMetres - run.Out : run.Back - reading.FromMetres) * ohmsPerMetre;
        return reading.NominalOhms - Lost(direct, Math.Max(0, beyond - direct) + contactOhms);
    }

    /// <summary>What a way loses by another one beside it (Ω).</summary>
    public static double Lost(double ohms, double besideOhms) => ohms * ohms / (ohms + besideOhms);

    /// <summary>Probability that the mower crosses where it is tried: at the island it does, elsewhere it does not.</summary>
    public static double Crosses(double? atMetres, (double Out, double Back) run) =>
        atMetres is not { } at ? CrossesSomewhere : at > run.Out && at < run.Back ? CrossesAtIsland : StatedProbabilities.CrossesElsewhere;
}
