using Swardloop.Core.Diagnosis.Tests;

namespace Swardloop.Core.Diagnosis;

/// <summary>What was seen and read along the wire, of a sound one and of one with a fault.</summary>
internal sealed partial class Belief
{
    /// <summary>Likelihood of place tests when no wire fault is there at all, or none any more.</summary>
    private double SoundPlaceTests(int fromEpoch)
    {
        double likelihood = 1;
        List<CaseEvidence.Item> looks = [], echoes = [], tones = [];
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch < fromEpoch)
            {
                continue;
            }

            switch (item.Seen)
            {
                case Observation.Look:
                    looks.Add(item);
                    break;
                case Observation.Reflection:
                    echoes.Add(item);
                    break;
                case Observation.ToneTrace:
                    tones.Add(item);
                    break;
                case Observation.EarthResistance or Observation.Insulation:
                    likelihood *= Earth(item, PlaceTestModel.SideLeak(null));
                    break;
                default:
                    likelihood *= item.Weighted(_placeTests.Likelihood(item.Seen, null, default, false)) * Earth(item, PlaceTestModel.SideLeak(null));
                    break;
            }
        }

        likelihood *= tones.Count > 0 ? PlaceTestModel.ToneLikelihood([.. tones], null, default, false) : 1;
        return likelihood * PlaceTestModel.LookLikelihood([.. looks], null) * (echoes.Count > 0 ? _placeTests.EchoLikelihood([.. echoes], null, default) : 1);
    }

    /// <summary>Likelihood of the place tests made while a wire fault was there, earth readings apart for leaks; without those that a leak beside
    /// it answers, if there is one. Of a contact that comes and goes: <paramref name="open"/> is the probability of each to have met it open.</summary>
    private double FaultyPlaceTests(CauseKind kind, Place place, bool wet, int until, int fromEpoch = 0, bool besideLeak = false, bool withCapacitance = true, double open = 0)
    {
        double likelihood = 1;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch > until || item.Epoch < fromEpoch || (besideLeak && IsAboutLeaks(item.Seen)))
            {
                continue;
            }

            switch (item.Seen)
            {
                case Observation.Look or Observation.Reflection or Observation.ToneTrace:
                    break; // taken together below
                case Observation.EarthResistance or Observation.Insulation or Observation.EarthRatio when kind != CauseKind.Leak:
                    likelihood *= Earth(item, PlaceTestModel.SideLeak(kind)); // where a ratio points depends on the fault's size: see Ratios
                    break;
                case Observation.EarthResistance or Observation.Insulation:
                    break; // see EarthReadings
                case Observation.EarthRatio:
                    likelihood *= item.Weighted(RatioAtLeaks(item, place, place));
                    break;
                case Observation.AcRatio when !besideLeak && kind is CauseKind.SeriesResistance or CauseKind.Open:
                    break; // see Ratios
                case Observation.AcRatio o when kind == CauseKind.Unsteady:
                    likelihood *= item.Weighted((open * AcRatioTest.Density(AcRatioTest.ShareOf(o), _physics.ShareBeyond(place.AtMetres / _physics.LengthMetres), 0.03))
                        + ((1 - open) * AcRatioTest.Density(AcRatioTest.ShareOf(o), _physics.MeanPlaceShare, 0.004)));
                    break;
                case Observation.EndCapacitance when kind == CauseKind.Unsteady:
                    double parts = open * (1 - OpenContactConducts);
                    likelihood *= item.Weighted((parts * _placeTests.Likelihood(item.Seen, CauseKind.Open, place, false)) + ((1 - parts) * _placeTests.Likelihood(item.Seen, null, place, false)));
                    break;
                case Observation.EndCapacitance when !withCapacitance && kind == CauseKind.Open:
                    break; // see Capacitances
                default:
                    likelihood *= item.Weighted(_placeTests.Likelihood(item.Seen, kind, place, wet));
                    break;
            }
        }

        // What a resistance sends back depends on its size: see Echoes.
        CaseEvidence.Item[] looks = From(_looksUntil[until]), tones = From(_tonesUntil[until]), echoes = kind == CauseKind.SeriesResistance ? [] : From(_echoesUntil[until]);
        if (looks.Length > 0)
        {
            likelihood *= PlaceTestModel.LookLikelihood(looks, place);
        }

        if (tones.Length > 0)
        {
            likelihood *= kind == CauseKind.Unsteady
                ? (open * PlaceTestModel.ToneLikelihood(tones, CauseKind.Open, place, wet)) + ((1 - open) * PlaceTestModel.ToneLikelihood(tones, null, place, wet))
                : PlaceTestModel.ToneLikelihood(tones, kind, place, wet);
        }

        return echoes.Length == 0 ? likelihood : likelihood * (kind == CauseKind.Unsteady
            ? (open * _placeTests.EchoLikelihood(echoes, CauseKind.Open, place)) + ((1 - open) * _placeTests.EchoLikelihood(echoes, null, place))
            : _placeTests.EchoLikelihood(echoes, kind, place));

        CaseEvidence.Item[] From(CaseEvidence.Item[] items) => fromEpoch == 0 ? items : Array.FindAll(items, item => item.Epoch >= fromEpoch);
    }

    /// <summary>Likelihood of the earth ratios taken across one fault in series.</summary>
    /// <param name="kind">A resistance or a break.</param>
    /// <param name="place">Where it is.</param>
    /// <param name="until">The epoch until which it is there.</param>
    /// <param name="size">Its size.</param>
    private double Ratios(CauseKind kind, Place place, int until, in SizeMoments size)
    {
        double likelihood = 1, at = place.AtMetres / _physics.LengthMetres;
        foreach (CaseEvidence.Item item in _ratios)
        {
            if (item.Epoch <= until)
            {
                likelihood *= item.Weighted(PlaceTestModel.RatioOverFaults(
                    (Observation.EarthRatio)item.Seen, SideLeakOf(kind, until), (at, size.Part), default, size.PartDeviation * Math.Abs(0.5 - at)));
            }
        }

        foreach (CaseEvidence.Item item in _acRatios)
        {
            if (item.Epoch <= until)
            {
                likelihood *= item.Weighted(AcRatioOver((Observation.AcRatio)item.Seen, kind, place, size));
            }
        }

        return likelihood;
    }

    private double AcRatioOver(Observation.AcRatio seen, CauseKind kind, Place place, in SizeMoments size)
    {
        double at = place.AtMetres / _physics.LengthMetres, coarse = place.LengthMetres / (4 * _physics.LengthMetres);
        double mean = AcRatioTest.Share(_physics, (at, kind == CauseKind.Open ? double.PositiveInfinity : size.MiddleOhms), default, seen.Hertz);
        return AcRatioTest.Density(AcRatioTest.ShareOf(seen), mean, coarse + (kind == CauseKind.Open ? 0 : size.PartDeviation * Math.Abs(0.5 - at)));
    }

    /// <summary>The same across two faults in series, and across the one that is left when the other is mended.</summary>
    private double PairRatios((CauseKind Kind, Place Place, double Ohms) a, int untilA, (CauseKind Kind, Place Place, double Ohms) b, int untilB)
    {
        double likelihood = 1, length = _physics.LengthMetres;
        foreach (CaseEvidence.Item item in _ratios)
        {
            bool isA = item.Epoch <= untilA, isB = item.Epoch <= untilB;
            if (isA || isB)
            {
                (double partA, double partB) = (isA, isB) switch
                {
                    (true, false) => (PartOf(a.Ohms, 0), 0.0),
                    (false, true) => (0.0, PartOf(b.Ohms, 0)),
                    _ => (PartOf(a.Ohms, b.Ohms), PartOf(b.Ohms, a.Ohms)),
                };
                likelihood *= item.Weighted(PlaceTestModel.RatioOverFaults(
                    (Observation.EarthRatio)item.Seen, SideLeakOf(isB ? b.Kind : a.Kind, isB ? untilB : untilA), (a.Place.AtMetres / length, partA), (b.Place.AtMetres / length, partB),
                    (partA * a.Place.LengthMetres / length / 3) + (partB * b.Place.LengthMetres / length / 3)));
            }
        }

        foreach (CaseEvidence.Item item in _acRatios)
        {
            bool isA = item.Epoch <= untilA, isB = item.Epoch <= untilB;
            if (isA || isB)
            {
                Observation.AcRatio seen = (Observation.AcRatio)item.Seen;
                double mean = AcRatioTest.Share(_physics, (a.Place.AtMetres / length, isA ? a.Ohms : 0), (b.Place.AtMetres / length, isB ? b.Ohms : 0), seen.Hertz);
                double coarse = ((isA ? a.Place.LengthMetres : 0) + (isB ? b.Place.LengthMetres : 0)) / (4 * length);

                // How two breaks share the volts hangs on what both of them conduct.
                double shared = isA && isB && a.Kind == CauseKind.Open && b.Kind == CauseKind.Open ? Math.Abs(a.Place.AtMetres - b.Place.AtMetres) / (3 * length) : 0;
                likelihood *= item.Weighted(AcRatioTest.Density(AcRatioTest.ShareOf(seen), mean, coarse + shared));
            }
        }

        return likelihood;
    }

    /// <summary>Likelihood of the capacitances measured while a break was there; 1 for other kinds.</summary>
    private double Capacitances(CauseKind kind, Place place, int until, double wetShare)
    {
        double likelihood = 1;
        if (kind == CauseKind.Open)
        {
            foreach (CaseEvidence.Item item in _capacitances)
            {
                if (item.Epoch <= until)
                {
                    likelihood *= item.Weighted(_placeTests.CapacitanceLikelihood((Observation.EndCapacitance)item.Seen, (place.AtMetres, place.AtMetres), SideLeakOf(kind, until), wetShare));
                }
            }
        }

        return likelihood;
    }

    /// <summary>The same beside another fault in series: of two breaks each end's capacitance is that of the wire up to its own.</summary>
    private double PairCapacitances((CauseKind Kind, Place Place, double Ohms) a, int untilA, (CauseKind Kind, Place Place, double Ohms) b, int untilB)
    {
        double likelihood = 1, length = _physics.LengthMetres;
        foreach (CaseEvidence.Item item in _capacitances)
        {
            bool isA = a.Kind == CauseKind.Open && item.Epoch <= untilA, isB = b.Kind == CauseKind.Open && item.Epoch <= untilB;
            if (!isA && !isB)
            {
                continue;
            }

            double first = Math.Min(isA ? a.Place.AtMetres : length, isB ? b.Place.AtMetres : length), last = Math.Max(isA ? a.Place.AtMetres : 0, isB ? b.Place.AtMetres : 0);
            double wet = Math.Max(isA ? PlaceTestModel.WetShare(a.Ohms) : 0, isB ? PlaceTestModel.WetShare(b.Ohms) : 0);
            double coarse = ((isA ? a.Place.LengthMetres : 0) + (isB ? b.Place.LengthMetres : 0)) / (4 * length);
            likelihood *= item.Weighted(_placeTests.CapacitanceLikelihood(
                (Observation.EndCapacitance)item.Seen, (first, last), SideLeakOf(CauseKind.Open, isA ? untilA : untilB), wet + coarse));
        }

        return likelihood;
    }

    /// <summary>Likelihood of the echoes of a series resistance in some epochs; 1 for other kinds, whose echoes do not depend on their size.</summary>
    private double Echoes(CauseKind kind, Place place, int fromEpoch, int until, double shows)
    {
        CaseEvidence.Item[] echoes = kind == CauseKind.SeriesResistance ? Array.FindAll(_echoesUntil[until], item => item.Epoch >= fromEpoch) : [];
        return echoes.Length == 0 ? 1 : _placeTests.EchoLikelihood(echoes, kind, place, shows);
    }

    /// <summary>The same of two faults: beside a break the break answers, of two resistances either does; then the one that is left.</summary>
    private double PairEchoes((CauseKind Kind, Place Place, double Ohms) a, int untilA, (CauseKind Kind, Place Place, double Ohms) b, int untilB)
    {
        int both = Math.Min(untilA, untilB);
        double likelihood = a.Kind == b.Kind ? 0.5 * (Of(a, 0, both) + Of(b, 0, both)) : 1;
        return untilA == untilB ? likelihood : likelihood * Of(untilA > untilB ? a : b, both + 1, Math.Max(untilA, untilB));

        double Of((CauseKind Kind, Place Place, double Ohms) fault, int fromEpoch, int until) =>
            Echoes(fault.Kind, fault.Place, fromEpoch, until, PlaceTestModel.EchoShows(fault.Ohms));
    }

    /// <summary>A fault's share of the loop's resistance, beside another one; of two dry breaks each has half.</summary>
    public double PartOf(double ohms, double otherOhms) =>
        double.IsInfinity(ohms) ? (double.IsInfinity(otherOhms) ? 0.5 : 1) : ohms / (_physics.Budget.MeanOhms + ohms + otherOhms);

    /// <summary>What the readings of a pattern say of a fault's size, as far as other tests depend on it.</summary>
    private SizeMoments MomentsOf(SizeGrid sizes, double[] likelihood)
    {
        double all = 0, sum = 0, squares = 0, shows = 0, finite = 0, wet = 0, logs = 0;
        for (int j = 0; j < sizes.Count; j++)
        {
            double ohms = sizes.Centre[j], weight = sizes.Prior[j] * likelihood[j], part = PartOf(ohms, 0);
            all += weight;
            sum += weight * part;
            squares += weight * part * part;
            shows += weight * PlaceTestModel.EchoShows(ohms);
            if (!double.IsInfinity(sizes.High[j]))
            {
                finite += weight;
                wet += weight * PlaceTestModel.WetShare(ohms);
                logs += weight * Math.Log(ohms);
            }
        }

        double wetShare = finite > 0 ? wet / finite : 0;
        return all > 0 ? new(sum / all, Math.Sqrt(Math.Max(0, (squares / all) - Squared(sum / all))), shows / all, wetShare, finite > 0 ? Math.Exp(logs / finite) : double.PositiveInfinity) : new(1, 0, 0, 0, double.PositiveInfinity);
    }

    /// <summary>Probability that the wire leaks at a fault, after the readings to earth.</summary>
    private double SideLeakOf(CauseKind kind, int until)
    {
        double side = PlaceTestModel.SideLeak(kind), leaks = side, sound = 1 - side;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch <= until)
            {
                leaks *= Earth(item, 1);
                sound *= Earth(item, 0);
            }
        }

        return leaks + sound > 0 ? leaks / (leaks + sound) : side;
    }

    private CaseEvidence.Item[][] Until<T>()
        where T : Observation
    {
        CaseEvidence.Item[][] items = new CaseEvidence.Item[_never + 1][];
        for (int until = 0; until < items.Length; until++)
        {
            items[until] = [.. _evidence.PlaceTests.Where(item => item.Seen is T && item.Epoch <= until)];
        }

        return items;
    }

    private static bool IsAboutLeaks(Observation seen) =>
        seen is Observation.EarthResistance or Observation.Insulation or Observation.EarthRatio or Observation.EarthGradient or Observation.WireCrossing;

    /// <summary>Whether a test says how much leaks: an earth reading, or the sum of an earth ratio's voltages where there is none in the same state.</summary>
    private bool SaysWhatLeaks(CaseEvidence.Item item) => item.Seen is Observation.EarthResistance or Observation.Insulation
        || (item.Seen is Observation.EarthRatio { VoltsA: var a, VoltsB: var b } && a + b > 0
            && !Array.Exists(_evidence.PlaceTests, other => other.Epoch == item.Epoch && other.Seen is Observation.EarthResistance or Observation.Insulation));

    /// <summary>What a test says of how much leaks, where nothing is known to leak; 1 when it says nothing of it.</summary>
    private double Earth(CaseEvidence.Item item, double sideLeak)
    {
        if (!SaysWhatLeaks(item))
        {
            return 1;
        }

        if (!_earth.TryGetValue(item.Index, out (double Sound, double Leaks) known))
        {
            known = (PlaceTestModel.EarthLikelihood(item.Seen, double.PositiveInfinity, 0), PlaceTestModel.EarthLikelihood(item.Seen, double.PositiveInfinity, 1));
            _earth.Add(item.Index, known);
        }

        return item.Weighted(((1 - sideLeak) * known.Sound) + (sideLeak * known.Leaks));
    }

    private double EarthReadings(double leakOhms, int until)
    {
        double likelihood = 1;
        foreach (CaseEvidence.Item item in _evidence.PlaceTests)
        {
            if (item.Epoch <= until && SaysWhatLeaks(item))
            {
                likelihood *= item.Weighted(PlaceTestModel.EarthLikelihood(item.Seen, leakOhms, 0));
            }
        }

        return likelihood;
    }

    /// <summary>A fault's mean share of the loop's resistance, its standard deviation, the chance that its echo shows, and, if it conducts, the share
    /// of a capacitance reading that comes from beyond it and its middle size (Ω).</summary>
    private readonly record struct SizeMoments(double Part, double PartDeviation, double EchoShows, double WetShare, double MiddleOhms);
}
