using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Trial;

/// <summary>A simulated yard being worked on: does steps, answers with what would be seen, and keeps the account. Not thread-safe; one per run.</summary>
/// <remarks>Errors are fixed per question and person: asking again mostly brings the same error. What a repair ends is the contract's
/// column 'ends the fault when'; where that leaves a choice: renewing the loop also renews its terminal joints, but leaves swapped ends swapped;
/// a joint remade where none is does nothing; cutting sound wire leaves a joint behind that later counts as known.</remarks>
public sealed partial class TrialWorld
{
    /// <summary>Share of the lawn that must be heard for a mower to be said to run.</summary>
    public const double EnoughHeard = 0.98;

    private const double AskedAgainAnew = 0.1;
    private const double VoltmeterOhms = 10e6;
    private const double BatteryVolts = 9;
    private const double OverRangeOhms = 20e6;

    private readonly TrialYard _trial;
    private readonly WorldHabits _habits;
    private readonly YardPhysics _physics;
    private readonly Loop _loop;
    private readonly Chance _chance;
    private readonly List<ActiveFault> _faults;
    private readonly List<double> _newJoints = [];
    private readonly Dictionary<string, int> _asked = [];
    private readonly List<Payment> _payments = [];
    private bool _laidAnew;
    private bool _travelled;

    /// <summary>Starts with the yard as the complaint finds it.</summary>
    public TrialWorld(TrialYard trial)
        : this(trial, trial.Faults)
    {
    }

    internal TrialWorld(TrialYard trial, Fault onlyFault)
        : this(trial, [onlyFault])
    {
    }

    private TrialWorld(TrialYard trial, IEnumerable<Fault> faults)
    {
        _trial = trial;
        _habits = trial.Habits;
        _physics = trial.Physics;
        _loop = trial.Case.Yard.Loop;
        _chance = trial.Chance;
        _faults = [.. faults.Select(fault => new ActiveFault(fault))];
        Case = trial.Case;
    }

    /// <summary>The case so far: what was done is appended, and the technician who came is there.</summary>
    public ServiceCase Case { get; private set; }

    /// <summary>Money spent: minutes at their rates, travel once, parts.</summary>
    public double Cost { get; private set; }

    /// <summary>The account, step by step.</summary>
    public IReadOnlyList<Payment> Payments => _payments;

    /// <summary>Steps done, checks included.</summary>
    public int Steps { get; private set; }

    /// <summary>Whether the mower truly runs.</summary>
    public bool MowerRuns => HasSignal && !_faults.Any(Disturbs) && HeardShare(LoopOhms) >= EnoughHeard;

    /// <summary>How many times something broken was mended, one place of a pair counted as one.</summary>
    public int Mended { get; private set; }

    /// <summary>Faults still there.</summary>
    public IEnumerable<Fault> Remaining => _faults.Where(active => active.Present).Select(active => active.Fault);

    private bool Powered => !Has(CauseKind.NoMains) && !Has(CauseKind.Supply);

    private bool HasSignal => Powered && !Has(CauseKind.Station);

    /// <summary>Does one step: its cost is paid, its consequences happen, and what was seen is appended to the case.</summary>
    /// <exception cref="TrialRefusalException">The step cannot be done here: no such place, person or instrument.</exception>
    public Observation Perform(Step step)
    {
        Refuse(step);
        (double minutes, double parts) = Effort(step);
        bool technician = step.By == Person.Technician;
        double rate = technician ? Case.Rates.LabourPerHour : Case.Rates.OwnerPatiencePerHour;
        double money = (minutes / 60 * rate) + parts, travel = technician && !Case.OnSite && !_travelled ? Case.Rates.TravelPerVisit : 0;
        Cost += money + travel;
        _travelled |= technician;
        int mended = Mended;
        Observation seen = Observe(step);
        _payments.Add(new(step.Kind, step.By, money, travel, Mended > mended));
        Steps++;
        Case = Case with { Observations = [.. Case.Observations, seen], OnSite = Case.OnSite || technician };
        return seen;
    }

    /// <summary>Minutes the person takes, and parts in money, by the contract's table.</summary>
    public (double Minutes, double Parts) Effort(Step step)
    {
        StepFacts facts = StepCatalogue.Of(step.Kind);
        double metres = step.Kind switch
        {
            StepKind.Bypass => _loop.Path.PointAt(step.FromMetres!.Value).DistanceTo(_loop.Path.PointAt(step.ToMetres!.Value)),
            StepKind.RenewLoop or StepKind.RelayLayout => _loop.LengthMetres,
            _ when step.FromMetres is { } from && step.ToMetres is { } to => Math.Abs(to - from),
            _ => 0,
        };
        bool joint = step.Kind == StepKind.SplitResistance && JointAt(step.AtMetres!.Value) is not null;
        double minutes = Math.Max(facts.LeastMinutes, ((joint ? facts.JointMinutes : null) ?? facts.Minutes) + (facts.MinutesPerMetre * metres));
        double parts = ((joint ? facts.JointParts : null) ?? facts.Parts) + (facts.PartsPerMetre * metres);
        return (step.By == Person.Owner ? minutes * StepFacts.OwnerSlowness : minutes, parts);
    }

    internal double SoundHeardShare(double spare) =>
        _physics.ShareWithField(spare * NeededField(_loop.LengthMetres * _habits.WireOhmsPerMetre));

    internal string Complaint(Chance chance)
    {
        (string, double)[] words = Has(CauseKind.NoMains) || Has(CauseKind.Supply) || Has(CauseKind.Station)
            ? [("the station is dark", 2), ("the mower does not start", 1), ("no signal", 1)]
            : Has(CauseKind.Open) || Has(CauseKind.Receiver) ? [("the mower says no signal", 3), ("it stands still and blinks", 1)]
            : Has(CauseKind.EndsSwapped) ? [("it thinks it is outside", 1)]
            : Has(CauseKind.LeakPair) || Has(CauseKind.Leak) ? [("drives over the wire by the fence", 2), ("bumps against the shed again and again", 1)]
            : Has(CauseKind.Crosstalk) ? [("turns round near the neighbour's", 1), ("behaves oddly at times", 1)]
            : Has(CauseKind.Drive) ? [("goes in circles", 1), ("turns at random", 1)]
            : [("stops in the middle of the lawn", 2), ("turns back too early", 1), ("hugs the wire", 1)];
        return chance.Happens("vague words", 0.3) ? "it does not mow any more" : chance.Pick("words", words);
    }

    /// <summary>What a step shows, and what it does, without account or refusal.</summary>
    internal Observation Observe(Step step)
    {
        Observation seen = step.Kind switch
        {
            StepKind.OutletCheck => new Observation.OutletCheck(Answer(step, !Has(CauseKind.NoMains))),
            StepKind.SupplyVoltage => SupplyVoltage(step),
            StepKind.StationLamp => new Observation.StationLamp(Lamp(step)),
            StepKind.MowerStart => new Observation.MowerStart(step.Place ?? StartPlace.MidLawn, Start(step)),
            StepKind.MowerReach => Reach(step),
            StepKind.FollowWire => new Observation.FollowWire(Follow(step)),
            StepKind.WireCrossing => new Observation.WireCrossing(Draw(step, Crossing(step)), step.AtMetres, step.NearMetal ?? false),
            StepKind.LoopResistance => LoopReading(step),
            StepKind.EarthResistance => new Observation.EarthResistance(
                Read(step, EarthOhms(OverRangeOhms) is var ohms ? ohms * Math.Exp(0.08 * Fresh(step, "soil")) : 0).Shown),
            StepKind.Insulation => Insulation(step),
            StepKind.EarthRatio => EarthRatio(step),
            StepKind.EndCapacitance => EndCapacitance(step),
            StepKind.SplitResistance => Split(step),
            StepKind.Bypass => Bypass(step),
            StepKind.ToneTrace => new Observation.ToneTrace(step.AtMetres!.Value, step.From!.Value, Tone(step)),
            StepKind.Reflection => Reflection(step),
            StepKind.Look => new Observation.Look(step.FromMetres!.Value, step.ToMetres!.Value, SeesDamage(step)),
            StepKind.SubstituteLoop => new Observation.SubstituteLoop(Draw(step, HasSignal && !Has(CauseKind.Receiver), Has(CauseKind.Drive) ? 0.8 : Right(step))),
            StepKind.SubstituteMower => new Observation.SubstituteMower(Draw(step, RunsWithAnotherMower, Right(step))),
            StepKind.NeighbourOff => new Observation.NeighbourOff(Answer(step, Has(CauseKind.Crosstalk) && RunsWithout(CauseKind.Crosstalk))),
            StepKind.MowerCheck => new Observation.MowerCheck(MowerRuns),
            StepKind.AcRatio => AcRatio(step),
            StepKind.PinProbe => PinProbe(step),
            StepKind.JointDrop => JointDrop(step),
            StepKind.EarthGradient => EarthGradient(step),
            StepKind.TerminalLook => new Observation.TerminalLook(LookAtTerminals(step)),
            StepKind.Wiggle => new Observation.Wiggle(step.AtMetres!.Value, Draw(step, false, 0.97)),
            StepKind.ChargeCheck => new Observation.ChargeCheck(Answer(step, Powered && !(Has(CauseKind.Station) && _chance.Happens("station feeds no charger", 0.5)))),
            StepKind.GuideResistance => new Observation.NotDone(step),
            _ => Repair(step),
        };
        return seen with { By = step.By };
    }

    // ---- What is there -------------------------------------------------------------------------------------------------

    private bool Has(CauseKind kind) => _faults.Exists(active => active.Present && active.Fault.Kind == kind);

    private IEnumerable<Fault> SeriesFaults =>
        Remaining.Where(fault => fault.Kind is CauseKind.SeriesResistance or CauseKind.Open);

    private double LoopOhms => OhmsBetween(0, _loop.LengthMetres, withTerminals: true);

    private bool RunsWithout(CauseKind kind) => HasSignal && HeardShare(LoopOhms) >= EnoughHeard
        && !_faults.Any(active => active.Fault.Kind != kind && Disturbs(active));

    private bool RunsWithAnotherMower => HasSignal && HeardShare(LoopOhms) >= EnoughHeard
        && !_faults.Any(active => active.Fault.Kind is not (CauseKind.Receiver or CauseKind.Drive) && Disturbs(active));

    private static bool Disturbs(ActiveFault active) => active.Present && active.Fault.Harmful && active.Fault.Kind
        is CauseKind.EndsSwapped or CauseKind.Leak or CauseKind.LeakPair or CauseKind.Crosstalk or CauseKind.Receiver or CauseKind.Drive;

    private double NeededField(double loopOhms)
    {
        double reactance = 2 * Math.PI * _trial.Case.Yard.Station.FrequencyHertz * _physics.InductanceHenry;
        double total = _habits.SourceOhms + loopOhms;
        return Math.Sqrt((total * total) + (reactance * reactance)) / _habits.ReachConstantOhmMetres;
    }

    // A layout that was laid anew covers its lawn.
    private double HeardShare(double loopOhms) => _physics.ShareWithField(NeededField(loopOhms) / (_laidAnew ? 3 : 1));

    /// <summary>Wire, joints and faults between two places, in series. A fault at either edge is outside, unless terminals count.</summary>
    private double OhmsBetween(double from, double to, bool withTerminals)
    {
        double joints = _loop.Joints.Count(joint => joint.AtMetres > from && joint.AtMetres < to) + (withTerminals ? 2 : 1);
        return ((to - from) * _habits.WireOhmsPerMetre) + (joints * _habits.JointOhms) + SeriesFaults
            .Where(fault => (fault.AtMetres > from && fault.AtMetres < to)
                || (fault.AtMetres == from && from == 0) || (fault.AtMetres == to && to == _loop.LengthMetres))
            .Sum(fault => fault.Ohms);
    }

    private IEnumerable<(double AtMetres, double Ohms)> Leaks()
    {
        foreach (ActiveFault active in _faults.Where(active => active.Present))
        {
            Fault fault = active.Fault;
            switch (fault.Kind)
            {
                case CauseKind.Leak:
                    yield return (fault.AtMetres!.Value, fault.Ohms);
                    break;
                case CauseKind.LeakPair:
                    if (!active.FirstMended)
                    {
                        yield return (fault.AtMetres!.Value, fault.Ohms);
                    }

                    if (!active.SecondMended)
                    {
                        yield return (fault.SecondAtMetres!.Value, fault.SecondOhms);
                    }

                    break;
                default:
                    if (double.IsFinite(fault.SideLeakOhms))
                    {
                        yield return (fault.AtMetres!.Value, fault.SideLeakOhms);
                    }

                    break;
            }
        }
    }

    private double EarthOhms(double beyond) =>
        1 / ((1 / _habits.InsulationOhms) + Leaks().Sum(leak => 1 / (leak.Ohms + 50))) is var ohms && ohms < beyond ? ohms : double.PositiveInfinity;

    private double? JointAt(double atMetres)
    {
        double[] known = [0, _loop.LengthMetres, .. _loop.Joints.Select(joint => joint.AtMetres), .. _newJoints];
        double nearest = known.MinBy(joint => Math.Abs(joint - atMetres));
        return Math.Abs(nearest - atMetres) <= Loop.JointReachMetres ? nearest : null;
    }

    // ---- How answers err -----------------------------------------------------------------------------------------------

    private double Right(Step step) => step.By == Person.Owner ? _habits.OwnerRight : _habits.TechnicianRight;

    /// <summary>The share at which this question is answered, the same each time but for one time in ten.</summary>
    private double Share(Step step, string detail = "")
    {
        string question = $"{step.Kind} {step.By} {step.Place} {step.From} {step.NearMetal} {step.AtMetres:F0} {detail}";
        int again = _asked[question] = _asked.GetValueOrDefault(question) + 1;
        string first = $"{question} once";
        return again > 1 && _chance.Happens($"{question} anew {again}", AskedAgainAnew) ? _chance.Uniform($"{question} {again}") : _chance.Uniform(first);
    }

    private T Draw<T>(Step step, params (T Value, double Weight)[] outcomes) => Chance.Quantile(Share(step), outcomes);

    private bool Draw(Step step, double chance) => Share(step) < chance;

    private bool Draw(Step step, bool truth, double right) => Share(step) < right ? truth : !truth;

    private bool Answer(Step step, bool truth) => Draw(step, truth, Right(step));

    /// <summary>A standard normal that is new at every reading.</summary>
    private double Fresh(Step step, string what)
    {
        string question = $"{step.Kind} {what} fresh";
        int again = _asked[question] = _asked.GetValueOrDefault(question) + 1;
        return _chance.Normal($"{question} {again}");
    }

    /// <summary>A meter's reading: its own steady error within its limits, the wandering of a corroded place, and the last digit.</summary>
    private (double? Shown, MeterAccuracy Meter) Read(Step step, double ohms)
    {
        double percent = step.By == Person.Owner ? Math.Round(1.5 * _habits.MeterPercent, 1) : _habits.MeterPercent;
        const double Digits = 3;
        double resolution = 0.1;
        while (ohms > 2000 * resolution && resolution < 10_000)
        {
            resolution *= 10;
        }

        MeterAccuracy meter = new(percent, Digits, resolution);
        if (!(ohms < OverRangeOhms))
        {
            return (null, meter);
        }

        double steady = _chance.Uniform($"meter of {step.By}", -0.7, 0.7) * meter.LimitOhms(ohms);
        double shown = ohms + steady + (resolution * 0.5 * Math.Clamp(Fresh(step, "last digit"), -2, 2));
        return (Math.Max(0, Math.Round(shown / resolution) * resolution), meter);
    }

    private double Wandering(Step step, double ohms, double soundOhms) =>
        ohms <= soundOhms ? ohms : soundOhms + ((ohms - soundOhms) * Math.Exp(_habits.Drift * Fresh(step, "drift")));

    private double Met(Step step, double atMetres, string edge) =>
        atMetres + (_habits.PlaceDeviationMetres * Fresh(step, $"place {edge}"));

    // ---- Tests -----------------------------------------------------------------------------------------------------------

    private Observation.SupplyVoltage SupplyVoltage(Step step)
    {
        double nominal = _habits.SupplyNominalVolts;
        double volts = Powered
            ? nominal * (1.02 + (0.01 * Fresh(step, "volts")))
            : Has(CauseKind.NoMains) || _chance.Happens("supply flat", 0.7) ? 0 : nominal * _chance.Uniform("supply sags", 0.1, 0.5);
        return new(Math.Round(volts, 1), nominal, step.Loaded ?? false);
    }

    private LampState Lamp(Step step)
    {
        double right = Right(step);
        double wrong = (1 - right) / 3;
        if (!Powered)
        {
            return Draw(step, (LampState.Off, right), (LampState.Normal, 1 - right));
        }

        if (Has(CauseKind.Station))
        {
            return Draw(step, (LampState.Off, 0.85 * right), (LampState.Normal, 0.08), (LampState.Flicker, 0.03), (LampState.Alarm, 0.04));
        }

        double ohms = LoopOhms;
        if (!_trial.Case.Yard.Station.HasContinuityLamp)
        {
            return Draw(step, (LampState.Normal, right), (LampState.Off, wrong));
        }

        if (ohms > _habits.AlarmOhms)
        {
            return Draw(step, (LampState.Alarm, right), (LampState.Flicker, wrong), (LampState.Normal, wrong), (LampState.Off, wrong));
        }

        double flicker = ohms > _habits.FlickerOhms ? _habits.FlickerShows : 0.01;
        return Draw(step, (LampState.Normal, right * (1 - flicker)), (LampState.Flicker, right * flicker), (LampState.Alarm, wrong), (LampState.Off, wrong));
    }

    private StartOutcome Start(Step step)
    {
        double right = Right(step), wrong = (1 - right) / 2;
        bool heard = HasSignal && !Has(CauseKind.Receiver)
            && (step.Place == StartPlace.AtWire ? _physics.AtWireField : _physics.MidLawnField) * (_laidAnew ? 3 : 1) >= NeededField(LoopOhms);
        if (!heard)
        {
            // A worn receiver hears now and then.
            double runs = Has(CauseKind.Receiver) && HasSignal && !double.IsInfinity(LoopOhms) ? 0.1 : wrong;
            return Draw(step, (StartOutcome.NoSignal, right), (StartOutcome.Runs, runs), (StartOutcome.Outside, wrong));
        }

        if (Has(CauseKind.EndsSwapped))
        {
            return Draw(step, (StartOutcome.Outside, right), (StartOutcome.NoSignal, wrong), (StartOutcome.Runs, wrong));
        }

        if (Has(CauseKind.Crosstalk))
        {
            return step.Place == StartPlace.AtWire
                ? Draw(step, (StartOutcome.Outside, 0.4), (StartOutcome.Runs, 0.45), (StartOutcome.NoSignal, 0.15))
                : Draw(step, (StartOutcome.Outside, 0.25), (StartOutcome.Runs, 0.65), (StartOutcome.NoSignal, 0.1));
        }

        return Draw(step, (StartOutcome.Runs, right), (StartOutcome.NoSignal, wrong), (StartOutcome.Outside, wrong));
    }

    private Observation.MowerReach Reach(Step step)
    {
        if (!HasSignal || Has(CauseKind.EndsSwapped) || Has(CauseKind.Receiver))
        {
            return new(0, AtLeast: false);
        }

        (double metres, bool all) = _physics.ReachMetres(NeededField(LoopOhms) / (_laidAnew ? 3 : 1));
        double spread = step.By == Person.Owner ? 0.15 : 0.08;
        if (all)
        {
            // Erratic turning is now and then taken for turning back.
            double erratic = Has(CauseKind.Crosstalk) || Has(CauseKind.Drive) ? 0.35 : 1 - Right(step);
            return Share(step) < erratic
                ? new(Math.Round(metres * _chance.Uniform("turned back", 0.2, 0.95), 1), AtLeast: false)
                : new(Math.Round(metres, 1), AtLeast: true);
        }

        return new(Math.Round(Math.Max(0, (metres * Math.Exp(spread * Fresh(step, "paces"))) + (0.1 * Fresh(step, "edge"))), 1), AtLeast: false);
    }

    private FollowOutcome Follow(Step step)
    {
        double strength = HasSignal && !Has(CauseKind.Receiver) && !Has(CauseKind.EndsSwapped)
            ? 1 / (2 * Math.PI * 0.3) / NeededField(LoopOhms)
            : 0;

        // P5: followed fairly well with the field of 557 Ω, which is about 3.7 times enough at a foot from the wire; P11 says weak wavers.
        (double steady, double wavering) = strength switch
        {
            < 1 => (0.02, 0.08),
            < 2 => (0.15, 0.6),
            < 3 => (0.4, 0.5),
            < 5 => (0.7, 0.27),
            _ => (0.95, 0.045),
        };
        if (Has(CauseKind.Drive))
        {
            (steady, wavering) = (0.3, 0.6);
        }
        else if (Has(CauseKind.Crosstalk) || Has(CauseKind.LeakPair) || (Has(CauseKind.Leak) && strength > 0))
        {
            (steady, wavering) = (Math.Min(steady, 0.6), 0.3);
        }

        return Draw(step, (FollowOutcome.Steady, steady), (FollowOutcome.Wavering, wavering), (FollowOutcome.Lost, Math.Max(0, 1 - steady - wavering)));
    }

    private double Crossing(Step step)
    {
        if (!HasSignal || double.IsInfinity(LoopOhms) || Has(CauseKind.EndsSwapped) || Has(CauseKind.Receiver))
        {
            return _habits.SoundCrossed;
        }

        bool there = Leaks().Any(leak => step.AtMetres is not { } at || Math.Abs(leak.AtMetres - at) < 5)
            || (step.AtMetres is { } inside && _faults.Exists(active => active.Present && active.Fault is { SecondAtMetres: not null } pair
                && inside > pair.AtMetres && inside < pair.SecondAtMetres && pair.SecondAtMetres - pair.AtMetres < _loop.LengthMetres / 2));
        if (Has(CauseKind.LeakPair) && there && (step.AtMetres is not null || step.NearMetal == true))
        {
            return _habits.PairCrossed;
        }

        return _faults.Exists(active => active.Present && active.Fault is { Kind: CauseKind.Leak, Harmful: true }) && there ? 0.4
            : Has(CauseKind.Crosstalk) || Has(CauseKind.Drive) ? 0.15
            : HeardShare(LoopOhms) < 0.5 ? 0.06
            : _habits.SoundCrossed;
    }

    private Observation.LoopResistance LoopReading(Step step)
    {
        double lead = LeadOhms(step);
        double truth = Wandering(step, LoopOhms, _loop.LengthMetres * _habits.WireOhmsPerMetre) + lead;
        if (Share(step) > Right(step))
        {
            // An owner's slip: the station left plugged in, or a probe that does not touch.
            truth = _chance.Happens("slip", 0.5) ? 1 / ((1 / truth) + (1 / _habits.SourceOhms)) : double.PositiveInfinity;
        }

        (double? shown, MeterAccuracy meter) = Read(step, truth);
        return new(shown, Noted(lead), meter);
    }

    private double LeadOhms(Step step) => _chance.Uniform($"leads of {step.By}", 0.1, 0.5);

    private static double Noted(double leadOhms) => Math.Round(leadOhms, 1);

    private Observation.Insulation Insulation(Step step)
    {
        double megohms = EarthOhms(double.PositiveInfinity) / 1e6 * Math.Exp(0.08 * Fresh(step, "soil"));
        return new(step.TestVolts ?? 250, megohms < 1 ? Math.Round(megohms, 3) : Math.Round(Math.Min(megohms, 1000), 1));
    }

    private Observation.EarthRatio EarthRatio(Step step)
    {
        double total = LoopOhms;
        double Potential(double at)
        {
            if (double.IsInfinity(total))
            {
                return SeriesFaults.Any(fault => double.IsInfinity(fault.Ohms) && fault.AtMetres <= at) ? 0 : BatteryVolts;
            }

            return BatteryVolts * (1 - (OhmsBetween(0, at, withTerminals: false) / total));
        }

        // Earth floats to the mean of what leaks into it; the sound wire leaks a little everywhere.
        double conductance = 0, current = 0;
        void Add(double at, double siemens)
        {
            conductance += siemens;
            current += siemens * Potential(at);
        }

        const int Pieces = 40;
        for (int i = 0; i < Pieces; i++)
        {
            Add((i + 0.5) / Pieces * _loop.LengthMetres, 1 / _habits.InsulationOhms / Pieces);
        }

        foreach ((double at, double ohms) in Leaks())
        {
            Add(at, 1 / (ohms + 50));
        }

        double earth = current / conductance, loaded = VoltmeterOhms / (VoltmeterOhms + (1 / conductance));
        double a = (BatteryVolts - earth) * loaded * (1 + (0.004 * Fresh(step, "volts A"))), b = earth * loaded * (1 + (0.004 * Fresh(step, "volts B")));
        return new(Math.Round(Math.Max(0, a + (0.003 * Fresh(step, "noise A"))), 3), Math.Round(Math.Max(0, b + (0.003 * Fresh(step, "noise B"))), 3));
    }

    private Observation.EndCapacitance EndCapacitance(Step step)
    {
        double perMetre = _habits.CapacitanceFaradPerMetre, length = _loop.LengthMetres;

        // Kilohms are no break to a meter that works at some hundred hertz; tens of them are.
        double[] breaks = [.. SeriesFaults.Where(fault => fault.Ohms > 15_000).Select(fault => fault.AtMetres!.Value).Order()];
        (double attachedA, double attachedB) = breaks.Length == 0 ? (length, length) : (breaks[0], length - breaks[^1]);
        double steady = 1 + (_habits.CapacitanceError * _chance.Normal("capacitance meter"));
        double Shown(double metres, string end)
        {
            double leaky = Leaks().Any(leak => end == "A" ? leak.AtMetres <= metres : leak.AtMetres >= length - metres)
                ? _chance.Uniform($"leaky {end}", 1, 1.1) : 1;
            double farad = ((perMetre * metres * leaky) + _chance.Uniform("capacitance leads", 0, 60e-12))
                * steady * (1 + (_habits.CapacitanceError / 2 * Fresh(step, $"capacitance {end}")));
            return Math.Max(0, Math.Round(farad, 11));
        }

        return new(Shown(attachedA, "A"), Shown(attachedB, "B"));
    }

    private Observation.SplitResistance Split(Step step)
    {
        double asked = step.AtMetres!.Value;
        double at = JointAt(asked) ?? Math.Clamp(Met(step, asked, "cut"), 0.1, _loop.LengthMetres - 0.1);
        if (JointAt(asked) is null)
        {
            _newJoints.Add(asked);
        }

        RemakeJointAt(at);
        double lead = Math.Round(_chance.Uniform("test lead", 0.4, 2.5), 1);
        double trueLead = lead + _chance.Uniform("test lead error", -0.06, 0.06);
        double? Side(double from, double to, string side)
        {
            double ohms = OhmsBetween(from, to, withTerminals: false);
            return Read(step, Wandering(step, ohms, (to - from) * _habits.WireOhmsPerMetre) + trueLead).Shown;
        }

        return new(asked, Side(0, at, "A"), Side(at, _loop.LengthMetres, "B"), lead);
    }

    private Observation.Bypass Bypass(Step step)
    {
        double from = Math.Min(step.FromMetres!.Value, step.ToMetres!.Value), to = Math.Max(step.FromMetres.Value, step.ToMetres.Value);
        double span = _loop.Path.PointAt(from).DistanceTo(_loop.Path.PointAt(to));
        double surface = (0.02 * span) + _chance.Uniform("clips", 0.05, 0.3);
        double metFrom = Math.Max(0, Met(step, from, "from")), metTo = Math.Min(_loop.LengthMetres, Met(step, to, "to"));
        double across = OhmsBetween(metFrom, metTo, withTerminals: false);
        double rest = OhmsBetween(0, metFrom, withTerminals: false) + OhmsBetween(metTo, _loop.LengthMetres, withTerminals: false);
        double ohms = rest + (1 / ((1 / surface) + (1 / Math.Max(across, 1e-6))));
        return new(from, to, Read(step, Wandering(step, ohms, _loop.LengthMetres * _habits.WireOhmsPerMetre) + LeadOhms(step)).Shown);
    }

    private ToneStrength Tone(Step step)
    {
        double at = Math.Clamp(Met(step, step.AtMetres!.Value, "ear"), 0, _loop.LengthMetres);
        double walked = step.From == WireEnd.A ? at : _loop.LengthMetres - at;
        double[] breaks = [.. SeriesFaults.Where(fault => fault.Ohms > 15_000)
            .Select(fault => step.From == WireEnd.A ? fault.AtMetres!.Value : _loop.LengthMetres - fault.AtMetres!.Value).Order()];
        double wrong = 1 - _habits.ToneRight;
        if (breaks.Length == 0)
        {
            return Draw(step, (ToneStrength.Strong, _habits.ToneRight), (ToneStrength.Weak, 0.8 * wrong), (ToneStrength.None, 0.2 * wrong));
        }

        double beyond = walked - breaks[0];
        if (beyond > 0)
        {
            // A little crosses the break by capacitance, the less the farther.
            double weak = 0.25 + (0.45 * Math.Exp(-beyond / 3));
            return Draw(step, (ToneStrength.None, (1 - weak) * _habits.ToneRight), (ToneStrength.Weak, weak * _habits.ToneRight), (ToneStrength.Strong, wrong));
        }

        // Charging current dies away towards the broken end.
        double fades = Math.Exp(beyond / 1.5) * 0.6;
        return Draw(step, (ToneStrength.Strong, _habits.ToneRight * (1 - fades)), (ToneStrength.Weak, (_habits.ToneRight * fades) + (0.85 * wrong)), (ToneStrength.None, 0.15 * wrong));
    }

    private Observation.Reflection Reflection(Step step)
    {
        const double LightMetresPerSecond = 299_792_458;
        double Delay(double atMetres)
        {
            double metres = (step.From == WireEnd.A ? atMetres : _loop.LengthMetres - atMetres) * _habits.LengthFactor;
            return Math.Max(0, (2 * metres / (_habits.VelocityFactor * LightMetresPerSecond)) + (3e-9 * Fresh(step, "trace")));
        }

        (double At, EchoKind Kind, double Chance)[] echoes =
        [
            .. SeriesFaults.Select(fault => (fault.AtMetres!.Value, EchoKind.Open, fault.Ohms > 2000 ? _habits.TechnicianRight : fault.Ohms > 150 ? 0.6 : 0.1)),
            .. Leaks().Where(leak => leak.Ohms < 200).Select(leak => (leak.AtMetres, EchoKind.ShortCircuit, 0.3)),
        ];
        foreach ((double at, EchoKind kind, double chance) in echoes.OrderBy(echo => step.From == WireEnd.A ? echo.At : -echo.At))
        {
            if (Share(step, $"echo {at:F1}") < chance)
            {
                return new(step.From!.Value, Math.Round(Delay(at), 10), kind);
            }
        }

        return new(step.From!.Value, null, EchoKind.None);
    }

    private bool SeesDamage(Step step)
    {
        double from = Math.Min(step.FromMetres!.Value, step.ToMetres!.Value), to = Math.Max(step.FromMetres.Value, step.ToMetres.Value);
        double sharp = step.By == Person.Owner ? 0.75 : 0.95;
        foreach (ActiveFault active in _faults.Where(active => active.Present && active.Fault is { InWire: true, Shows: true }))
        {
            foreach (double place in new[] { active.Fault.AtMetres, active.Fault.SecondAtMetres }.OfType<double>())
            {
                if (place >= from - 0.2 && place <= to + 0.2 && Share(step, $"damage {place:F1}") < sharp)
                {
                    return true;
                }
            }
        }

        // What looks like damage and is none stays where it is.
        for (int ten = (int)(from / 10); ten <= (int)(to / 10); ten++)
        {
            double overlap = Math.Min(to, (10 * ten) + 10) - Math.Max(from, 10 * ten);
            double where = _chance.Uniform($"false damage in {ten}");
            if (overlap > 0 && where < _habits.LookFalseAlarm && (10 * ten) + (10 * where / _habits.LookFalseAlarm) is var at && at >= from && at <= to)
            {
                return true;
            }
        }

        return false;
    }

    // ---- Repairs -----------------------------------------------------------------------------------------------------------

    private Observation.RepairDone Repair(Step step)
    {
        string? found = null;
        switch (step.Kind)
        {
            case StepKind.RestoreMains:
                End(CauseKind.NoMains);
                break;
            case StepKind.ReplaceSupply:
                End(CauseKind.Supply);
                break;
            case StepKind.ReplaceStation:
                End(CauseKind.Station);
                break;
            case StepKind.RemakeTerminals:
                string? foundAtA = RemakeJointAt(0), foundAtB = RemakeJointAt(_loop.LengthMetres);
                found = foundAtA ?? foundAtB;
                End(CauseKind.EndsSwapped);
                break;
            case StepKind.SwapEnds:
                End(CauseKind.EndsSwapped);
                break;
            case StepKind.CleanContacts or StepKind.ReplaceBattery or StepKind.AskMaker:
                break; // Ends nothing that these worlds know.
            case StepKind.RemakeJoint:
                found = JointAt(step.AtMetres!.Value) is { } joint ? RemakeJointAt(joint) : null;
                break;
            case StepKind.MendSpan:
                double from = Math.Min(step.FromMetres!.Value, step.ToMetres!.Value), to = Math.Max(step.FromMetres.Value, step.ToMetres.Value);

                // A span dug from a terminal takes the terminal joint with it.
                found = Mend(
                    from <= 0 ? double.NegativeInfinity : Met(step, from, "from"),
                    to >= _loop.LengthMetres ? double.PositiveInfinity : Met(step, to, "to"));
                break;
            case StepKind.RenewLoop:
                found = Mend(double.NegativeInfinity, double.PositiveInfinity);
                break;
            case StepKind.RelayLayout:
                End(CauseKind.Layout);
                _laidAnew = true;
                break;
            case StepKind.RecodeStation:
                End(CauseKind.Crosstalk);
                break;
            case StepKind.ServiceReceiver:
                End(CauseKind.Receiver);
                break;
            case StepKind.ServiceDrive:
                End(CauseKind.Drive);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(step), step.Kind, "Not a repair.");
        }

        return new(step.Kind, step.AtMetres, step.FromMetres, step.ToMetres, found);
    }

    private void End(CauseKind kind)
    {
        foreach (ActiveFault active in _faults.Where(active => active.Present && active.Fault.Kind == kind))
        {
            active.Present = false;
            Mended++;
        }
    }

    private string? RemakeJointAt(double atMetres)
    {
        string? found = null;
        foreach (ActiveFault active in _faults.Where(active => active.Present && active.Fault.AtJoint && Math.Abs(active.Fault.AtMetres!.Value - atMetres) <= Loop.JointReachMetres))
        {
            active.Present = false;
            Mended++;
            found = "bad joint";
        }

        return found;
    }

    private string Mend(double from, double to)
    {
        string found = "sound wire";
        foreach (ActiveFault active in _faults.Where(active => active.Present && active.Fault.InWire))
        {
            Fault fault = active.Fault;
            bool first = fault.AtMetres >= from && fault.AtMetres <= to, second = fault.SecondAtMetres >= from && fault.SecondAtMetres <= to;
            if (!first && !second)
            {
                continue;
            }

            found = fault.Kind switch
            {
                CauseKind.Open => "broken wire",
                CauseKind.SeriesResistance => fault.AtJoint ? "bad joint" : "corroded wire",
                _ => "damaged insulation",
            };
            Mended++;
            active.FirstMended |= first;
            active.SecondMended |= second;
            active.Present = fault.Kind == CauseKind.LeakPair && !(active.FirstMended && active.SecondMended)
                && !_chance.Happens("mending one ends it", _habits.EitherEnds);
        }

        return found;
    }

    private void Refuse(Step step)
    {
        StepFacts facts = StepCatalogue.Of(step.Kind);
        bool owner = step.By == Person.Owner;
        Instruments hands = owner ? Case.Can.OwnerInstruments : Case.Can.TechnicianInstruments;
        bool place = step.Kind is StepKind.SplitResistance or StepKind.ToneTrace or StepKind.RemakeJoint;
        bool span = step.Kind is StepKind.Bypass or StepKind.Look or StepKind.MendSpan;
        string? why = owner && !(facts.OwnerMay && Case.Can.Owner) ? "the owner cannot do this"
            : !owner && !Case.Can.Technician ? "no technician can come"
            : (hands & facts.Needs) != facts.Needs ? "the instrument is not at hand"
            : place && !OnWire(step.AtMetres) ? "the place is not on the wire"
            : span && !(OnWire(step.FromMetres) && OnWire(step.ToMetres)) ? "the stretch is not on the wire"
            : step.Kind is StepKind.ToneTrace or StepKind.Reflection && step.From is null ? "from which end is not said"
            : null;
        if (why is not null)
        {
            throw new TrialRefusalException($"{step.Kind}: {why}.");
        }
    }

    private bool OnWire(double? atMetres) => atMetres >= -0.01 && atMetres <= _loop.LengthMetres + 0.01;

    private sealed class ActiveFault(Fault fault)
    {
        public Fault Fault { get; } = fault;

        public bool Present { get; set; } = true;

        public bool FirstMended { get; set; }

        public bool SecondMended { get; set; }
    }
}
