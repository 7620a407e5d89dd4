namespace Swardloop.Core.Diagnosis;

/// <summary>The belief after all observations, and after all but one: what each observation said.</summary>
internal sealed class Beliefs
{
    /// <summary>An observation this much less probable beside the others than by itself contradicts them.</summary>
    private const double DisagreementRatio = 1 / 40.0;

    private const int ShownCauses = 8;

    private readonly ServiceCase _case;
    private readonly YardPhysics _physics;
    private readonly CausePriors _priors;
    private readonly SymptomTable _symptoms;
    private readonly Lazy<Belief> _allCoarse;
    private readonly PlaceGrid _fine, _coarse, _rough, _pairs;

    public Beliefs(ServiceCase serviceCase, YardPhysics physics, CausePriors priors)
    {
        (_case, _physics, _priors) = (serviceCase, physics, priors);
        _symptoms = new(physics, serviceCase.Complaint);
        double length = physics.LengthMetres;
        double[] cuts = [.. serviceCase.Observations.SelectMany(PlacesNamed).Distinct()];
        _fine = PlaceGrid.Even(serviceCase.Yard, Math.Max(0.5, length / 1000));
        _coarse = PlaceGrid.Cut(serviceCase.Yard, cuts, Math.Max(4, length / 60));
        _rough = PlaceGrid.Cut(serviceCase.Yard, [], Math.Max(20, length / 12));
        _pairs = PlaceGrid.Cut(serviceCase.Yard, cuts, Math.Max(8, length / 20));
        PlaceGrid leaks = serviceCase.Yard.Metal.Count > 0 ? PlaceGrid.AlongMetal(serviceCase.Yard, cuts, Math.Max(12, length / 14)) : _pairs;
        _allCoarse = new(() => Without(serviceCase.Observations, -1, _coarse, _pairs, _symptoms));
        All = new(physics, CaseEvidence.From(serviceCase.Observations, physics), priors, _fine, _pairs, leaks, withPairs: true, symptoms: _symptoms);
    }

    /// <summary>The belief after all observations, on the fine grid.</summary>
    public Belief All { get; }

    /// <summary>Weights of evidence of each test for each cause shown, and the test that contradicts the others, if any.</summary>
    public List<EvidenceWeight> Evidence(IReadOnlyList<CauseProbability> causes, out Disagreement? disagreement, CancellationToken cancellation)
    {
        disagreement = null;
        List<EvidenceWeight> weights = [];
        if (_case.Observations.Count == 0)
        {
            return weights;
        }

        // Pairs are left out here: they cost most and change least of what a single observation says. Where a pair explains
        // what looks like a contradiction, it is none.
        Belief all = _allCoarse.Value;
        bool pairExplains = All.Faults.Where(fault => fault.Cause.Second is not null).Sum(fault => fault.Weight) > 0.3 * All.Total;
        Dictionary<Cause, double> with = Probabilities(all);
        double worst = DisagreementRatio;
        int tests = _case.Observations.Count(seen => seen is not Observation.RepairDone);

        // Of equal answers in one state the evidence keeps the first and their number: without any other of them the same is left, so it is weighed once.
        HashSet<(Observation, int)> met = [];
        Dictionary<(Observation, int), (List<CauseBits> Bits, double Ratio)> known = [];
        int state = 0;
        for (int i = 0; i < _case.Observations.Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            Observation seen = _case.Observations[i];
            state += CaseEvidence.BeginsState(seen, _physics) ? 1 : 0;
            if (seen is Observation.RepairDone or Observation.NotDone)
            {
                continue;
            }

            (Observation, int) answer = (seen with { At = null, Note = null }, state);
            if (!known.TryGetValue(answer, out (List<CauseBits> Bits, double Ratio) said))
            {
                said = Weigh(i);
                if (!met.Add(answer))
                {
                    known.Add(answer, said);
                }
            }

            weights.Add(new(i, said.Bits));
            if (said.Ratio < worst)
            {
                worst = said.Ratio;
                disagreement = new(i, RepeatOf(seen));
            }
        }

        return weights;

        (List<CauseBits> Bits, double Ratio) Weigh(int i)
        {
            Belief others = Without(_case.Observations, i, _coarse, _pairs, _symptoms);
            List<CauseBits> bits = Bits(causes, with, Probabilities(others));

            // An observation of causes that does not speak against the likeliest one contradicts nothing; of places it may.
            bool mayContradict = !SymptomModel.Covers(_case.Observations[i].Step) || bits.Count == 0 || bits[0].Bits < -1;
            return (bits, tests > 1 && !pairExplains && mayContradict

                // By itself: without the complaint, too.
                ? all.Total / (others.Total * Without([_case.Observations[i]], -1, _rough, _rough, new(_physics)).Total)
                : double.PositiveInfinity);
        }
    }

    /// <summary>Weight of evidence of the complaint for each cause shown.</summary>
    public IReadOnlyList<CauseBits> ComplaintBits(IReadOnlyList<CauseProbability> causes)
    {
        if (!_symptoms.Complaint.Says)
        {
            return [];
        }

        return Bits(causes, Probabilities(_allCoarse.Value), Probabilities(Without(_case.Observations, -1, _coarse, _pairs, new(_physics))));
    }

    private static List<CauseBits> Bits(IReadOnlyList<CauseProbability> causes, Dictionary<Cause, double> with, Dictionary<Cause, double> without) =>
        [.. causes.Where(cause => cause.Cause.Second is null).Take(ShownCauses).Select(cause => new CauseBits(
            cause.Cause, Math.Clamp(LogOdds(with, cause.Cause) - LogOdds(without, cause.Cause), -60, 60)))];

    private static double LogOdds(Dictionary<Cause, double> probabilities, Cause cause)
    {
        double probability = Math.Clamp(probabilities.GetValueOrDefault(cause), 1e-18, 1 - 1e-15);
        return Math.Log2(probability / (1 - probability));
    }

    private static Dictionary<Cause, double> Probabilities(Belief belief) =>
        belief.Causes().ToDictionary(cause => cause.Cause, cause => cause.Probability);

    private static IEnumerable<double> PlacesNamed(Observation seen) => seen.Wire is not null ? [] : seen switch
    {
        Observation.SplitResistance o => [o.AtMetres],
        Observation.ToneTrace o => [o.AtMetres],
        Observation.PinProbe o => [o.AtMetres],
        Observation.EarthGradient o => [o.AtMetres],
        Observation.Bypass o => [o.FromMetres, o.ToMetres],
        Observation.Look o => [o.FromMetres, o.ToMetres],
        Observation.RepairDone { FromMetres: { } from, ToMetres: { } to } => [from, to],
        _ => [],
    };

    private static Step RepeatOf(Observation seen) => StepOf(seen) with { Wire = seen.Wire };

    private static Step StepOf(Observation seen) => seen switch
    {
        Observation.GuideResistance o => new(seen.Step) { By = seen.By, Guide = o.Guide },
        Observation.MowerStart o => new(seen.Step) { By = seen.By, Place = o.Place },
        Observation.SplitResistance o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres },
        Observation.PinProbe o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres },
        Observation.JointDrop o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres },
        Observation.Wiggle o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres },
        Observation.EarthGradient o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres, SpacingMetres = o.SpacingMetres },
        Observation.ToneTrace o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres, From = o.From },
        Observation.Bypass o => new(seen.Step) { By = seen.By, FromMetres = o.FromMetres, ToMetres = o.ToMetres },
        Observation.Look o => new(seen.Step) { By = seen.By, FromMetres = o.FromMetres, ToMetres = o.ToMetres },
        Observation.Reflection o => new(seen.Step) { By = seen.By, From = o.From },
        Observation.WireCrossing o => new(seen.Step) { By = seen.By, AtMetres = o.AtMetres, NearMetal = o.NearMetal },
        Observation.Insulation o => new(seen.Step) { By = seen.By, TestVolts = Math.Min(o.TestVolts, StepSafety.AdvisedTestVolts) },
        _ => new(seen.Step) { By = seen.By },
    };

    private Belief Without(IReadOnlyList<Observation> observations, int without, PlaceGrid grid, PlaceGrid pairs, SymptomTable symptoms) =>
        new(_physics, CaseEvidence.From(observations, _physics, without), _priors, grid, pairs, pairs, withPairs: false, weightsOnly: true, symptoms);
}
