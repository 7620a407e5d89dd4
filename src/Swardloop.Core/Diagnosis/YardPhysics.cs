using Swardloop.Core.Budget;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>What inference needs of a yard's physics, computed once: healthy resistance, reach for any resistance, distances.</summary>
internal sealed class YardPhysics
{
    /// <summary>The inference's map needs no finer grain than this share of the lawn's size: the profile's own uncertainty is larger.</summary>
    private const double MapCells = 1500;

    private static readonly double[] NodeOffsets = [-2, -1, 0, 1, 2];

    private readonly ReachProfile _profile;
    private readonly double _weakestField;

    public YardPhysics(Yard yard)
    {
        Yard = yard;
        Budget = LoopBudget.For(yard);
        LoopReach reach = new(yard, Math.Max(0.2, Math.Sqrt(yard.Lawn.AreaSquareMetres / MapCells)));
        _profile = reach.Profile;
        _weakestField = Math.Max(reach.FieldQuantile(0.01), 1e-9);
        double logDeviation = Math.Sqrt(Math.Pow(yard.Mower.ReachRelativeDeviation, 2) + Math.Pow(0.5 * yard.Station.SourceRelativeDeviation, 2));
        double[] weights = [.. NodeOffsets.Select(offset => Math.Exp(-offset * offset / 2))];
        Profiles = [.. NodeOffsets.Zip(weights, (offset, weight) => new ProfileNode(weight / weights.Sum(), Math.Exp(offset * logDeviation)))];
    }

    public Yard Yard { get; }

    public LoopBudget Budget { get; }

    /// <summary>The mower's reach constant, as factors on the profile's value with their probabilities.</summary>
    public IReadOnlyList<ProfileNode> Profiles { get; }

    public double LengthMetres => Yard.Loop.LengthMetres;

    /// <summary>Healthy resistance per metre of drawn wire (Ω/m): joints spread evenly, as they are milliohms.</summary>
    public double OhmsPerMetre => Budget.MeanOhms / LengthMetres;

    /// <summary>Field per ampere (1/m) that must be there to be heard.</summary>
    public double RequiredField(double extraOhms, double reachFactor) =>
        Budget.ImpedanceAtOhms(Budget.MeanOhms + extraOhms) / (Yard.Mower.ReachConstantOhmMetres * reachFactor);

    /// <summary>How far from the wire the mower runs.</summary>
    public ReachDistance Reach(double extraOhms, double reachFactor) =>
        double.IsInfinity(extraOhms) ? new(0, false) : _profile.At(RequiredField(extraOhms, reachFactor));

    /// <summary>Natural logarithm of how many times stronger than needed the signal is at the weakest place of the lawn.</summary>
    public double LogMarginMidLawn(double extraOhms, double reachFactor) =>
        double.IsInfinity(extraOhms) ? double.NegativeInfinity : Math.Log(_weakestField / RequiredField(extraOhms, reachFactor));

    /// <summary>The same half a metre from a long wire: g = x/(2π(x² + h²)), references B1.</summary>
    public double LogMarginAtWire(double extraOhms, double reachFactor)
    {
        const double Offset = 0.5;
        double height = Yard.Loop.DepthMetres + Yard.Mower.SensorHeightMetres;
        double field = Offset / (2 * Math.PI * ((Offset * Offset) + (height * height)));
        return double.IsInfinity(extraOhms) ? double.NegativeInfinity : Math.Log(field / RequiredField(extraOhms, reachFactor));
    }

    /// <summary>Straight distance between two places on the wire (m).</summary>
    public double Chord(double fromMetres, double toMetres) => PointAt(fromMetres).DistanceTo(PointAt(toMetres));

    private PlanPoint PointAt(double metres) => Yard.Loop.Path.PointAt(Math.Clamp(metres, 0, LengthMetres));
}

/// <summary>One value of the mower's true reach constant.</summary>
/// <param name="Probability">Its probability.</param>
/// <param name="ReachFactor">True reach constant over the profile's.</param>
internal readonly record struct ProfileNode(double Probability, double ReachFactor);
