using System.Numerics;
using CsCheck;
using Swardloop.Core.Circuits;

namespace Swardloop.Core.Tests.Circuits;

/// <summary>Random networks that have an answer: a tree of resistors to ground, other parts on top, nothing without resistance in a ring.</summary>
internal static class Networks
{
    /// <summary>Any kind of element, for solving at DC (real values) or at a frequency; resistances within so many decades of 10 Ω.</summary>
    public static Gen<Network> Of(bool alternating, double decades = 4) => Gen.Int[2, 9].SelectMany(nodes => Gen.Select(
        Branches(nodes, Gen.Int[0, 0]).Array[nodes],
        Branches(nodes, Gen.Int[0, 8]).Array[3, 14],
        (tree, rest) => Build(nodes, tree, rest, alternating, decades)));

    // Whole hundredths and tenths: a reactance of 1e-18 Ω, which a generator of doubles loves to try, is lost in ngspice's own arithmetic.
    private static Gen<Draft> Branches(int nodes, Gen<int> kinds) => Gen.Select(
        kinds, Gen.Int[0, nodes], Gen.Int[0, nodes], Gen.Int[-100, 100], Gen.Int[-31, 31],
        (kind, from, to, size, angle) => new Draft(kind, from, to, size / 100.0, angle / 10.0));

    private static Network Build(int nodes, Draft[] tree, Draft[] rest, bool alternating, double decades)
    {
        List<string> names = [.. Enumerable.Range(1, nodes).Select(Name)];
        List<Element> elements = [];
        for (int i = 1; i <= nodes; i++)
        {
            elements.Add(new Element.Resistor($"tree{i}", Name(i), Name(tree[i - 1].From % i), Sized(tree[i - 1], 10, decades)));
        }

        foreach (Draft draft in rest.Where(draft => draft.From != draft.To))
        {
            string id = $"e{elements.Count}", from = Name(draft.From), to = Name(draft.To);
            Complex phasor = alternating ? Complex.FromPolarCoordinates(5 * draft.Size, draft.Angle) : 5 * draft.Size;
            switch (draft.Kind)
            {
                case 0:
                    elements.Add(new Element.Resistor(id, from, to, Sized(draft, 10, decades)));
                    break;
                case 1:
                    elements.Add(new Element.Capacitor(id, from, to, Sized(draft, 1e-8, 2)));
                    break;
                case 2:
                    // An inductor is a short at DC: each gets a resistor of its own.
                    names.Add($"m{id}");
                    elements.Add(new Element.Inductor(id, from, $"m{id}", Sized(draft, 1e-3, 2)));
                    elements.Add(new Element.Resistor($"{id}r", $"m{id}", to, 33));
                    break;
                case 3:
                    elements.Add(new Element.VoltageSource(id, from, to, phasor, Sized(draft, 10, 2)));
                    break;
                case 4:
                    elements.Add(new Element.CurrentSource(id, from, to, phasor));
                    break;
                case 5:
                    elements.Add(new Element.Voltmeter(id, from, to, WiringPractice.VoltmeterInputOhms));
                    break;
                case 6:
                    elements.Add(new Element.Ammeter(id, from, to, 0.2));
                    break;
                case 7:
                    names.Add($"m{id}");
                    elements.Add(new Element.Ammeter(id, from, $"m{id}", 0));
                    elements.Add(new Element.Resistor($"{id}r", $"m{id}", to, 47));
                    break;
                default:
                    double ohms = Sized(draft, 10, 2);
                    elements.Add(new Element.Impedance(id, from, to, alternating ? new Complex(ohms, ohms * draft.Angle) : ohms));
                    break;
            }
        }

        return new(names, elements, Name(0));
    }

    private static string Name(int node) => node == 0 ? "ground" : $"n{node}";

    private static double Sized(Draft draft, double middle, double decades) => middle * Math.Pow(10, decades * draft.Size);

    private readonly record struct Draft(int Kind, int From, int To, double Size, double Angle);
}
