using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Trial;

/// <summary>What the trial's world computes of a yard: written from the model's formulas alone, apart from the product's own field and network code,
/// so that the judge does not share the defendant's mistakes. Good to a few percent, which is finer than any reading of it.</summary>
internal sealed class YardPhysics
{
    private const double EdgeMetres = 0.5;
    private readonly WirePath _path;
    private readonly double _heightMetres;
    private readonly double[] _sortedFields;

    public YardPhysics(Yard yard)
    {
        _path = yard.Loop.Path;
        _heightMetres = yard.Loop.DepthMetres + yard.Mower.SensorHeightMetres;
        (PlanPoint low, PlanPoint high) = yard.Lawn.Bounds;
        double cell = Math.Clamp(Math.Sqrt(yard.Lawn.AreaSquareMetres / 300), 0.5, 3);
        List<(PlanPoint Point, double Field, double Distance)> lawn = [];
        for (double east = low.EastMetres + (cell / 2); east < high.EastMetres; east += cell)
        {
            for (double north = low.NorthMetres + (cell / 2); north < high.NorthMetres; north += cell)
            {
                PlanPoint point = new(east, north);
                double distance = yard.Lawn.Contains(point) ? _path.NearestTo(point).DistanceMetres : 0;
                if (distance >= EdgeMetres)
                {
                    lawn.Add((point, UnitField(point), distance));
                }
            }
        }

        _sortedFields = [.. lawn.Select(place => place.Field).Order()];
        WeakestPlace = lawn.MinBy(place => place.Field).Point;
        (PlanPoint Point, double Field, double Distance) deepest = lawn.MaxBy(place => place.Distance);
        MidLawnField = deepest.Field;
        AtWireField = 1 / (2 * Math.PI * 0.5);
        InductanceHenry = Inductance(low, high, _path.LengthMetres);
    }

    /// <summary>Lawn point with the weakest field.</summary>
    public PlanPoint WeakestPlace { get; }

    /// <summary>Unit field where the lawn is farthest from any wire (1/m).</summary>
    public double MidLawnField { get; }

    /// <summary>Unit field half a metre inside a long wire (1/m).</summary>
    public double AtWireField { get; }

    /// <summary>The loop's inductance (H), that of the rectangle round it (references B4) and 1.5 µH per metre of the rest, which runs out and back.</summary>
    public double InductanceHenry { get; }

    /// <summary>Unit field at the weakest lawn point (1/m).</summary>
    public double WeakestField => _sortedFields[0];

    /// <summary>Vertical field for 1 A at a place (1/m), magnitude: the sum over straight segments of references B1.</summary>
    public double UnitField(PlanPoint at)
    {
        double sum = 0;
        IReadOnlyList<PlanPoint> corners = _path.Points;
        for (int i = 0; i + 1 < corners.Count; i++)
        {
            Vec3 toStart = new(at.EastMetres - corners[i].EastMetres, at.NorthMetres - corners[i].NorthMetres, _heightMetres);
            Vec3 toEnd = new(at.EastMetres - corners[i + 1].EastMetres, at.NorthMetres - corners[i + 1].NorthMetres, _heightMetres);
            double product = toStart.Length * toEnd.Length;
            double overlap = product + Vec3.Dot(toStart, toEnd);
            sum += ((toStart.X * toEnd.Y) - (toStart.Y * toEnd.X)) * (toStart.Length + toEnd.Length) / (4 * Math.PI * product * overlap);
        }

        return Math.Abs(sum);
    }

    /// <summary>Share of the lawn (half a metre and more from the wire) with at least a unit field.</summary>
    public double ShareWithField(double neededField)
    {
        int below = Array.BinarySearch(_sortedFields, neededField);
        return 1 - ((below < 0 ? ~below : below) / (double)_sortedFields.Length);
    }

    /// <summary>How far from the wire, walking from it straight to the weakest place, the field is still enough (m), and whether it is all the way.</summary>
    public (double Metres, bool AllTheWay) ReachMetres(double neededField)
    {
        (double at, double whole) = _path.NearestTo(WeakestPlace);
        PlanPoint start = _path.PointAt(at);
        if (WeakestField >= neededField)
        {
            return (whole, true);
        }

        // The field peaks a hand's breadth inside the wire and falls from there.
        const int Paces = 60;
        double reached = 0;
        for (int pace = 1; pace <= Paces; pace++)
        {
            double share = pace / (double)Paces;
            if (UnitField(start.Towards(WeakestPlace, share)) >= neededField)
            {
                reached = share * whole;
            }
            else if (share * whole > 2 * _heightMetres)
            {
                break;
            }
        }

        return (reached, false);
    }

    private static double Inductance(PlanPoint low, PlanPoint high, double lengthMetres)
    {
        const double Radius = 0.0006;
        double a = high.EastMetres - low.EastMetres, b = high.NorthMetres - low.NorthMetres;
        double rectangle = 4e-7 * ((a * Math.Log(2 * a / Radius)) + (b * Math.Log(2 * b / Radius)) + (2 * Math.Sqrt((a * a) + (b * b)))
            - (a * Math.Asinh(a / b)) - (b * Math.Asinh(b / a)) - (2 * (a + b)) + ((a + b) / 4));
        return rectangle + (1.5e-6 * Math.Max(0, lengthMetres - (2 * (a + b))));
    }
}
