using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>Tests at a place along the wire.</summary>
internal sealed partial class Planner
{
    private void AddSplits(IEnumerable<int> edges)
    {
        foreach (Yards.Joint joint in _case.Yard.Loop.Joints)
        {
            AddSplit(joint.AtMetres, true);
        }

        foreach (int edge in edges)
        {
            double at = EdgeMetres(edge);
            if (at > 1 && at < _length - 1)
            {
                AddSplit(at, false);
            }
        }
    }

    private void AddSplit(double at, bool joint)
    {
        if (Asked(seen => seen is Observation.SplitResistance other && Math.Abs(other.AtMetres - at) < 0.31))
        {
            return;
        }

        bool Here(Place place) => joint && place.Kind == PlaceKind.Joint && Math.Abs(place.FromMetres - at) < 0.31;
        AddTest(
            new(StepKind.SplitResistance) { AtMetres = at }, 4, (outcome, atom) => TwoSides(outcome, atom, at, Here), outcome => FourWays(outcome, 0.004, 0.004, 0, 0),
            joint ? (atom, part) => Here(part == 0 ? atom.Place : atom.OtherPlace) ? StatedProbabilities.RepairWorks : 0 : null);
    }

    /// <summary>A needle through the insulation divides the wire as a cut does, and leaves no joint.</summary>
    private void AddPinProbes(IEnumerable<int> edges)
    {
        foreach (double at in edges.Select(EdgeMetres).Where(at => at > 1 && at < _length - 1))
        {
            if (!Asked(seen => (seen is Observation.PinProbe other && Math.Abs(other.AtMetres - at) < 0.5) || (seen is Observation.SplitResistance split && Math.Abs(split.AtMetres - at) < 0.31)))
            {
                AddTest(new(StepKind.PinProbe) { AtMetres = at }, 4, (outcome, atom) => TwoSides(outcome, atom, at, _ => false), outcome => FourWays(outcome, 0.004, 0.004, 0, 0));
            }
        }
    }

    /// <summary>What both sides of a divided wire show; outcomes as in <see cref="FourWays"/>.</summary>
    private double TwoSides(int outcome, PlanAtom atom, double at, Func<Place, bool> opened)
    {
        (double A, double B) Sides(CauseKind? kind, Place place, double ohms)
        {
            if (kind is not (CauseKind.SeriesResistance or CauseKind.Open or CauseKind.Unsteady) || opened(place))
            {
                return (0.004, 0.004);
            }

            double left = PlaceTestModel.Overlap(place, -9, at);
            return kind == CauseKind.Unsteady
                ? (left * _belief.ContactIsOpen(Person.Technician), (1 - left) * _belief.ContactIsOpen(Person.Technician))
                : (left * Shows(ohms, at), (1 - left) * Shows(ohms, _length - at));
        }

        double ohms = atom.Kind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : 0;
        (double a1, double b1) = Sides(atom.Kind, atom.Place, ohms);
        double other = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
        (double a2, double b2) = Sides(atom.OtherKind, atom.OtherPlace, other);
        return FourWays(outcome, a1, b1, a2, b2);
    }

    /// <summary>Volts across each likely joint at a known current.</summary>
    private void AddJointDrops()
    {
        if (!Doers(StepKind.JointDrop).Any())
        {
            return;
        }

        foreach (double at in LikelyPoints(PlaceKind.Joint, 0.03))
        {
            if (Asked(seen => seen is Observation.JointDrop other && Math.Abs(other.AtMetres - at) < 0.31))
            {
                continue;
            }

            double Drops(PlanAtom atom) => 1 - ((1 - Drop(atom.Kind, atom.Place)) * (1 - Drop(atom.OtherKind, atom.OtherPlace)));
            double Drop(CauseKind? kind, Place place) => place.Kind == PlaceKind.Joint && Math.Abs(place.FromMetres - at) < 0.31
                ? kind switch { CauseKind.SeriesResistance => 0.98, CauseKind.Open => 0.93, CauseKind.Unsteady => Math.Max(0.005, _belief.ContactIsOpen(Person.Technician)), _ => 0.005 }
                : 0.005;
            AddTest(new(StepKind.JointDrop) { AtMetres = at }, 2, (outcome, atom) => outcome == 0 ? Drops(atom) : 1 - Drops(atom), outcome => outcome == 0 ? 0.005 : 0.995);
        }
    }

    /// <summary>Joints or terminals that hold some of the probability, likeliest first.</summary>
    private IEnumerable<double> LikelyPoints(PlaceKind kind, double leastShare)
    {
        double[] mass = CellMass();
        return [.. Enumerable.Range(0, mass.Length).Where(i => _plan.Cells[i].Kind == kind && mass[i] > leastShare)
            .OrderByDescending(i => mass[i]).Take(4).Select(i => _plan.Cells[i].FromMetres)];
    }

    private void AddAcRatio()
    {
        const int Bins = 24;
        if (!Doers(StepKind.AcRatio).Any() || Asked(seen => seen is Observation.AcRatio) || Weight(CauseKind.SeriesResistance) + Weight(CauseKind.Open) + (_belief.ContactIsOpen(Person.Technician) * Weight(CauseKind.Unsteady)) < 0.05)
        {
            return;
        }

        double Bin(int bin, double mean, double spread) =>
            (bin == Bins - 1 ? 1 : AcRatioTest.Below((bin + 1.0) / Bins, mean, spread)) - (bin == 0 ? 0 : AcRatioTest.Below((double)bin / Bins, mean, spread));
        AddTest(
            new(StepKind.AcRatio), Bins,
            (outcome, atom) =>
            {
                if (atom.Kind == CauseKind.Unsteady)
                {
                    double open = _belief.ContactIsOpen(Person.Technician);
                    return (open * Bin(outcome, 1 - Share(atom.Place), 0.03 + ShareDeviation(atom.Place))) + ((1 - open) * Bin(outcome, 0.5, 0.004));
                }

                double first = atom.Kind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : 0, second = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
                if (atom.Kind == CauseKind.Open)
                {
                    first = double.PositiveInfinity;
                }

                double mean = AcRatioTest.Share(_physics, (Share(atom.Place), first), (Share(atom.OtherPlace), second));
                return Bin(outcome, mean, first + second > 0 ? ShareDeviation(atom.Place) * _belief.PartOf(first, second) : 0.004);
            },
            outcome => Bin(outcome, 0.5, 0.004));
    }

    /// <summary>Two stakes in line with the wire, where the probability of a leak divides.</summary>
    private void AddGradients()
    {
        const double Spacing = 1;
        double leaks = Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair);
        if (leaks < 0.05 || !Doers(StepKind.EarthGradient).Any() || _history.Since(_history.AfterFind).Count(seen => seen is Observation.EarthGradient) >= MostGradients)
        {
            return;
        }

        double[] mass = new double[_plan.Cells.Length];
        foreach (PlanAtom atom in _plan.Atoms.Where(atom => atom.Kind is CauseKind.Leak or CauseKind.LeakPair))
        {
            foreach ((int cell, double share) in atom.Spread.Concat(atom.OtherSpread))
            {
                mass[cell] += share * atom.Weight;
            }
        }

        const int Parts = 8;
        double all = mass.Sum(), below = 0;
        int next = 1;
        for (int i = 0; i < mass.Length && next < Parts; i++)
        {
            below += mass[i];
            if (below < all * next / Parts || !(mass[i] > 0))
            {
                continue;
            }

            while (next < Parts && below >= all * next / Parts)
            {
                next++;
            }

            double at = Math.Round((_plan.Cells[i].FromMetres + _plan.Cells[i].ToMetres) / 2, 1);
            if (Asked(seen => seen is Observation.EarthGradient other && Math.Abs(other.AtMetres - at) < 1))
            {
                continue;
            }

            Observation[] outcomes = [.. Enum.GetValues<GradientOutcome>().Select(outcome => new Observation.EarthGradient(at, Spacing, outcome, null))];
            AddTest(
                new(StepKind.EarthGradient) { AtMetres = at, SpacingMetres = Spacing }, outcomes.Length,
                (outcome, atom) => atom.Kind is not (CauseKind.Leak or CauseKind.LeakPair) ? Of(outcome, null, default)
                    : atom.OtherSpread.Length > 0 ? 0.5 * (Of(outcome, CauseKind.Leak, atom.Place) + Of(outcome, CauseKind.Leak, atom.OtherPlace))
                    : Of(outcome, CauseKind.Leak, atom.Place),
                outcome => Of(outcome, null, default));

            double Of(int outcome, CauseKind? kind, Place place) => _belief.PlaceTests.Likelihood(outcomes[outcome], kind, place, true);
        }
    }

    private void AddTerminalLook()
    {
        double atTerminals = _plan.Atoms.Where(atom => AtTerminal(atom)).Sum(atom => atom.Weight);
        if (atTerminals < 0.01 || Asked(seen => seen is Observation.TerminalLook))
        {
            return;
        }

        foreach (Person by in Doers(StepKind.TerminalLook))
        {
            TerminalState[] states = Enum.GetValues<TerminalState>();
            AddTest(
                new(StepKind.TerminalLook) { By = by }, states.Length, (outcome, atom) => TerminalLookTest.Probability(states[outcome], AtTerminal(atom)),
                outcome => TerminalLookTest.Probability(states[outcome], false));
        }

        static bool AtTerminal(PlanAtom atom) => (atom.InWire && atom.Place.Kind == PlaceKind.Terminal) || (atom.OtherSpread.Length > 0 && atom.OtherPlace.Kind == PlaceKind.Terminal);
    }

    private void AddWiggles()
    {
        if (Weight(CauseKind.Unsteady) < 0.1 || !Doers(StepKind.Wiggle).Any())
        {
            return;
        }

        foreach (double at in LikelyPoints(PlaceKind.Joint, 0.03).Concat(LikelyPoints(PlaceKind.Terminal, 0.03)))
        {
            if (Asked(seen => seen is Observation.Wiggle other && Math.Abs(other.AtMetres - at) < 0.31))
            {
                continue;
            }

            double Jumps(PlanAtom atom) => WiggleTest.Jumps(atom.Kind, atom.InWire && atom.Place.Kind != PlaceKind.Span && Math.Abs(atom.Place.FromMetres - at) < 0.31);
            AddTest(new(StepKind.Wiggle) { AtMetres = at }, 2, (outcome, atom) => outcome == 0 ? Jumps(atom) : 1 - Jumps(atom), outcome => outcome == 0 ? 0.03 : 0.97);
        }
    }

    /// <summary>Outcome 0: both sides well; 1: A high; 2: B high; 3: both. Each fault shows on one side or on none.</summary>
    private static double FourWays(int outcome, double a1, double b1, double a2, double b2)
    {
        double none1 = Math.Max(0, 1 - a1 - b1), none2 = Math.Max(0, 1 - a2 - b2);
        double well = none1 * none2, a = (a1 * (none2 + a2)) + (none1 * a2), b = (b1 * (none2 + b2)) + (none1 * b2);
        return outcome switch { 0 => well, 1 => a, 2 => b, _ => Math.Max(0, 1 - well - a - b) };
    }

    private void AddBypasses(List<int> edges, double[] below)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        int firstCell = Array.FindIndex(below, share => share > 0.004), lastCell = Array.FindIndex(below, share => share > 0.996);
        double start = firstCell <= 0 ? 0 : Math.Max(0, EdgeMetres(firstCell - 1) - 0.3), end = lastCell < 0 || lastCell + 1 >= cells.Length ? _length : Math.Min(_length, EdgeMetres(lastCell) + 0.3);
        foreach (int edge in Middlemost(edges, below, 10))
        {
            AddBypass(start, EdgeMetres(edge));
            AddBypass(EdgeMetres(edge), end);
        }

        IEnumerable<(int A, int B)> windows =
            from a in edges from b in edges where b > a && below[b] - below[a] is > 0.35 and < 0.65 orderby Math.Abs(below[b] - below[a] - 0.5) select (a, b);
        foreach ((int a, int b) in windows.Take(12))
        {
            AddBypass(EdgeMetres(a), EdgeMetres(b));
        }
    }

    /// <summary>The edges nearest to having half of the probability on either side, in order along the wire.</summary>
    private static IEnumerable<int> Middlemost(List<int> edges, double[] below, int count) =>
        edges.OrderBy(edge => Math.Abs(below[edge] - 0.5)).Take(count).Order();

    private void AddBypass(double from, double to)
    {
        (from, to) = (Math.Round(from, 2), Math.Round(to, 2));
        if (to - from < 0.8 || to - from > _length - 1
            || Asked(seen => seen is Observation.Bypass other && Math.Abs(other.FromMetres - from) < 0.5 && Math.Abs(other.ToMetres - to) < 0.5))
        {
            return;
        }

        double Outside(CauseKind? kind, Place place, double ohms) =>
            kind == CauseKind.Unsteady ? _belief.ContactIsOpen(Person.Technician) * (1 - PlaceTestModel.Overlap(place, from, to))
            : kind is CauseKind.SeriesResistance or CauseKind.Open
                ? (1 - PlaceTestModel.Overlap(place, from, to)) * Shows(ohms, _length)
                : 0;
        double Well(PlanAtom atom) => 0.996 * (1 - Outside(atom.Kind, atom.Place, atom.Ohms)) * (1 - Outside(atom.OtherKind, atom.OtherPlace, atom.OtherOhms));
        AddTest(
            new(StepKind.Bypass) { FromMetres = from, ToMetres = to }, 2,
            (outcome, atom) => outcome == 0 ? Well(atom) : 1 - Well(atom), outcome => outcome == 0 ? 0.996 : 0.004);
    }

    private void AddTone(double at, WireEnd from)
    {
        if (Weight(CauseKind.Open) + Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair) < 0.05
            || _history.Since(_history.AfterFind).Count(seen => seen is Observation.ToneTrace) >= MostTones
            || Asked(seen => seen is Observation.ToneTrace other && Math.Abs(other.AtMetres - at) < 1))
        {
            return;
        }

        CaseEvidence.Item[][] outcomes = Tones(at, from, null);
        double Tone(int outcome, PlanAtom atom)
        {
            if (atom.Kind == CauseKind.LeakPair && atom.OtherSpread.Length > 0)
            {
                return 0.5 * (PlaceTestModel.LastTone(outcomes[outcome], CauseKind.Leak, atom.Place, true) + PlaceTestModel.LastTone(outcomes[outcome], CauseKind.Leak, atom.OtherPlace, true));
            }

            (CauseKind kind, Place place) = atom.PlaceOf(CauseKind.Open) is { } open ? (CauseKind.Open, open) : (atom.Kind, atom.Place);
            return PlaceTestModel.LastTone(outcomes[outcome], kind, place, atom.Wet);
        }

        AddTest(
            new(StepKind.ToneTrace) { AtMetres = at, From = from }, outcomes.Length, Tone,
            outcome => PlaceTestModel.LastTone(outcomes[outcome], null, default, false));
    }

    /// <summary>For each strength of a tone at a place on the loop (null) or a guide: the tones heard along it since a fault was last found, this one last.</summary>
    private CaseEvidence.Item[][] Tones(double at, WireEnd from, GuidePhysics? guide)
    {
        Observation.ToneTrace[] heard = [.. HeardOn(guide)];
        return [.. Enum.GetValues<ToneStrength>().Select(strength => (CaseEvidence.Item[])[.. heard.Append(new(at, from, strength)).Select(tone => new CaseEvidence.Item(tone, 0, 0, 1))])];
    }

    private IEnumerable<Observation.ToneTrace> HeardOn(GuidePhysics? guide) =>
        _history.Since(_history.AfterFind).OfType<Observation.ToneTrace>().Where(tone => ReferenceEquals(_physics.GuideOn(tone), guide));
}
