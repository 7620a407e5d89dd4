using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Posteriors by place of one wire fault against plain loops over place, size and the wire's factor that restate the model.
/// Priors of causes, places and sizes are stated, not derived: they are taken as they are.</summary>
public sealed class BeliefSecondRouteTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 10, new(15, JointStyle.Twisted), new(44, JointStyle.Gel));
    private static readonly YardPhysics Physics = new(Yard);
    private const double Length = 60;

    /// <summary>A break against a series resistance before anything was seen.</summary>
    private static readonly double PriorRatio =
        CausePriors.Default.Counts[new(CauseKind.Open)] / CausePriors.Default.Counts[new(CauseKind.SeriesResistance)];

    /// <summary>What a case's reading holds, restated: limits of error as a rectangle, 0.1 Ω of leads, 3 % (12 % above 10 kΩ) of wander of
    /// what is no resistor, 0.2 m of place where the wire is cut.</summary>
    private static OhmsReading Reading(double? shown, double leads, double from, double to, bool cut)
    {
        double perMetre = Physics.Budget.MeanOhms / Length, nominal = (to - from) * perMetre, ohms = (shown ?? 0) - leads;
        double limit = ((0.008 * (shown ?? 0)) + 0.3) / Math.Sqrt(3);
        double wander = shown is null ? 0 : Math.Max(0, ohms - (1.2 * nominal)) * (ohms > 10_000 ? 0.12 : 0.03);
        return new()
        {
            Index = 0,
            Epoch = 0,
            Weight = 1,
            Ohms = shown is null ? null : ohms,
            DeviationOhms = Math.Sqrt((limit * limit) + 0.01 + (wander * wander) + (cut ? Math.Pow(0.2 * perMetre, 2) : 0)),
            NominalOhms = nominal,
            FromMetres = from,
            ToMetres = to,
            WrongProbability = 0.01,
        };
    }

    private static (double Weight, double[] Shares) ByNumbers(
        OhmsReading[] readings, Place[] places, SizeGrid sizes, double[] placePrior)
    {
        double[] weights = new double[places.Length];
        Dictionary<string, double> known = [];
        for (int p = 0; p < places.Length; p++)
        {
            double at = (places[p].FromMetres + places[p].ToMetres) / 2;
            bool[] inPath = [.. readings.Select(reading => at >= reading.FromMetres && at <= reading.ToMetres)];
            string key = string.Concat(inPath);
            if (!known.TryGetValue(key, out double likelihood))
            {
                for (int j = 0; j < sizes.Count; j++)
                {
                    likelihood += sizes.Prior[j] * OhmsByNumbers.Likelihood(
                        readings, inPath, Math.Max(Physics.Budget.RelativeDeviation, 0.01), sizes.Low[j], sizes.High[j]);
                }

                known.Add(key, likelihood);
            }

            weights[p] = placePrior[p] * likelihood;
        }

        double total = weights.Sum();
        return (total, [.. weights.Select(weight => weight / total)]);
    }

    // Tolerance: the sums' nodes.
    [Fact]
    public void Series_resistance_by_place_equals_plain_sums()
    {
        Belief belief = DiagnosisScene.Believe(
            Yard, [25, 36], DiagnosisScene.Loop(88), new Observation.SplitResistance(25, 1.1, 85, 0.4), new Observation.SplitResistance(36, 84, 1.0, 0.4));
        OhmsReading[] readings =
        [
            Reading(88, 0.3, 0, Length, false),
            Reading(1.1, 0.4, 0, 25, true), Reading(85, 0.4, 25, Length, true),
            Reading(84, 0.4, 0, 36, true), Reading(1.0, 0.4, 36, Length, true),
        ];

        (_, double[] expected) = ByNumbers(readings, belief.Grid.Places, belief.SeriesSizes, belief.Grid.SeriesPrior);

        DiagnosisScene.AssertClose(expected, belief.PlaceShares(CauseKind.SeriesResistance), 2e-3, 1e-6);
        Assert.InRange(expected.Where((_, i) => belief.Grid.Places[i].FromMetres >= 25 && belief.Grid.Places[i].ToMetres <= 36).Sum(), 0.9, 1);
    }

    // Tolerance: as above, and the meter's end taken at each bin's middle instead of across it.
    [Fact]
    public void Open_by_place_and_against_series_resistance_equals_plain_sums()
    {
        Belief belief = DiagnosisScene.Believe(Yard, [25], DiagnosisScene.Loop(null), new Observation.SplitResistance(25, null, 0.9, 0.4));
        OhmsReading[] readings = [Reading(null, 0.3, 0, Length, false), Reading(null, 0.4, 0, 25, true), Reading(0.9, 0.4, 25, Length, true)];

        (double open, double[] expected) = ByNumbers(readings, belief.Grid.Places, SizeGrid.Break(), belief.Grid.OpenPrior);
        (double series, _) = ByNumbers(readings, belief.Grid.Places, belief.SeriesSizes, belief.Grid.SeriesPrior);

        DiagnosisScene.AssertClose(expected, belief.PlaceShares(CauseKind.Open), 0.02, 1e-6);

        double ratio = belief.Group(CauseKind.Open).Weight / belief.Group(CauseKind.SeriesResistance).Weight;
        Assert.Equal(PriorRatio * open / series, ratio, 0.03 * ratio);
    }

    // A wet break: tens of kilohms with the place unknown between two cuts.
    [Fact]
    public void Wet_break_against_series_resistance_equals_plain_sums()
    {
        Belief belief = DiagnosisScene.Believe(Yard, [25], DiagnosisScene.Loop(16_500), new Observation.SplitResistance(25, 15_000, 0.9, 0.4));
        OhmsReading[] readings = [Reading(16_500, 0.3, 0, Length, false), Reading(15_000, 0.4, 0, 25, true), Reading(0.9, 0.4, 25, Length, true)];

        (double open, double[] expected) = ByNumbers(readings, belief.Grid.Places, SizeGrid.Break(), belief.Grid.OpenPrior);
        (double series, _) = ByNumbers(readings, belief.Grid.Places, belief.SeriesSizes, belief.Grid.SeriesPrior);

        DiagnosisScene.AssertClose(expected, belief.PlaceShares(CauseKind.Open), 0.02, 1e-6);
        double ratio = belief.Group(CauseKind.Open).Weight / belief.Group(CauseKind.SeriesResistance).Weight;
        Assert.Equal(PriorRatio * open / series, ratio, 0.03 * ratio);
    }
}
