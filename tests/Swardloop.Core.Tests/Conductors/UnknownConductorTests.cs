using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Tests.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Conductors;

/// <summary>A wire that nobody wrote down is any copper wire of 0.5 mm² to 2.5 mm² (the contract of the yard file; common practice, no source).</summary>
public sealed class UnknownConductorTests
{
    private static LoopBudget Budget(Conductor? conductor)
    {
        Yard yard = DiagnosisScene.Rectangle(20, 30);
        return LoopBudget.For(yard with
        {
            Loop = yard.Loop with { Conductor = conductor ?? UnknownConductor.StandIn, ConductorIsKnown = conductor is not null },
        });
    }

    private static Conductor Copper(double squareMillimetres) => new() { AreaSquareMetres = squareMillimetres * 1e-6 };

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.75)]
    [InlineData(1)]
    [InlineData(1.5)]
    [InlineData(2.5)]
    public void Band_holds_every_wire_that_it_may_be(double squareMillimetres)
    {
        LoopBudget unknown = Budget(null), known = Budget(Copper(squareMillimetres));

        Assert.InRange(known.ExpectedOhms.Nominal, unknown.ExpectedOhms.Low, unknown.ExpectedOhms.High);
        Assert.True(unknown.StandardDeviationOhms > 3 * known.StandardDeviationOhms);
        Assert.InRange(known.MeanOhms, unknown.MeanOhms - (2.5 * unknown.StandardDeviationOhms), unknown.MeanOhms + (2.5 * unknown.StandardDeviationOhms));
    }

    // Second route: resistance goes as 1 / area, so the mixture's mean of 1/A over its square-law spread, by hand:
    // 1/0.5, 1/0.75, 1/1, 1/1.5, 1/2.5 have mean 1.08 and standard deviation 0.5568 (population); wires of the standard differ by a few per cent.
    [Fact]
    public void Moments_are_those_of_equally_likely_areas()
    {
        (double mean, double deviation) = UnknownConductor.Moments(20);
        double square = ConductorResistance.OhmsPerMetre(Copper(1), 20).Mean;

        Assert.InRange(mean / square, 1.03, 1.13);
        Assert.InRange(deviation / square, 0.52, 0.62);
    }
}
