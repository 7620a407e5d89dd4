namespace Swardloop.Core.Diagnosis;

/// <summary>A case's observations sorted by what they speak of, each with the state it was made in: the number of repairs before it.</summary>
/// <remarks>Within one state the order of observations does not matter. What people see persists (<see cref="PersistentAnswers"/>); of a reading taken
/// again only the moment is new, which counts for <see cref="StatedProbabilities.RepeatWeight"/> and never for more than
/// <see cref="StatedProbabilities.MostRepeats"/> readings.</remarks>
internal sealed class CaseEvidence
{
    /// <summary>Different values of one reading that are kept, the newest: more than any person takes, and few enough to reckon with.</summary>
    private const int MostValues = 12;

    private CaseEvidence(Observation[] repairs, Item[][] symptoms, Item[] placeTests, Item[] guideTests, OhmsReading[] ohms) =>
        (Repairs, Symptoms, PlaceTests, GuideTests, Ohms) = (repairs, symptoms, placeTests, guideTests, ohms);

    /// <summary>What changed the yard, in order: repairs, and joints opened and remade.</summary>
    public Observation[] Repairs { get; }

    /// <summary>Lamp, mower, supply: independent of place. One row per question, whoever answered it and when.</summary>
    public Item[][] Symptoms { get; }

    /// <summary>Tone, look, capacitance, earth readings: dependent on place or leakage.</summary>
    public Item[] PlaceTests { get; }

    /// <summary>Looks and tones along guide wires.</summary>
    public Item[] GuideTests { get; }

    /// <summary>Resistances of the wire or a part of it.</summary>
    public OhmsReading[] Ohms { get; }

    /// <summary>Sorts a case's observations.</summary>
    /// <param name="observations">In the order made.</param>
    /// <param name="physics">The yard's physics.</param>
    /// <param name="without">Index of an observation to leave out; −1 for none.</param>
    public static CaseEvidence From(IReadOnlyList<Observation> observations, YardPhysics physics, int without = -1)
    {
        List<Observation> repairs = [];
        Dictionary<Observation, List<Item>> symptoms = [];
        List<Item> placeTests = [], guideTests = [];
        List<OhmsReading> ohms = [];
        List<(Observation Observation, int Index, int Epoch)> all = [];
        for (int i = 0; i < observations.Count; i++)
        {
            if (i == without)
            {
                continue;
            }

            Observation seen = AsEvidence(observations[i]);
            if (BeginsState(seen, physics))
            {
                repairs.Add(seen);
            }

            if (seen is not (Observation.RepairDone or Observation.NotDone { Asked.Kind: not StepKind.MowerStart }) && (seen.Wire is null ? seen is not Observation.GuideResistance || physics.GuideOf(seen) is not null : GuideRepairs.Says(seen, physics)))
            {
                all.Add((seen, i, repairs.Count));
            }
        }

        foreach (IGrouping<Observation, (Observation Observation, int Index, int Epoch)> question in all.GroupBy(entry => Question(entry.Observation, entry.Epoch)))
        {
            IGrouping<Observation, (Observation Observation, int Index, int Epoch)>[] answers = [.. question.GroupBy(entry => Plain(entry.Observation)).TakeLast(MostValues)];
            double[] numericWeights = ReadingsApart.Weights([.. answers.Select(answer => (answer.First().Observation, answer.Count()))]);
            int next = 0;
            foreach (IGrouping<Observation, (Observation Observation, int Index, int Epoch)> answer in answers)
            {
                (Observation seen, int index, int epoch) = answer.First();
                int repeats = answer.Count();
                double weight = IsNumeric(seen) ? numericWeights[next++] * repeats : 1 + (StatedProbabilities.AnswerRepeatWeight * (Math.Min(repeats, 4) - 1));
                if (SymptomModel.Covers(seen.Step))
                {
                    Observation asking = Question(seen, 0) with { By = default };
                    (symptoms.TryGetValue(asking, out List<Item>? row) ? row : symptoms[asking] = []).Add(new(seen, index, epoch, 1) { Count = repeats });
                }
                else if (OhmsReading.From(seen, index, epoch, weight, physics) is { Count: > 0 } readings)
                {
                    ohms.AddRange(readings);
                }
                else if (seen.Wire is not null)
                {
                    guideTests.Add(new(seen, index, epoch, weight));
                }
                else
                {
                    placeTests.Add(new(seen, index, epoch, weight));
                }
            }
        }

        return new([.. repairs], [.. symptoms.Values.Select(row => row.ToArray())], [.. placeTests.Select((item, i) => SaidBefore(placeTests, i) ? item with { Weight = item.Weight * StatedProbabilities.RepeatWeight } : item)], [.. guideTests], [.. ohms]);
    }

    /// <summary>Whether an observation begins another state of the yard.</summary>
    public static bool BeginsState(Observation seen, YardPhysics physics) => CaseHistory.ChangesWire(seen, physics.Yard.Loop) || GuideRepairs.OpensJoint(seen, physics);

    /// <summary>Whether a reading says what an earlier one said before a repair: what the uneven wire adds to it is still there, so it is hardly news.</summary>
    private static bool SaidBefore(List<Item> items, int index)
    {
        const double Alike = 0.03;
        return Share(items[index].Seen) is { } share && items.Exists(other =>
            other.Seen.Step == items[index].Seen.Step && other.Epoch < items[index].Epoch && Share(other.Seen) is { } before && Math.Abs(share - before) < Alike);

        static double? Share(Observation seen) => seen switch
        {
            Observation.EarthRatio { VoltsA: var a, VoltsB: var b } when a + b > 0 => a / (a + b),
            Observation.EndCapacitance { FaradA: var a, FaradB: var b } when a + b > 0 => a / (a + b),
            _ => null,
        };
    }

    /// <summary>A mower that could not be made to drive, for whatever test, is one observation; any other step that could not be done says nothing.</summary>
    private static Observation AsEvidence(Observation seen) => seen is Observation.NotDone
    {
        Asked.Kind: StepKind.MowerStart or StepKind.MowerReach or StepKind.FollowWire or StepKind.WireCrossing or StepKind.SubstituteLoop
    } ? new Observation.NotDone(new(StepKind.MowerStart)) { By = seen.By } : seen;

    private static bool IsNumeric(Observation seen) => seen is Observation.LoopResistance or Observation.SplitResistance or Observation.Bypass
        or Observation.EarthResistance or Observation.Insulation or Observation.EarthRatio or Observation.EndCapacitance
        or Observation.Reflection or Observation.MowerReach or Observation.SupplyVoltage or Observation.AcRatio or Observation.PinProbe or Observation.JointDrop or Observation.GuideResistance;

    /// <summary>The answer alone: who said when does not make it another answer.</summary>
    private static Observation Plain(Observation seen) => seen with { At = null, Note = null, Conditions = Conditions.None };

    /// <summary>The same question has the same value here: the step, its parameters, who answered, and the state of the yard (kept in the note).</summary>
    private static Observation Question(Observation seen, int epoch) => (seen switch
    {
        Observation.OutletCheck => (Observation)new Observation.OutletCheck(false),
        Observation.SupplyVoltage o => new Observation.SupplyVoltage(0, 0, o.Loaded),
        Observation.StationLamp => new Observation.StationLamp(default),
        Observation.MowerStart o => new Observation.MowerStart(o.Place, default),
        Observation.MowerReach => new Observation.MowerReach(0, false),
        Observation.FollowWire => new Observation.FollowWire(default),
        Observation.WireCrossing o => new Observation.WireCrossing(false, o.AtMetres, o.NearMetal),
        Observation.LoopResistance => new Observation.LoopResistance(null, 0, MeterAccuracy.Plain),
        Observation.EarthResistance => new Observation.EarthResistance(null),
        Observation.Insulation o => new Observation.Insulation(o.TestVolts, 0),
        Observation.EarthRatio => new Observation.EarthRatio(0, 0),
        Observation.EndCapacitance => new Observation.EndCapacitance(0, 0),
        Observation.SplitResistance o => new Observation.SplitResistance(o.AtMetres, null, null, 0),
        Observation.Bypass o => new Observation.Bypass(o.FromMetres, o.ToMetres, null),
        Observation.ToneTrace o => new Observation.ToneTrace(o.AtMetres, o.From, default),
        Observation.Reflection o => new Observation.Reflection(o.From, null, default),
        Observation.Look o => new Observation.Look(o.FromMetres, o.ToMetres, false),
        Observation.SubstituteLoop => new Observation.SubstituteLoop(false),
        Observation.SubstituteMower => new Observation.SubstituteMower(false),
        Observation.NeighbourOff => new Observation.NeighbourOff(false),
        Observation.MowerCheck => new Observation.MowerCheck(false),
        Observation.AcRatio o => new Observation.AcRatio(0, 0, o.Hertz),
        Observation.PinProbe o => new Observation.PinProbe(o.AtMetres, null, null, 0),
        Observation.JointDrop o => new Observation.JointDrop(o.AtMetres, 0, 0),
        Observation.EarthGradient o => new Observation.EarthGradient(o.AtMetres, o.SpacingMetres, default, null),
        Observation.TerminalLook => new Observation.TerminalLook(default),
        Observation.Wiggle o => new Observation.Wiggle(o.AtMetres, false),
        Observation.ChargeCheck => new Observation.ChargeCheck(false),
        Observation.GuideResistance o => new Observation.GuideResistance(o.Guide, null, null, 0, MeterAccuracy.Plain),
        Observation.NotDone => seen,
        _ => throw new ArgumentException("Not a question of this model.", nameof(seen)),
    }) with
    { By = seen.By, Wire = seen.Wire, Note = epoch.ToString(System.Globalization.CultureInfo.InvariantCulture), At = null, Conditions = ReadingsApart.Applies(seen) ? seen.Conditions : Conditions.None };

    /// <summary>One observation, or several equal ones.</summary>
    /// <param name="Seen">What was seen.</param>
    /// <param name="Index">Its index in the case.</param>
    /// <param name="Epoch">How many changes of the yard came before it.</param>
    /// <param name="Weight">Exponent of its likelihood.</param>
    internal readonly record struct Item(Observation Seen, int Index, int Epoch, double Weight)
    {
        /// <summary>How often the same person gave this answer.</summary>
        public int Count { get; init; } = 1;

        /// <summary>A likelihood with this observation's weight.</summary>
        public double Weighted(double likelihood) => Weight == 1 ? likelihood : Math.Pow(likelihood, Weight);
    }
}
