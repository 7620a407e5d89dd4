using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Small yards and the belief in them, for tests.</summary>
internal static class DiagnosisScene
{
    /// <summary>A rectangle walked anticlockwise from its south-west corner, where the station stands.</summary>
    public static Yard Rectangle(double east, double north, params Joint[] joints) => new()
    {
        Name = "Tansy Court",
        Lawn = new([[new(0, 0), new(east, 0), new(east, north), new(0, north)]], []),
        Loop = new()
        {
            Path = new([new(0, 0), new(east, 0), new(east, north), new(0, north), new(0, 0)]),
            Conductor = new() { AreaSquareMetres = 1e-6 },
            Joints = joints,
        },
    };

    public static readonly Instruments EveryInstrument = Instruments.Multimeter | Instruments.CapacitanceMeter | Instruments.Battery
        | Instruments.ToneSender | Instruments.InsulationTester | Instruments.Reflectometer;

    public static Observation Loop(double? ohms, double leads = 0.3) => new Observation.LoopResistance(ohms, leads, MeterAccuracy.Plain);

    public static ServiceCase Case(Yard yard, params Observation[] observations) => new() { Yard = yard, Observations = observations };

    public static Advice Advise(Yard yard, params Observation[] observations) => Advisor.Advise(Case(yard, observations), CausePriors.Default, TestContext.Current.CancellationToken);

    /// <summary>Belief on cells of a metre or more, where no place runs into its neighbour; pairs of faults left out.</summary>
    public static Belief Believe(Yard yard, double[] cuts, params Observation[] observations)
    {
        YardPhysics physics = new(yard);
        PlaceGrid grid = PlaceGrid.Cut(yard, cuts, 4);
        return new(physics, CaseEvidence.From(observations, physics), CausePriors.Default, grid, grid, grid, withPairs: false);
    }

    public static FaultGroup Group(this Belief belief, CauseKind kind) => belief.Faults.Single(fault => fault.Cause == new Cause(kind));

    public static double Probability(this Advice advice, CauseKind kind) =>
        advice.Causes.Where(cause => cause.Cause == new Cause(kind)).Sum(cause => cause.Probability);

    /// <summary>Share of each place in one kind's weight that is still to be found.</summary>
    public static double[] PlaceShares(this Belief belief, CauseKind kind)
    {
        double[] shares = new double[belief.Grid.Places.Length];
        foreach (FaultAtom atom in belief.Group(kind).Atoms)
        {
            shares[atom.First.PlaceIndex] += atom.Weight;
        }

        double total = shares.Sum();
        return [.. shares.Select(share => share / total)];
    }

    public static void AssertClose(double[] expected, double[] actual, double relative, double absolute = 0)
    {
        Assert.Equal(expected.Length, actual.Length);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], actual[i], absolute + (relative * Math.Abs(expected[i])));
        }
    }

    /// <summary>Every number of an advice, with its name.</summary>
    public static IEnumerable<(string Name, double Value)> Numbers(Advice advice)
    {
        foreach (CauseProbability cause in advice.Causes)
        {
            yield return ($"cause {cause.Cause}", cause.Probability);
        }

        if (advice.ExcessOhms is { } excess)
        {
            yield return ("excess low", excess.Low);
            yield return ("excess median", excess.Median);
            yield return ("excess high", excess.High);
        }

        if (advice.Location is { } location)
        {
            yield return ($"location {location.Cause}", location.AtMetres);
            yield return ("location low", location.LowMetres);
            yield return ("location high", location.HighMetres);
        }

        foreach (DensityBin bin in advice.Density)
        {
            yield return ("bin from", bin.FromMetres);
            yield return ("bin to", bin.ToMetres);
            yield return ("bin probability", bin.Probability);
        }

        foreach (EvidenceWeight weight in advice.Evidence)
        {
            foreach (CauseBits bits in weight.Bits)
            {
                yield return ($"bits of {weight.Observation} for {bits.Cause}", bits.Bits);
            }
        }

        foreach (AdvisedStep step in advice.Next)
        {
            yield return ($"{step.Step.Kind} by {step.Step.By} at", step.Step.AtMetres ?? 0);
            yield return ($"{step.Step.Kind} from", step.Step.FromMetres ?? 0);
            yield return ($"{step.Step.Kind} to", step.Step.ToMetres ?? 0);
            yield return ($"{step.Step.Kind} minutes", step.Minutes);
            yield return ($"{step.Step.Kind} now", step.CostNow);
            yield return ($"{step.Step.Kind} to finish", step.ExpectedCostToFinish);
            yield return ($"{step.Step.Kind} cure", step.Reason.CureProbability);
            yield return ($"{step.Step.Kind} saves", step.Reason.SavesMoney);
            yield return ($"{step.Step.Kind} narrows from", step.Reason.PlaceNarrowsFromMetres ?? 0);
            yield return ($"{step.Step.Kind} narrows to", step.Reason.PlaceNarrowsToMetres ?? 0);
        }

        yield return ($"disagreement {advice.Disagreement?.Repeat.Kind}", advice.Disagreement?.Observation ?? -1);
        yield return ("finished", advice.Finished ? 1 : 0);
    }
}
