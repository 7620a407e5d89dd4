namespace Swardloop.Core.Diagnosis;

/// <summary>A small troubleshooting problem: one of several causes, tests that tell them apart, repairs that end some of them.</summary>
/// <remarks>Outcomes of different tests are independent given the cause; a test answers the same when asked again, so each is worth
/// asking once. A repair's success is seen at once (its checking is part of its cost). Source of the setting: Heckerman, Breese and
/// Rommelse, Communications of the ACM 38(3), 1995.</remarks>
public sealed class TroubleshootingProblem
{
    /// <summary>Makes a problem.</summary>
    /// <param name="tests">The tests.</param>
    /// <param name="repairs">The repairs; together they must end every cause.</param>
    /// <param name="travel">What the first step that needs a visit costs on top.</param>
    public TroubleshootingProblem(IReadOnlyList<Test> tests, IReadOnlyList<Repair> repairs, double travel)
    {
        Guard.NotNegative(travel);
        if (tests.Count > 30 || tests.Count + repairs.Count > 60)
        {
            throw new ArgumentException("At most 30 tests, and 60 tests and repairs.", nameof(tests));
        }

        if (tests.Any(test => test.Likelihood.Length > 16))
        {
            throw new ArgumentException("At most 16 outcomes of a test.", nameof(tests));
        }

        (Tests, Repairs, Travel) = (tests, repairs, travel);
    }

    /// <summary>The tests.</summary>
    public IReadOnlyList<Test> Tests { get; }

    /// <summary>The repairs.</summary>
    public IReadOnlyList<Repair> Repairs { get; }

    /// <summary>Cost of the visit.</summary>
    public double Travel { get; }

    /// <summary>A test.</summary>
    /// <param name="Cost">What it costs.</param>
    /// <param name="NeedsVisit">Whether a technician must be there.</param>
    /// <param name="Likelihood">Probability of each outcome under each cause: [outcome][cause], columns summing to 1.</param>
    public sealed record Test(double Cost, bool NeedsVisit, double[][] Likelihood);

    /// <summary>A repair.</summary>
    /// <param name="Cost">What it costs under each cause: finding a fault that is not there costs otherwise than finding one that is.</param>
    /// <param name="NeedsVisit">Whether a technician must be there.</param>
    /// <param name="Cures">Probability that it ends each cause.</param>
    public sealed record Repair(double[] Cost, bool NeedsVisit, double[] Cures);
}
