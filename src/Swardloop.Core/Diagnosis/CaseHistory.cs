using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>What has happened in a case so far, decided in one place for engine, screens and trial: when the wire was last changed, what was found, what
/// was measured since, who was asked what.</summary>
public sealed class CaseHistory
{
    private readonly Observation.NotDone[] _notDone;
    private readonly StepKind[] _done;

    /// <summary>Reads a case's observations, once: what is asked of a history is asked for every step that might be taken.</summary>
    public CaseHistory(ServiceCase serviceCase)
    {
        Observations = serviceCase.Observations;
        _notDone = [.. Observations.OfType<Observation.NotDone>()];
        _done = [.. Observations.OfType<Observation.RepairDone>().Select(done => done.Repair)];
        AfterChange = After(seen => ChangesWire(seen, serviceCase.Yard.Loop));
        AfterFind = After(Finds);
        AfterRenewal = After(seen => Finds(seen) || Renews(seen));
        AfterMowerServed = After(seen => Finds(seen) || Renews(seen) || seen is Observation.RepairDone
        {
            Repair: StepKind.CleanContacts or StepKind.ReplaceBattery or StepKind.ServiceReceiver or StepKind.ServiceDrive or StepKind.AskMaker
        });
        OnSite = serviceCase.OnSite || Observations.Any(TechnicianWasThere);
        bool? runs = Since(AfterChange).OfType<Observation.MowerCheck>().LastOrDefault()?.Runs;
        (MowerRuns, ChangedUnchecked, SameAfterChange, MowerWasChecked) = (runs == true, AfterChange > 0 && runs is null, AfterChange > 0 && runs == false, runs is not null);
        LoopReading = Since(AfterChange).OfType<Observation.LoopResistance>().LastOrDefault();
        LoopWasMeasured = Since(AfterFind).Any(seen => seen is Observation.LoopResistance);
        EarthWasMeasured = Since(AfterFind).Any(seen => seen is Observation.EarthResistance or Observation.Insulation);
        SignalMayBeThere = MaySignal();
        Lamp = Since(AfterRenewalOf(StepKind.StationLamp)).OfType<Observation.StationLamp>().LastOrDefault()?.State;
        MowerStaysAtStart = StaysAtStart();
        SignalWasHeard = Since(AfterRenewal).Any(seen => seen is Observation.MowerStart { Outcome: StartOutcome.Runs or StartOutcome.Outside });
        MowerCannotBeStarted = Since(AfterMowerServed).Any(seen => seen is Observation.NotDone { Asked.Kind: StepKind.MowerStart });
        AnotherMowerRuns = Since(AfterRenewalOf(StepKind.SubstituteMower)).OfType<Observation.SubstituteMower>().LastOrDefault() is { Runs: true };
        NothingOnTestLoop = Since(AfterRenewalOf(StepKind.SubstituteLoop)).OfType<Observation.SubstituteLoop>().LastOrDefault() is { Runs: false };
        ChargeWasChecked = Since(AfterRenewalOf(StepKind.ChargeCheck)).Any(seen => seen is Observation.ChargeCheck);
    }

    private IReadOnlyList<Observation> Observations { get; }

    /// <summary>Index of the first observation after the last change of the yard: a repair, or a joint opened and remade; 0 when there was none.</summary>
    public int AfterChange { get; }

    /// <summary>Index of the first observation after the last repair that found a fault: what is asked after it is asked of another yard.</summary>
    public int AfterFind { get; }

    /// <summary>Index of the first observation after the last thing done that makes what people see new: a find, power, or a part of station or lay-out
    /// replaced. Wire dug up and found sound renews nothing, and parts of the mower and settings do not: see <see cref="Renews"/>.</summary>
    public int AfterRenewal { get; }

    // A mower that could not be made to drive may drive once it is charged, served or unlocked.
    private int AfterMowerServed { get; }

    /// <summary>Index of the first observation after the last thing done that may change the answer to a question: a new battery makes no lamp different,
    /// and a second mower hears what it heard before the first was serviced.</summary>
    public int AfterRenewalOf(StepKind question) => After(seen => seen is Observation.RepairDone { Repair: var repair } && question switch
    {
        StepKind.OutletCheck => repair is StepKind.RestoreMains,
        StepKind.SupplyVoltage => repair is StepKind.RestoreMains or StepKind.ReplaceSupply or StepKind.ReplaceStation,
        StepKind.StationLamp => Finds(seen) || repair is StepKind.RestoreMains or StepKind.ReplaceSupply or StepKind.ReplaceStation or StepKind.RenewLoop or StepKind.RelayLayout,
        StepKind.ChargeCheck => repair is StepKind.RestoreMains or StepKind.ReplaceSupply or StepKind.ReplaceStation or StepKind.CleanContacts or StepKind.ReplaceBattery,
        StepKind.SubstituteLoop => Renews(seen) && repair is not (StepKind.RenewLoop or StepKind.RelayLayout),
        _ => Finds(seen) || Renews(seen),
    });

    /// <summary>Whether a technician is, or was, there: travel is paid.</summary>
    public bool OnSite { get; }

    /// <summary>The last word on the mower is that it runs, and nothing was done to the yard since.</summary>
    public bool MowerRuns { get; }

    /// <summary>Whether the mower was let mow since the last change, to see whether it does.</summary>
    public bool MowerWasChecked { get; }

    /// <summary>Whether something was changed that no mower-check has followed.</summary>
    public bool ChangedUnchecked { get; }

    /// <summary>Whether the last thing changed was a fault found and mended that no mower-check has followed.</summary>
    public bool FoundUnchecked => ChangedUnchecked && AfterFind == AfterChange;

    /// <summary>The newest reading of the whole loop since the last change; null when there is none.</summary>
    public Observation.LoopResistance? LoopReading { get; }

    /// <summary>Whether the loop was measured since the last fault was found.</summary>
    public bool LoopWasMeasured { get; }

    /// <summary>Whether a mower can be expected to do anything: not while the station is dark, its lamp in alarm or the loop open.</summary>
    public bool SignalMayBeThere { get; }

    /// <summary>Whether a person said that a step of this kind could not be done, wherever.</summary>
    public bool Refused(StepKind kind, Person by) => Array.Exists(_notDone, seen => seen.Asked is { AtMetres: null, FromMetres: null, Place: null } asked && asked.Kind == kind && seen.By == by);

    /// <summary>Whether the person said that this very step could not be done.</summary>
    public bool Refused(Step step) => Array.Exists(_notDone, seen => seen.Asked is var asked && seen.By == step.By && asked.Kind == step.Kind
        && asked.Wire == step.Wire && asked.Guide == step.Guide && asked.Place == step.Place && Near(asked.AtMetres, step.AtMetres) && Near(asked.FromMetres, step.FromMetres) && Near(asked.ToMetres, step.ToMetres));

    private static bool Near(double? one, double? other) => one is null || other is null || Math.Abs(one.Value - other.Value) < 1.5;

    /// <summary>Whether anybody looked at the station's lamp since it could last have changed.</summary>
    public bool LampWasSeen => Lamp is not null;

    /// <summary>Whether the lamp was off when it was last looked at, as far as nothing done since has changed it.</summary>
    public bool LampIsOff => Lamp == LampState.Off;

    /// <summary>The lamp as it was last seen, as far as nothing done since has changed it; null: nobody looked.</summary>
    public LampState? Lamp { get; }

    /// <summary>Whether a mower that was started said no signal, and nowhere ran.</summary>
    public bool MowerStaysAtStart { get; }

    /// <summary>Whether a mower that was started heard the wire.</summary>
    public bool SignalWasHeard { get; }

    /// <summary>Whether somebody tried to start the mower and could not.</summary>
    public bool MowerCannotBeStarted { get; }

    /// <summary>Whether a person, or a technician before them, could not let the mower run: whatever the place, it is not asked again.</summary>
    public bool CouldNotRunMower(Person by) => Since(AfterMowerServed).Any(seen => seen is Observation.NotDone
    {
        Asked.Kind: StepKind.MowerStart or StepKind.MowerReach or StepKind.FollowWire or StepKind.WireCrossing
    } && (seen.By == by || seen.By == Person.Technician));

    /// <summary>Whether another mower runs here: station and loop do what they should.</summary>
    public bool AnotherMowerRuns { get; }

    /// <summary>Whether it was seen since it could last have changed whether the mower charges.</summary>
    public bool ChargeWasChecked { get; }

    /// <summary>Whether a repair of this kind was made at any time.</summary>
    public bool WasDone(StepKind repair) => Array.IndexOf(_done, repair) >= 0;

    /// <summary>Whether the mower heard nothing on a short test loop either.</summary>
    public bool NothingOnTestLoop { get; }

    /// <summary>Whether it was measured how well the wire is insulated.</summary>
    public bool EarthWasMeasured { get; }

    /// <summary>Whether the mower was tried after the last change and did the same: what was mended was not all.</summary>
    public bool SameAfterChange { get; }

    /// <summary>Whether an observation changes the yard: a repair, or a joint opened and remade.</summary>
    public static bool ChangesWire(Observation seen, Loop loop) => seen is Observation.RepairDone
        || (seen is Observation.SplitResistance { Wire: null } split && loop.JointNear(split.AtMetres) is not null);

    /// <summary>A repair that found a fault.</summary>
    public static bool Finds(Observation seen) => seen is Observation.RepairDone done && RepairModel.FoundRatio(done) > 1;

    /// <summary>Observations since some index.</summary>
    public IEnumerable<Observation> Since(int index) => Observations.Skip(index);

    /// <summary>Index after the last observation of a kind; 0 when there is none.</summary>
    public int After(Func<Observation, bool> kind)
    {
        int after = Observations.Count;
        while (after > 0 && !kind(Observations[after - 1]))
        {
            after--;
        }

        return after;
    }

    private bool MaySignal()
    {
        IEnumerable<Observation> now = Since(Math.Max(AfterRenewal, AfterChange));
        return now.OfType<Observation.StationLamp>().LastOrDefault()?.State is not (LampState.Off or LampState.Alarm)
            && now.OfType<Observation.OutletCheck>().LastOrDefault() is not { Live: false }
            && !(now.OfType<Observation.SupplyVoltage>().LastOrDefault() is { } supply && supply.Volts < 0.4 * supply.NominalVolts)
            && LoopReading is not { Ohms: null };
    }

    private bool StaysAtStart()
    {
        Observation.MowerStart[] starts = [.. Since(AfterRenewal).OfType<Observation.MowerStart>()];
        return Array.Exists(starts, start => start is { Outcome: StartOutcome.NoSignal, Place: StartPlace.AtWire })
            && Array.TrueForAll(starts, start => start.Outcome != StartOutcome.Runs);
    }

    /// <summary>Whether a thing done makes what people see new. A part of the mower, or a setting, does not: the mower itself says whether it helped.</summary>
    private static bool Renews(Observation seen) => seen is Observation.RepairDone
    {
        Repair: StepKind.RestoreMains or StepKind.ReplaceSupply or StepKind.ReplaceStation or StepKind.RelayLayout or StepKind.RenewLoop
    };

    private static bool TechnicianWasThere(Observation seen) => seen.By == Person.Technician && !StepCatalogue.Of(seen.Step).OwnerMay;
}
