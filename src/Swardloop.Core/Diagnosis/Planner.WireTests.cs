namespace Swardloop.Core.Diagnosis;

/// <summary>Readings of the whole wire from the station.</summary>
internal sealed partial class Planner
{
    private void AddWireTests()
    {
        double wire = _plan.Atoms.Where(atom => atom.InWire || atom.OtherSpread.Length > 0).Sum(atom => atom.Weight);
        AddLoopResistance();
        AddEarthReadings();
        if (wire < 0.02)
        {
            return;
        }

        List<int> edges = Edges(out double[] below);
        AddCapacitance();
        AddRatio();
        AddAcRatio();
        AddGradients();
        AddTerminalLook();
        AddWiggles();
        AddReflections();
        double series = _plan.Atoms.Where(atom => SeriesPart(atom) is not null).Sum(atom => atom.Weight);
        bool meter = _case.Can.Technician && _case.Can.TechnicianInstruments.HasFlag(Instruments.Multimeter);
        if (series > 0.02 && meter)
        {
            AddSplits(Middlemost(edges, below, 4));
            AddPinProbes(Middlemost(edges, below, 6));
            AddJointDrops();
            AddBypasses(edges, below);
        }

        if (_case.Can.Technician && _case.Can.TechnicianInstruments.HasFlag(Instruments.ToneSender))
        {
            foreach (int edge in Middlemost(edges, below, 8))
            {
                double at = EdgeMetres(edge);
                if (at > 0.5 && at < _length - 0.5)
                {
                    AddTone(at, WireEnd.A);
                    AddTone(at, WireEnd.B);
                }
            }
        }

        AddLooks();
    }

    private static double? SeriesPart(PlanAtom atom) =>
        atom.Kind is CauseKind.SeriesResistance or CauseKind.Open or CauseKind.Unsteady || atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.Ohms : null;

    /// <summary>Probability of each cell; where two faults are in question, of either.</summary>
    private double[] CellMass()
    {
        double[] mass = new double[_plan.Cells.Length];
        foreach (PlanAtom atom in _plan.Atoms)
        {
            foreach ((int cell, double share) in atom.Spread)
            {
                mass[cell] += share * atom.Weight;
            }

            foreach ((int cell, double share) in atom.OtherSpread)
            {
                mass[cell] += share * atom.Weight;
            }
        }

        return mass;
    }

    /// <summary>Cell edges with probability on both sides, and the probability below each.</summary>
    private List<int> Edges(out double[] below)
    {
        WireSearchCosts.Cell[] cells = _plan.Cells;
        double[] mass = CellMass();

        double all = mass.Sum(), sum = 0;
        below = new double[cells.Length];
        List<int> edges = [];
        for (int i = 0; i < cells.Length; i++)
        {
            sum += mass[i];
            below[i] = sum / all;
            if (i + 1 < cells.Length && below[i] > 0.02 && below[i] < 0.98)
            {
                edges.Add(i);
            }
        }

        return edges;
    }

    /// <summary>Where to probe between a cell and the next: off joints by more than a joint's reach.</summary>
    private double EdgeMetres(int cell)
    {
        const double Off = 0.6;
        WireSearchCosts.Cell left = _plan.Cells[cell], right = _plan.Cells[cell + 1];
        double at = left.ToMetres;
        if (left.Kind != PlaceKind.Span)
        {
            at = Math.Min(at + Off, (left.ToMetres + right.ToMetres) / 2);
        }
        else if (right.Kind != PlaceKind.Span)
        {
            at = Math.Max(at - Off, (left.FromMetres + right.FromMetres) / 2);
        }

        at = Math.Round(at, 1);
        if (_case.Yard.Loop.JointNear(at) is { } joint)
        {
            at = joint.AtMetres + (at >= joint.AtMetres ? 0.4 : -0.4);
        }

        return Math.Clamp(Math.Round(at, 2), 0, _length);
    }

    private void AddLoopResistance()
    {
        double[] edges = [2.5, 12, 40, 150, 600, 3000];
        foreach (Person by in Doers(StepKind.LoopResistance))
        {
            if (_history.LoopReading is not null)
            {
                continue;
            }

            double wrong = by == Person.Owner ? StatedProbabilities.OwnerReadingWrong : StatedProbabilities.TechnicianReadingWrong;
            double floor = 0.4 + _physics.Budget.StandardDeviationOhms;
            double Outcome(int outcome, double extra)
            {
                double over = OverRange.Probability(extra), sound;
                if (outcome == edges.Length + 1)
                {
                    sound = over;
                }
                else if (double.IsInfinity(extra))
                {
                    sound = outcome == edges.Length ? 1 - over : 0;
                }
                else
                {
                    double deviation = floor + (0.05 * extra);
                    double low = outcome == 0 ? double.NegativeInfinity : (edges[outcome - 1] - extra) / deviation;
                    double high = outcome == edges.Length ? double.PositiveInfinity : (edges[outcome] - extra) / deviation;
                    sound = (1 - over) * (NormalDistribution.Cumulative(high) - NormalDistribution.Cumulative(low));
                }

                return ((1 - wrong) * sound) + (wrong / (edges.Length + 2));
            }

            if (Weight(CauseKind.ShortCircuit) < 0.003)
            {
                AddTest(new(StepKind.LoopResistance) { By = by }, edges.Length + 2, (outcome, atom) => Outcome(outcome, atom.Condition.ExtraOhms), outcome => Outcome(outcome, 0));
                continue;
            }

            // Where a part of the loop may be cut short, less than the budget is an outcome of its own, the last.
            double OrLess(int outcome, double extra, double less) => outcome == edges.Length + 2 ? less * Outcome(0, extra) : outcome == 0 ? (1 - less) * Outcome(0, extra) : Outcome(outcome, extra);
            AddTest(
                new(StepKind.LoopResistance) { By = by }, edges.Length + 3, (outcome, atom) => OrLess(outcome, Math.Max(0, atom.Condition.ExtraOhms), ReadsLess(atom)), outcome => OrLess(outcome, 0, ReadsLess(0)));
        }
    }

    private static double EarthOutcome(int outcome, PlanAtom? atom)
    {
        if (atom is null || !(atom.Kind is CauseKind.Leak or CauseKind.LeakPair))
        {
            double sideLeak = PlaceTestModel.SideLeak(atom?.Kind);
            ReadOnlySpan<double> sound = [0.01, 0.07, 0.92], leaking = [0.5, 0.47, 0.03];
            return ((1 - sideLeak) * sound[outcome]) + (sideLeak * leaking[outcome]);
        }

        double Below(double ohms) => NormalDistribution.Cumulative(Math.Log(ohms / (atom.Ohms + 60)) / 0.5);
        double low = Below(3e4), middle = Below(5e5) - low;
        return outcome switch { 0 => low, 1 => middle, _ => 1 - low - middle };
    }

    private void AddEarthReadings()
    {
        foreach (StepKind kind in (ReadOnlySpan<StepKind>)[StepKind.EarthResistance, StepKind.Insulation])
        {
            if (Doers(kind).Any() && !Asked(seen => seen.Step is StepKind.EarthResistance or StepKind.Insulation))
            {
                Step step = new(kind) { TestVolts = kind == StepKind.Insulation ? StepSafety.AdvisedTestVolts : null };
                AddTest(step, 3, EarthOutcome, outcome => EarthOutcome(outcome, null));
            }
        }
    }

    /// <summary>Bins of a place along the loop, as shares of it.</summary>
    private static double ShareBin(int bin, int bins, double mean, double deviation)
    {
        double low = bin == 0 ? double.NegativeInfinity : ((double)bin / bins) - mean, high = bin == bins - 1 ? double.PositiveInfinity : ((double)(bin + 1) / bins) - mean;
        return NormalDistribution.Cumulative(high / deviation) - NormalDistribution.Cumulative(low / deviation);
    }

    private double Share(Place place) => place.AtMetres / _length;

    private double ShareDeviation(Place place) => place.LengthMetres / (_length * Math.Sqrt(12));

    private void AddCapacitance()
    {
        const int Bins = 20;
        if (!Doers(StepKind.EndCapacitance).Any() || Asked(seen => seen is Observation.EndCapacitance) || Weight(CauseKind.Open) + (_belief.ContactIsOpen(Person.Technician) * Weight(CauseKind.Unsteady)) < 0.02)
        {
            return;
        }

        double floor = 0.1e-9 / (_length * _case.Yard.Loop.CapacitanceFaradPerMetre);
        AddTest(
            new(StepKind.EndCapacitance), Bins + 1,
            (outcome, atom) =>
            {
                double open = atom.Kind == CauseKind.Unsteady ? (1 - _belief.OpenContactConducts) * _belief.ContactIsOpen(Person.Technician) : 1;
                return (atom.Kind == CauseKind.Unsteady ? atom.Place : atom.PlaceOf(CauseKind.Open)) is not { } place
                    ? Whole(outcome)
                    : (open * (outcome == Bins ? 0.02 : 0.98 * ShareBin(outcome, Bins, Share(place), 0.005 + floor + ShareDeviation(place) + (atom.Wet ? PlaceTestModel.WetShare(atom.Ohms) / 4 : 0))))
                        + ((1 - open) * Whole(outcome));
            },
            Whole);

        static double Whole(int outcome) => outcome == Bins ? 0.95 : 0.05 / Bins;
    }

    /// <summary>From where on an earth ratio says something about leaks: after the fault in series that drowned it, where there was one.</summary>
    private int RatioCounts()
    {
        double beside = _belief.Faults.Where(fault => fault.Cause.Second is CauseKind.Leak or CauseKind.LeakPair).Sum(fault => fault.Weight);
        if (beside < 0.1 * _belief.Total)
        {
            return _history.AfterFind;
        }

        return Math.Max(_history.AfterFind, _history.After(seen => seen is Observation.RepairDone ? CaseHistory.Finds(seen) : CaseHistory.ChangesWire(seen, _case.Yard.Loop)));
    }

    private void AddRatio()
    {
        const int Bins = 16;
        double leaks = Weight(CauseKind.Leak) + Weight(CauseKind.LeakPair), series = Weight(CauseKind.SeriesResistance) + Weight(CauseKind.Open);
        if (!Doers(StepKind.EarthRatio).Any() || _history.Since(RatioCounts()).Any(seen => seen is Observation.EarthRatio) || leaks + series < 0.02)
        {
            return;
        }

        // Outcomes: where it points, each once with all of the battery's volts, as over something that leaks, and once with less.
        const double Deviation = 0.013;
        double[][] table = [.. Enumerable.Range(0, 2 * Bins).Select(_ => new double[_plan.Atoms.Length + 1])];
        double[] sound = Bars(share => (0.6 * Below(share, 0.5, 0.1)) + (0.4 * share));
        for (int i = 0; i < _plan.Atoms.Length; i++)
        {
            PlanAtom atom = _plan.Atoms[i];
            switch (atom.Kind)
            {
                case CauseKind.Leak or CauseKind.LeakPair:
                    bool pair = atom.OtherSpread.Length > 0;
                    (double Probability, double Near, double Far)[] along = _belief.AlongOhms(atom.Place, pair ? atom.OtherPlace : atom.Place);
                    double[] pointed = Bars(share => along.Sum(at => at.Probability * ((0.97 * Below(share, (at.Near + at.Far) / 2,
                        pair ? 0.015 + (0.25 * (at.Far - at.Near)) : 0.012 + ShareDeviation(atom.Place))) + (0.03 * share))));
                    Fill(i, 1, pointed, pointed);
                    break;

                case CauseKind.SeriesResistance or CauseKind.Open when !(atom.OtherKind is CauseKind.Leak or CauseKind.LeakPair):
                    Fill(i, PlaceTestModel.SideLeak(atom.Kind), AcrossFaults(atom, 1), AcrossFaults(atom, 0));
                    break;

                default:
                    Fill(i, StatedProbabilities.SoundWireLeaks, sound, sound);
                    break;
            }
        }

        Fill(_plan.Atoms.Length, StatedProbabilities.SoundWireLeaks, sound, sound);
        AddTest(new(StepKind.EarthRatio), table, null, 0);

        static double Below(double share, double mean, double deviation) => NormalDistribution.Cumulative((share - mean) / deviation);

        // From a probability of a reading below each share of the battery's volts to one of each bin.
        static double[] Bars(Func<double, double> below)
        {
            double[] bars = new double[Bins];
            double before = 0;
            for (int bin = 0; bin < Bins; bin++)
            {
                double upTo = bin < Bins - 1 ? below((bin + 1.0) / Bins) : 1;
                bars[bin] = upTo - before;
                before = upTo;
            }

            return bars;
        }

        void Fill(int column, double leaks, double[] ifLeaking, double[] ifSound)
        {
            const double Right = 0.9;
            for (int bin = 0; bin < Bins; bin++)
            {
                table[2 * bin][column] = (Right * leaks * ifLeaking[bin]) + ((1 - Right) * (1 - leaks) * ifSound[bin]);
                table[(2 * bin) + 1][column] = ((1 - Right) * leaks * ifLeaking[bin]) + (Right * (1 - leaks) * ifSound[bin]);
            }
        }

        double[] AcrossFaults(PlanAtom atom, double leaks)
        {
            double other = atom.OtherKind is CauseKind.SeriesResistance or CauseKind.Open ? atom.OtherOhms : 0;
            (double At, double Part) first = (Share(atom.Place), _belief.PartOf(atom.Ohms, other)), second = (other > 0 ? Share(atom.OtherPlace) : 0, other > 0 ? _belief.PartOf(other, atom.Ohms) : 0);
            double spread = Deviation + (ShareDeviation(atom.Place) * first.Part);
            return Bars(share => PlaceTestModel.RatioMixture(leaks, first, second, spread, (mean, deviation) => Below(share, mean, deviation), share));
        }
    }

    private void AddReflections()
    {
        const int Bins = 14;
        if (!Doers(StepKind.Reflection).Any() || Weight(CauseKind.Open) + Weight(CauseKind.SeriesResistance) < 0.02)
        {
            return;
        }

        foreach (WireEnd from in Enum.GetValues<WireEnd>())
        {
            if (Asked(seen => seen is Observation.Reflection other && other.From == from))
            {
                continue;
            }

            AddTest(
                new(StepKind.Reflection) { From = from }, Bins + 1,
                (outcome, atom) => atom.PlaceOf(CauseKind.Open) is { } open ? Echo(outcome, from, open, 0.93, 0.07)
                    : atom.PlaceOf(CauseKind.SeriesResistance) is { } place && PlaceTestModel.EchoShows(atom.Ohms) is var shows
                        ? (shows * Echo(outcome, from, place, 1, 0)) + ((1 - shows) * Sound(outcome))
                    : Sound(outcome),
                Sound);
        }

        double Sound(int outcome) => outcome == Bins ? 0.6 : 0.4 * ShareBin(outcome, Bins, 1, 0.13);

        double Echo(int outcome, WireEnd from, Place place, double seen, double none)
        {
            // An echo from the other end has told the velocity, if the fault is there.
            double share = from == WireEnd.A ? Share(place) : 1 - Share(place);
            double? other = _history.Since(_history.AfterFind).OfType<Observation.Reflection>().LastOrDefault(echo => echo.From != from && echo.Kind == EchoKind.Open)?.DelaySeconds;
            double apparent = other is > 0 and { } delay ? share * PlaceTestModel.EchoMetres(delay) / (_length * Math.Max(1 - share, 0.01)) : share;
            return outcome == Bins ? none : seen * ShareBin(outcome, Bins, Math.Min(apparent, 1.5), 0.01 + ((other is > 0 ? 0.05 : 0.13) * share) + ShareDeviation(place));
        }
    }

    /// <summary>Probability that a fault of so many ohms shows in a reading.</summary>
    private double Shows(double ohms, double pathMetres) =>
        double.IsInfinity(ohms) ? 0.995
        : 0.995 * NormalDistribution.Cumulative((ohms / (0.35 + (_physics.Budget.RelativeDeviation * pathMetres * _physics.OhmsPerMetre))) - 2.5);
}
