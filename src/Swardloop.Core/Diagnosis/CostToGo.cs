namespace Swardloop.Core.Diagnosis;

/// <summary>Expected cost from a belief to the finish: what is at stake after a step, estimated by a plan that could be followed.</summary>
/// <remarks>
/// Two exact searches joined: along the wire, <see cref="LineSearch"/> prices finding and mending each kind of wire fault; over causes,
/// <see cref="TroubleshootingSolver"/> orders repairs (those searches among them) with one cheap test looked through. A hypothesis of two
/// faults counts as two half cases, whose costs add. Not safe for use by two threads at once.
/// </remarks>
internal sealed class CostToGo
{
    private const int Causes = (int)CauseKind.None + 1;
    private const int MostRowCells = 14;

    /// <summary>What looking for a resistance or a break that is not there costs before an ohmmeter tells; for a leak nothing tells.</summary>
    private const double SearchInVain = 14;

    private static readonly CauseKind[] WireKinds = [CauseKind.SeriesResistance, CauseKind.Open, CauseKind.Unsteady, CauseKind.ShortCircuit, CauseKind.Leak, CauseKind.LeakPair];

    private readonly PlanAtoms _atoms;
    private readonly TroubleshootingSolver _solver, _withoutSearch;
    private readonly WireSearchCosts[] _wireCosts;
    /// <summary>Causes below this share of the weight are left out of a search: they cost time and move no decision.</summary>
    private const double LeastShare = 1e-4;

    private readonly GuideSearch? _guides;
    private readonly TroubleshootingProblem.Repair? _guideRepair;
    private readonly double[][] _density;
    private readonly double[] _mass = new double[Causes];
    private readonly double[] _undug;
    private readonly TroubleshootingProblem.Repair[] _wireRepairs;
    private readonly double[] _sureFirst, _sureSecond;
    private readonly bool[] _visitFirst, _visitSecond;
    private readonly double _renew, _travel, _sureCheck;
    private readonly bool _visitCheck;
    private readonly int _ahead;

    public CostToGo(PlanAtoms atoms, ServiceCase serviceCase, StepCosts costs, WireSearchCosts[] wireCosts, IReadOnlyList<TroubleshootingProblem.Test> tests, GuideSearch? guides = null)
    {
        (_atoms, _guides) = (atoms, guides);
        _wireCosts = wireCosts;
        _density = [.. WireKinds.Select(_ => new double[atoms.Cells.Length])];
        _undug = new double[atoms.Cells.Length];
        _renew = costs.Money(new(StepKind.RenewLoop)) + costs.CheckAfter;
        List<TroubleshootingProblem.Repair> repairs = [];
        foreach ((StepKind repair, CauseKind cause, bool visit) in Planner.Replacements)
        {
            Step step = new(repair) { By = !visit && serviceCase.Can.Owner ? Person.Owner : Person.Technician };
            repairs.Add(new(Constant(StepCosts.Overhead + costs.Money(step) + costs.CheckAfter), step.By == Person.Technician, Cures(cause, RepairModel.Cures(repair, cause))));
        }

        repairs.Add(new(Constant(StepCosts.Overhead + costs.Check), !serviceCase.Can.Owner, Cures(CauseKind.None, 1)));
        _wireRepairs = [.. WireKinds.Select(kind => new TroubleshootingProblem.Repair(Constant(SearchInVain), true, Cures(kind, 1)))];
        repairs.AddRange(_wireRepairs);
        if (guides is not null)
        {
            _guideRepair = new(Constant(SearchInVain), true, Cures(CauseKind.Guide, 1));
            repairs.Add(_guideRepair);
        }

        _ahead = tests.Count > 0 ? 1 : 0;
        _travel = serviceCase.Rates.TravelPerVisit;
        (_sureCheck, _visitCheck) = (StepCosts.Overhead + costs.Check, !serviceCase.Can.Owner);
        Dictionary<CauseKind, (double, bool)> elsewhere = new() { [CauseKind.None] = (_sureCheck, _visitCheck) };
        for (int r = 0; r < Planner.Replacements.Length; r++)
        {
            (CauseKind cause, double cost) = (Planner.Replacements[r].Cause, repairs[r].Cost[0]);
            elsewhere[cause] = elsewhere.TryGetValue(cause, out (double Cost, bool Visit) other) && other.Cost < cost ? other : (cost, repairs[r].NeedsVisit);
        }

        (double Cost, bool Visit) Sure(CauseKind kind, Place place, bool inWire) =>
            inWire || kind == CauseKind.Guide ? (Math.Min(wireCosts[0].Known(place.Kind), _renew), true) : elsewhere.GetValueOrDefault(kind, (_renew, true));
        int count = atoms.Atoms.Length;
        (_sureFirst, _sureSecond, _visitFirst, _visitSecond) = (new double[count], new double[count], new bool[count], new bool[count]);
        for (int i = 0; i < count; i++)
        {
            PlanAtom atom = atoms.Atoms[i];
            (_sureFirst[i], _visitFirst[i]) = Sure(atom.Kind, atom.Place, atom.InWire);
            if (atom.OtherKind == CauseKind.LeakPair)
            {
                // Either place will do.
                _sureFirst[i] = Math.Min(_sureFirst[i], Sure(CauseKind.LeakPair, atom.OtherPlace, true).Cost);
            }
            else if (atom.OtherKind is { } other)
            {
                (_sureSecond[i], _visitSecond[i]) = Sure(other, atom.OtherPlace, atom.OtherSpread.Length > 0);
            }
        }

        _solver = new(new(tests, repairs, serviceCase.Rates.TravelPerVisit), Causes, LeastShare);
        double[] renewed = new double[Causes];
        foreach (CauseKind kind in WireKinds)
        {
            renewed[(int)kind] = StatedProbabilities.RepairWorks;
        }

        IEnumerable<TroubleshootingProblem.Repair> elsewhereOnly = repairs.Where(repair => !_wireRepairs.Contains(repair) && repair != _guideRepair);
        _withoutSearch = new(
            new([], [.. elsewhereOnly, new(Constant(StepCosts.Overhead + _renew), true, renewed), new(Constant(StepCosts.Overhead + _renew), true, Cures(CauseKind.Guide, 1))], serviceCase.Rates.TravelPerVisit), Causes, LeastShare);
    }

    /// <summary>What would still have to be paid if everything were known, times the weight that is left: the right repairs, their check, the visit.</summary>
    /// <param name="first">Weight of each atom's first fault being there still.</param>
    /// <param name="second">Weight of its second.</param>
    /// <param name="mended">Weight of everything being mended, unchecked.</param>
    /// <param name="onSite">Whether the visit is paid.</param>
    public double Sure(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double mended, bool onSite)
    {
        double travel = onSite ? 0 : _travel, sum = mended * (_sureCheck + (_visitCheck ? travel : 0));
        for (int i = 0; i < first.Length; i++)
        {
            sum += first[i] * _sureFirst[i];
            double visit = _visitFirst[i] ? first[i] : 0;
            if (_atoms.Atoms[i].OtherKind is not null and not CauseKind.LeakPair)
            {
                sum += second[i] * _sureSecond[i];
                visit = Math.Max(visit, _visitSecond[i] ? second[i] : 0);
            }

            sum += travel * visit;
        }

        return sum;
    }

    /// <summary>Expected cost, times the weight that is left.</summary>
    /// <param name="first">Weight of each atom's first fault being there still.</param>
    /// <param name="second">Weight of its second.</param>
    /// <param name="mended">Weight of everything being mended, unchecked.</param>
    /// <param name="onSite">Whether the visit is paid.</param>
    public double Value(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double mended, bool onSite)
    {
        Array.Clear(_mass);
        foreach (double[] density in _density)
        {
            Array.Clear(density);
        }

        PlanAtom[] atoms = _atoms.Atoms;
        for (int i = 0; i < atoms.Length; i++)
        {
            PlanAtom atom = atoms[i];
            if (atom.OtherKind == CauseKind.LeakPair)
            {
                _mass[(int)atom.Kind] += first[i];
                AddDensity(CauseKind.LeakPair, atom.Spread, 0.5 * first[i]);
                AddDensity(CauseKind.LeakPair, atom.OtherSpread, 0.5 * first[i]);
                continue;
            }

            _mass[(int)atom.Kind] += first[i];
            AddDensity(atom.Kind, atom.Spread, first[i]);
            if (atom.OtherKind is { } other)
            {
                _mass[(int)other] += second[i];
                AddDensity(other, atom.OtherSpread, second[i]);
            }
        }

        _mass[(int)CauseKind.None] += mended;
        double total = 0;
        foreach (double mass in _mass)
        {
            total += mass;
        }

        if (!(total > 0))
        {
            return 0;
        }

        for (int k = 0; k < WireKinds.Length; k++)
        {
            int kind = (int)WireKinds[k];
            double cost = !(_mass[kind] > 1e-5 * total) ? _renew / 2
                : WireKinds[k] == CauseKind.LeakPair ? PairDigCost(_density[k]) : SearchCost(k);
            for (int c = 0; c < Causes; c++)
            {
                _wireRepairs[k].Cost[c] = c == kind || WireKinds[k] is CauseKind.Leak or CauseKind.LeakPair ? cost : Math.Min(cost, SearchInVain);
            }
        }

        if (_guideRepair is not null)
        {
            double cost = _mass[(int)CauseKind.Guide] > 1e-5 * total ? _guides!.Cost(first, second) : _renew / 2;
            for (int c = 0; c < Causes; c++)
            {
                _guideRepair.Cost[c] = c == (int)CauseKind.Guide ? cost : Math.Min(cost, SearchInVain);
            }
        }

        return _solver.Solve(_mass, onSite, _ahead).Cost * total;

        void AddDensity(CauseKind kind, (int Cell, double Share)[] spread, double weight)
        {
            if (spread.Length == 0)
            {
                return;
            }

            int index = Array.IndexOf(WireKinds, kind);
            foreach ((int cell, double share) in spread)
            {
                _density[index][cell] += share * weight;
            }
        }
    }

    /// <summary>The same without any search or test: one thing after the other is replaced, the wire as a whole. No estimate is dearer. Of the weights that
    /// <see cref="Value"/> was asked for last.</summary>
    public double WithoutSearch(bool onSite) => _withoutSearch.Solve(_mass, onSite, 0).Cost * _mass.Sum();

    private static double[] Constant(double cost)
    {
        double[] costs = new double[Causes];
        Array.Fill(costs, cost);
        return costs;
    }

    private static double[] Cures(CauseKind cause, double probability)
    {
        double[] cures = new double[Causes];
        cures[(int)cause] = probability;
        return cures;
    }

    /// <summary>Cost of digging for the first of two leaks, either of which will do: stretch after stretch, each time the one with the best chance for its
    /// money, the two places taken as independent of each other. Joints are dug with the wire.</summary>
    private double PairDigCost(double[] density)
    {
        const double Settled = 0.04;
        WireSearchCosts.Cell[] cells = _atoms.Cells;
        double all = 0;
        for (int i = 0; i < density.Length; i++)
        {
            _undug[i] = density[i];
            all += density[i];
        }

        // In units of probability: what is left of it, and the chance that neither place was dug yet.
        double left = all, cost = 0;
        if (!(all > 0))
        {
            return _renew;
        }

        WireSearchCosts prices = _wireCosts[^1];
        for (int digs = 0; digs < 12; digs++)
        {
            double still = left / all * (left / all);
            if (still < Settled)
            {
                break;
            }

            double bestRatio = 0, bestMass = 0, bestCost = 0;
            int bestFrom = 0, bestTo = -1;
            for (int i = 0; i < cells.Length; i++)
            {
                double mass = 0;
                if (!(_undug[i] > 0.004 * all))
                {
                    continue;
                }

                for (int j = i; j < cells.Length; j++)
                {
                    mass += _undug[j];
                    if (!(_undug[j] > 0.004 * all))
                    {
                        continue;
                    }

                    double price = prices.Mend(cells[i], cells[j]), share = 1 - (mass / left), ratio = (1 - (share * share)) / price;
                    if (ratio > bestRatio)
                    {
                        (bestRatio, bestMass, bestCost, bestFrom, bestTo) = (ratio, mass, price, i, j);
                    }
                }
            }

            if (bestTo < 0 || cost + (still * bestCost) > 2 * _renew)
            {
                break;
            }

            cost += still * bestCost;
            left = Math.Max(0, left - bestMass);
            for (int i = bestFrom; i <= bestTo; i++)
            {
                _undug[i] = 0;
            }
        }

        double rest = left / all * (left / all);
        return Math.Min(cost + (rest * _renew), _renew);
    }

    /// <summary>Cost of searching one kind's density: its cells gathered into a short row first.</summary>
    private double SearchCost(int kind)
    {
        double[] density = _density[kind];
        double mass = density.Sum();
        if (!(mass > 0))
        {
            return _renew;
        }

        List<WireSearchCosts.Cell> row = [];
        List<double> weights = [];
        WireSearchCosts.Cell? open = null;
        double gathered = 0;
        for (int i = 0; i < density.Length; i++)
        {
            WireSearchCosts.Cell cell = _atoms.Cells[i];
            bool point = cell.Kind != PlaceKind.Span;
            if (density[i] < 0.003 * mass)
            {
                if (!point)
                {
                    Close();
                }

                continue;
            }

            if (point && density[i] > 0.015 * mass)
            {
                Close();
                row.Add(cell);
                weights.Add(density[i]);
                continue;
            }

            open = open is { } started ? started with { ToMetres = cell.ToMetres, East2 = cell.East2, North2 = cell.North2 } : cell with { Kind = PlaceKind.Span };
            gathered += density[i];
            if (gathered > mass / MostRowCells)
            {
                Close();
            }
        }

        Close();
        if (row.Count == 0)
        {
            return _renew;
        }

        _wireCosts[kind].SetRow([.. row]);
        LineSearch search = new(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(weights), _wireCosts[kind]);
        return Math.Min(search.ExpectedCost ?? _renew, _renew);

        void Close()
        {
            if (open is { } closed)
            {
                row.Add(closed);
                weights.Add(gathered);
                open = null;
                gathered = 0;
            }
        }
    }
}
