namespace Swardloop.Core.Circuits;

/// <summary>One thing wrong with the wire, at a place along it. Several may be present, also at the same place; there, the order in which
/// they are listed is their order along the wire.</summary>
/// <param name="AtMetres">Where (m from terminal A).</param>
public abstract record WireFault(double AtMetres)
{
    /// <summary>Resistance in series with the wire: a bad joint, a corroded strand.</summary>
    /// <param name="AtMetres">Where (m from terminal A).</param>
    /// <param name="Ohms">Resistance (Ω), 0 or more.</param>
    public sealed record SeriesResistance(double AtMetres, double Ohms) : WireFault(AtMetres);

    /// <summary>A broken wire.</summary>
    /// <param name="AtMetres">Where (m from terminal A).</param>
    /// <param name="ResidualOhms">What still joins the two broken ends through wet dirt (Ω), above 0; infinite when nothing does.</param>
    /// <param name="SideAEarthOhms">Resistance to earth of the broken end that hangs on terminal A (Ω), above 0; infinite when dry.</param>
    /// <param name="SideBEarthOhms">The same for the end that hangs on terminal B.</param>
    public sealed record Open(
        double AtMetres,
        double ResidualOhms = double.PositiveInfinity,
        double SideAEarthOhms = double.PositiveInfinity,
        double SideBEarthOhms = double.PositiveInfinity) : WireFault(AtMetres);

    /// <summary>Damaged insulation: a resistance from the wire to remote earth.</summary>
    /// <param name="AtMetres">Where (m from terminal A).</param>
    /// <param name="Ohms">Resistance to remote earth (Ω), above 0.</param>
    public sealed record Leak(double AtMetres, double Ohms) : WireFault(AtMetres);

    /// <summary>Damaged insulation beside metal: a resistance from the wire to the metal.</summary>
    /// <param name="AtMetres">Where (m from terminal A).</param>
    /// <param name="MetalIndex">Which metal object, by its index in the yard's list.</param>
    /// <param name="Ohms">Contact resistance (Ω), above 0: through touching metal, or through the soil between.</param>
    public sealed record MetalContact(double AtMetres, int MetalIndex, double Ohms) : WireFault(AtMetres);

    /// <summary>The same fault counted from the other terminal of a wire of the given length.</summary>
    internal WireFault Mirrored(double lengthMetres) => this switch
    {
        Open open => new Open(lengthMetres - AtMetres, open.ResidualOhms, open.SideBEarthOhms, open.SideAEarthOhms),
        _ => this with { AtMetres = lengthMetres - AtMetres },
    };
}
