using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>A yard that nobody has drawn, from the length of its wire alone: enough for advice, which tells places along the wire only.</summary>
/// <remarks>
/// The stand-in is a square of that length with the station in the middle of its south side. From a lawn's area: wires round a square lawn measure 4·√A, round
/// one five times as long as wide 5.4·√A, and bays and islands add some; 4.7·√A within 25 %. From capacitance: 250 pF/m within 60 %, as two standard deviations, as where a
/// break is placed by it. A length that was noted when the wire was laid is right to 5 %. Common practice, no source.
/// </remarks>
public static class UndrawnYard
{
    private const double NotedShare = 0.05, AreaFactor = 4.7, AreaShare = 0.25, CapacitanceShare = 0.6;

    /// <summary>Length of the wire, and how far it may differ, two standard deviations (m).</summary>
    /// <param name="clue">What is known.</param>
    /// <param name="value">Its value, in SI units.</param>
    public static (double Metres, double ToleranceMetres) LengthOf(LengthClue clue, double value)
    {
        (double metres, double share) = clue switch
        {
            LengthClue.Area => (AreaFactor * Math.Sqrt(value), AreaShare),
            LengthClue.Capacitance => (value / (YardLimits.DefaultPicofaradsPerMetre * 1e-12), CapacitanceShare),
            _ => (value, NotedShare),
        };
        return (metres, Math.Max(YardLimits.DefaultLengthToleranceMetres, share * metres));
    }

    /// <summary>The range of what is known, in the units people type: m, m², nF.</summary>
    public static NumberRange RangeOf(LengthClue clue) => clue switch
    {
        LengthClue.Area => new(4, 40_000, "m²"),
        LengthClue.Capacitance => new(2, 500, "nF"),
        _ => new(8, 1_500, "m"),
    };

    /// <summary>Makes the file, checked as if it had been read.</summary>
    /// <param name="name">What the yard is called.</param>
    /// <param name="clue">What is known.</param>
    /// <param name="value">Its value, in the units of <see cref="RangeOf"/>.</param>
    /// <param name="conductor">The wire; null: nobody knows.</param>
    public static Checked<YardFile> Make(string name, LengthClue clue, double value, Conductor? conductor)
    {
        ProblemList problems = new(name);
        NumberRange range = RangeOf(clue);
        if (!range.Holds(value))
        {
            problems.Add("", FormattableString.Invariant($"{value}"), range.ToString());
            return Checked<YardFile>.Bad(problems);
        }

        (double metres, double tolerance) = LengthOf(clue, clue == LengthClue.Capacitance ? value * 1e-9 : value);
        double side = Math.Round(metres / 4, 2), middle = Math.Round(side / 2, 3);
        WirePath path = new([new(middle, 0), new(side, 0), new(side, side), new(0, side), new(0, 0), new(middle, 0)]);
        Yard yard = new()
        {
            Name = name,
            Lawn = LawnFromWire.Lawn(path)!, // not drawn: it follows the wire, once that is found
            Loop = new()
            {
                Path = path,
                Conductor = conductor ?? UnknownConductor.StandIn,
                ConductorIsKnown = conductor is not null,
                LengthToleranceMetres = Math.Round(tolerance, 1),
                Course = WireCourse.Unknown,
            },
        };
        return YardFile.Read(YardFile.Create(yard).ToUtf8(), name);
    }
}
