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

    /// <summary>A yard that has anything else wrong than its layout once worked: where the healthy loop would fall short of the lawn, so much less likely. Judgement, no source.</summary>
    private const double WorkedBefore = 0.95;

    /// <summary>How often a station or mower is stronger than filed by just what the lawn needs, and by how much more then (natural logarithm). Judgement, no source.</summary>
    private const double StrongerThanFiled = 0.05, CoversBy = 0.22;

    /// <summary>What a layout weighs where the healthy loop covers the lawn, against one where it does not: places the file does not know of. Judgement, no source.</summary>
    private const double LayoutAnyhow = 0.01;

    private static readonly double[] NodeOffsets = [-2, -1, 0, 1, 2];

    private readonly ReachProfile _profile;
    private readonly double _weakestField;

    // All wire that hangs on the loop, guide wires included.
    private readonly double _allMetres;

    public YardPhysics(Yard yard)
    {
        Yard = yard;
        Budget = LoopBudget.For(yard);
        Guides = [.. yard.Guides.Select((guide, i) => new GuidePhysics(i + 1, guide, this))];
        _allMetres = LengthMetres + Guides.Sum(guide => guide.LengthMetres);
        MeanPlaceShare = ((LengthMetres / 2) + Guides.Sum(guide => guide.LengthMetres * guide.JoinsAtMetres / LengthMetres)) / _allMetres;
        IslandRuns = IslandRun.Of(yard.Loop);
        LoopReach reach = new(yard, Math.Max(0.2, Math.Sqrt(yard.Lawn.AreaSquareMetres / MapCells)));
        _profile = reach.Profile;
        _weakestField = Math.Max(reach.FieldQuantile(0.01), 1e-9);
        double logDeviation = Math.Sqrt(Math.Pow(yard.Mower.ReachRelativeDeviation, 2) + Math.Pow(0.5 * yard.Station.SourceRelativeDeviation, 2));
        List<(double Weight, double Factor)> nodes = [.. NodeOffsets.Select(offset => (Math.Exp(-offset * offset / 2), Math.Exp(offset * logDeviation)))];

        // Where the filed station and mower could not cover the lawn and it was mown all the same, they are stronger than filed.
        double covers = Math.Exp(CoversBy - LogMarginMidLawn(0, 1));
        if (covers > 1)
        {
            nodes.Add((StrongerThanFiled * nodes.Sum(node => node.Weight), covers));
        }

        double[] falls = [.. nodes.Select(node => FallsShort(0, node.Factor))];
        double all = nodes.Sum(node => node.Weight), works = nodes.Zip(falls, (node, fall) => Works(node.Weight, fall)).Sum(), fallShort = nodes.Zip(falls, (node, fall) => Short(node.Weight, fall)).Sum();
        Profiles = [.. nodes.Select((node, i) => new ProfileNode(node.Weight / all, Works(node.Weight, falls[i]) / works, Short(node.Weight, falls[i]) / fallShort, node.Factor))];

        static double Works(double weight, double falls) => weight * (1 - (WorkedBefore * falls));
        static double Short(double weight, double falls) => weight * (LayoutAnyhow + falls);
    }

    public Yard Yard { get; }

    public LoopBudget Budget { get; }

    /// <summary>The loop's double runs to islands.</summary>
    public IReadOnlyList<IslandRun> IslandRuns { get; }

    /// <summary>The yard's guide wires, in the file's order.</summary>
    public IReadOnlyList<GuidePhysics> Guides { get; }

    /// <summary>The mower's reach constant, as factors on the profile's value with their probabilities.</summary>
    public IReadOnlyList<ProfileNode> Profiles { get; }

    public double LengthMetres => Yard.Loop.LengthMetres;

    /// <summary>Healthy resistance per metre of drawn wire (Ω/m): joints spread evenly, as they are milliohms.</summary>
    public double OhmsPerMetre => Budget.MeanOhms / LengthMetres;

    /// <summary>Where on the loop the mean metre of all wire hangs, as a share of the loop: one half without guide wires.</summary>
    public double MeanPlaceShare { get; }

    /// <summary>Share of all wire that hangs on the loop beyond a place, guide wires included.</summary>
    /// <param name="at">The place as a share of the loop, 0 to 1.</param>
    public double ShareBeyond(double at) => ((LengthMetres * (1 - at)) + Guides.Where(guide => guide.JoinsAtMetres > at * LengthMetres).Sum(guide => guide.LengthMetres)) / _allMetres;

    /// <summary>Field per ampere (1/m) that must be there to be heard.</summary>
    public double RequiredField(double extraOhms, double reachFactor) =>
        Budget.ImpedanceAtOhms(Budget.MeanOhms + extraOhms) / (Yard.Mower.ReachConstantOhmMetres * reachFactor);

    /// <summary>How far from the wire the mower runs.</summary>
    public ReachDistance Reach(double extraOhms, double reachFactor) =>
        double.IsInfinity(extraOhms) ? new(0, false) : _profile.At(RequiredField(extraOhms, reachFactor));

    /// <summary>Natural logarithm of how many times stronger than needed the signal is at the weakest place of the lawn.</summary>
    public double LogMarginMidLawn(double extraOhms, double reachFactor) =>
        double.IsInfinity(extraOhms) ? double.NegativeInfinity : Math.Log(_weakestField / RequiredField(extraOhms, reachFactor));

    /// <summary>Probability that a resistance leaves the weakest place of the lawn without signal.</summary>
    public double FallsShort(double extraOhms, double reachFactor) => 1 / (1 + Math.Exp(LogMarginMidLawn(extraOhms, reachFactor) / 0.1));

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

    /// <summary>The guide that an observation's places lie on; null: they lie on the loop, or on a guide that the file does not know.</summary>
    public GuidePhysics? GuideOn(Observation seen) => seen.Wire is { } name ? Guides.FirstOrDefault(guide => guide.Wire.Name == name) : null;

    /// <summary>The guide that was read; where its name is not noted, the only one.</summary>
    public GuidePhysics? GuideOf(Observation seen) => seen is not Observation.GuideResistance o ? null
        : o.Guide is { } name ? Guides.FirstOrDefault(guide => guide.Wire.Name == name) : Guides.Count == 1 ? Guides[0] : null;

    private PlanPoint PointAt(double metres) => Yard.Loop.Path.PointAt(Math.Clamp(metres, 0, LengthMetres));
}

/// <summary>One value of the mower's true reach constant.</summary>
/// <param name="Probability">Its probability before anything is known of the yard.</param>
/// <param name="WhereItWorked">Its probability in a yard whose layout is sound: its healthy loop covered the lawn.</param>
/// <param name="WhereItFallsShort">Its probability in a yard whose layout is too wide.</param>
/// <param name="ReachFactor">True reach constant over the profile's.</param>
internal readonly record struct ProfileNode(double Probability, double WhereItWorked, double WhereItFallsShort, double ReachFactor)
{
    /// <summary>Its probability under a condition.</summary>
    public double Under(bool layout) => layout ? WhereItFallsShort : WhereItWorked;
}
