using NetTopologySuite.Geometries;
using NetTopologySuite.LinearReferencing;

namespace Swardloop.Planning;

/// <summary>One closed piece of wire: round a part of the lawn or round an island, walked so that the mower's ground is on the left.</summary>
internal sealed class WireRing
{
    private readonly LengthIndexedLine _index;

    public WireRing(LineString ring, bool isIsland, int part)
    {
        // Seen from above, round a part counter-clockwise, round an island clockwise: the field then turns over at either.
        bool counterClockwise = NetTopologySuite.Algorithm.Orientation.IsCCW(ring.CoordinateSequence);
        Line = counterClockwise == isIsland ? (LineString)ring.Reverse() : ring;
        (IsIsland, Part) = (isIsland, part);
        _index = new(Line);
    }

    /// <summary>The wire, its first corner again at its end.</summary>
    public LineString Line { get; }

    /// <summary>Whether it goes round an island.</summary>
    public bool IsIsland { get; }

    /// <summary>Which part of the ground it belongs to.</summary>
    public int Part { get; }

    /// <summary>Its length (m).</summary>
    public double Metres => Line.Length;

    /// <summary>How far along it its nearest place to a point lies (m).</summary>
    public double Nearest(Coordinate point) => _index.Project(point);

    /// <summary>The place so far along it (m); beyond its end it goes round again.</summary>
    public Coordinate PlaceAt(double metres) => _index.ExtractPoint(Around(metres));

    /// <summary>Corners strictly between two places along it, in order; the second lies beyond the first, perhaps round the start.</summary>
    public IEnumerable<Coordinate> Between(double from, double to)
    {
        for (int lap = 0; lap < 2; lap++)
        {
            double along = lap * Metres;
            for (int i = 0; i + 1 < Line.NumPoints; i++)
            {
                if (along > from + 1e-6 && along < to - 1e-6)
                {
                    yield return Line.GetCoordinateN(i);
                }

                along += Line.GetCoordinateN(i).Distance(Line.GetCoordinateN(i + 1));
            }
        }
    }

    /// <summary>How far straight wire reaches on both sides of a place (m): the shorter side.</summary>
    public double StraightMetres(double metres)
    {
        double along = 0;
        for (int i = 0; i + 1 < Line.NumPoints; i++)
        {
            double next = along + Line.GetCoordinateN(i).Distance(Line.GetCoordinateN(i + 1));
            if (metres >= along && metres <= next)
            {
                return Math.Min(metres - along, next - metres);
            }

            along = next;
        }

        return 0;
    }

    /// <summary>A number of metres taken round the ring into its length.</summary>
    public double Around(double metres) => metres - (Math.Floor(metres / Metres) * Metres);
}
