using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Trial;

/// <summary>A careful person with a printed card: lamp, outlet, supply, ohms, halve at joints, then dig, then swap parts, with the ordinary
/// good habits: the owner is asked first, a break is measured by capacitance or traced by tone, a fault between two joints is looked for before
/// it is dug for, and resistance is judged against the wire that is there. Never reckons with probabilities. Common practice, no source.</summary>
public sealed class PracticeRoutine
{
    private const int MostSteps = 80;
    private readonly TrialWorld _world;
    private readonly Loop _loop;
    private readonly ServiceCase _start;
    private readonly double _healthyOhms;
    private bool _done;

    private PracticeRoutine(TrialYard trial)
    {
        _world = new(trial);
        _start = trial.Case;
        _loop = trial.Case.Yard.Loop;

        // Annealed copper at the soil's temperature, references A3.
        _healthyOhms = _loop.LengthMetres * 1.7241e-8 / _loop.Conductor.AreaSquareMetres!.Value
            * (1 + (0.00393 * (trial.Case.Yard.Soil.TemperatureCelsius - 20)));
    }

    /// <summary>Works through the card; the returned world holds its account.</summary>
    public static TrialWorld Play(TrialYard trial)
    {
        PracticeRoutine routine = new(trial);
        routine.Work();
        return routine._world;
    }

    private bool Technicians => _world.Case.OnSite;

    /// <summary>Who does what either could: whoever is there.</summary>
    private Person Whoever => Technicians || !_start.Can.Owner ? Person.Technician : Person.Owner;

    private void Work()
    {
        LampState lamp = Noted<Observation.StationLamp>()?.State ?? ((Observation.StationLamp)Do(new(StepKind.StationLamp) { By = Whoever })).State;
        if (lamp == LampState.Off && Dark())
        {
            return;
        }

        StartOutcome start = Noted<Observation.MowerStart>()?.Outcome
            ?? ((Observation.MowerStart)Do(new(StepKind.MowerStart) { Place = StartPlace.MidLawn, By = Whoever })).Outcome;
        bool ownerMeasures = !Technicians && _start.Can.Owner && _start.Can.OwnerInstruments.HasFlag(Instruments.Multimeter);
        bool bad = Measure(ownerMeasures ? Person.Owner : Person.Technician, out bool broken);
        if (bad && ownerMeasures)
        {
            bad = Measure(Person.Technician, out broken);
        }

        for (int round = 0; round < 4 && bad && !_done; round++)
        {
            FindInWire(broken);
            bad = !_done && Measure(Person.Technician, out broken);
        }

        if (!_done && bad)
        {
            Mend(new(StepKind.RenewLoop));
        }

        if (!_done && start == StartOutcome.Outside)
        {
            Mend(new(StepKind.RemakeTerminals));
        }

        if (!_done)
        {
            SoundOhms(start);
        }
    }

    private bool Dark()
    {
        if (Do(new(StepKind.OutletCheck) { By = Whoever }) is Observation.OutletCheck { Live: false } && Mend(new(StepKind.RestoreMains) { By = Whoever }))
        {
            return true;
        }

        if (Do(new(StepKind.SupplyVoltage)) is Observation.SupplyVoltage supply && supply.Volts < 0.8 * supply.NominalVolts)
        {
            return Mend(new(StepKind.ReplaceSupply));
        }

        return Do(new(StepKind.StationLamp)) is Observation.StationLamp { State: LampState.Off } && Mend(new(StepKind.ReplaceStation));
    }

    // ---- A fault that the ohmmeter sees ----------------------------------------------------------------------------

    private void FindInWire(bool broken)
    {
        if (broken && _start.Can.TechnicianInstruments.HasFlag(Instruments.CapacitanceMeter) && ByCapacitance())
        {
            return;
        }

        double low = 0, high = _loop.LengthMetres;
        while (_loop.Joints.Where(joint => joint.AtMetres > low + 0.01 && joint.AtMetres < high - 0.01).ToArray() is { Length: > 0 } inside)
        {
            double at = inside[inside.Length / 2].AtMetres;
            Side side = Halve(at);
            if (side == Side.Neither)
            {
                // Both sides are sound: it was this joint.
                Check();
                return;
            }

            (low, high) = side == Side.A ? (low, at) : (at, high);
        }

        if ((low == 0 || high == _loop.LengthMetres) && (Mend(new(StepKind.RemakeTerminals), check: false) || !Measure(Person.Technician, out _)))
        {
            Check();
            return;
        }

        InSpan(low, high, broken);
    }

    private bool ByCapacitance()
    {
        Observation.EndCapacitance seen = (Observation.EndCapacitance)Do(new(StepKind.EndCapacitance));
        double both = seen.FaradA + seen.FaradB, length = _loop.LengthMetres;

        // Each end reading most of the whole wire means that it is not parted.
        if (!(both > 0) || both > 1.5 * length * _loop.CapacitanceFaradPerMetre)
        {
            return false;
        }

        double at = length * seen.FaradA / both, unsure = Math.Max(2, 0.025 * length);
        if (at < unsure / 2 || at > length - (unsure / 2))
        {
            Mend(new(StepKind.RemakeTerminals), check: false);
            if (!Measure(Person.Technician, out _))
            {
                return Check();
            }
        }

        foreach (Joint joint in _loop.Joints.Where(joint => Math.Abs(joint.AtMetres - at) < unsure).OrderBy(joint => Math.Abs(joint.AtMetres - at)))
        {
            Mend(new(StepKind.RemakeJoint) { AtMetres = joint.AtMetres }, check: false);
            if (!Measure(Person.Technician, out _))
            {
                return Check();
            }
        }

        InSpan(Math.Max(0, at - unsure), Math.Min(length, at + unsure), broken: true);
        return true;
    }

    /// <summary>No joint between: look, trace, cut, dig.</summary>
    private void InSpan(double low, double high, bool broken)
    {
        (double from, double to) = (low, high);
        if (Looks(from, to))
        {
            while (to - from > 4)
            {
                double middle = (from + to) / 2;
                (from, to) = Looks(from, middle) ? (from, middle) : (middle, to);
            }

            if (Dig(from - 0.5, to + 0.5))
            {
                return;
            }

            (from, to) = (low, high);
        }

        if (broken && to - from > 5 && _start.Can.TechnicianInstruments.HasFlag(Instruments.ToneSender))
        {
            while (to - from > 4)
            {
                double middle = (from + to) / 2;
                bool strong = Do(new(StepKind.ToneTrace) { AtMetres = middle, From = WireEnd.A }) is Observation.ToneTrace { Strength: ToneStrength.Strong };
                (from, to) = strong ? (middle, to) : (from, middle);
            }

            if (Dig(from - 1, to + 1))
            {
                return;
            }

            (from, to) = (low, high);
        }

        // A cut costs as much as mending some ten metres saves.
        while (to - from > 10 && !_done)
        {
            double middle = (from + to) / 2;
            Side side = Halve(middle);
            if (side == Side.Neither)
            {
                Check();
                return;
            }

            (from, to) = side == Side.A ? (from, middle) : (middle, to);
        }

        Dig(from - 0.5, to + 0.5);
    }

    private bool Looks(double from, double to) =>
        Do(new(StepKind.Look) { FromMetres = from, ToMetres = to }) is Observation.Look { Damage: true };

    private bool Dig(double from, double to)
    {
        Mend(new(StepKind.MendSpan) { FromMetres = Math.Max(0, from), ToMetres = Math.Min(_loop.LengthMetres, to) }, check: false);
        return !Measure(Person.Technician, out _) && Check();
    }

    private Side Halve(double at)
    {
        Observation.SplitResistance seen = (Observation.SplitResistance)Do(new(StepKind.SplitResistance) { AtMetres = at });
        bool Bad(double? ohms, double metres) => !(ohms - seen.LeadOhms < (1.5 * _healthyOhms * metres / _loop.LengthMetres) + 3);
        return Bad(seen.OhmsA, at) ? Side.A : Bad(seen.OhmsB, _loop.LengthMetres - at) ? Side.B : Side.Neither;
    }

    private bool Measure(Person by, out bool broken)
    {
        Observation.LoopResistance seen = (Observation.LoopResistance)Do(new(StepKind.LoopResistance) { By = by });
        broken = !(seen.Ohms < 15_000);
        return !(seen.Ohms - seen.LeadOhms < (1.5 * _healthyOhms) + 3);
    }

    // ---- Ohms are as they should be ------------------------------------------------------------------------------------

    private void SoundOhms(StartOutcome start)
    {
        // What the owner saw of the lamp is seen again by whoever came.
        if (Do(new(StepKind.StationLamp)) is Observation.StationLamp { State: LampState.Off } && Dark())
        {
            return;
        }

        Yard yard = _start.Yard;
        bool crossed = (Noted<Observation.WireCrossing>()
            ?? Do(new(StepKind.WireCrossing) { NearMetal = yard.Metal.Count > 0, By = Whoever })) is Observation.WireCrossing { Crossed: true };
        if (crossed && Leaks())
        {
            return;
        }

        if (yard.Neighbours.Count > 0
            && Do(new(StepKind.NeighbourOff) { By = Whoever }) is Observation.NeighbourOff { Cured: true }
            && Mend(new(StepKind.RecodeStation)))
        {
            return;
        }

        bool otherMowerRuns = Do(new(StepKind.SubstituteMower)) is Observation.SubstituteMower { Runs: true };
        if (otherMowerRuns)
        {
            StepKind[] order = start == StartOutcome.NoSignal ? [StepKind.ServiceReceiver, StepKind.ServiceDrive] : [StepKind.ServiceDrive, StepKind.ServiceReceiver];
            if (Array.Exists(order, kind => Mend(new(kind))))
            {
                return;
            }
        }

        bool testLoopRuns = Do(new(StepKind.SubstituteLoop)) is Observation.SubstituteLoop { Runs: true };
        if (!testLoopRuns
            && ((Do(new(StepKind.OutletCheck)) is Observation.OutletCheck { Live: false } && Mend(new(StepKind.RestoreMains)))
                || (Do(new(StepKind.SupplyVoltage)) is Observation.SupplyVoltage supply
                    && Mend(new(supply.Volts < 0.8 * supply.NominalVolts ? StepKind.ReplaceSupply : StepKind.ReplaceStation)))))
        {
            return;
        }

        if (Mend(new(StepKind.RemakeTerminals)) || (!crossed && Leaks()))
        {
            return;
        }

        bool turnsBack = Do(new(StepKind.MowerReach)) is Observation.MowerReach { AtLeast: false };
        StepKind[] last = turnsBack
            ? [StepKind.RelayLayout, StepKind.RecodeStation, StepKind.ServiceReceiver, StepKind.ServiceDrive, StepKind.ReplaceStation, StepKind.RenewLoop]
            : [StepKind.RecodeStation, StepKind.ServiceDrive, StepKind.ServiceReceiver, StepKind.RenewLoop, StepKind.RelayLayout, StepKind.ReplaceStation];
        foreach (StepKind kind in last)
        {
            if (Mend(new(kind)))
            {
                return;
            }
        }

        Mend(new(StepKind.ReplaceSupply));
    }

    /// <summary>An earth reading far below a sound wire's: beside metal a pair is looked for, elsewhere one place that the battery test points at.</summary>
    private bool Leaks()
    {
        const double SoundOhms = 50_000;
        if (!(Do(new(StepKind.EarthResistance)) is Observation.EarthResistance seen && seen.Ohms < SoundOhms))
        {
            return false;
        }

        if (_start.Yard.Metal.Count > 0 && BesideMetal())
        {
            return true;
        }

        if (!_start.Can.TechnicianInstruments.HasFlag(Instruments.Battery)
            || Do(new(StepKind.EarthRatio)) is not Observation.EarthRatio ratio || !(ratio.VoltsA + ratio.VoltsB > 0))
        {
            return false;
        }

        double at = _loop.LengthMetres * ratio.VoltsA / (ratio.VoltsA + ratio.VoltsB), unsure = 1 + (0.01 * _loop.LengthMetres);
        return Mend(new(StepKind.MendSpan) { FromMetres = Math.Max(0, at - unsure), ToMetres = Math.Min(_loop.LengthMetres, at + unsure) });
    }

    /// <summary>Two damaged places beside metal: look along it; else the battery test points between them, and one side of that is dug.</summary>
    private bool BesideMetal()
    {
        double[] beside = [.. Enumerable.Range(0, (int)(2 * _loop.LengthMetres)).Select(i => 0.5 * i)
            .Where(at => _start.Yard.Metal.Any(metal => metal.Path.NearestTo(_loop.Path.PointAt(at)).DistanceMetres <= 1.5))];
        if (beside.Length == 0)
        {
            return false;
        }

        (double low, double high) = LongestRun(beside);
        if (Looks(low, high))
        {
            (double from, double to) = (low, high);
            while (to - from > 4)
            {
                double middle = (from + to) / 2;
                (from, to) = Looks(from, middle) ? (from, middle) : (middle, to);
            }

            if (Mend(new(StepKind.MendSpan) { FromMetres = Math.Max(0, from - 0.5), ToMetres = Math.Min(_loop.LengthMetres, to + 0.5) }))
            {
                return true;
            }
        }

        double between = (low + high) / 2;
        if (_start.Can.TechnicianInstruments.HasFlag(Instruments.Battery) && Do(new(StepKind.EarthRatio)) is Observation.EarthRatio seen && seen.VoltsA + seen.VoltsB > 0)
        {
            between = Math.Clamp(_loop.LengthMetres * seen.VoltsA / (seen.VoltsA + seen.VoltsB), low + 0.5, high - 0.5);
        }

        (double, double) shorter = between - low < high - between ? (low, between) : (between, high);
        (double, double) longer = between - low < high - between ? (between, high) : (low, between);
        foreach ((double from, double to) in new[] { shorter, longer })
        {
            Step dig = new(StepKind.MendSpan) { FromMetres = from, ToMetres = to };
            if (Price(dig) > Price(new(StepKind.RenewLoop)))
            {
                break;
            }

            if (Mend(dig))
            {
                return true;
            }
        }

        return false;
    }

    private double Price(Step step) =>
        _world.Effort(step) is var (minutes, parts) ? (minutes / 60 * _start.Rates.LabourPerHour) + parts : 0;

    private static (double Low, double High) LongestRun(double[] places)
    {
        (double Low, double High) best = (places[0], places[0]);
        double start = places[0];
        for (int i = 1; i < places.Length; i++)
        {
            if (places[i] - places[i - 1] > 0.75)
            {
                start = places[i];
            }

            if (places[i] - start > best.High - best.Low)
            {
                best = (start, places[i]);
            }
        }

        return best;
    }

    // ---- Doing ---------------------------------------------------------------------------------------------------------

    private T? Noted<T>()
        where T : Observation => _start.Observations.OfType<T>().FirstOrDefault();

    private Observation Do(Step step) =>
        _world.Steps < MostSteps ? _world.Perform(step) : _world.Observe(step);

    /// <summary>Repairs and checks; true when the mower runs.</summary>
    private bool Mend(Step step, bool check = true)
    {
        Do(step);
        return check && Check();
    }

    private bool Check()
    {
        _done = Do(new(StepKind.MowerCheck) { By = Whoever }) is Observation.MowerCheck { Runs: true };
        return _done;
    }

    private enum Side
    {
        A,
        B,
        Neither,
    }
}
