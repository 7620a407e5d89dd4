using CsCheck;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

public sealed class TroubleshootingSolverTests
{
    private static TroubleshootingProblem.Repair Ends(int causes, double cost, bool needsVisit, params int[] ended) => new(
        [.. Enumerable.Repeat(cost, causes)], needsVisit, [.. Enumerable.Range(0, causes).Select(c => ended.Contains(c) ? 1.0 : 0)]);

    // References E: the order by descending p/c is optimal where one repair ends one cause (Kadane and Simon 1977); numbers computed over
    // all 120 orders. Tolerance: rounding.
    [Theory]
    [InlineData(0)]
    [InlineData(5)]
    public void Repairs_go_by_probability_over_cost(int ahead)
    {
        List<double> weights = [0.45, 0.25, 0.15, 0.10, 0.05];
        List<double> costs = [10, 2, 3, 8, 1];
        List<char> names = ['A', 'B', 'C', 'D', 'E'];
        string order = "";
        double whole = 0;
        for (int step = 0; step < 5; step++)
        {
            int causes = weights.Count;
            TroubleshootingProblem problem = new([], [.. costs.Select((cost, c) => Ends(causes, cost, false, c))], 0);
            (double cost, int chosen) = new TroubleshootingSolver(problem, causes).Solve([.. weights], false, ahead);
            whole = step == 0 ? cost : whole;
            order += names[chosen];
            names.RemoveAt(chosen);
            costs.RemoveAt(chosen);
            weights.RemoveAt(chosen);
        }

        Assert.Equal("BCEAD", order);
        Assert.Equal(11.15, whole, 1e-12);
    }

    // References E, an exercise of Russell and Norvig (question read, answer computed): a car, good with 70 %, brings 500 when good and
    // loses 200 when not; a test passes 80 % of the good and 35 % of the bad and costs 50. As costs against 500: buying costs 0 or 700,
    // leaving it costs 500 (a net of 0). Without the test: 500 − 290 = 210. With it the car is bought either way, so it is worth nothing.
    [Fact]
    public void Test_that_changes_nothing_is_not_done()
    {
        TroubleshootingProblem.Test test = new(50, false, [[0.8, 0.35], [0.2, 0.65]]);
        TroubleshootingProblem.Repair buy = new([0, 700], false, [1, 1]), leave = new([500, 500], false, [1, 1]);

        (double cost, int step) = new TroubleshootingSolver(new([test], [buy, leave], 0), 2).Solve([0.7, 0.3], false, 3);

        Assert.Equal(210, cost, 1e-9);
        Assert.Equal(1, step);

        // Even for nothing it brings nothing.
        (double free, _) = new TroubleshootingSolver(new([test with { Cost = 0 }], [buy, leave], 0), 2).Solve([0.7, 0.3], false, 3);
        Assert.Equal(210, free, 1e-9);

        // After it 389.47 when passed and 92.54 when failed (the same source, to the cent): bought either way.
        TroubleshootingSolver after = new(new([], [buy, leave], 0), 2);
        Assert.Equal(500 - 389.47, after.Solve([0.7 * 0.8, 0.3 * 0.35], false, 0).Cost, 0.005);
        Assert.Equal(500 - 92.54, after.Solve([0.7 * 0.2, 0.3 * 0.65], false, 0).Cost, 0.005);
    }

    [Fact]
    public void Travel_is_paid_once()
    {
        TroubleshootingProblem problem = new([], [Ends(2, 10, true, 0), Ends(2, 10, true, 1)], 100);
        TroubleshootingSolver solver = new(problem, 2);

        Assert.Equal(100 + 10 + (0.5 * 10), solver.Solve([1, 1], false, 2).Cost, 1e-12);
        Assert.Equal(10 + (0.5 * 10), solver.Solve([1, 1], true, 2).Cost, 1e-12);
    }

    /// <summary>Depth at which the solver's first step, taken again and again, stays within 2 % of the optimum (issue 3).
    /// Measured here: at 2 some problems cost 3 % more; at 3 the worst of the thousand costs 0.94 % more, all together 0.005 %.</summary>
    private const int Depth = 3;

    [Fact]
    public void Policy_of_a_thousand_random_problems_costs_at_most_2_percent_above_the_optimum()
    {
        // Always the same thousand: a limit of cost is a measured one, not an invariant.
        PCG dice = new(1, 20261125);
        for (int i = 0; i < 1000; i++)
        {
            RandomProblem problem = Problems.Generate(dice, null, out _);
            double best = new FullTree(problem).Cost(), cost = new Policy(problem).Cost();

            // Not below either: then one of the two would be no cost of this problem.
            Assert.InRange(cost, best * (1 - 1e-9), best * 1.02);
        }
    }

    // Causes' weights have no scale of their own.
    [Fact]
    public void Step_and_cost_do_not_hang_on_the_scale_of_the_weights()
    {
        TroubleshootingProblem problem = new([], [Ends(2, 10, false, 0), Ends(2, 3, false, 1)], 0);
        TroubleshootingSolver solver = new(problem, 2);

        Assert.Equal(solver.Solve([0.6, 0.4], false, 2).Step, solver.Solve([0.6e-15, 0.4e-15], false, 2).Step);
        Assert.Equal(solver.Solve([0.6, 0.4], false, 2).Cost, solver.Solve([0.6e-15, 0.4e-15], false, 2).Cost, 1e-9);
    }

    private sealed record RandomProblem(double[] Weights, TroubleshootingProblem Problem, bool OnSite);

    private static readonly Gen<RandomProblem> Problems =
        from causes in Gen.Int[2, 5]
        from tests in Gen.Int[0, 5]
        from doubles in Gen.Int[0, 1]
        from weights in Gen.Double[0.02, 1].Array[causes]
        from travel in Gen.Double[0, 60]
        from onSite in Gen.Bool
        from testList in RandomTest(causes).Array[tests]
        from repairs in RandomRepair(causes).Array[causes + doubles]
        select new RandomProblem(weights, new(testList, [.. repairs.Select((repair, r) => WithCures(repair, r, causes))], travel), onSite);

    private static Gen<TroubleshootingProblem.Test> RandomTest(int causes) =>
        from three in Gen.Int[0, 4]
        let outcomes = three == 0 ? 3 : 2
        from cost in Gen.Double[0.5, 15]
        from visit in Gen.Bool
        from matrix in Gen.Double[0, 1].Array[causes].Array[outcomes]
        from sharp in Gen.Int[1, 5]
        select new TroubleshootingProblem.Test(cost, visit, Columns([.. matrix.Select(row => row.Select(x => Math.Pow(x, sharp) + 1e-3).ToArray())]));

    private static double[][] Columns(double[][] matrix) =>
        [.. matrix.Select(row => row.Select((x, c) => x / matrix.Sum(other => other[c])).ToArray())];

    private static Gen<TroubleshootingProblem.Repair> RandomRepair(int causes) =>
        from cost in Gen.Double[1, 80]
        from extra in Gen.Double[0, 20].Array[causes]
        from visit in Gen.Bool
        from second in Gen.Int[0, 100]
        select new TroubleshootingProblem.Repair([.. extra.Select(x => cost + x)], visit, [second]);

    /// <summary>The first repairs end one cause each; those beyond end two.</summary>
    private static TroubleshootingProblem.Repair WithCures(TroubleshootingProblem.Repair repair, int index, int causes)
    {
        int one = index % causes, other = index < causes ? one : (one + 1 + ((int)repair.Cures[0] % (causes - 1))) % causes;
        return repair with { Cures = [.. Enumerable.Range(0, causes).Select(c => c == one || c == other ? 1.0 : 0)] };
    }

    /// <summary>Expectation and minimum over every adaptive plan of a problem whose repairs surely end what they end; each state (outcomes
    /// seen, repairs done) is worked out once. Written apart from the solver.</summary>
    private class FullTree(RandomProblem random)
    {
        protected readonly TroubleshootingProblem Problem = random.Problem;
        private readonly Dictionary<(long Outcomes, int Repaired, bool Onsite), double> _known = [];

        public double Cost() => Value([.. random.Weights], 0, 0, random.OnSite) / random.Weights.Sum();

        protected virtual double Value(double[] weights, long outcomes, int repaired, bool onSite)
        {
            if (Sum(weights) == 0)
            {
                return 0;
            }

            if (_known.TryGetValue((outcomes, repaired, onSite), out double known))
            {
                return known;
            }

            double best = double.PositiveInfinity;
            for (int t = 0; t < Problem.Tests.Count; t++)
            {
                if (!Seen(outcomes, t))
                {
                    best = Math.Min(best, AfterTest(t, weights, outcomes, repaired, onSite));
                }
            }

            for (int r = 0; r < Problem.Repairs.Count; r++)
            {
                if ((repaired & (1 << r)) == 0 && EndsSomething(r, weights))
                {
                    best = Math.Min(best, AfterRepair(r, weights, outcomes, repaired, onSite));
                }
            }

            _known.Add((outcomes, repaired, onSite), best);
            return best;
        }

        private bool EndsSomething(int r, double[] weights)
        {
            for (int c = 0; c < weights.Length; c++)
            {
                if (weights[c] * Problem.Repairs[r].Cures[c] > 0)
                {
                    return true;
                }
            }

            return false;
        }

        protected static bool Seen(long outcomes, int test) => ((outcomes >> (2 * test)) & 3) != 0;

        protected double AfterTest(int t, double[] weights, long outcomes, int repaired, bool onSite)
        {
            TroubleshootingProblem.Test test = Problem.Tests[t];
            double cost = Sum(weights) * (test.Cost + (test.NeedsVisit && !onSite ? Problem.Travel : 0));
            for (int o = 0; o < test.Likelihood.Length; o++)
            {
                double[] after = [.. weights];
                for (int c = 0; c < after.Length; c++)
                {
                    after[c] *= test.Likelihood[o][c];
                }

                cost += Value(after, outcomes | ((o + 1L) << (2 * t)), repaired, onSite || test.NeedsVisit);
            }

            return cost;
        }

        protected double AfterRepair(int r, double[] weights, long outcomes, int repaired, bool onSite)
        {
            TroubleshootingProblem.Repair repair = Problem.Repairs[r];
            double cost = repair.NeedsVisit && !onSite ? Sum(weights) * Problem.Travel : 0;
            double[] after = [.. weights];
            for (int c = 0; c < after.Length; c++)
            {
                cost += weights[c] * repair.Cost[c];
                after[c] *= 1 - repair.Cures[c];
            }

            return cost + Value(after, outcomes, repaired | (1 << r), onSite || repair.NeedsVisit);
        }

        protected static double Sum(double[] weights)
        {
            double sum = 0;
            foreach (double weight in weights)
            {
                sum += weight;
            }

            return sum;
        }
    }

    /// <summary>What it costs to take the solver's step in every state.</summary>
    private sealed class Policy(RandomProblem random) : FullTree(random)
    {
        protected override double Value(double[] weights, long outcomes, int repaired, bool onSite)
        {
            if (Sum(weights) == 0)
            {
                return 0;
            }

            int[] tests = [.. Enumerable.Range(0, Problem.Tests.Count).Where(t => !Seen(outcomes, t))];
            int[] repairs = [.. Enumerable.Range(0, Problem.Repairs.Count).Where(r => (repaired & (1 << r)) == 0)];
            TroubleshootingProblem left = new([.. tests.Select(t => Problem.Tests[t])], [.. repairs.Select(r => Problem.Repairs[r])], Problem.Travel);
            (_, int step) = new TroubleshootingSolver(left, weights.Length).Solve(weights, onSite, Depth);
            return step < tests.Length
                ? AfterTest(tests[step], weights, outcomes, repaired, onSite)
                : AfterRepair(repairs[step - tests.Length], weights, outcomes, repaired, onSite);
        }
    }
}
