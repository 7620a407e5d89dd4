using CsCheck;
using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Budget;

public sealed class LoopBudgetTests
{
    [Fact]
    public void Nominal_is_length_times_nominal_wire_and_its_joints()
    {
        LoopBudget budget = LoopBudget.For(Yard(30, 20));
        // 1/58 Ω·mm²/m (IEC 60028) × 100 m / 0.75 mm² at 12 °C, two terminals of 5 mΩ. Tolerance: rounding.
        Assert.Equal((100 / 58.0 / 0.75 * (1 - (0.00393 * 8))) + 0.010, budget.ExpectedOhms.Nominal, 1e-12);
        Assert.Equal(1.0, budget.RuleOfThumbOhms, 1e-12);
        Assert.Equal(100, budget.LengthMetres, 1e-12);
    }

    [Fact]
    public void Band_holds_nominal_conductor_and_the_standards_maximum()
    {
        LoopBudget budget = LoopBudget.For(Yard(30, 20));
        double atMaximum = 100 * Iec60228.MaximumOhmsPerMetre(ConductorMaterial.Copper, 0.75e-6)!.Value * (1 - (0.00393 * 8));
        Assert.True(budget.ExpectedOhms.Low < budget.ExpectedOhms.Nominal);
        Assert.InRange(atMaximum, budget.ExpectedOhms.Nominal, budget.ExpectedOhms.High);
        Assert.InRange(budget.MeanOhms, budget.ExpectedOhms.Low, budget.ExpectedOhms.High);
    }

    [Fact]
    public void Uncertainty_of_length_alone_is_half_the_tolerance()
    {
        double sharp = Variance(0), blunt = Variance(6);
        Assert.Equal(3.0 / 100 * LoopBudget.For(Yard(30, 20)).OhmsPerMetre.Mean * 100, Math.Sqrt(blunt - sharp), 1e-9);

        static double Variance(double tolerance)
        {
            Yard yard = Yard(30, 20);
            LoopBudget budget = LoopBudget.For(yard with { Loop = yard.Loop with { LengthToleranceMetres = tolerance } });
            return budget.StandardDeviationOhms * budget.StandardDeviationOhms;
        }
    }

    [Fact]
    public void Every_uncertainty_widens_band_and_deviation() =>
        Gen.Select(Gen.Double[2, 80], Gen.Double[2, 80], Gen.Double[0, 20], Gen.Double[0.1, 20], Gen.Double[-10, 35]).Sample(
            (east, north, tolerance, more, celsius) =>
            {
                Yard yard = Yard(east, north) with { Soil = new() { TemperatureCelsius = celsius } };
                LoopBudget narrow = LoopBudget.For(yard with { Loop = yard.Loop with { LengthToleranceMetres = tolerance } });
                LoopBudget wide = LoopBudget.For(yard with { Loop = yard.Loop with { LengthToleranceMetres = tolerance + more } });
                Assert.True(wide.StandardDeviationOhms > narrow.StandardDeviationOhms);
                Assert.True(wide.ExpectedOhms.High > narrow.ExpectedOhms.High);
                Assert.True(wide.ExpectedOhms.Low <= narrow.ExpectedOhms.Low);
                Assert.True(wide.ExpectedOhms.Low > 0);
                Assert.Equal(narrow.ExpectedOhms.Nominal, wide.ExpectedOhms.Nominal);
            });

    [Fact]
    public void Joint_adds_its_milliohms()
    {
        Yard yard = Yard(30, 20);
        LoopBudget jointed = LoopBudget.For(yard with { Loop = yard.Loop with { Joints = [new(10, JointStyle.Gel), new(50, JointStyle.Twisted)] } });
        Assert.Equal(0.013, jointed.ExpectedOhms.Nominal - LoopBudget.For(yard).ExpectedOhms.Nominal, 1e-12);
    }

    // Common practice, no source (P1, P2): a healthy loop of the commonly laid wire measures about 1 Ω per 100 m, 300 m measures
    // 4–5 Ω. That wire is 1.5 to 2.5 mm² by the first fact; by the second 1.0 to 1.5: here 1.5 and 1.0 mm².
    [Theory]
    [InlineData(1.5, 100, 50, 1.0, 4.0)]
    [InlineData(1.0, 100, 50, 4.0, 5.5)]
    public void Common_wire_measures_what_practice_knows(double areaMm2, double east, double north, double low, double high)
    {
        Yard yard = Yard(east, north);
        LoopBudget budget = LoopBudget.For(yard with { Loop = yard.Loop with { Conductor = new() { AreaSquareMetres = areaMm2 * 1e-6 } } });
        Assert.InRange(budget.ExpectedOhms.Nominal, low, high);
        Assert.Equal(3.0, budget.RuleOfThumbOhms, 1e-12);
    }

    [Fact]
    public void Thin_wire_exceeds_the_rule_of_thumb_when_healthy()
    {
        LoopBudget budget = LoopBudget.For(Yard(30, 20));
        Assert.True(budget.ExpectedOhms.Low > 2 * budget.RuleOfThumbOhms);
    }

    [Fact]
    public void Current_share_is_source_over_impedance()
    {
        LoopBudget budget = LoopBudget.For(Yard(30, 20));
        double reactance = 2 * Math.PI * 10_000 * budget.InductanceHenry;
        double resistance = 107 + budget.ExpectedOhms.Nominal;
        Assert.Equal(107 / Math.Sqrt((resistance * resistance) + (reactance * reactance)), budget.CurrentShare, 1e-12);
        Assert.InRange(budget.InductanceHenry, 190e-6, 220e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => budget.ImpedanceAtOhms(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => budget.ImpedanceAtOhms(-1));
    }

    internal static Yard Yard(double east, double north)
    {
        PlanPoint[] ring = [new(0, 0), new(east, 0), new(east, north), new(0, north)];
        return new()
        {
            Name = "test",
            Lawn = new([ring], []),
            Loop = new() { Path = new(ring.Append(ring[0])), Conductor = new() { AreaSquareMetres = 0.75e-6 } },
        };
    }
}
