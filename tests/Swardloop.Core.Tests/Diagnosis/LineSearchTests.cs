using CsCheck;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

public sealed class LineSearchTests
{
    private const double Never = double.PositiveInfinity;

    /// <summary>What ends any fault, so dear that no plan mends on suspicion: then every plan pays it once, and it is taken off again.</summary>
    private const double Ending = 1000;

    /// <summary>An optimal search tree as a row: gap, key, gap, … . Opening a key costs one comparison; what is left when only a gap
    /// remains is the leaf that the textbook counts as one more.</summary>
    private static LineSearch SearchTree(double[] keys, double[] gaps)
    {
        double[] row = new double[keys.Length + gaps.Length];
        for (int i = 0; i < row.Length; i++)
        {
            row[i] = i % 2 == 0 ? gaps[i / 2] : keys[i / 2];
        }

        return new(row, new Costs
        {
            Mend = (first, last) => first == last && first % 2 == 0 ? Ending + 1 : Never,
            Open = place => place % 2 == 1 ? 1 : Never,
            AfterOpening = _ => Ending,
        });
    }

    // Cormen, Leiserson, Rivest and Stein, Introduction to Algorithms, §15.5 (references E): e[1,5] = 2.75, root k2. Tolerance: rounding.
    [Fact]
    public void Textbook_search_tree_costs_2_75_with_key_2_at_its_root()
    {
        LineSearch search = SearchTree([0.15, 0.10, 0.05, 0.10, 0.20], [0.05, 0.10, 0.05, 0.05, 0.05, 0.10]);

        Assert.Equal(2.75, search.WeightedCost - Ending, 1e-9);

        // k2 as printed, or k4: 0.45 + 1.30 + 1 = 1.25 + 0.50 + 1, a tie that rounding decides.
        Assert.Equal(LineSearch.Act.Open, search.Best(0, 10).Act);
        Assert.True(search.Best(0, 10).Index is 3 or 7);

        // Right of it k5, below that k4 and k3.
        Assert.Equal(new(LineSearch.Act.Open, 9), search.Best(4, 10));
        Assert.Equal(new(LineSearch.Act.Open, 7), search.Best(4, 8));
    }

    // The same book, exercise 15.5-2 (inputs from memory, answer confirmed by computing; references E).
    [Fact]
    public void Textbook_exercise_costs_3_12_with_key_5_at_its_root()
    {
        LineSearch search = SearchTree([0.04, 0.06, 0.08, 0.02, 0.10, 0.12, 0.14], [0.06, 0.06, 0.06, 0.06, 0.05, 0.05, 0.05, 0.05]);

        Assert.Equal(3.12, search.WeightedCost - Ending, 1e-9);
        Assert.Equal(new(LineSearch.Act.Open, 9), search.Best(0, 14));
    }

    // References E, computed: eight equal sections need three cuts, the first in the middle.
    [Fact]
    public void Eight_equal_sections_take_three_tests_from_the_middle()
    {
        LineSearch search = new([1, 1, 1, 1, 1, 1, 1, 1], new Costs { Mend = Single, Divide = (_, _, _) => 1 });

        Assert.Equal(3, search.ExpectedCost!.Value - Ending, 1e-9);
        Assert.Equal(new(LineSearch.Act.Divide, 3), search.Best(0, 7));
    }

    // References E, computed: 8 sections of unequal probability with unequal joints, 6.6 with joint 4 first.
    [Fact]
    public void Unequal_joints_between_unequal_sections_cost_6_6_with_joint_4_first()
    {
        double[] joints = [1, 2, 5, 1, 2, 3, 1];
        LineSearch search = new([1, 2, 3, 8, 1, 2, 2, 1], new Costs { Mend = Single, Divide = (_, left, _) => joints[left] });

        Assert.Equal(6.6, search.ExpectedCost!.Value - Ending, 1e-9);
        Assert.Equal(new(LineSearch.Act.Divide, 3), search.Best(0, 7));
    }

    /// <summary>Every plan over a set of places that may still hold the fault, by trying each act anew: no intervals, no table.</summary>
    [Fact]
    public void Random_rows_cost_what_the_best_of_all_plans_costs() =>
        Rows.Sample(row =>
        {
            Costs costs = row.Costs;
            LineSearch search = new(row.Weights, costs);
            double expected = BestOfAllPlans(row.Weights, costs, [.. Enumerable.Range(0, row.Weights.Length)]);

            // Tolerance: sums in another order.
            Assert.Equal(expected, search.WeightedCost, 1e-9 * (1 + expected));
        }, iter: 400);

    private static readonly Gen<(double[] Weights, Costs Costs)> Rows =
        from count in Gen.Int[1, 6]
        from weights in Gen.Int[0, 9].Array[count]
        from mend in Gen.Int[1, 12].Array[count]
        from spade in Gen.Int[0, 20]
        from divide in Gen.Int[1, 12].Array[count]
        from open in Gen.Int[1, 14].Array[count]
        from after in Gen.Int[0, 6].Array[count]
        select ((double[])[.. weights.Select(weight => (double)weight)], new Costs
        {
            Mend = (first, last) => last > first && mend[last] == 12 ? Never : spade + mend[first..(last + 1)].Sum(),
            Divide = (first, left, last) => divide[left] > 10 ? Never : divide[left] + (0.25 * (last - first)),
            Open = place => open[place] > 10 ? Never : open[place],
            AfterOpening = place => after[place],
        });

    private static double Single(int first, int last) => first == last ? Ending : Never;

    private static double BestOfAllPlans(double[] weights, Costs costs, int[] left)
    {
        if (left.Length == 0)
        {
            return 0;
        }

        double all = left.Sum(place => weights[place]);
        if (all == 0)
        {
            return 0;
        }

        int first = left[0], last = left[^1];
        double best = all * costs.Mend(first, last);
        foreach (int k in left)
        {
            int[] before = [.. left.Where(place => place < k)], upTo = [.. before, k], after = [.. left.Where(place => place > k)];
            double parts = BestOfAllPlans(weights, costs, upTo.Length == left.Length ? [] : upTo) + BestOfAllPlans(weights, costs, after);
            if (costs.Open(k) < Never)
            {
                best = Math.Min(best, (all * costs.Open(k)) + (weights[k] * costs.AfterOpening(k))
                    + BestOfAllPlans(weights, costs, before) + BestOfAllPlans(weights, costs, after));
            }

            if (after.Length > 0)
            {
                best = Math.Min(best, parts + (all * costs.Divide(first, k, last)));
                best = Math.Min(best, (all * costs.Mend(first, k)) + BestOfAllPlans(weights, costs, after));
                best = Math.Min(best, (all * costs.Mend(after[0], last)) + BestOfAllPlans(weights, costs, upTo));
            }
        }

        return best;
    }

    private sealed class Costs : ILineSearchCosts
    {
        public Func<int, int, double> Mend { get; init; } = (_, _) => Never;

        public Func<int, int, int, double> Divide { get; init; } = (_, _, _) => Never;

        public Func<int, double> Open { get; init; } = _ => Never;

        public Func<int, double> AfterOpening { get; init; } = _ => 0;

        double ILineSearchCosts.Mend(int first, int last) => Mend(first, last);

        double ILineSearchCosts.Divide(int first, int left, int last) => Divide(first, left, last);

        double ILineSearchCosts.Open(int place) => Open(place);

        double ILineSearchCosts.AfterOpening(int place) => AfterOpening(place);
    }
}
