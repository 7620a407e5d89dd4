using Swardloop.Core.Yards;

namespace Swardloop.Model.Pricing;

/// <summary>How often a loop fails: Poisson faults at a rate that is not known but Gamma distributed, and what share of it lies in which part.</summary>
/// <param name="Shape">α of the Gamma distribution.</param>
/// <param name="Years">β (years): the mean rate is α/β.</param>
public readonly record struct FaultRate(double Shape, double Years)
{
    /// <summary>α before any fault: loops of one kind differ so much that their deviation is 1.4 times their mean. Common practice, no source.</summary>
    public const double StatedShape = 0.5;

    /// <summary>Faults of one well-made joint in a year, and of a metre of wire. Common practice, no source.</summary>
    public const double PerJointYear = 0.008, PerMetreYear = 0.0003;

    /// <summary>Mean faults in a year.</summary>
    public double PerYear => Shape / Years;

    /// <summary>The stated rate of a yard's loop: its joints by their style, its metres by their risk.</summary>
    public static FaultRate Stated(Yard yard) => new(StatedShape, StatedShape / Sum(yard));

    /// <summary>The rate after so many faults in so many years (Gamma and Poisson are conjugate).</summary>
    public FaultRate After(int faults, double years) => new(Shape + faults, Years + years);

    /// <summary>The rate when only a share of it remains, and other parts with a known rate are added.</summary>
    /// <param name="remains">Share that remains, 0 to 1.</param>
    /// <param name="added">Faults a year that new parts add on average.</param>
    public FaultRate Changed(double remains, double added) => new(Shape, Shape / ((remains * PerYear) + added));

    /// <summary>Probability of 0, 1, 2, … faults in so many years: negative binomial, until all but 1e-9 is told.</summary>
    public IReadOnlyList<double> Faults(double years)
    {
        double success = Years / (Years + years), p = Math.Pow(success, Shape), sum = p;
        List<double> all = [p];
        for (int n = 1; n < 400 && sum < 1 - 1e-9; n++)
        {
            p *= (Shape + n - 1) / n * (1 - success);
            sum += p;
            all.Add(p);
        }

        return all;
    }

    /// <summary>How much likelier a joint of a style fails than a well-made one. Common practice, no source.</summary>
    public static double Weight(JointStyle style) => style switch
    {
        JointStyle.Soldered => 0.7,
        JointStyle.Gel or JointStyle.Crimped => 1,
        JointStyle.Clamp => 3,
        JointStyle.Twisted => 6,
        _ => 3,
    };

    /// <summary>Whether a joint is worth remaking before it fails.</summary>
    public static bool IsSuspicious(Joint joint) => Weight(joint.Style) > 1;

    /// <summary>Stated faults a year of all joints.</summary>
    public static double JointsPerYear(IEnumerable<Joint> joints) => joints.Sum(joint => PerJointYear * Weight(joint.Style));

    /// <summary>Stated faults a year of a stretch of wire, riskier where the yard says so.</summary>
    public static double WirePerYear(Yard yard, double fromMetres, double toMetres) => PerMetreYear * (
        toMetres - fromMetres
        + yard.RiskSpots.Sum(spot => (spot.Weight - 1) * Math.Max(0, Math.Min(toMetres, spot.ToMetres) - Math.Max(fromMetres, spot.FromMetres))));

    /// <summary>Stated faults a year of the whole loop, its terminals included.</summary>
    public static double Sum(Yard yard) =>
        JointsPerYear(yard.Loop.Joints) + (2 * PerJointYear) + Math.Max(WirePerYear(yard, 0, yard.Loop.LengthMetres), PerMetreYear * yard.Loop.LengthMetres * 0.1);
}
