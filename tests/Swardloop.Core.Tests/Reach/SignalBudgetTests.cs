using CsCheck;
using Swardloop.Core.Reach;

namespace Swardloop.Core.Tests.Reach;

public sealed class SignalBudgetTests
{
    private static readonly Gen<SignalBudget> Budgets = Gen.Select(Gen.Double[100, 20000], Gen.Double[1, 500], Gen.Double[0, 50])
        .Select((t, r0, x) => new SignalBudget(t, r0, x));

    // 3-4-5: R0 + R = 30 Ω, X = 40 Ω, so |Z| = 50 Ω and a mower with T = 1000 Ω·m needs 0.05 1/m.
    [Fact]
    public void Impedance_is_resistance_and_reactance_in_series()
    {
        SignalBudget budget = new(1000, 10, 40);
        Assert.Equal(50, budget.ImpedanceOhms(20));
        Assert.Equal(0.05, budget.RequiredFieldPerAmpere(20));
        Assert.Equal(20, budget.LimitOhms(-0.05)!.Value, tolerance: 1e-12);
        Assert.Equal(15, budget.OhmsToSpare(0.05, 5)!.Value, tolerance: 1e-12);
        Assert.Equal(6.0206, budget.MarginDecibels(0.1, 20), tolerance: 1e-4);
    }

    // The closed form against its own condition: at the limit the margin is nothing. Rounding of the difference of squares near X.
    [Fact]
    public void At_the_limit_the_margin_is_nothing() =>
        Gen.Select(Budgets, Gen.Double[0, 3000]).Sample((budget, ohms) =>
            Assert.Equal(ohms, budget.LimitOhms(budget.RequiredFieldPerAmpere(ohms))!.Value, tolerance: 1e-9 * (1 + ohms + budget.SourceOhms)));

    [Fact]
    public void Where_the_reactance_alone_is_too_much_there_is_no_limit() =>
        Assert.Null(new SignalBudget(1000, 10, 40).OhmsToSpare(0.039, 1));

    [Fact]
    public void Where_the_source_alone_is_too_much_the_spare_is_negative() =>
        Assert.Equal(-9, new SignalBudget(1000, 10, 0).OhmsToSpare(0.002, 1)!.Value, tolerance: 1e-12);

    [Fact]
    public void No_field_at_all_has_a_margin_of_minus_infinity() =>
        Assert.Equal(double.NegativeInfinity, new SignalBudget(1000, 10, 0).MarginDecibels(0, 1));

    [Fact]
    public void Numbers_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalBudget(0, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalBudget(1, double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalBudget(1, 1, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalBudget(1, 1, 1).ImpedanceOhms(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalBudget(1, 1, 1).LimitOhms(double.NaN));
    }
}
