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
            double one = expected.GetValueOrDefault(cause), other = actual.GetValueOrDefault(cause);
            Assert.True(Math.Abs(one - other) <= tolerance, $"{cause.First} {cause.Second}: {one} and {other}, not within {tolerance}");
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

    // Whoever is asked the same again mostly says the same for the same reason. Of a cause below a thousandth nothing is asked.
    [Fact]
    public void Equal_answer_without_a_number_moves_no_odds_by_more_than_half() => Gen.Select(RandomCases.With(2), PlainAnswers).Sample(
        (serviceCase, answer) =>
        {
            Dictionary<Cause, double> once = Causes(serviceCase with { Observations = [.. serviceCase.Observations, answer] });
            Dictionary<Cause, double> twice = Causes(serviceCase with { Observations = [.. serviceCase.Observations, answer, answer] });
            foreach ((Cause cause, double before) in once.Where(entry => entry.Value is > 1e-3 and < 1 - 1e-3))
            {
                double after = twice.GetValueOrDefault(cause), ratio = after / (1 - after) / (before / (1 - before));
                Assert.True(ratio is > 1 / 1.5 and < 1.5, $"{answer}: odds of {cause} times {ratio}");
            }
        },
        iter: 20, threads: 1);

    private static readonly Gen<Observation> PlainAnswers =
        from yes in Gen.Bool
        from choice in Gen.Int[0, 2]
        from at in Gen.Double[1, 50].Select(x => Math.Round(x, 1))
        from owner in Gen.Bool
        from seen in RandomCases.OneOf<Observation>(
            new Observation.OutletCheck(yes), new Observation.StationLamp((LampState)choice), new Observation.MowerStart(yes ? StartPlace.AtWire : StartPlace.MidLawn, (StartOutcome)choice),
            new Observation.FollowWire((FollowOutcome)choice), new Observation.SubstituteMower(yes), new Observation.SubstituteLoop(yes), new Observation.NeighbourOff(yes),
            new Observation.ChargeCheck(yes), new Observation.Wiggle(at, yes), new Observation.TerminalLook((TerminalState)choice), new Observation.Look(at, at + 6, yes),
            new Observation.ToneTrace(at, WireEnd.A, (ToneStrength)choice), new Observation.WireCrossing(yes, at, true))
        select seen with { By = owner && StepCatalogue.Of(seen.Step).OwnerMay ? Person.Owner : Person.Technician };

    // A stretch walked in two goes is the stretch walked; tolerance: the chance of a false mark is a little more for two walks than for one.
    [Fact]
    public void Walk_split_in_two_changes_nothing() => Gen.Select(RandomCases.With(2), Gen.Double[1, 15], Gen.Double[3, 12], Gen.Double[3, 12]).Sample(
        (serviceCase, from, first, second) =>
        {
            Observation whole = new Observation.Look(from, from + first + second, false), one = new Observation.Look(from, from + first, false), other = new Observation.Look(from + first, from + first + second, false);
            AssertSame(
                Causes(serviceCase with { Observations = [.. serviceCase.Observations, whole] }),
                Causes(serviceCase with { Observations = [.. serviceCase.Observations, one, other] }), 0.02);
        },
        iter: 10, threads: 1);

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
