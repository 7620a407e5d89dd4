using CsCheck;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>What must hold whatever was seen: relations between the answers to related cases.</summary>
public sealed class AdvisorPropertyTests
{
    private static Belief Believe(ServiceCase serviceCase) => new Beliefs(serviceCase, new(serviceCase.Yard), CausePriors.Default).All;

    private static Dictionary<Cause, double> Causes(ServiceCase serviceCase) =>
        Believe(serviceCase).Causes().ToDictionary(cause => cause.Cause, cause => cause.Probability);

    private static void AssertSame(Dictionary<Cause, double> expected, Dictionary<Cause, double> actual, double tolerance)
    {
        foreach (Cause cause in expected.Keys.Union(actual.Keys))
        {
            Assert.Equal(expected.GetValueOrDefault(cause), actual.GetValueOrDefault(cause), tolerance);
        }
    }

    // Tolerance: lengths summed from the other end, and with them which of the least weights are dropped (1e-7 of the whole).
    [Fact]
    public void Swapping_the_terminals_mirrors_causes_and_places() => RandomCases.With(4).Sample(
        serviceCase =>
        {
            ServiceCase mirrored = RandomCases.Mirrored(serviceCase);
            Belief here = Believe(serviceCase), there = Believe(mirrored);

            // What lies just at a limit (beside metal, under a threshold of what counts) falls to either side of it by rounding.
            AssertSame(
                here.Causes().ToDictionary(cause => cause.Cause, cause => cause.Probability),
                there.Causes().ToDictionary(cause => cause.Cause, cause => cause.Probability), 2e-3);
            double length = serviceCase.Yard.Loop.LengthMetres;

            // Stretches whose density differs by less than 2 % are shown as one, begun from the other end.
            double[] forward = Quarters(PlaceOfFault.Density(here), length), back = Quarters(PlaceOfFault.Density(there), length);
            DiagnosisScene.AssertClose(forward, [.. back.Reverse()], 0, 5e-3);
        },
        iter: 20, threads: 1);

    private static double[] Quarters(List<DensityBin> density, double length)
    {
        double[] shares = new double[4];
        foreach (DensityBin bin in density)
        {
            for (int q = 0; q < 4; q++)
            {
                double from = length * q / 4, to = length * (q + 1) / 4;
                double overlap = Math.Min(bin.ToMetres, to) - Math.Max(bin.FromMetres, from);
                shares[q] += overlap > 0 ? bin.Probability * overlap / (bin.ToMetres - bin.FromMetres) : 0;
            }
        }

        return shares;
    }

    // Tolerance: rounding of some hundred terms.
    [Fact]
    public void Probabilities_sum_to_one_after_every_added_reading() => RandomCases.With(4).Sample(
        serviceCase =>
        {
            for (int count = 0; count <= serviceCase.Observations.Count; count++)
            {
                Advice advice = Advisor.Advise(serviceCase with { Observations = [.. serviceCase.Observations.Take(count)] }, CausePriors.Default, TestContext.Current.CancellationToken);
                Assert.Equal(1, advice.Causes.Sum(cause => cause.Probability), 1e-9);
                Assert.All(advice.Causes, cause => Assert.InRange(cause.Probability, 0, 1));
                Assert.True(advice.Density.Count == 0 || Math.Abs(advice.Density.Sum(bin => bin.Probability) - 1) < 1e-9);
            }
        },
        iter: 3, threads: 1);

    // Tolerance: rounding.
    [Fact]
    public void Repeating_a_reading_never_lowers_its_cause() => Gen.Select(RandomCases.With(1), ReadingsOfCauses).Sample(
        (serviceCase, reading) =>
        {
            double once = Causes(serviceCase with { Observations = [reading.Seen] })[reading.Cause];
            double twice = Causes(serviceCase with { Observations = [reading.Seen, reading.Seen] })[reading.Cause];
            Assert.True(twice >= once - 1e-9, $"{reading}: fell from {once} to {twice}");
        },
        iter: 24, threads: 1);

    /// <summary>Readings and the cause that a person would think of.</summary>
    private static readonly Gen<(Observation Seen, Cause Cause)> ReadingsOfCauses =
        from ohms in Gen.Double[40, 2_000]
        from owner in Gen.Bool
        from pair in RandomCases.OneOf<(Observation Seen, CauseKind Kind)>(
            (DiagnosisScene.Loop(Math.Round(ohms)), CauseKind.SeriesResistance),
            (DiagnosisScene.Loop(null), CauseKind.Open),
            (new Observation.StationLamp(LampState.Alarm), CauseKind.Open),
            (new Observation.OutletCheck(false), CauseKind.NoMains),
            (new Observation.SupplyVoltage(0.2, 20), CauseKind.Supply),
            (new Observation.MowerStart(StartPlace.AtWire, StartOutcome.Outside), CauseKind.EndsSwapped),
            (new Observation.EarthResistance(Math.Round(ohms)), CauseKind.Leak),
            (new Observation.WireCrossing(true, null, true), CauseKind.LeakPair),
            (new Observation.NeighbourOff(true), CauseKind.Crosstalk))
        select (pair.Seen with { By = owner && StepCatalogue.Of(pair.Seen.Step).OwnerMay ? Person.Owner : Person.Technician }, new Cause(pair.Kind));

    [Fact]
    public void Order_between_repairs_does_not_matter() => RandomCases.With(5).Sample(
        serviceCase =>
        {
            List<Observation> shuffled = [];
            List<Observation> state = [];
            foreach (Observation seen in serviceCase.Observations)
            {
                // A joint opened counts as a repair; any cut is kept in its place here.
                if (seen is Observation.RepairDone or Observation.SplitResistance)
                {
                    shuffled.AddRange(Enumerable.Reverse(state));
                    state.Clear();
                    shuffled.Add(seen);
                }
                else
                {
                    state.Add(seen);
                }
            }

            shuffled.AddRange(Enumerable.Reverse(state));
            AssertSame(Causes(serviceCase), Causes(serviceCase with { Observations = shuffled }), 1e-9);
        },
        iter: 20, threads: 1);

    [Fact]
    public void Same_case_gives_the_same_numbers_to_the_last_bit() => RandomCases.Any.Sample(
        serviceCase =>
        {
            // Yards are compared by reference where physics is remembered: a copy is computed anew.
            ServiceCase again = serviceCase with { Yard = serviceCase.Yard with { Name = "again" } };
            Assert.Equal(
                DiagnosisScene.Numbers(Advisor.Advise(serviceCase, CausePriors.Default, TestContext.Current.CancellationToken)),
                DiagnosisScene.Numbers(Advisor.Advise(again, CausePriors.Default, TestContext.Current.CancellationToken)));
        },
        iter: 3, threads: 1);

    // 2 MΩ on one instrument is 2,000,000 Ω on the other. Tolerance: rounding of the conversion.
    [Fact]
    public void Reading_in_other_units_gives_the_same_answer()
    {
        ServiceCase ohms = DiagnosisScene.Case(DiagnosisScene.Rectangle(20, 20), new Observation.EarthResistance(3_300));
        AssertSame(Causes(ohms), Causes(ohms with { Observations = [new Observation.Insulation(250, 0.0033)] }), 1e-9);
    }
}
