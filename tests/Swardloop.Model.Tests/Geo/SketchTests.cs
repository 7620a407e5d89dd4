using System.Text;
using CsCheck;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Tests.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Geo;

public sealed class SketchTests
{
    private static readonly Conductor Copper = new() { AreaSquareMetres = 0.75 / 1e6 };

    private static Checked<YardFile> Import(byte[] file)
    {
        ProblemList problems = new("in");
        Sketch? sketch = SketchReader.Read(file, SketchReader.FormatOf(file), problems);
        return sketch is null ? Checked<YardFile>.Bad(problems) : SketchYard.Make(sketch, sketch.Name ?? "Imported", Copper, "in");
    }

    private static Checked<YardFile> Import(string file) => Import(Encoding.UTF8.GetBytes(file));

    private static string[] Lines(string file) => [.. Import(file).Lines()];

    [Fact]
    public void A_read_track_is_simplified_to_two_centimetres_and_says_so()
    {
        // A walk round 100 m with a place each 2.5 cm, and a circle whose chords bulge less than 2 cm where they are shorter than 0.8 m.
        string square = string.Join('\n', Enumerable.Range(0, 4000).Select(i => i * 0.025).Select(at => FormattableString.Invariant(
            $"{(at < 25 ? at : at < 50 ? 25 : at < 75 ? 75 - at : 0):0.####},{(at < 25 ? 0 : at < 50 ? at - 25 : at < 75 ? 25 : 100 - at) + (0.01 * Math.Sin(at * 40)):0.####}")));
        YardFile file = Import("x,y\n" + square).Value!;
        Assert.InRange(file.Yard.Loop.Path.Points.Count, 5, 40);
        string note = Assert.Single(file.Notes).Message;
        Assert.Matches(@"^the track is simplified: \d+ of its 4000 corners stay, all others lie within 2 cm of it; its length is \d+\.\d m, as read \d+\.\d m$", note);

        PlanPoint[] circle = [.. Enumerable.Range(0, 9000).Select(i => new PlanPoint(4 * Math.Cos(i * Math.Tau / 8999), 4 * Math.Sin(i * Math.Tau / 8999)))];
        WirePath kept = Import("x,y\n" + string.Join('\n', circle.Select(point => FormattableString.Invariant($"{point.EastMetres:0.####},{point.NorthMetres:0.####}")))).Value!.Yard.Loop.Path;
        Assert.InRange(kept.Points.Count, 30, 70);
        Assert.All(circle.Where((_, i) => i % 31 == 0), point => Assert.InRange(kept.NearestTo(point).DistanceMetres, 0, 0.0202));
    }

    [Fact]
    public void A_drawing_is_not_simplified_and_an_export_comes_back_as_it_was()
    {
        string drawn = string.Join(',', Enumerable.Range(0, 150).Select(i => FormattableString.Invariant($"[{i * 0.1:0.#},0]")).Concat(["[15,15]", "[0,15]"]));
        Assert.Equal(152, Import($$"""{ "type": "LineString", "swardloopPlan": "metres", "coordinates": [{{drawn}}] }""").Value!.Yard.Loop.Path.Points.Count);
        string fine = string.Join(',', Enumerable.Range(0, 1500).Select(i => FormattableString.Invariant($"[{i * 0.01:0.##},0]")).Concat(["[15,15]", "[0,15]"]));
        Assert.Equal(1502, Import($$"""{ "type": "LineString", "swardloopPlan": "metres", "coordinates": [{{fine}}] }""").Value!.Yard.Loop.Path.Points.Count);
    }

    [Fact]
    public void A_drawing_of_more_than_two_thousand_corners_is_refused_with_advice()
    {
        string ring(int corners) => string.Join(',', Enumerable.Range(0, corners).Select(i => FormattableString.Invariant($"[{20 * Math.Cos(i * Math.Tau / corners):0.####},{20 * Math.Sin(i * Math.Tau / corners):0.####}]")));
        string yard(int corners) => $$"""{ "format": "swardloop-yard/1", "name": "Round", "loop": { "path": [{{ring(corners)}}], "conductor": { "material": "copper", "areaMm2": 1.5 } } }""";

        Assert.True(YardFile.Read(Encoding.UTF8.GetBytes(yard(2_000)), "in").IsGood);
        Assert.Equal(
            ["in: loop.path: got 2001 corners; allowed: at most 2000 corners; a read track that is imported keeps only those it needs to stay within 2 cm"],
            YardFile.Read(Encoding.UTF8.GetBytes(yard(2_001)), "in").Lines());
    }

    [Fact]
    public void GeoJson_gives_loop_lawn_metal_and_neighbour_on_a_plane_at_the_first_corner()
    {
        // 1e-4 degree of latitude at 50° N is 11.1226 m on WGS 84 and of longitude 7.1695 m (degree lengths 111,226 m and 71,695 m,
        // common tables); 2 mm for their rounding.
        Yard yard = Import("""
            { "type": "FeatureCollection", "features": [
              { "type": "Feature", "properties": null, "geometry": { "type": "LineString", "coordinates": [[8,50,120],[8.0002,50],[8.0002,50.0002],[8,50.0002],[8,50]] } },
              { "type": "Feature", "properties": { "species": "lime" }, "geometry": { "type": "Point", "coordinates": [8.0001,50.0001] } },
              { "type": "Feature", "properties": {}, "geometry": null },
              { "type": "Feature", "properties": {}, "geometry": { "type": "Polygon", "coordinates": [
                  [[8,50],[8.0002,50],[8.0002,50.0002],[8,50.0002],[8,50]], [[8.00005,50.00005],[8.00005,50.0001],[8.0001,50.0001],[8.00005,50.00005]] ] } },
              { "type": "Feature", "properties": { "role": "metal", "kind": "gate", "earthOhms": 12 }, "geometry": { "type": "LineString", "coordinates": [[8,49.9999],[8.0001,49.9999]] } },
              { "type": "Feature", "properties": { "role": "neighbour", "sameCoding": true }, "geometry": { "type": "Polygon", "coordinates": [[[8.0003,50],[8.0004,50],[8.0004,50.0001],[8.0003,50]]] } },
              { "type": "Feature", "properties": { "role": "joint", "style": "clamp" }, "geometry": { "type": "Point", "coordinates": [8.0001,50] } } ] }
            """).Value!.Yard;

        Assert.Equal(new Datum(50, 8, 0), yard.Datum);
        Assert.Equal(14.339, yard.Loop.Path.Points[1].EastMetres, 2e-3);
        Assert.Equal(22.245, yard.Loop.Path.Points[2].NorthMetres, 2e-3);
        Assert.Equal(new PlanPoint(0, 0), yard.Loop.Path.Points[0]);
        Assert.Equal(3, yard.Lawn.Holes.Single().Count);
        Assert.Equal(("gate", 12.0), (yard.Metal[0].Kind, yard.Metal[0].EarthOhms));
        Assert.Equal((true, 5.0, 4), (yard.Neighbours[0].SameCoding, yard.Neighbours[0].Ohms, yard.Neighbours[0].Path.Points.Count));
        Assert.Equal(JointStyle.Clamp, yard.Loop.Joints.Single().Style);
        Assert.Equal(7.170, yard.Loop.Joints[0].AtMetres, 2e-3);
        Assert.Equal(Copper, yard.Loop.Conductor);
    }

    [Theory]
    [InlineData("""{ "type": "LineString", "coordinates": [[8,50],[500,50],[8,"n"]] }""", "in: coordinates[1]: got [500, 50]; allowed: [longitude, latitude], a number from -180 to 180 ° and a number from -90 to 90 °")]
    [InlineData("""{ "type": "Curve" }""", "in: type: got Curve; allowed: LineString (loop, metal, neighbour, guide), Polygon (lawn, loop, metal, neighbour), MultiPolygon (lawn), Point (joint)")]
    [InlineData("""{ "type": "FeatureCollection", "features": [] }""", "in: no loop is drawn; allowed: exactly one line for the loop; others with a role")]
    [InlineData("""{ "type": "Feature", "properties": { "role": "moat" }, "geometry": { "type": "LineString", "coordinates": [[8,50],[8,50.001],[8.001,50]] } }""", "in: properties.role: got \"moat\"; allowed: loop, lawn, metal, neighbour, joint, guide")]
    [InlineData("""{ "type": "FeatureCollection", "swardloopPlan": "metres", "features": [ { "type": "Feature", "properties": {}, "geometry": { "type": "LineString", "coordinates": [[0,0],[9,0],[9,9],[0,9],[0,0]] } }, { "type": "Feature", "properties": { "role": "guide" }, "geometry": { "type": "LineString", "coordinates": [[0,0],[4,4]] } } ] }""", "in: features[1].geometry.coordinates: the guide wire ends 4.0 m off the wire; allowed: a line from the station that ends at most 1 m off the wire, or where it joins as joinsAtM")]
    [InlineData("""{ "type": "LineString", "coordinates": [[8,50],[8.0002,50.0002],[8.0002,50],[8,50.0002]] }""", "in: loop.path: the wire crosses itself at (7.17, 11.12): the pieces after corner 0 and after corner 2; allowed: a wire that may touch itself and run out and back along one line, but not cross")]
    [InlineData("<gpx><trk/></gpx>", "in: line 1, column 2: got <gpx> of \"\"; allowed: <gpx> of \"http://www.topografix.com/GPX/1/1\"")]
    [InlineData("<!DOCTYPE gpx [<!ENTITY a \"aaaa\">]><gpx>&a;</gpx>", "in: a document type declaration is not read; allowed: GPX 1.1")]
    [InlineData("1,2\n3,4\n", "in: line 1: got \"1,2\"; allowed: a heading with x,y or lat,lon")]
    [InlineData("x,y\n0,0\n9,east\n9,9", "in: line 3: got \"east\"; allowed: a number from -10\u00a0000 to 10\u00a0000 m")]
    [InlineData("", "in: line 1: the file is empty; allowed: a heading with x,y or lat,lon")]
    public void What_cannot_become_a_yard_is_refused_with_its_place(string file, string expected) => Assert.Equal(expected, Lines(file)[0]);

    [Fact]
    public void Gpx_tracks_become_loop_and_lawn_with_segments_joined()
    {
        Yard yard = Import("""
            <?xml version="1.0"?>
            <gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="none">
              <metadata><name>Walk</name></metadata>
              <wpt lat="50" lon="8"><name>gate</name></wpt>
              <trk><name>Osier Bank</name>
                <trkseg><trkpt lat="50" lon="8"><ele>120</ele></trkpt><trkpt lat="50" lon="8.0002"/></trkseg>
                <trkseg><trkpt lat="50.0002" lon="8.0002"/><trkpt lat="50.0002" lon="8"/></trkseg></trk>
              <trk><type>lawn</type><trkseg><trkpt lat="50" lon="8"/><trkpt lat="50" lon="8.0002"/><trkpt lat="50.0002" lon="8.0002"/><trkpt lat="50.0002" lon="8"/></trkseg></trk>
              <trk><type>metal</type><trkseg><trkpt lat="50" lon="8.0003"/><trkpt lat="50.0001" lon="8.0003"/></trkseg></trk>
            </gpx>
            """).Value!.Yard;

        Assert.Equal("Osier Bank", yard.Name);
        Assert.Equal(4, yard.Loop.Path.Points.Count);
        Assert.Equal(14.339 * 22.245, yard.Lawn.AreaSquareMetres, 0.1);
        Assert.Equal(YardLimits.DefaultMetalKind, yard.Metal.Single().Kind);
    }

    [Fact]
    public void Gpx_nested_without_end_is_refused_early() =>
        Assert.StartsWith("in: line 1, column ", Lines($"<gpx xmlns=\"http://www.topografix.com/GPX/1/1\">{string.Concat(Enumerable.Repeat("<a>", 100_000))}").Single(), StringComparison.Ordinal);

    [Theory]
    [InlineData("x,y\n0,0\n12,0\n12,12\n0,12\n")]
    [InlineData("\uFEFFname;Y;X\r\na;0;0\r\nb;0;12\r\n\r\nc;12;12\r\nd;12;0\r\n")]
    [InlineData("role\tx\ty\nloop\t0\t0\nloop\t12\t0\nloop\t12\t12\nloop\t0\t12\nlawn\t0\t0\nlawn\t12\t0\nlawn\t12\t12\nlawn\t0\t12\n")]
    public void Csv_in_metres_gives_a_plan_without_datum(string file)
    {
        Yard yard = Import(file).Value!.Yard;

        Assert.Null(yard.Datum);
        Assert.Equal([new(0, 0), new(12, 0), new(12, 12), new(0, 12)], yard.Loop.Path.Points);
        Assert.Equal(144, yard.Lawn.AreaSquareMetres);
    }

    [Fact]
    public void Csv_in_degrees_gives_a_datum()
    {
        Yard yard = Import("lat,lon\n50,8\n50,8.0002\n50.0002,8.0002\n50.0002,8\n").Value!.Yard;

        Assert.Equal(new Datum(50, 8, 0), yard.Datum);
        Assert.Equal(22.245, yard.Loop.Path.Points[2].NorthMetres, 2e-3);
    }

    [Fact]
    public void What_is_exported_comes_back_within_a_millimetre() =>
        Gen.Select(Gen.Double[-85, 85], Gen.Double[-180, 180], Gen.Double[-180, 180], Gen.Double[1, 60].Array[5, 12], Gen.Bool)
            .Sample((latitude, longitude, bearing, radii, local) =>
            {
                // A star of corners about a centre never crosses itself.
                PlanPoint[] corners = [.. radii.Select((radius, i) => new PlanPoint(
                    30 + (radius * Math.Cos(2 * Math.PI * i / radii.Length)), 20 + (radius * Math.Sin(2 * Math.PI * i / radii.Length))))];
                WirePath path = new(corners.Append(corners[0]));
                Yard yard = new()
                {
                    Name = "Starwort Ω",
                    Datum = new Datum(latitude, longitude, bearing),
                    Lawn = new Lawn([corners], []),
                    Loop = new Loop { Path = path, Conductor = Copper with { ConductorClass = 5 }, Joints = [new Joint(path.LengthMetres / 2, JointStyle.Gel)] },
                    Metal = [new MetalObject("shed", new WirePath([new(-50, 0), new(-50, 8)]), 33)],
                    Neighbours = [new NeighbourLoop(new WirePath([new(100, 0), new(120, 0), new(120, 9)]), true, 3)],
                    Guides =
                    [
                        new("Gate", path.CornerMetres[2], new WirePath([corners[0], new(30, 20), corners[2]]), Copper with { AreaSquareMetres = 1.5e-6 }) { Joints = [new(0.5, JointStyle.Twisted)] },
                        new("G2", 0.4 * path.LengthMetres, new WirePath([corners[0], path.PointAt(0.4 * path.LengthMetres)])),
                    ],
                };

                Yard back = Import(local ? YardGeoJson.WriteLocal(yard) : YardGeoJson.Write(yard)).Value!.Yard;

                Assert.Equal(local ? null : yard.Datum, back.Datum);
                Assert.Equal(yard.Name, back.Name);
                Assert.Equal(yard.Loop.Conductor, back.Loop.Conductor);
                AssertNear(yard.Loop.Path.Points, back.Loop.Path.Points);
                AssertNear(yard.Lawn.Rings[0], back.Lawn.Rings[0]);
                AssertNear(yard.Metal[0].Path.Points, back.Metal[0].Path.Points);
                AssertNear(yard.Neighbours[0].Path.Points, back.Neighbours[0].Path.Points);
                Assert.Equal(("shed", 33.0, true, 3.0), (back.Metal[0].Kind, back.Metal[0].EarthOhms, back.Neighbours[0].SameCoding, back.Neighbours[0].Ohms));
                Assert.Equal(yard.Loop.Joints, back.Loop.Joints);
                Assert.Equal(yard.Guides.Select(guide => (guide.Name, guide.JoinsAtMetres, guide.Conductor)), back.Guides.Select(guide => (guide.Name, guide.JoinsAtMetres, guide.Conductor)));
                Assert.All(yard.Guides.Zip(back.Guides), pair => AssertNear(pair.First.Path.Points, pair.Second.Path.Points));
                Assert.Equal(yard.Guides[0].Joints, back.Guides[0].Joints);
            }, iter: 200, threads: 1);

    [Fact]
    public void The_examples_survive_export_and_import()
    {
        foreach (string file in Examples.YardPaths)
        {
            Yard yard = YardFile.Read(File.ReadAllBytes(file), file).Value!.Yard;
            Yard back = Import(yard.Datum is null ? YardGeoJson.WriteLocal(yard) : YardGeoJson.Write(yard)).Value!.Yard;

            AssertNear(yard.Loop.Path.Points, back.Loop.Path.Points);
            Assert.Equal(yard.Lawn.AreaSquareMetres, back.Lawn.AreaSquareMetres, 0.05);
            Assert.Equal(yard.Lawn.Holes.Count, back.Lawn.Holes.Count);
        }
    }

    [Fact]
    public void A_conductor_that_nobody_knows_stays_unknown()
    {
        Yard yard = YardFile.Read("""
            { "format": "swardloop-yard/1", "name": "Tansy Bank", "loop": { "path": [[0,0],[9,0],[9,9],[0,9],[0,0]] } }
            """u8.ToArray(), "in").Value!.Yard;

        Assert.False(Import(YardGeoJson.WriteLocal(yard)).Value!.Yard.Loop.ConductorIsKnown);
        Assert.True(Import(YardGeoJson.WriteLocal(yard with { Loop = yard.Loop with { Conductor = Copper, ConductorIsKnown = true } })).Value!.Yard.Loop.ConductorIsKnown);
    }

    [Fact]
    public void A_table_and_a_track_bring_guide_wires()
    {
        GuideWire table = Import("role,x,y\nloop,0,0\nloop,12,0\nloop,12,12\nloop,0,12\nloop,0,0\nguide,0,0\nguide,6,6\nguide,12,6.4\n").Value!.Yard.Guides.Single();
        Assert.Equal(("G1", 18.4, 3), (table.Name, table.JoinsAtMetres, table.Path.Points.Count));

        GuideWire track = Import("""
            <gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="none">
              <trk><trkseg><trkpt lat="50" lon="8"/><trkpt lat="50" lon="8.0002"/><trkpt lat="50.0002" lon="8.0002"/><trkpt lat="50.0002" lon="8"/><trkpt lat="50" lon="8"/></trkseg></trk>
              <trk><name>Middle</name><type>guide</type><trkseg><trkpt lat="50" lon="8"/><trkpt lat="50.0002" lon="8.0002"/></trkseg></trk>
            </gpx>
            """).Value!.Yard.Guides.Single();
        Assert.Equal("Middle", track.Name);
        Assert.Equal(14.339 + 22.245, track.JoinsAtMetres, 5e-3);
    }

    [Fact]
    public void Exported_rings_turn_as_the_standard_wants()
    {
        // RFC 7946, 3.1.6: exterior rings counter-clockwise, holes clockwise, first and last position the same.
        Yard yard = new()
        {
            Name = "Turned",
            Lawn = new Lawn([[new(0, 0), new(0, 9), new(9, 9), new(9, 0)]], [[new(1, 1), new(2, 1), new(2, 2)]]),
            Loop = new Loop { Path = new WirePath([new(0, 0), new(9, 0), new(9, 9)]), Conductor = Copper },
        };

        Assert.Contains("[[[9, 0], [9, 9], [0, 9], [0, 0], [9, 0]], [[2, 2], [2, 1], [1, 1], [2, 2]]]",
            Encoding.UTF8.GetString(YardGeoJson.WriteLocal(yard)), StringComparison.Ordinal);
    }

    private static void AssertNear(IReadOnlyList<PlanPoint> expected, IReadOnlyList<PlanPoint> actual)
    {
        Assert.Equal(expected.Count, actual.Count);
        Assert.All(expected.Zip(actual), pair => Assert.InRange(pair.First.DistanceTo(pair.Second), 0, 1e-3));
    }
}
