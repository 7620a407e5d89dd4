using Swardloop.Core.Diagnosis.Tests;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>The two wires of a double run touching: the island is ignored, the loop reads less than it should, the rest runs.</summary>
internal sealed partial class Belief
{
    private static readonly SizeGrid OneSize = SizeGrid.LogEven(1, 2, 1);

    private void AddShortCircuits()
    {
        if (_physics.IslandRuns.Count == 0)
        {
            return;
        }

        FaultGroup group = NewGroup(new Cause(CauseKind.ShortCircuit));
        (int Index, IslandRun Run)[] places = [.. Enumerable.Range(0, Grid.Places.Length)
            .SelectMany(i => _physics.IslandRuns.Where(run => Grid.Places[i].AtMetres > run.OutFromMetres && Grid.Places[i].AtMetres < run.OutToMetres).Select(run => (i, run)))];
        double all = places.Sum(entry => Metres(entry.Index));
        foreach ((int index, IslandRun run) in places)
        {
            Place place = Grid.Places[index], other = BesideOf(place, run);
            double prior = _priors[(int)CauseKind.ShortCircuit] * Metres(index) / all;
            double beyond = (other.AtMetres - place.AtMetres) * _physics.OhmsPerMetre;
            Condition condition = ShortCondition(beyond);
            foreach ((int until, double probability) in Endings(change => 1 - ((1 - _repairs.Cures(change, place)) * (1 - _repairs.Cures(change, other)))))
            {
                double weight = prior * probability * ShortOhms((place.AtMetres, other.AtMetres), until) * ShortTests(place, other, until)
                    * Found(until) * SymptomsUntil(condition, until) * (until == _never ? 1 : _soundAfter[until]);
                if (until == _never)
                {
                    group.Add(weight, new Part(CauseKind.ShortCircuit, place, index, SizeSpread.At(-condition.ExtraOhms)));
                }
                else
                {
                    group.End(weight, until);
                }
            }
        }

        _running += group.Weight;
        Faults.Add(group);

        double Metres(int index) => Math.Max(Grid.Places[index].LengthMetres, 0.5);
    }

    /// <summary>The loop carries a little more than it should; rounded, as hardly any symptom depends on it.</summary>
    private static Condition ShortCondition(double beyondOhms) => Condition.Of(CauseKind.ShortCircuit, -Math.Round(beyondOhms, 1));

    /// <summary>The piece of the way back that lies beside a piece of the way out.</summary>
    private static Place BesideOf(Place place, IslandRun run) => new(PlaceKind.Span, run.Beside(place.ToMetres), run.Beside(place.FromMetres));

    private double ShortOhms((double Out, double Back) run, int until)
    {
        if (_evidence.Ohms.Length == 0)
        {
            return 1;
        }

        double likelihood = 0;
        foreach ((double ohms, double share) in ShortedRun.Contacts)
        {
            OhmsReading[] readings = [.. _evidence.Ohms.Select(reading => reading.Epoch > until || reading.FromMetres < 0 ? reading
                : reading with { NominalOhms = Math.Max(0.01, ShortedRun.NominalOhms(reading, !reading.IsNeedle, run, ohms, _physics.OhmsPerMetre)) })];
            likelihood += share * new OhmsEvidence(readings, _factorDeviation, OneSize).Healthy();
        }

        return likelihood;
    }

    /// <summary>Place tests of a short: damage shows on both wires, the mower crosses at the island; all else is as on a sound wire.</summary>
    private double ShortTests(Place place, Place other, int until)
    {
        double likelihood = 1;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch > until)
            {
                continue;
            }

            likelihood *= item.Seen switch
            {
                Observation.Look or Observation.Reflection or Observation.ToneTrace => 1, // taken together below
                Observation.EarthResistance or Observation.Insulation => Earth(item, PlaceTestModel.SideLeak(null)),
                Observation.WireCrossing o => item.Weighted(PlaceTestModel.Crossed(o, ShortedRun.Crosses(o.AtMetres, (place.AtMetres, other.AtMetres)))),
                _ => item.Weighted(_placeTests.Likelihood(item.Seen, null, default, false)) * Earth(item, PlaceTestModel.SideLeak(null)),
            };
        }

        CaseEvidence.Item[] looks = _looksUntil[until], tones = _tonesUntil[until], echoes = _echoesUntil[until];
        return likelihood * (looks.Length > 0 ? PlaceTestModel.LookLikelihood(looks, place, other) : 1)
            * (tones.Length > 0 ? PlaceTestModel.ToneLikelihood(tones, null, default, false) : 1)
            * (echoes.Length > 0 ? _placeTests.EchoLikelihood(echoes, null, default) : 1);
    }
}
