using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Client.Yards;

/// <summary>A first drawing from two tape measurements: a rectangle of lawn, the wire a hand inside its edge, the station in the middle of the
/// south side. Good enough for a loop budget; the editor makes it true.</summary>
public static class TapeYard
{
    private const double InsideMetres = 0.3;

    /// <summary>Makes the file, checked as if it had been read.</summary>
    /// <param name="name">What the yard is called.</param>
    /// <param name="eastMetres">Length from west to east (m), 2 to 1000.</param>
    /// <param name="northMetres">Length from south to north (m), 2 to 1000.</param>
    /// <param name="conductor">The wire; null: nobody knows.</param>
    public static Checked<YardFile> Make(string name, double eastMetres, double northMetres, Conductor? conductor)
    {
        ProblemList problems = new(name);
        NumberRange range = new(2, 1000, "m");
        foreach (double length in (double[])[eastMetres, northMetres])
        {
            if (!range.Holds(length))
            {
                problems.Add("", $"{length} m", range.ToString());
            }
        }

        if (problems.Any)
        {
            return Checked<YardFile>.Bad(problems);
        }

        double west = InsideMetres, south = InsideMetres, east = eastMetres - InsideMetres, north = northMetres - InsideMetres, middle = eastMetres / 2;
        Yard yard = new()
        {
            Name = name,
            Lawn = new([[new(0, 0), new(eastMetres, 0), new(eastMetres, northMetres), new(0, northMetres)]], []),
            Loop = new()
            {
                Path = new([new(middle, south), new(east, south), new(east, north), new(west, north), new(west, south), new(middle, south)]),
                Conductor = conductor ?? UnknownConductor.StandIn,
                ConductorIsKnown = conductor is not null,
            },
        };
        return YardFile.Read(YardFile.Create(yard).ToUtf8(), name);
    }
}
