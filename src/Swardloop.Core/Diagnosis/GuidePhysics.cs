using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>One guide wire as the inference sees it: its healthy resistance, and the places of a fault on it with their prior probabilities.</summary>
internal sealed class GuidePhysics
{
    /// <summary>Cells that the wire between its joints is cut into, about.</summary>
    private const int Cells = 28;

    /// <param name="number">1 for the first of the yard's guides.</param>
    /// <param name="guide">The guide.</param>
    /// <param name="yard">Its yard; only the loop's ohms per metre need to be known yet.</param>
    public GuidePhysics(int number, GuideWire guide, YardPhysics yard)
    {
        (Number, Wire, LengthMetres) = (number, guide, guide.LengthMetres);
        JoinsAtMetres = Math.Clamp(guide.JoinsAtMetres, 0, yard.LengthMetres);
        Ohms = LengthMetres * (guide.Conductor is { } conductor ? ConductorResistance.OhmsPerMetre(conductor, yard.Yard.Soil.TemperatureCelsius).Mean : yard.OhmsPerMetre);
        Places = MakePlaces();
        double spans = Places.Sum(place => place.LengthMetres);
        double joint = StatedProbabilities.SeriesJointMetres + (StatedProbabilities.SeriesJointShareOfSpans * spans);
        double Style(Place place) => JointAt(place, yard.Yard.Loop) is { } known ? StatedProbabilities.JointStyleFactor(known.Style) : 1;
        SeriesPrior = Normalised(place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.SeriesTerminalFactor * joint,
            PlaceKind.Joint => joint * Style(place),
            _ => place.LengthMetres,
        });
        OpenPrior = Normalised(place => place.Kind switch
        {
            PlaceKind.Terminal => StatedProbabilities.OpenTerminalMetres,
            PlaceKind.Joint => StatedProbabilities.OpenJointMetres * Style(place),
            _ => place.LengthMetres,
        });
    }

    /// <summary>1 for the first of the yard's guides.</summary>
    public int Number { get; }

    /// <summary>The guide in the yard's file.</summary>
    public GuideWire Wire { get; }

    public double LengthMetres { get; }

    /// <summary>Where it joins the loop (m from A).</summary>
    public double JoinsAtMetres { get; }

    /// <summary>Its healthy resistance (Ω).</summary>
    public double Ohms { get; }

    /// <summary>From its plug at the station to the joint with the loop, both included.</summary>
    public Place[] Places { get; }

    /// <summary>Prior probability of each place, given a bad joint or a corroded strand.</summary>
    public double[] SeriesPrior { get; }

    /// <summary>The same of a break.</summary>
    public double[] OpenPrior { get; }

    /// <summary>The joint on the guide near a place on it (m from the station), or null; the one with the loop is not on it.</summary>
    public Joint? JointNear(double atMetres) =>
        Wire.Joints.Where(joint => Math.Abs(joint.AtMetres - atMetres) <= Loop.JointReachMetres).MinBy(joint => Math.Abs(joint.AtMetres - atMetres));

    private Joint? JointAt(Place place, Loop loop) => place.FromMetres >= LengthMetres - 1e-9 ? loop.JointNear(JoinsAtMetres) : JointNear(place.FromMetres);

    private Place[] MakePlaces()
    {
        double[] joints = [.. Wire.Joints.Select(joint => joint.AtMetres).Where(at => at > 0.05 && at < LengthMetres - 0.05).Distinct().Order()];
        double longest = Math.Max(0.5, LengthMetres / Cells), from = 0;
        List<Place> places = [new(PlaceKind.Terminal, 0, 0) { Guide = Number }];
        foreach (double to in joints.Append(LengthMetres))
        {
            int cells = Math.Max(1, (int)Math.Ceiling((to - from) / longest));
            for (int cell = 0; cell < cells; cell++)
            {
                places.Add(new(PlaceKind.Span, from + ((to - from) * cell / cells), from + ((to - from) * (cell + 1) / cells)) { Guide = Number });
            }

            places.Add(new(PlaceKind.Joint, to, to) { Guide = Number });
            from = to;
        }

        return [.. places];
    }

    private double[] Normalised(Func<Place, double> weight)
    {
        double[] weights = [.. Places.Select(weight)];
        double total = weights.Sum();
        return [.. weights.Select(one => one / total)];
    }
}
