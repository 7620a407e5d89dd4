using Swardloop.Core.Geometry;

namespace Swardloop.Core.Surveying;

/// <summary>Fixed points and tapes with numbers for names: points from 0, the fixed ones first.</summary>
internal sealed class TapeNetwork
{
    public TapeNetwork(IReadOnlyList<(string Name, PlanPoint Place)> fixedPoints, IReadOnlyList<Tape> tapes)
    {
        Dictionary<string, int> numbers = new(StringComparer.Ordinal);
        List<string> names = [];
        foreach ((string name, _) in fixedPoints)
        {
            numbers.Add(name, names.Count);
            names.Add(name);
        }

        FixedCount = names.Count;
        FixedPlaces = [.. fixedPoints.Select(point => point.Place)];
        Tapes = [.. tapes.Select(tape => new Link(Number(tape.From), Number(tape.To), tape.Metres, 1 / (tape.DeviationMetres * tape.DeviationMetres)))];
        Names = names;
        Sides = [.. tapes.Select((tape, i) => tape.Side is { } side && SideLine(i) is (int from, int to) ? new SideRule(Tapes[i].To, from, to, side) : null).OfType<SideRule>()];

        int Number(string name)
        {
            if (!numbers.TryGetValue(name, out int number))
            {
                number = names.Count;
                numbers.Add(name, number);
                names.Add(name);
            }

            return number;
        }
    }

    /// <summary>Names by number.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <summary>How many points are fixed: those with the lowest numbers.</summary>
    public int FixedCount { get; }

    /// <summary>Where they lie.</summary>
    public PlanPoint[] FixedPlaces { get; }

    /// <summary>How many points are to be found.</summary>
    public int FreeCount => Names.Count - FixedCount;

    /// <summary>The tapes, in order.</summary>
    public Link[] Tapes { get; }

    /// <summary>What is known about sides.</summary>
    public SideRule[] Sides { get; }

    /// <summary>Whether places contradict nothing that is said of sides.</summary>
    public bool SidesHold(PlanPoint[] places) => Array.TrueForAll(Sides, rule => SideHolds(rule, places));

    /// <summary>Whether places contradict one rule.</summary>
    public static bool SideHolds(SideRule rule, PlanPoint[] places)
    {
        PlanPoint a = places[rule.From], b = places[rule.To], p = places[rule.Point];
        double turn = ((b.EastMetres - a.EastMetres) * (p.NorthMetres - a.NorthMetres)) - ((b.NorthMetres - a.NorthMetres) * (p.EastMetres - a.EastMetres));
        return rule.Side == TapeSide.Left ? turn >= 0 : turn <= 0;
    }

    /// <summary>The stations of the first two tapes to the point that a tape leads to.</summary>
    private (int From, int To)? SideLine(int tape)
    {
        int point = Tapes[tape].To, first = -1;
        foreach (Link link in Tapes)
        {
            if (link.OtherEnd(point) is int station && station != first)
            {
                if (first >= 0)
                {
                    return (first, station);
                }

                first = station;
            }
        }

        return null;
    }

    /// <summary>A tape by numbers.</summary>
    /// <param name="From">One end.</param>
    /// <param name="To">The other.</param>
    /// <param name="Metres">What it read (m).</param>
    /// <param name="Weight">One over its variance (1/m²).</param>
    internal readonly record struct Link(int From, int To, double Metres, double Weight)
    {
        /// <summary>The other end, when the tape touches a point.</summary>
        public int? OtherEnd(int point) => From == point ? To : To == point ? From : null;
    }

    /// <summary>A point lies to one side of the line from one point to another.</summary>
    internal sealed record SideRule(int Point, int From, int To, TapeSide Side);
}
