using System.Numerics;

namespace Swardloop.Worlds;

/// <summary>The true wire as a network: forty sections and a node at every place that matters; series faults and cuts between two nodes.</summary>
internal sealed class Wire
{
    private readonly Scene _scene;
    private readonly double[] _places;
    private readonly int[] _left;
    private readonly int[] _right;
    private readonly Network _network;

    /// <param name="scene">The yard.</param>
    /// <param name="troubles">Those not yet mended.</param>
    /// <param name="marks">Further places at which a node is wanted.</param>
    /// <param name="hertz">0 for direct current.</param>
    /// <param name="cutAt">Where the wire is parted.</param>
    public Wire(Scene scene, IReadOnlyList<Trouble> troubles, IEnumerable<double> marks, double hertz = 0, double? cutAt = null)
    {
        _scene = scene;
        double length = scene.Plan.Length;
        double guideMetres = scene.GuideJoins is null ? 0 : scene.Height - (troubles.FirstOrDefault(trouble => trouble is { Cause: "guide", Ohms: > 1e9 })?.At ?? 0);
        troubles = [.. troubles.Where(trouble => trouble.Cause != "guide")];
        Trouble[] series = [.. troubles.Where(trouble => trouble.Series)];

        // Nodes a millimetre apart would drown the leakage in rounding: whatever lies so near to a fault is the fault's place.
        List<double> places = [];
        foreach (double place in series.Select(trouble => trouble.At!.Value).Concat(troubles.Select(trouble => trouble.At).OfType<double>())
            .Concat(troubles.Select(trouble => trouble.Second).OfType<double>()).Concat(cutAt is { } cut ? [cut] : []).Concat([0, length]).Concat(marks).Concat(scene.GuideJoins is { } joint ? [joint] : [])
            .Concat(Enumerable.Range(1, 39).Select(i => length * i / 40)))
        {
            if (!places.Exists(known => Math.Abs(known - place) < 1e-3))
            {
                places.Add(place);
            }
        }

        _places = [.. places.Order()];
        int cutIndex = cutAt is { } parting ? Nearest(parting) : -1;
        _left = new int[_places.Length];
        _right = new int[_places.Length];
        int next = 0;
        for (int i = 0; i < _places.Length; i++)
        {
            _left[i] = next++;
            bool parted = cutIndex == i || series.Any(trouble => Nearest(trouble.At!.Value) == i);
            _right[i] = parted ? next++ : _left[i];
        }

        _network = new(next);
        for (int i = 0; i < _places.Length; i++)
        {
            if (cutIndex != i && _left[i] != _right[i])
            {
                _network.Join(_left[i], _right[i], 1 / series.Where(trouble => Nearest(trouble.At!.Value) == i).Sum(trouble => trouble.Ohms));
            }

            if (i > 0)
            {
                double metres = _places[i] - _places[i - 1], middle = (_places[i] + _places[i - 1]) / 2;
                int tenth = Math.Min(9, (int)(10 * middle / length));

                // 2 µH per metre, the order of a loop on the ground (references B4 worked cases).
                _network.Join(_right[i - 1], _left[i], 1 / new Complex(scene.OhmsPerMetre * metres, 2 * Math.PI * hertz * 2e-6 * metres));
                double share = scene.World.Leakage switch
                {
                    "patches" => Patch(tenth) / Enumerable.Range(0, 10).Average(Patch),
                    "joints" => 0.2,
                    _ => 1,
                };
                double capacitance = 250e-12 * metres * (1 + (0.03 * scene.Draw.Normal($"unevenness {tenth}")));
                Complex shunt = new((share * metres / (length * scene.EarthOhms)) + 1e-15, 2 * Math.PI * hertz * capacitance);
                _network.Join(_right[i - 1], -1, shunt / 2);
                _network.Join(_left[i], -1, shunt / 2);
            }
        }

        if (scene.World.Leakage == "joints")
        {
            double[] seats = [0, .. scene.Joints, length];
            foreach (double seat in seats)
            {
                _network.Join(_left[Nearest(seat)], -1, 0.8 / (scene.EarthOhms * seats.Length));
            }
        }

        // A guide wire off the station hangs on its joint with its own capacitance.
        if (hertz > 0 && scene.GuideJoins is { } joins)
        {
            _network.Join(_left[Nearest(joins)], -1, new Complex(1e-15, 2 * Math.PI * hertz * 250e-12 * guideMetres));
        }

        foreach (Trouble shorted in troubles.Where(trouble => trouble.Cause == "short"))
        {
            _network.Join(_left[Nearest(shorted.At!.Value)], _left[Nearest(shorted.Second!.Value)], 1 / shorted.Ohms);
        }

        foreach (Trouble leak in troubles.Where(trouble => trouble.Cause is "leak-pair" or "leak"))
        {
            _network.Join(_left[Nearest(leak.At!.Value)], -1, 1 / leak.Ohms);
            if (leak.Second is { } second)
            {
                _network.Join(_left[Nearest(second)], -1, 1 / (1.4 * leak.Ohms));
            }
        }
    }

    public int A => _left[0];

    public int B => _right[^1];

    /// <summary>The network, for sources and meters.</summary>
    public Network Net => _network;

    /// <summary>The node on terminal A's side of a place, and on B's.</summary>
    public (int ASide, int BSide) NodesAt(double metres) => (_left[Nearest(metres)], _right[Nearest(metres)]);

    /// <summary>Ohms between two nodes, as an ohmmeter's current sees it.</summary>
    public double OhmsBetween(int from, int to)
    {
        _network.Drive(to, from, 1e-3);
        Complex[] volts = _network.Solve();
        _network.Drive(from, to, 1e-3);
        return ((from >= 0 ? volts[from] : 0) - (to >= 0 ? volts[to] : 0)).Real * 1e3;
    }

    private double Patch(int tenth) => _scene.Draw.LogUniform($"patch {tenth}", 0.05, 20);

    private int Nearest(double metres)
    {
        int best = 0;
        for (int i = 1; i < _places.Length; i++)
        {
            best = Math.Abs(_places[i] - metres) < Math.Abs(_places[best] - metres) ? i : best;
        }

        return best;
    }
}
