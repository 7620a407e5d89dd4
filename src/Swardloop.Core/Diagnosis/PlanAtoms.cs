namespace Swardloop.Core.Diagnosis;

/// <summary>A belief reduced to what planning needs: a few hundred hypotheses, wire faults gathered into cells of about equal probability.</summary>
internal sealed class PlanAtoms
{
    private const int MostSpanCells = 30, MostAtoms = 240;

    private PlanAtoms(WireSearchCosts.Cell[] cells, PlanAtom[] atoms, double mended)
    {
        (Cells, Atoms, Mended) = (cells, atoms, mended);
    }

    /// <summary>Places along the wire, in order.</summary>
    public WireSearchCosts.Cell[] Cells { get; }

    /// <summary>What may still be wrong.</summary>
    public PlanAtom[] Atoms { get; }

    /// <summary>Probability that nothing is wrong any more.</summary>
    public double Mended { get; }

    /// <summary>Reduces a belief; probabilities of atoms and <see cref="Mended"/> sum to 1.</summary>
    public static PlanAtoms Of(Belief belief, WireSearchCosts maker)
    {
        WireSearchCosts.Cell[] cells = MakeCells(belief, maker);
        Dictionary<(CauseKind, CauseKind?, double, double, double, double, int, int), PlanAtom> gathered = [];
        double mended = 0, least = belief.Total * 1e-6;
        foreach (FaultGroup group in belief.Faults)
        {
            mended += group.Mended;
            foreach (FaultAtom atom in group.Atoms)
            {
                if (!(atom.Weight > least))
                {
                    continue;
                }

                // What is left of a pair lies in a coarse place: by cells, or tests could not narrow it.
                if (atom.Second is not { IsInWire: true } && atom.First.IsInWire && WhereIs(cells, atom.First) is { Spread.Length: > 1 } coarse)
                {
                    foreach ((int cell, double share) in coarse.Spread)
                    {
                        Where inCell = new(new(cells[cell].Kind, cells[cell].FromMetres, cells[cell].ToMetres), [(cell, 1)]);
                        Gather(atom, inCell, atom.Second is { } beside ? WhereIs(cells, beside) : Where.Nowhere, atom.First.Size.MiddleOhms, share);
                    }

                    continue;
                }

                Where first = WhereIs(cells, atom.First), second = atom.Second is { } other ? WhereIs(cells, other) : Where.Nowhere;
                SizeSpread size = atom.First.Size;
                // How much a leak leaks tells little apart, and pairs of places are many.
                if (atom.First.Kind != CauseKind.LeakPair && size.HighOhms > 1.5 * size.LowOhms && !double.IsInfinity(size.MiddleOhms))
                {
                    Gather(atom, first, second, size.LowOhms, 1 / 3.0);
                    Gather(atom, first, second, size.MiddleOhms, 1 / 3.0);
                    Gather(atom, first, second, size.HighOhms, 1 / 3.0);
                }
                else
                {
                    Gather(atom, first, second, size.MiddleOhms, 1);
                }
            }
        }

        // Pairs have so many places that most of them fall off the end: what is kept stands for the rest of its cause.
        Dictionary<(CauseKind, CauseKind?), double> ofCause = [];
        foreach (PlanAtom atom in gathered.Values)
        {
            ofCause[(atom.Kind, atom.OtherKind)] = ofCause.GetValueOrDefault((atom.Kind, atom.OtherKind)) + atom.Weight;
        }

        PlanAtom[] atoms = [.. gathered.OrderByDescending(entry => entry.Value.Weight).ThenBy(entry => entry.Key).Take(MostAtoms).Select(entry => entry.Value)];
        Dictionary<(CauseKind, CauseKind?), double> kept = [];
        foreach (PlanAtom atom in atoms)
        {
            kept[(atom.Kind, atom.OtherKind)] = kept.GetValueOrDefault((atom.Kind, atom.OtherKind)) + atom.Weight;
        }

        atoms = [.. atoms.Select(atom => atom with { Weight = atom.Weight * ofCause[(atom.Kind, atom.OtherKind)] / kept[(atom.Kind, atom.OtherKind)] })];
        double total = mended + atoms.Sum(atom => atom.Weight);
        return new(cells, [.. atoms.Select(atom => atom with { Weight = atom.Weight / total })], mended / total);

        void Gather(FaultAtom atom, Where first, Where second, double ohms, double share)
        {
            int sizeKey = double.IsInfinity(ohms) || ohms <= 0 ? -1 : (int)Math.Round(4 * Math.Log(ohms));
            (CauseKind, CauseKind?, double, double, double, double, int, int) key = (
                atom.First.Kind, atom.Second?.Kind, Along(first.Place), first.Place.ToMetres, Along(second.Place), second.Place.ToMetres, FormOf(atom.First), sizeKey);
            if (gathered.TryGetValue(key, out PlanAtom? there))
            {
                gathered[key] = there with { Weight = there.Weight + (share * atom.Weight) };
                return;
            }

            Part? other = atom.Second;
            double otherOhms = other is not { } part || part.Kind == CauseKind.LeakPair ? 0 : part.Kind == CauseKind.Guide ? part.Size.MiddleOhms : part.Condition.ExtraOhms;
            Condition condition = atom.First.Kind is CauseKind.SeriesResistance or CauseKind.Open ? Condition.Of(atom.First.Kind, ohms) : atom.First.Condition;
            gathered.Add(key, new(
                share * atom.Weight, atom.First.Kind, first.Place, first.Spread, ohms, atom.First.Wet, other?.Kind, second.Place, second.Spread, otherOhms,
                other is { Kind: not CauseKind.LeakPair } two ? condition.With(two.Condition) : condition));
        }
    }

    /// <summary>Tells apart what one cause may look like: each form answers tests in its own way.</summary>
    private static int FormOf(in Part part) => part.Shown.Present | (part.Wet ? 1 << 28 : 0) | (part.Shown.Tired ? 1 << 29 : 0) | (part.Shown.Locked ? 1 << 30 : 0);

    /// <summary>Start of a place, for telling places of different wires apart: no loop is so long.</summary>
    private static double Along(Place place) => place.FromMetres + (1e6 * place.Guide);

    /// <summary>A fault's place for planning: its cell, or a coarse place as it is with the cells it lies in.</summary>
    private static Where WhereIs(WireSearchCosts.Cell[] cells, Part part)
    {
        if (!part.IsInWire)
        {
            return part.Kind == CauseKind.Guide ? new(part.Place, []) : Where.Nowhere;
        }

        int cell = CellOf(cells, part.Place);
        if (part.PlaceIndex >= 0 || part.Place.IsPoint)
        {
            return new(new(cells[cell].Kind, cells[cell].FromMetres, cells[cell].ToMetres), [(cell, 1)]);
        }

        List<(int Cell, double Share)> spread = [];
        for (int i = 0; i < cells.Length; i++)
        {
            double overlap = Math.Min(cells[i].ToMetres, part.Place.ToMetres) - Math.Max(cells[i].FromMetres, part.Place.FromMetres);
            if (cells[i].Kind == PlaceKind.Span && overlap > 0)
            {
                spread.Add((i, overlap / part.Place.LengthMetres));
            }
        }

        return new(part.Place, [.. spread]);
    }

    private static int CellOf(WireSearchCosts.Cell[] cells, Place place)
    {
        double at = place.AtMetres;
        int best = 0;
        for (int i = 0; i < cells.Length; i++)
        {
            bool inside = at >= cells[i].FromMetres && at <= cells[i].ToMetres;
            if (inside && (cells[i].Kind == place.Kind || cells[best].Kind != place.Kind))
            {
                best = i;
            }
        }

        return best;
    }

    private static WireSearchCosts.Cell[] MakeCells(Belief belief, WireSearchCosts maker)
    {
        Place[] places = belief.Grid.Places;
        double[] mass = new double[places.Length];
        foreach (FaultGroup group in belief.Faults)
        {
            foreach (FaultAtom atom in group.Atoms)
            {
                AddMass(atom.First, atom.Weight);
                if (atom.Second is { } second)
                {
                    AddMass(second, atom.Weight);
                }
            }
        }

        double all = mass.Sum();
        if (!(all > 0))
        {
            all = 1;
        }

        List<WireSearchCosts.Cell> cells = [];
        double from = 0, gathered = 0;
        double longest = Math.Max(places[^1].ToMetres / 8, 2);
        for (int i = 0; i < places.Length; i++)
        {
            Place place = places[i];
            if (place.IsPoint)
            {
                // Terminals always stand for themselves; a joint that is out of the question is plain wire to the planner.
                if (place.Kind == PlaceKind.Terminal || mass[i] > 0.002 * all)
                {
                    Close(place.FromMetres);
                    cells.Add(maker.CellOf(place.Kind, place.FromMetres, place.FromMetres));
                    from = place.FromMetres;
                }
                else
                {
                    gathered += mass[i];
                }

                continue;
            }

            // A likely piece starts a cell of its own rather than joining a long unlikely one.
            if (gathered > 0 && gathered < mass[i] / 4 && place.FromMetres - from > 4 * place.LengthMetres && mass[i] > 0.2 * all / MostSpanCells)
            {
                Close(place.FromMetres);
            }

            gathered += mass[i];
            if (gathered >= all / MostSpanCells || place.ToMetres - from >= longest)
            {
                Close(place.ToMetres);
            }
        }

        return [.. cells];

        void Close(double to)
        {
            if (to > from)
            {
                cells.Add(maker.CellOf(PlaceKind.Span, from, to));
            }

            (from, gathered) = (to, 0);
        }

        void AddMass(Part part, double weight)
        {
            if (!part.IsInWire)
            {
                return;
            }

            if (part.PlaceIndex >= 0)
            {
                mass[part.PlaceIndex] += weight;
                return;
            }

            foreach ((int place, double share) in belief.Grid.Within(part.Place))
            {
                mass[place] += share * weight;
            }
        }
    }

    private readonly record struct Where(Place Place, (int Cell, double Share)[] Spread)
    {
        public static Where Nowhere { get; } = new(default, []);
    }
}

/// <summary>One hypothesis for planning.</summary>
/// <param name="Weight">Probability.</param>
/// <param name="Kind">The fault.</param>
/// <param name="Place">Its place, if it lies along the wire.</param>
/// <param name="Spread">The cells it may lie in; empty when it does not lie along the wire.</param>
/// <param name="Ohms">Its size (Ω).</param>
/// <param name="Wet">A break that conducts.</param>
/// <param name="OtherKind">The other fault of two.</param>
/// <param name="OtherPlace">Its place.</param>
/// <param name="OtherSpread">Its cells.</param>
/// <param name="OtherOhms">Its size (Ω).</param>
/// <param name="Condition">Both together.</param>
internal sealed record PlanAtom(
    double Weight, CauseKind Kind, Place Place, (int Cell, double Share)[] Spread, double Ohms, bool Wet, CauseKind? OtherKind, Place OtherPlace,
    (int Cell, double Share)[] OtherSpread, double OtherOhms, Condition Condition)
{
    public bool InWire => Spread.Length > 0;

    /// <summary>The fault in a guide wire, if either is one: where, its size, and whether it is a break that conducts.</summary>
    public (Place Place, double Ohms, bool Wet)? OnGuide =>
        Kind == CauseKind.Guide ? (Place, Ohms, Wet) : OtherKind == CauseKind.Guide ? (OtherPlace, OtherOhms, OtherOhms > Belief.LeastOfBreak && !double.IsInfinity(OtherOhms)) : null;

    /// <summary>The same, if it is in this guide wire.</summary>
    public (Place Place, double Ohms, bool Wet)? On(GuidePhysics guide) => OnGuide is { } fault && fault.Place.Guide == guide.Number ? fault : null;

    /// <summary>Place of the fault of a kind, if either is one.</summary>
    public Place? PlaceOf(CauseKind kind) =>
        Kind == kind && InWire ? Place : OtherKind == kind && OtherSpread.Length > 0 ? OtherPlace : null;
}
