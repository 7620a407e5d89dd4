using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Textbook networks, worked by the part of Core that updates plain discrete hypotheses: <see cref="TroubleshootingSolver"/>, whose
/// causes are here the joint states of a network. A free question tells whether the evidence holds; after it one of two answers is
/// given: "no", which costs 1 where the hypothesis and the evidence are true, or "yes", which costs c. The best plan costs
/// P(e)·min(P(h|e), c): with c = 1 that is P(h, e), with a small c it is P(e)·c.</summary>
public sealed class NetworksAsProblemsTests
{
    // Tolerance: the references' own digits; the solver's sums lose no more than 1e-13.
    private const double Tolerance = 1e-9;

    private static double Conditional(int variables, Func<bool[], double> joint, Func<bool[], bool> hypothesis, Func<bool[], bool> evidence)
    {
        bool[][] states = [.. Enumerable.Range(0, 1 << variables).Select(bits => Enumerable.Range(0, variables).Select(v => (bits >> v & 1) == 1).ToArray())];
        double[] weights = [.. states.Select(joint)];
        Assert.Equal(1, weights.Sum(), 1e-12);
        TroubleshootingProblem.Test question = new(
            0, false, [[.. states.Select(s => evidence(s) ? 1.0 : 0)], [.. states.Select(s => evidence(s) ? 0.0 : 1)]]);
        double[] always = [.. states.Select(_ => 1.0)];
        const double Little = 1e-4;
        return Plan(1) / (Plan(Little) / Little);

        double Plan(double yesCosts)
        {
            TroubleshootingProblem.Repair no = new([.. states.Select(s => evidence(s) && hypothesis(s) ? 1.0 : 0)], false, always);
            TroubleshootingProblem.Repair yes = new([.. states.Select(_ => yesCosts)], false, always);
            return new TroubleshootingSolver(new([question], [no, yes], 0), states.Length).Solve(weights, false, 2).Cost;
        }
    }

    private static double P(bool happens, double probability) => happens ? probability : 1 - probability;

    // Pearl 1988; Russell and Norvig; the value stands in stored test files (references E).
    [Fact]
    public void Burglar_alarm()
    {
        static double Joint(bool[] s) => P(s[0], 0.001) * P(s[1], 0.002)
            * P(s[2], (s[0], s[1]) switch { (true, true) => 0.95, (true, false) => 0.94, (false, true) => 0.29, _ => 0.001 })
            * P(s[3], s[2] ? 0.90 : 0.05) * P(s[4], s[2] ? 0.70 : 0.01);

        Assert.Equal(0.2841718353643929, Conditional(5, Joint, s => s[0], s => s[3] && s[4]), Tolerance);
    }

    // Murphy's tutorial (from memory), digits computed; references E.
    [Fact]
    public void Sprinkler_and_cloud()
    {
        static double Joint(bool[] s) => 0.5 * P(s[1], s[0] ? 0.1 : 0.5) * P(s[2], s[0] ? 0.8 : 0.2)
            * P(s[3], s[1] && s[2] ? 0.99 : s[1] || s[2] ? 0.9 : 0);

        Assert.Equal(0.6471, Conditional(4, Joint, s => s[3], _ => true), Tolerance);
        Assert.Equal(0.429763560501, Conditional(4, Joint, s => s[1], s => s[3]), Tolerance);
        Assert.Equal(0.707927677330, Conditional(4, Joint, s => s[2], s => s[3]), Tolerance);
        Assert.Equal(0.194499017682, Conditional(4, Joint, s => s[1], s => s[3] && s[2]), Tolerance);
    }

    // 891/2491, an encyclopedia's example (references E).
    [Fact]
    public void Rain_given_wet_grass()
    {
        static double Joint(bool[] s) => P(s[0], 0.2) * P(s[1], s[0] ? 0.01 : 0.4)
            * P(s[2], s[0] && s[1] ? 0.99 : s[1] ? 0.9 : s[0] ? 0.8 : 0);

        Assert.Equal(891 / 2491.0, Conditional(3, Joint, s => s[0], s => s[2]), Tolerance);
    }

    // Lauritzen and Spiegelhalter 1988: tables read in a stored repository, answers computed (references E). States: visit to Asia,
    // tuberculosis, smoking, lung cancer, bronchitis, either, X-ray, dyspnoea.
    [Fact]
    public void Visit_to_Asia()
    {
        static double Joint(bool[] s) => P(s[0], 0.01) * P(s[1], s[0] ? 0.05 : 0.01) * P(s[2], 0.5) * P(s[3], s[2] ? 0.1 : 0.01)
            * P(s[4], s[2] ? 0.6 : 0.3) * P(s[5], s[1] || s[3] ? 1 : 0) * P(s[6], s[5] ? 0.98 : 0.05)
            * P(s[7], (s[5], s[4]) switch { (true, true) => 0.9, (true, false) => 0.7, (false, true) => 0.8, _ => 0.1 });
        double Asked(int variable, Func<bool[], bool> evidence) => Conditional(8, Joint, s => s[variable], evidence);

        Assert.Equal(0.4359706, Asked(7, _ => true), Tolerance);
        Assert.Equal(0.11029004, Asked(6, _ => true), Tolerance);
        Assert.Equal(0.0104, Asked(1, _ => true), Tolerance);
        Assert.Equal(0.055, Asked(3, _ => true), Tolerance);
        Assert.Equal(0.45, Asked(4, _ => true), Tolerance);
        Assert.Equal(0.064828, Asked(5, _ => true), Tolerance);
        Assert.Equal(0.102759222755, Asked(3, s => s[7]), Tolerance);
        Assert.Equal(0.018845307459, Asked(1, s => s[7]), Tolerance);
        Assert.Equal(0.833967336330, Asked(4, s => s[7]), Tolerance);
        Assert.Equal(0.099525145095, Asked(3, s => s[0] && s[7]), Tolerance);
        Assert.Equal(0.087750964983, Asked(1, s => s[0] && s[7]), Tolerance);
        Assert.Equal(0.811402071589, Asked(4, s => s[0] && s[7]), Tolerance);
        Assert.Equal(0.336775, Asked(7, s => s[0] && !s[2]), Tolerance);
        Assert.Equal(0.621252796678, Asked(3, s => s[7] && s[6]), Tolerance);
        Assert.Equal(0.391711720008, Asked(1, s => s[0] && s[7] && s[6]), Tolerance);
    }
}
