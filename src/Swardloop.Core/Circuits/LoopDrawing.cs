using System.Globalization;
using System.Numerics;

namespace Swardloop.Core.Circuits;

/// <summary>A place where a node of the drawn chain is wanted.</summary>
/// <param name="AtMetres">Where (m from A).</param>
/// <param name="AfterFaults">Behind the faults of that place, seen from A; otherwise before them.</param>
internal readonly record struct Cut(double AtMetres, bool AfterFaults);

/// <summary>One link of the drawn chain between two of its nodes.</summary>
/// <param name="FromNode">Node towards A.</param>
/// <param name="ToNode">Node towards B.</param>
/// <param name="Element">The element's name; null where the wire is cleanly broken.</param>
/// <param name="EndSiemens">The piece's shunt at each end (S).</param>
/// <param name="FromMetres">Where it starts.</param>
/// <param name="ToMetres">Where it ends; equal to the start for a fault.</param>
internal sealed record ChainLink(string FromNode, string ToNode, string? Element, Complex EndSiemens, double FromMetres, double ToMetres);

/// <summary>The elements of a loop under one set-up, while they are put together.</summary>
internal sealed class LoopDrawing
{
    private readonly LoopNetwork _loop;
    private readonly double _hertz;
    private readonly List<Element> _elements = [];
    private readonly List<ChainLink> _links = [];
    private readonly List<string> _cutNodes = [];
    private string _node = LoopNetwork.TerminalA;
    private double _atMetres;

    /// <summary>Draws wire, faults and touched metal; <paramref name="cuts"/> stand in order along the wire.</summary>
    public LoopDrawing(LoopNetwork loop, double hertz, params ReadOnlySpan<Cut> cuts)
    {
        (_loop, _hertz) = (loop, hertz);
        int next = 0;
        for (int i = 0; i < loop.Faults.Count; i++)
        {
            double at = loop.Faults[i].AtMetres;
            for (; next < cuts.Length && (cuts[next].AtMetres < at || (cuts[next].AtMetres == at && !cuts[next].AfterFaults)); next++)
            {
                DrawCut(cuts[next]);
            }

            DrawWireTo(at);
            DrawFault(loop.Faults[i], i);
        }

        for (; next < cuts.Length; next++)
        {
            DrawCut(cuts[next]);
        }

        DrawWireTo(loop.Line.LengthMetres);
        Rename(_node, LoopNetwork.TerminalB);
    }

    /// <summary>The chain from A to B.</summary>
    public IReadOnlyList<ChainLink> Links => _links;

    /// <summary>The nodes of the cuts asked for, in their order.</summary>
    public IReadOnlyList<string> CutNodes => _cutNodes;

    /// <summary>The element between wire and metal that a contact became.</summary>
    public static string FaultElement(int faultIndex) => string.Create(CultureInfo.InvariantCulture, $"fault {faultIndex}");

    /// <summary>The element between a touched metal object and the earth.</summary>
    public static string MetalEarthElement(int metalIndex) => EarthingOf(MetalNode(metalIndex));

    public void Add(Element element) => _elements.Add(element);

    public void AddStake(string node, double ohms) => Add(new Element.Resistor(EarthingOf(node), node, LoopNetwork.Earth, ohms));

    /// <summary>Everything drawn, against earth where anything touches it, else against B.</summary>
    public NetworkResult Solve() =>
        Solve(_elements, _elements.Any(element => element.From == LoopNetwork.Earth || element.To == LoopNetwork.Earth) ? LoopNetwork.Earth : LoopNetwork.TerminalB);

    /// <summary>Only what hangs together with a node, against that node: a part joined to it by nothing carries no current and decides no reading.</summary>
    public NetworkResult SolveAround(string node) => Solve(ConnectedTo(node), node);

    /// <summary>Whether anything joins two nodes.</summary>
    public bool Joins(string one, string other) =>
        one == other || ConnectedTo(one).Any(element => element.From == other || element.To == other);

    /// <summary>What an ohmmeter between two nodes shows (Ω), leads included; infinite when nothing joins them.</summary>
    public double MeteredOhms(string one, string other, double leadOhms)
    {
        if (!Joins(one, other))
        {
            return double.PositiveInfinity;
        }

        const string Meter = "ohmmeter";
        Add(new Element.VoltageSource(Meter, one, other, 1, leadOhms));
        return -1 / SolveAround(other).OrThrow().Amperes(Meter).Real;
    }

    /// <summary>Current in the wire at a node of the chain, towards B, just before it (A); at A, just after it.</summary>
    public Complex WireAmperesAt(NetworkResult.Solved solved, string node)
    {
        ChainLink? before = _links.Find(link => link.ToNode == node);
        ChainLink link = before ?? _links[0];
        Complex spread = link.EndSiemens == Complex.Zero ? Complex.Zero : link.EndSiemens * solved.Volts(node, LoopNetwork.Earth);
        return Through(solved, link) + (before is null ? spread : -spread);
    }

    /// <summary>Mean current of a link, towards B (A): half of what its ends lose to the soil is already gone, half still to go.</summary>
    public static Complex MeanAmperes(NetworkResult.Solved solved, ChainLink link)
    {
        Complex through = Through(solved, link);
        return link.EndSiemens == Complex.Zero
            ? through
            : through + (link.EndSiemens * (solved.Volts(link.FromNode, LoopNetwork.Earth) - solved.Volts(link.ToNode, LoopNetwork.Earth)) / 2);
    }

    private static string MetalNode(int metalIndex) => string.Create(CultureInfo.InvariantCulture, $"metal {metalIndex}");

    private static string EarthingOf(string node) => $"{node} earthing";

    private static Complex Through(NetworkResult.Solved solved, ChainLink link) =>
        link.Element is { } name ? solved.Amperes(name) : Complex.Zero;

    private NetworkResult Solve(List<Element> elements, string reference)
    {
        Network network = new(elements.SelectMany(element => new[] { element.From, element.To }).Distinct(), elements, reference);
        return _hertz == 0 ? network.SolveDc() : network.SolveAt(_hertz);
    }

    private List<Element> ConnectedTo(string node)
    {
        HashSet<string> reached = [node];
        bool grew;
        do
        {
            grew = false;
            foreach (Element element in _elements.Where(element => reached.Contains(element.From) != reached.Contains(element.To)))
            {
                reached.UnionWith([element.From, element.To]);
                grew = true;
            }
        }
        while (grew);

        return _elements.FindAll(element => reached.Contains(element.From));
    }

    private void DrawCut(Cut cut)
    {
        DrawWireTo(cut.AtMetres);
        _cutNodes.Add(_node);
    }

    private void DrawWireTo(double metres)
    {
        double length = metres - _atMetres;
        if (!(length > 0))
        {
            return;
        }

        WireLine line = _loop.Line;
        double omega = 2 * Math.PI * _hertz;
        LinePi pi = LinePi.Of(
            length * new Complex(line.OhmsPerMetre, omega * line.InductanceHenry / line.LengthMetres),
            length * new Complex(line.LeakSiemensPerMetre, omega * line.CapacitanceFaradPerMetre));
        string name = $"wire {_links.Count}";
        DrawShunt($"{name} end A", pi.EndSiemens);
        DrawLink(name, pi.SeriesOhms, pi.EndSiemens, metres);
        DrawShunt($"{name} end B", pi.EndSiemens);
    }

    private void DrawFault(WireFault fault, int index)
    {
        string name = FaultElement(index);
        switch (fault)
        {
            case WireFault.SeriesResistance series when series.Ohms > 0:
                DrawLink(name, series.Ohms, Complex.Zero, _atMetres);
                break;
            case WireFault.Open open:
                DrawShunt($"{name} end A", 1 / open.SideAEarthOhms);
                DrawLink(name, open.ResidualOhms, Complex.Zero, _atMetres);
                DrawShunt($"{name} end B", 1 / open.SideBEarthOhms);
                break;
            case WireFault.Leak leak:
                Add(new Element.Resistor(name, _node, LoopNetwork.Earth, leak.Ohms));
                break;
            case WireFault.MetalContact contact:
                string metal = MetalNode(contact.MetalIndex);
                if (!_elements.Exists(element => element.From == metal))
                {
                    AddStake(metal, _loop.Metals[contact.MetalIndex].EarthOhms);
                }

                Add(new Element.Resistor(name, _node, metal, contact.Ohms));
                break;
        }
    }

    // A link of infinite resistance is a gap: a new node, and nothing that leads to it.
    private void DrawLink(string name, Complex ohms, Complex endSiemens, double toMetres)
    {
        string from = _node;
        bool gap = double.IsPositiveInfinity(ohms.Real);
        _node = string.Create(CultureInfo.InvariantCulture, $"{toMetres} m, link {_links.Count}");
        _links.Add(new(from, _node, gap ? null : name, endSiemens, _atMetres, toMetres));
        _atMetres = toMetres;
        if (!gap)
        {
            Add(Part(name, from, _node, ohms));
        }
    }

    private void DrawShunt(string name, Complex siemens)
    {
        if (siemens != Complex.Zero)
        {
            Add(Part(name, _node, LoopNetwork.Earth, 1 / siemens));
        }
    }

    private Element Part(string name, string from, string to, Complex ohms) =>
        _hertz == 0 ? new Element.Resistor(name, from, to, ohms.Real) : new Element.Impedance(name, from, to, ohms);

    private void Rename(string node, string newName)
    {
        string Renamed(string name) => name == node ? newName : name;
        for (int i = 0; i < _elements.Count; i++)
        {
            _elements[i] = _elements[i] with { From = Renamed(_elements[i].From), To = Renamed(_elements[i].To) };
        }

        for (int i = 0; i < _links.Count; i++)
        {
            _links[i] = _links[i] with { FromNode = Renamed(_links[i].FromNode), ToNode = Renamed(_links[i].ToNode) };
        }

        for (int i = 0; i < _cutNodes.Count; i++)
        {
            _cutNodes[i] = Renamed(_cutNodes[i]);
        }
    }
}
