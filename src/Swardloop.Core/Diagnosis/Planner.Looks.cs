namespace Swardloop.Core.Diagnosis;

/// <summary>Stretches to walk and look at.</summary>
internal sealed partial class Planner
{
    private void AddLooks()
    {
        CaseEvidence.Item[] looks = [.. _history.Since(_history.AfterFind).OfType<Observation.Look>().Where(look => look.Wire is null).Select(look => new CaseEvidence.Item(look, 0, 0, 1))];
        Dictionary<(Place, Place?), double> visibility = [];
        double Visible(PlanAtom atom)
        {
            (Place, Place?) key = (atom.Place, atom.OtherKind == CauseKind.LeakPair ? atom.OtherPlace : null);
            if (!visibility.TryGetValue(key, out double probability))
            {
                probability = PlaceTestModel.VisibleProbability(looks, key.Item1, key.Item2);
                visibility.Add(key, probability);
            }

            return probability;
        }

        PlanAtom[] atoms = _plan.Atoms;
        double[] mass = CellMass();
        foreach ((double from, double to) in LookWindows())
        {
            if (LookedAt(looks, from, to) > 0.1)
            {
                continue;
            }

            double misled = PlaceTestModel.FalseMark(to - from);
            double[] edges = LookParts(mass, from, to);
            int parts = edges.Length - 1;
            double[][] first = new double[parts][], second = new double[parts][];
            for (int p = 0; p < parts; p++)
            {
                first[p] = [.. atoms.Select(atom => atom.InWire ? PlaceTestModel.Overlap(atom.Place, edges[p], edges[p + 1]) : 0)];
                second[p] = [.. atoms.Select(atom => atom.OtherSpread.Length > 0 ? PlaceTestModel.Overlap(atom.OtherPlace, edges[p], edges[p + 1]) : 0)];
            }

            foreach (Person by in Doers(StepKind.Look))
            {
                Step step = new(StepKind.Look) { FromMetres = from, ToMetres = to, By = by };

                // Outcome p: damage is seen, first in part p; the last: nothing.
                double found = by == Person.Owner ? StatedProbabilities.VisibleDamageIsFoundByOwner : StatedProbabilities.VisibleDamageIsFound;
                double[][] table = [.. Enumerable.Range(0, parts + 1).Select(_ => new double[atoms.Length + 1])];
                for (int i = 0; i < atoms.Length; i++)
                {
                    double visible = Visible(atoms[i]), missed = 1;
                    for (int p = 0; p < parts; p++)
                    {
                        double passed = missed * (1 - (found * first[p][i])) * (1 - (found * second[p][i]));
                        table[p][i] = visible * (missed - passed);
                        missed = passed;
                    }

                    double seen = visible * (1 - missed);
                    table[parts][i] = (1 - seen) * (1 - misled);
                    for (int p = 0; p < parts; p++)
                    {
                        table[p][i] += (1 - seen) * misled / parts;
                    }
                }

                for (int p = 0; p <= parts; p++)
                {
                    table[p][^1] = p == parts ? 1 - misled : misled / parts;
                }

                // Whoever sees damage knows where: the narrower looks that say so cost about as much again.
                AddTest(step, table, null, parts > 1 ? LookAgain * _costs.Money(step) : 0);
            }
        }
    }

    /// <summary>Edges of the parts of a stretch in which damage may be seen: about equally likely ones.</summary>
    private double[] LookParts(double[] mass, double from, double to)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        int[] inside = [.. Enumerable.Range(0, cells.Length).Where(i => cells[i].ToMetres > from && cells[i].FromMetres < to)];
        double all = inside.Sum(i => mass[i]), sum = 0;
        List<double> edges = [from];
        foreach (int i in inside)
        {
            sum += mass[i];
            if (sum >= all / LookPartCount && cells[i].ToMetres > edges[^1] + 0.5 && cells[i].ToMetres < to - 0.5)
            {
                edges.Add(cells[i].ToMetres);
                sum = 0;
            }
        }

        edges.Add(to);
        return [.. edges];
    }

    /// <summary>Stretches worth walking, of every length: of each the likeliest.</summary>
    private IEnumerable<(double From, double To)> LookWindows()
    {
        return Windows(0.04, 24).Where(window => window.Cells is 1 or 2 or 3 or 5 or 8 or 12 or 18 or 24).GroupBy(window => window.Cells)
            .SelectMany(group => group.OrderByDescending(window => window.Share / Math.Max(2, 0.3 * (window.To - window.From))).Take(3))
            .Select(window => (window.From, window.To));
    }

    /// <summary>Share of a stretch that was walked already: nobody walks it twice.</summary>
    private static double LookedAt(CaseEvidence.Item[] looks, double from, double to)
    {
        const int Samples = 20;
        int walked = 0;
        for (int i = 0; i < Samples; i++)
        {
            double at = from + ((to - from) * (i + 0.5) / Samples);
            walked += looks.Any(item => item.Seen is Observation.Look other && at >= other.FromMetres && at <= other.ToMetres) ? 1 : 0;
        }

        return (double)walked / Samples;
    }

    /// <summary>Stretches of neighbouring cells worth walking or mending, with their probability.</summary>
    private List<(int Cells, double From, double To, double Share)> Windows(double leastShare, int mostCells)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        double[] mass = CellMass();

        List<(int Cells, double From, double To, double Share)> windows = [];
        for (int i = 0; i < cells.Length; i++)
        {
            double share = 0;
            for (int j = i; j < Math.Min(cells.Length, i + mostCells); j++)
            {
                share += mass[j];
                double from = Math.Max(0, Math.Round(cells[i].FromMetres - WireSearchCosts.MarginMetres, 1)), to = Math.Min(Math.Round(_length, 2), Math.Round(cells[j].ToMetres + WireSearchCosts.MarginMetres, 1));
                if (share >= leastShare && to - from >= 0.5)
                {
                    windows.Add((j - i + 1, from, to, share));
                }
            }
        }

        return windows;
    }
}
