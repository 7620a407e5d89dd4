using CsCheck;
using Swardloop.Core.Reach;

namespace Swardloop.Core.Tests.Reach;

public sealed class AreaByFieldTests
{
    private static readonly Gen<(double Field, double Area)[]> Places =
        Gen.Select(Gen.Int[0, 20].Select(field => field / 4.0), Gen.Double[0.01, 1]).Array[1, 60];

    // Second route: sums over the places as they come, no order asked.
    [Fact]
    public void Share_below_a_field_is_the_area_of_the_weaker_places() =>
        Gen.Select(Places, Gen.Double[-1, 6]).Sample((places, field) =>
        {
            double expected = places.Where(place => place.Field < field).Sum(place => place.Area) / places.Sum(place => place.Area);
            Assert.Equal(expected, Of(places).ShareBelow(field), tolerance: 1e-12);
        });

    [Fact]
    public void Field_at_a_share_is_the_least_that_has_so_much_area_up_to_it() =>
        Gen.Select(Places, Gen.Double[0, 1]).Sample((places, share) =>
        {
            double whole = places.Sum(place => place.Area), field = Of(places).FieldAt(share);
            Assert.True(places.Where(place => place.Field <= field).Sum(place => place.Area) >= share * whole * (1 - 1e-9));
            Assert.True(places.Where(place => place.Field < field).Sum(place => place.Area) <= share * whole * (1 + 1e-9));
        });

    private static AreaByField Of((double Field, double Area)[] places) =>
        new([.. places.Select(place => place.Field)], [.. places.Select(place => place.Area)]);
}
