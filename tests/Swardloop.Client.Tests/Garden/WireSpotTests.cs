using Swardloop.Client.Garden;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Client.Tests.Garden;

public class WireSpotTests
{
    private static readonly Yard Bramble = Read("""{ "latitude": 54.2, "longitude": -3.1, "bearingDegrees": 30 }""");

    [Theory]
    [InlineData(3)]
    [InlineData(17.5)]
    [InlineData(44)]
    public void Position_beside_the_wire_finds_the_place_that_was_turned_into_it(double atMetres)
    {
        Datum datum = Bramble.Datum!;
        (double latitude, double longitude) = new LocalPlane(datum.LatitudeDegrees, datum.LongitudeDegrees, datum.BearingDegrees).ToGeodetic(Bramble.Loop.Path.PointAt(atMetres));

        WireSpot spot = WireSpot.Of(Bramble, latitude, longitude, 4)!;

        Assert.Equal(atMetres, spot.AtMetres, 2);
        Assert.InRange(spot.OffMetres, 0, 0.01);
        Assert.False(spot.IsTooCoarse || spot.IsOffTheWire);
    }

    [Theory]
    [InlineData(10, false)]
    [InlineData(10.1, true)]
    [InlineData(double.NaN, true)]
    public void Position_known_to_more_than_ten_metres_chooses_no_place(double accuracy, bool isTooCoarse) =>
        Assert.Equal(isTooCoarse, WireSpot.Of(Bramble, 54.2, -3.1, accuracy)!.IsTooCoarse);

    [Fact]
    public void Position_in_another_village_is_off_the_wire() => Assert.True(WireSpot.Of(Bramble, 54.21, -3.1, 5)!.IsOffTheWire);

    [Fact]
    public void Yard_without_an_origin_has_no_spot() => Assert.Null(WireSpot.Of(Read(null), 54.2, -3.1, 5));

    private static Yard Read(string? origin)
    {
        string file = $$"""
            { "format": "swardloop-yard/1", "name": "Bramble Fold", {{(origin is null ? "" : $"\"datum\": {origin},")}} "loop": {
              "path": [[10,0],[20,0],[20,20],[0,20],[0,0],[10,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
            """;
        Checked<YardFile> read = YardFile.Read(System.Text.Encoding.UTF8.GetBytes(file), "yard");
        Assert.Empty(read.Problems);
        return read.Value!.Yard;
    }
}
