namespace Swardloop.Core.Diagnosis;

/// <summary>A belief reduced to what planning needs: a few hundred hypotheses, wire faults gathered into cells of about equal probability.</summary>
internal sealed class PlanAtoms
{
    private const int MostSpanCells = 30, MostAtoms = 500;

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
        Dictionary<(CauseKind, CauseKind?, int, int, bool, int), PlanAtom> gathered = [];
        double mended = 0, least = belief.Total * 1e-8;
        foreach (FaultGroup group in belief.Faults)
        {
            mended += group.Mended;
            foreach (FaultAtom atom in group.Atoms)
            {
                if (!(atom.Weight > least))
                {
                    continue;
                }

                int first = CellOf(cells, atom.First), second = atom.Second is { } other ? CellOf(cells, other) : -1;
                SizeSpread size = atom.First.Size;
                if (size.HighOhms > 1.5 * size.LowOhms && !double.IsInfinity(size.MiddleOhms))
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

        PlanAtom[] atoms = [.. gathered.OrderByDescending(entry => entry.Value.Weight).ThenBy(entry => entry.Key).Take(MostAtoms).Select(entry => entry.Value)];
        double total = mended + atoms.Sum(atom => atom.Weight);
        return new(cells, [.. atoms.Select(atom => atom with { Weight = atom.Weight / total })], mended / total);

        void Gather(FaultAtom atom, int first, int second, double ohms, double share)
        {
            int sizeKey = double.IsInfinity(ohms) || ohms <= 0 ? -1 : (int)Math.Round(4 * Math.Log(ohms));
            (CauseKind, CauseKind?, int, int, bool, int) key = (atom.First.Kind, atom.Second?.Kind, first, second, atom.First.Wet, sizeKey);
            if (gathered.TryGetValue(key, out PlanAtom? there))
            {
                gathered[key] = there with { Weight = there.Weight + (share * atom.Weight) };
                return;
            }

            Part? other = atom.Second;
            double otherOhms = other is { } part && part.Kind != CauseKind.LeakPair ? part.Condition.ExtraOhms : 0;
            Condition condition = Condition.Of(atom.First.Kind, atom.First.Kind is CauseKind.SeriesResistance or CauseKind.Open ? ohms : 0);
            gathered.Add(key, new(
                share * atom.Weight, atom.First.Kind, first, ohms, atom.First.Wet, other?.Kind, second, otherOhms,
                other is { Kind: not CauseKind.LeakPair } two ? condition.With(two.Condition) : condition));
        }
    }

    private static int CellOf(WireSearchCosts.Cell[] cells, Part part)
    {
        if (!part.IsInWire)
        {
            return -1;
        }

        double at = part.Place.AtMetres;
        int best = -1;
        for (int i = 0; i < cells.Length; i++)
        {
            bool inside = at >= cells[i].FromMetres && at <= cells[i].ToMetres;
            if (inside && (best < 0 || (cells[i].Kind == part.Place.Kind)))
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
            if (part.IsInWire)
            {
                if (part.PlaceIndex >= 0)
                {
                    mass[part.PlaceIndex] += weight;
                }
                else
                {
                    // Coarse places of pairs: at their middle.
                    double at = part.Place.AtMetres;
                    int index = part.Place.IsPoint
                        ? Array.FindIndex(places, place => place.Kind == part.Place.Kind && Math.Abs(place.AtMetres - at) < 1e-6)
                        : belief.Grid.IndexAt(at);
                    mass[Math.Max(index, 0)] += weight;
                }
            }
        }
    }
}

/// <summary>One hypothesis for planning.</summary>
/// <param name="Weight">Probability.</param>
/// <param name="Kind">The fault.</param>
/// <param name="Cell">Its cell along the wire; −1 for none.</param>
/// <param name="Ohms">Its size (Ω).</param>
/// <param name="Wet">A break that conducts.</param>
/// <param name="OtherKind">The other fault of two.</param>
/// <param name="OtherCell">Its cell.</param>
/// <param name="OtherOhms">Its size (Ω).</param>
/// <param name="Condition">Both together.</param>
internal sealed record PlanAtom(
    double Weight, CauseKind Kind, int Cell, double Ohms, bool Wet, CauseKind? OtherKind, int OtherCell, double OtherOhms, Condition Condition);
