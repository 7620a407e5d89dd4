using CsCheck;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Geometry;

public sealed class LocalPlaneTests
{
    // IOGP 373-7-2 (EPSG guidance note 7-2), topocentric example; printed to the millimetre, hence 1 mm.
    [Fact]
    public void Topocentric_coordinates_match_the_guidance_note()
    {
        LocalPlane plane = new(55, 5, 0, 200);

        Vec3 local = plane.FromGeocentric(new(3771793.968, 140253.342, 5124304.349));

        Assert.Equal(-189013.869, local.X, 1e-3);
        Assert.Equal(-128642.040, local.Y, 1e-3);
        Assert.Equal(-4220.171, local.Z, 1e-3);
    }

    // The same note gives the same two places as latitude and longitude: origin X0 Y0 Z0 to 0.1 mm, the other to the millimetre.
    [Fact]
    public void Geocentric_coordinates_match_the_guidance_note()
    {
        Vec3 origin = LocalPlane.Geocentric(55, 5, 200);
        Vec3 place = LocalPlane.Geocentric(53 + (48 / 60.0) + (33.820 / 3600), 2 + (7 / 60.0) + (46.380 / 3600), 73);

        Assert.Equal(3652755.3058, origin.X, 1e-4);
        Assert.Equal(319574.6799, origin.Y, 1e-4);
        Assert.Equal(5201547.3536, origin.Z, 1e-4);

        // Seconds of arc are printed to 0.001", 3 cm on the ground: half of that.
        Assert.Equal(3771793.968, place.X, 0.016);
        Assert.Equal(140253.342, place.Y, 0.016);
        Assert.Equal(5124304.349, place.Z, 0.016);
    }

    // A small site, computed with GeographicLib; values to a micrometre, tolerance 0.1 mm as any survey's.
    [Fact]
    public void A_small_site_matches_to_a_tenth_of_a_millimetre()
    {
        Vec3 local = new LocalPlane(48, 11, 0, 500).FromGeocentric(LocalPlane.Geocentric(48.0002, 11.0003, 500));

        Assert.Equal(22.389271, local.X, 1e-4);
        Assert.Equal(22.239854, local.Y, 1e-4);
        Assert.Equal(-0.000078, local.Z, 1e-4);
    }

    [Theory]
    [InlineData(90, 10, 0)]       // the plan's north looks east: a place in the east lies up the plan
    [InlineData(0, 0, 10)]
    [InlineData(180, 0, -10)]
    [InlineData(-90, -10, 0)]
    public void The_bearing_turns_the_plan_clockwise(double bearing, double east, double north)
    {
        PlanPoint trueNorth = new LocalPlane(50, 8).ToPlan(50.0001, 8);
        PlanPoint turned = new LocalPlane(50, 8, bearing).ToPlan(50.0001, 8);

        Assert.Equal(-east / 10 * trueNorth.NorthMetres, turned.EastMetres, 1e-9);
        Assert.Equal(north / 10 * trueNorth.NorthMetres, turned.NorthMetres, 1e-9);
    }

    [Fact]
    public void There_and_back_is_the_same_place_anywhere_on_earth() =>
        Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Double[-360, 360], Gen.Double[-7000, 7000], Gen.Double[-7000, 7000])
            .Sample((latitude, longitude, bearing, east, north) =>
            {
                LocalPlane plane = new(latitude, longitude, bearing);
                (double atLatitude, double atLongitude) = plane.ToGeodetic(new(east, north));
                PlanPoint back = plane.ToPlan(atLatitude, atLongitude);

                // Rounding of earth-centred coordinates and of degrees: some 1e-9 m each.
                Assert.InRange(back.DistanceTo(new(east, north)), 0, 1e-8);
            }, iter: 2_000, threads: 1);

    [Fact]
    public void What_is_no_place_on_earth_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalPlane(double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalPlane(90.1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalPlane(0, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalPlane(0, 0).ToGeodetic(new(double.NaN, 0)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LocalPlane(0, 0).ToGeodetic(new(1e6, 0)));
    }
}
