namespace Swardloop.Core.Diagnosis;

/// <summary>Resistance in an old place that harms nobody: it shows in readings beside whatever is the trouble, and may be mended for nothing.</summary>
internal sealed partial class Belief
{
    private double? _soundWire, _soundOhms;
    private HarmlessAt[]? _harmlessBesideLeaks;
    private readonly Dictionary<int, HarmlessAlong> _harmlessAlong = [];

    /// <summary>What was read and seen of the wire where nothing along it is the trouble: it is sound, or harmless resistance answers as any does.</summary>
    private double WireIsSound() =>
        _soundWire ??= OrHarmless(_seriesOhms.Healthy() * SoundPlaceTests(0), OverHarmless(_seriesPlaces.Select(at => new HarmlessAt(at.Place, at.Until, at.Pattern, at.Finite))));

    /// <summary>The resistance readings of a wire whose trouble is none of resistance: it may have some that harms nobody.</summary>
    private double SoundOhms() => _soundOhms ??= OrHarmless(_seriesOhms.Healthy(), HarmlessBesideLeaks());

    private static double OrHarmless(double sound, HarmlessAt[] harmless) => harmless.Length == 0 ? sound
        : ((1 - StatedProbabilities.HarmlessResistance) * sound) + (StatedProbabilities.HarmlessResistance * harmless.Sum(at => at.Weight));

    /// <summary>Likelihood of an earth ratio over leaks at two places, or twice the same.</summary>
    private double RatioAtLeaks(CaseEvidence.Item item, Place first, Place second)
    {
        Observation.EarthRatio seen = (Observation.EarthRatio)item.Seen;
        return AlongOhms(first, second, item.Epoch).Sum(at =>
            at.Probability * (first == second ? PlaceTestModel.RatioLikelihood(seen, at.Near) : PlaceTestModel.RatioAtLeakPair(seen, at.Near, at.Far)));
    }

    /// <summary>Where leaks at two places, or twice the same, lie along the loop's ohms as it is now: see <see cref="AlongOhms(Place, Place, int)"/>.</summary>
    public (double Probability, double Near, double Far)[] AlongOhms(Place first, Place second) => AlongOhms(first, second, _never);

    /// <summary>Where leaks lie along the loop's ohms, as shares of them, with probabilities: a battery's volts fall along ohms and not along metres, and
    /// harmless resistance before, between or beyond them moves both.</summary>
    private (double Probability, double Near, double Far)[] AlongOhms(Place first, Place second, int epoch)
    {
        (Place one, Place other) = first.AtMetres <= second.AtMetres ? (first, second) : (second, first);
        double length = _physics.LengthMetres, near = one.AtMetres, far = other.AtMetres;
        HarmlessAlong there = Along(epoch);
        if (!(there.Share > 0.01))
        {
            return [(1, near / length, far / length)];
        }

        double rest = 1 - there.Part, before = there.Before[Grid.IndexOf(one)], notBeyond = there.Before[Grid.IndexOf(other)];
        double nearAlong = rest * near / length, farAlong = rest * far / length;
        return
        [
            (1 - there.Share, near / length, far / length),
            (there.Share * before, there.Part + nearAlong, there.Part + farAlong),
            (there.Share * (notBeyond - before), nearAlong, there.Part + farAlong),
            (there.Share * (1 - notBeyond), nearAlong, farAlong),
        ];
    }

    /// <summary>Where harmless resistance lies that is there in an epoch.</summary>
    private HarmlessAlong Along(int epoch)
    {
        if (!_harmlessAlong.TryGetValue(epoch, out HarmlessAlong known))
        {
            double[] before = new double[Grid.Places.Length];
            double all = 0, part = 0;
            foreach (HarmlessAt at in HarmlessBesideLeaks())
            {
                if (at.Until >= epoch)
                {
                    all += at.Weight;
                    part += at.Weight * at.Part;

                    // In one joint with a leak it lies on either side of it.
                    before[at.Place] += at.Weight / 2;
                    if (at.Place + 1 < before.Length)
                    {
                        before[at.Place + 1] += at.Weight / 2;
                    }
                }
            }

            for (int i = 1; i < before.Length; i++)
            {
                before[i] += before[i - 1];
            }

            known = all > 0 ? new(StatedProbabilities.HarmlessResistance * all / SoundOhms(), part / all, [.. before.Select(weight => weight / all)]) : default;
            _harmlessAlong.Add(epoch, known);
        }

        return known;
    }

    private HarmlessAt[] HarmlessBesideLeaks() => _harmlessBesideLeaks ??= OverHarmless(Enumerable.Range(0, Grid.Places.Length).SelectMany(i =>
        EndingsAt(Grid.Places[i]).SelectMany(ending => _seriesOhms.Patterns(Grid.Places[i], ending.Until).Select(read =>
            new HarmlessAt(i, ending.Until, read.Pattern, ending.Probability * read.Share * Found(ending.Until) * AcRatiosOver(Grid.Places[i], ending.Until, read.Pattern))))));

    /// <summary>How much likelier the AC ratios are over a resistance somewhere than over a sound wire.</summary>
    private double AcRatiosOver(Place place, int until, Int128 pattern)
    {
        double likelihood = 1;
        if (_acRatios.Length > 0)
        {
            SizeMoments size = MomentsOf(_seriesSizes, _seriesOhms.BySize(pattern));
            foreach (CaseEvidence.Item item in _acRatios.Where(item => item.Epoch <= until))
            {
                likelihood *= item.Weighted(AcRatioOver((Observation.AcRatio)item.Seen, CauseKind.SeriesResistance, place, size) / _placeTests.Likelihood(item.Seen, null, default, false));
            }
        }

        return likelihood;
    }

    /// <summary>Weights of a resistance as large as the mower does not mind, even in the logarithm, at any of some places, with the readings over it; none
    /// where there is no such size, or nothing was read.</summary>
    private HarmlessAt[] OverHarmless(IEnumerable<HarmlessAt> places)
    {
        double[] sizes = [.. _seriesSizes.Centre.Select(ohms => ohms < 60 ? Math.Max(0, 1 - FailsToCover(_physics, ohms)) : 0)];
        double all = sizes.Sum();
        if (!(all > 0) || _evidence.Ohms.Length == 0)
        {
            return [];
        }

        Dictionary<Int128, (double Likelihood, double Part)> known = [];
        return [.. places.Select(at =>
        {
            if (!known.TryGetValue(at.Pattern, out (double Likelihood, double Part) read))
            {
                double[] bySize = _seriesOhms.BySize(at.Pattern);
                double parts = 0;
                for (int j = 0; j < sizes.Length; j++)
                {
                    double weight = sizes[j] * bySize[j];
                    read.Likelihood += weight;
                    parts += weight > 0 ? weight * PartOf(_seriesSizes.Centre[j], 0) : 0;
                }

                read.Part = read.Likelihood > 0 ? parts / read.Likelihood : 0;
                known.Add(at.Pattern, read);
            }

            return at with { Weight = Grid.SeriesPrior[at.Place] * at.Weight * read.Likelihood / all, Part = read.Part };
        })];
    }

    /// <summary>Harmless resistance at a place.</summary>
    /// <param name="Place">The place's index.</param>
    /// <param name="Until">The epoch until which it is there.</param>
    /// <param name="Pattern">The readings with it in their path.</param>
    /// <param name="Weight">Likelihood, with the readings once they are in.</param>
    private readonly record struct HarmlessAt(int Place, int Until, Int128 Pattern, double Weight)
    {
        /// <summary>Its mean share of the loop's resistance.</summary>
        public double Part { get; init; }
    }

    /// <summary>Harmless resistance along the wire: its probability, its mean share of the loop's resistance, and how much of it lies before each place.</summary>
    private readonly record struct HarmlessAlong(double Share, double Part, double[] Before);
}
