using CsCheck;
using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Conductors;

public sealed class ConductorResistanceTests
{
    [Fact]
    public void Given_resistance_is_the_nominal_one() =>
        Assert.Equal(0.025, ConductorResistance.OhmsPerMetre(new() { OhmsPerMetreAt20C = 0.025 }, 20).Nominal);

    [Fact]
    public void Conductor_given_in_no_way_or_in_two_is_refused()
    {
        Assert.Throws<ArgumentException>(() => ConductorResistance.OhmsPerMetre(new(), 20));
        Assert.Throws<ArgumentException>(() => ConductorResistance.OhmsPerMetre(new() { Awg = 18, AreaSquareMetres = 1e-6 }, 20));
        Assert.Throws<ArgumentException>(() => ConductorResistance.RadiusMetres(new() { Awg = 18, OhmsPerMetreAt20C = 0.02 }));
    }

    [Fact]
    public void Clad_wire_without_its_conductivity_is_refused() =>
        Assert.Throws<ArgumentException>(() => ConductorResistance.OhmsPerMetre(
            new() { Material = ConductorMaterial.CopperCladSteel, AreaSquareMetres = 1e-6 }, 20));

    [Theory]
    [InlineData(0.0)]
    [InlineData(-1e-6)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Impossible_area_is_refused(double area)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.OhmsPerMetre(new() { AreaSquareMetres = area }, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.RadiusMetres(new() { AreaSquareMetres = area }));
    }

    [Fact]
    public void Impossible_resistance_class_share_and_temperature_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.OhmsPerMetre(new() { OhmsPerMetreAt20C = double.NaN }, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.OhmsPerMetre(new() { AreaSquareMetres = 1e-6, ConductorClass = 3 }, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.OhmsPerMetre(new() { AreaSquareMetres = 1e-6, ConductivityShareIacs = 0 }, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.OhmsPerMetre(new() { AreaSquareMetres = 1e-6 }, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => ConductorResistance.OhmsPerMetre(new() { AreaSquareMetres = 1e-6 }, 200));
    }

    [Fact]
    public void Band_is_ordered_and_falls_with_area() =>
        Gen.Select(Gen.Double[0.1, 20], Gen.Double[1.01, 3], Gen.OneOf(Gen.Const((int?)null), Gen.Const((int?)1), Gen.Const((int?)2), Gen.Const((int?)5)), Gen.Bool, Gen.Double[-20, 50])
            .Sample((areaMm2, wider, conductorClass, coated, celsius) =>
            {
                ResistanceBand thin = Band(areaMm2), thick = Band(areaMm2 * wider);
                Assert.True(thin.Low < thin.Nominal && thin.Nominal < thin.High);
                Assert.True(thick.Nominal < thin.Nominal);
                Assert.True(thin.Low < thin.Mean && thin.Mean < thin.High);

                ResistanceBand Band(double mm2) => ConductorResistance.OhmsPerMetre(
                    new() { AreaSquareMetres = mm2 * 1e-6, ConductorClass = conductorClass, Coated = coated }, celsius);
            });

    [Fact]
    public void Area_between_two_of_the_table_lies_between_their_limits()
    {
        double below = Factor(0.75), between = Factor(0.9), above = Factor(1.0);
        Assert.InRange(between, Math.Min(below, above), Math.Max(below, above));
        Assert.Equal(Factor(0.5), Factor(0.2));
        Assert.Equal(Factor(10), Factor(16));

        static double Factor(double mm2) => Iec60228.MaximumOverNominal(ConductorMaterial.Copper, mm2 * 1e-6, 1)!.Value;
    }

    [Fact]
    public void Area_gauge_and_resistance_of_one_wire_give_one_radius()
    {
        double area = WireGauge.AreaSquareMetres(18);
        double radius = WireGauge.DiameterMetres(18) / 2;
        double[] radii =
        [
            ConductorResistance.RadiusMetres(new() { AreaSquareMetres = area }),
            ConductorResistance.RadiusMetres(new() { Awg = 18 }),
            ConductorResistance.RadiusMetres(new() { OhmsPerMetreAt20C = MaterialData.AnnealedCopperOhmMetres / area }),
        ];
        Assert.All(radii, found => Assert.Equal(radius, found, 1e-12));
    }

    [Fact]
    public void Healthy_joint_is_milliohms_of_whatever_style()
    {
        foreach (JointStyle style in Enum.GetValues<JointStyle>())
        {
            ResistanceBand band = JointResistance.HealthyOhms(style);
            Assert.True(band.Low > 0 && band.Low < band.Nominal && band.Nominal < band.High && band.High <= 0.05, $"{style}: {band}");
        }
    }
}
