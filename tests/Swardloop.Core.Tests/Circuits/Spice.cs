using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using System.Text;
using Swardloop.Core.Circuits;

namespace Swardloop.Core.Tests.Circuits;

/// <summary>Runs ngspice on many networks at once, each under its own node names, all against one ground.</summary>
internal static class Spice
{
    /// <summary>Node voltages of each network: at DC, or at a frequency where one is given (Hz).</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, Complex>> NodeVolts(IReadOnlyList<Network> networks, double? frequencyHertz)
    {
        StringBuilder list = new("* networks of the test\n");
        for (int i = 0; i < networks.Count; i++)
        {
            for (int e = 0; e < networks[i].Elements.Count; e++)
            {
                Write(list, networks[i], networks[i].Elements[e], i, e, frequencyHertz ?? 0);
            }
        }

        string analysis = frequencyHertz is { } hertz ? Invariant($"ac lin 1 {hertz:R} {hertz:R}") : "op";
        list.Append(CultureInfo.InvariantCulture, $".control\nset numdgt=15\n{analysis}\nprint all\nquit\n.endc\n.end\n");
        Dictionary<string, Complex> printed = Parse(Run(list.ToString()));
        return [.. networks.Select((network, i) => (IReadOnlyDictionary<string, Complex>)network.Nodes.ToDictionary(
            node => node,
            node => node == network.Reference ? Complex.Zero : printed[NodeName(network, node, i)]))];
    }

    private static void Write(StringBuilder list, Network network, Element element, int circuit, int index, double hertz)
    {
        string id = Invariant($"x{circuit}e{index}"), from = NodeName(network, element.From, circuit), to = NodeName(network, element.To, circuit);
        void Line(string text) => list.Append(text).Append('\n');
        string Resistor(string a, string b, double ohms) => Invariant($"R{id} {a} {b} {ohms:R}");
        string Excitation(Complex value) => Invariant($"DC {value.Real:R} AC {value.Magnitude:R} {value.Phase * 180 / Math.PI:R}");
        switch (element)
        {
            case Element.Resistor part:
                Line(Resistor(from, to, part.Ohms));
                break;
            case Element.Voltmeter part:
                Line(Resistor(from, to, part.InputOhms));
                break;
            case Element.Ammeter part when part.BurdenOhms == 0:
                Line(Invariant($"V{id} {from} {to} DC 0 AC 0"));
                break;
            case Element.Ammeter part:
                Line(Resistor(from, to, part.BurdenOhms));
                break;
            case Element.Capacitor part:
                Line(Invariant($"C{id} {from} {to} {part.Farad:R}"));
                break;
            case Element.Inductor part:
                Line(Invariant($"L{id} {from} {to} {part.Henry:R}"));
                break;
            case Element.Impedance part when hertz > 0 && part.Ohms.Imaginary > 0:
                Line(Resistor(from, id, part.Ohms.Real));
                Line(Invariant($"L{id} {id} {to} {part.Ohms.Imaginary / (2 * Math.PI * hertz):R}"));
                break;
            case Element.Impedance part when hertz > 0 && part.Ohms.Imaginary < 0:
                Line(Resistor(from, id, part.Ohms.Real));
                Line(Invariant($"C{id} {id} {to} {-1 / (2 * Math.PI * hertz * part.Ohms.Imaginary):R}"));
                break;
            case Element.Impedance part:
                Line(Resistor(from, to, part.Ohms.Real));
                break;
            case Element.VoltageSource part:
                Line(Invariant($"V{id} {from} {id} {Excitation(part.Volts)}"));
                Line(Resistor(id, to, part.Ohms.Real));
                break;
            case Element.CurrentSource part:
                Line(Invariant($"I{id} {from} {to} {Excitation(part.Amperes)}"));
                break;
            default:
                throw new NotSupportedException(element.GetType().Name);
        }
    }

    private static string NodeName(Network network, string node, int circuit) =>
        node == network.Reference ? "0" : Invariant($"c{circuit}{node.ToLowerInvariant()}");

    private static string Run(string netlist)
    {
        // Some builds of ngspice read a netlist from standard input only outside batch mode: give it a file.
        string file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, netlist);
            using Process process = Start(file);
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0
                ? output
                : throw new InvalidOperationException($"ngspice ended with {process.ExitCode}: {errors.Result}\n{output}");
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static Process Start(string file)
    {
        ProcessStartInfo start = new("ngspice", ["-b", file]) { RedirectStandardOutput = true, RedirectStandardError = true };
        try
        {
            return Process.Start(start)!;
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new InvalidOperationException("This test needs ngspice: ./test installs it (Debian package 'ngspice').", e);
        }
    }

    // Lines such as "c0n1 = 1.5e+00" or, at a frequency, "c0n1 = 1.5e+00,-2.0e-01".
    private static Dictionary<string, Complex> Parse(string output)
    {
        Dictionary<string, Complex> values = new(StringComparer.Ordinal);
        foreach (string line in output.Split('\n'))
        {
            string[] halves = line.Split(" = ");
            if (halves.Length == 2 && halves[1].Split(',') is { Length: 1 or 2 } parts
                && double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double real))
            {
                values[halves[0].Trim()] = new(real, parts.Length == 2 ? double.Parse(parts[1], NumberStyles.Float, CultureInfo.InvariantCulture) : 0);
            }
        }

        return values;
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
