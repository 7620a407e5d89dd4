using System.Numerics;
using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Diagnosis.Tests;
using Swardloop.Core.Tests.Circuits;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Readings by needle and by guide wire against ngspice on random loops, and the gradient in the ground against a point source (references C3).</summary>
public sealed class NeedleAndStakeSecondRouteTests
{
    private const int Loops = 12;

    /// <summary>A loop of 60 to 320 m with joints, two guides that join it at two of them, and one bad place (Ω) on one of the wires.</summary>
    private sealed record Case(Yard Yard, YardPhysics Physics, string Wire, double FaultMetres, double FaultOhms)
    {
        public double JointMetres => Yard.Loop.Joints[0].AtMetres;

        public static Case Random(Random random)
        {
            double side = 15 + (65 * random.NextDouble()), length = 4 * side;
            double[] shares = [.. Enumerable.Range(0, 3).Select(i => (i + 0.2 + (0.6 * random.NextDouble())) / 3)];
            Joint[] joints = [.. shares.Select(share => new Joint(share * length, JointStyle.Gel))];
            Yard yard = DiagnosisScene.Rectangle(side, side, joints) with
            {
                Guides = [Guide("G1", joints[1].AtMetres), Guide("G2", joints[2].AtMetres)],
            };
            string wire = random.Next(3) switch { 0 => "G1", 1 => "G2", _ => "loop" };
            double most = wire == "loop" ? length : yard.Guides.First(guide => guide.Name == wire).LengthMetres;
            return new(yard, new(yard), wire, most * (0.05 + (0.9 * random.NextDouble())), Math.Exp(Math.Log(0.5) + (random.NextDouble() * Math.Log(6000))));

            GuideWire Guide(string name, double at) => new(name, at, new([new(0, 0), DiagnosisScene.Rectangle(side, side).Loop.Path.PointAt(at)])) { Joints = [new(0.15 * side, JointStyle.Twisted)] };
        }

        /// <summary>The yard's wires as resistors, the fault in its place, with nodes at the marks; "A", "B" and each guide's name are the plugs.</summary>
        /// <param name="marks">Further places at which a node is wanted: wire, metres and the node's name.</param>
        public List<Element> Wires(IReadOnlyList<(string Wire, double At, string Node)> marks)
        {
            List<Element> parts = [];
            Chain("loop", "A", "B", Yard.Loop.LengthMetres, Physics.OhmsPerMetre, [.. Physics.Guides.Select(guide => (guide.JoinsAtMetres, $"j{guide.Wire.Name}"))]);
            foreach (GuidePhysics guide in Physics.Guides)
            {
                Chain(guide.Wire.Name, guide.Wire.Name, $"j{guide.Wire.Name}", guide.LengthMetres, guide.Ohms / guide.LengthMetres, []);
            }

            return parts;

            void Chain(string wire, string from, string to, double length, double ohmsPerMetre, (double At, string Node)[] joins)
            {
                List<(double At, string Node)> nodes = [.. joins, .. marks.Where(mark => mark.Wire == wire).Select(mark => (mark.At, mark.Node))];
                string here = from;
                double at = 0;
                foreach ((double place, string node) in nodes.Append((length, to)).OrderBy(node => node.Item1))
                {
                    double ohms = ((place - at) * ohmsPerMetre) + (wire == Wire && FaultMetres >= at && FaultMetres < place ? FaultOhms : 0);
                    parts.Add(new Element.Resistor($"r{parts.Count}", here, node, ohms));
                    (here, at) = (node, place);
                }
            }
        }

        public bool IsFaultBetween(string wire, double from, double to) => wire == Wire && FaultMetres >= from && FaultMetres < to;
    }

    private static Network Of(List<Element> parts, string ground) => new(parts.SelectMany(part => new[] { part.From, part.To }).Distinct(), parts, ground);

    // The meter's 1 A in at one node, out at the other; its volts are ohms. Tolerance: ngspice's printed digits.
    private static void Compare(IEnumerable<(Case Case, Observation Seen, string To, Network Network, Func<OhmsReading, bool> Is)> readings)
    {
        var all = readings.ToArray();
        IReadOnlyList<IReadOnlyDictionary<string, Complex>> volts = Spice.NodeVolts([.. all.Select(one => one.Network)], null);
        for (int i = 0; i < all.Length; i++)
        {
            (Case scene, Observation seen, string to, _, Func<OhmsReading, bool> wanted) = all[i];
            OhmsReading reading = OhmsReading.From(seen, 0, 0, 1, scene.Physics).Single(wanted);
            bool inPath = scene.Wire == "loop" ? reading.Includes(scene.FaultMetres)
                : reading.IncludesOnGuide(new(PlaceKind.Span, scene.FaultMetres, scene.FaultMetres) { Guide = scene.Physics.Guides.Single(guide => guide.Wire.Name == scene.Wire).Number });

            // A far side of a parted guide may have been read from either of the loop's ends: then the expectation lies between the two.
            double expected = reading.NominalOhms + (inPath ? scene.FaultOhms : 0), measured = volts[i][to].Real;
            double slack = seen is Observation.SplitResistance && reading.GuideFromMetres > 0 ? scene.Physics.Budget.MeanOhms / 2 : 0;
            Assert.True(Math.Abs(expected - measured) <= slack + (1e-6 * (1 + measured)), $"{i}: {seen} on {scene.Wire} at {scene.FaultMetres:F2}: {expected} against {measured}");
        }
    }

    [Fact]
    public void Readings_by_needle_and_to_guides_are_those_of_ngspice()
    {
        Random random = new(1529);
        List<(Case, Observation, string, Network, Func<OhmsReading, bool>)> readings = [];
        for (int i = 0; i < Loops; i++)
        {
            Case scene = Case.Random(random);
            double length = scene.Physics.LengthMetres, pin = length * (0.1 + (0.8 * random.NextDouble()));
            Observation pinned = new Observation.PinProbe(pin, 1, 1, 0.4);
            (string, double, string)[] needle = [("loop", pin, "pin")];
            readings.Add((scene, pinned, "A", Metered(scene.Wires(needle), "A", "pin"), reading => reading.FromMetres == 0));
            readings.Add((scene, pinned, "B", Metered(scene.Wires(needle), "B", "pin"), reading => reading.FromMetres > 0));
            foreach (GuidePhysics guide in scene.Physics.Guides)
            {
                Observation toGuide = new Observation.GuideResistance(guide.Wire.Name, 1, 1, 0.3, MeterAccuracy.Plain);
                readings.Add((scene, toGuide, "A", Metered(scene.Wires([]), "A", guide.Wire.Name), reading => reading.FromMetres == 0));
                readings.Add((scene, toGuide, "B", Metered(scene.Wires([]), "B", guide.Wire.Name), reading => reading.FromMetres > 0));

                // A needle in the guide, read to either end of the loop.
                double pinned2 = guide.LengthMetres * 0.3;
                Observation onGuide = new Observation.PinProbe(pinned2, 1, 1, 0.4) { Wire = guide.Wire.Name };
                (string, double, string)[] pinAt = [(guide.Wire.Name, pinned2, "pin")];
                readings.Add((scene, onGuide, "A", Metered(scene.Wires(pinAt), "A", "pin"), reading => reading.FromMetres == 0));
                readings.Add((scene, onGuide, "B", Metered(scene.Wires(pinAt), "B", "pin"), reading => reading.FromMetres > 0));

                // The guide parted between its plug and its joint; the other piece hangs on and carries nothing.
                double cut = guide.LengthMetres * 0.6;
                Observation parted = new Observation.SplitResistance(cut, 1, 1, 0.3) { Wire = guide.Wire.Name };
                (string, double, string)[] at = [(guide.Wire.Name, cut, "cut")];
                readings.Add((scene, parted, guide.Wire.Name, Metered(scene.Wires(at), guide.Wire.Name, "cut"), reading => reading.GuideFromMetres == 0));

                // The far side was read from either of the loop's ends, nobody writes down which: only of a sound loop is it known what it should be.
                if (scene.Wire != "loop")
                {
                    readings.Add((scene, parted, "A", Metered(scene.Wires(at), "A", "cut"), reading => reading.GuideFromMetres > 0));
                }
            }
        }

        Compare(readings);
    }

    // The circuit's own volts and amperes are what a person would note: a battery with its own resistance, an ammeter's burden, needles beside the joint.
    [Fact]
    public void A_joints_drop_over_its_current_is_that_of_ngspice()
    {
        const double Battery = 9, Ballast = 12;
        Random random = new(608);
        List<Network> networks = [];
        List<(Case Case, string Wire, double At)> joints = [];
        for (int i = 0; i < Loops; i++)
        {
            Case scene = Case.Random(random);
            foreach (string wire in (string[])["loop", "G1", "G2"])
            {
                // Every other time the joint itself is the bad place.
                double at = wire == "loop" ? scene.JointMetres : scene.Yard.Guides.Single(guide => guide.Name == wire).Joints[0].AtMetres, reach = Loop.JointReachMetres;
                Case bad = scene.Wire == wire && i % 2 == 0 ? scene with { FaultMetres = at } : scene;
                List<Element> parts = bad.Wires([(wire, at - reach, "left"), (wire, at + reach, "right")]);
                string back = wire == "loop" ? "B" : wire;
                parts.Add(new Element.VoltageSource("battery", "plus", back, Battery, 1e-6));
                parts.Add(new Element.Resistor("ballast", "plus", "A", Ballast));
                networks.Add(Of(parts, back));
                joints.Add((bad, wire, at));
            }
        }

        IReadOnlyList<IReadOnlyDictionary<string, Complex>> volts = Spice.NodeVolts(networks, null);
        foreach (((Case scene, string wire, double at), IReadOnlyDictionary<string, Complex> nodes) in joints.Zip(volts))
        {
            double amperes = (nodes["plus"] - nodes["A"]).Real / Ballast, drop = Math.Abs((nodes["left"] - nodes["right"]).Real);
            OhmsReading reading = Assert.Single(OhmsReading.From(new Observation.JointDrop(at, amperes, drop) { Wire = wire == "loop" ? null : wire }, 0, 0, 1, scene.Physics));
            double fault = scene.IsFaultBetween(wire, at - Loop.JointReachMetres, at + Loop.JointReachMetres) ? scene.FaultOhms : 0;

            // A guide's own conductor is that of the loop here; its healthy stretch is reckoned with the loop's ohms per metre.
            Assert.Equal(reading.NominalOhms + fault, reading.Ohms!.Value, 1e-4 * (1 + fault));
            Assert.InRange(reading.DeviationOhms, 0.02, 0.021 + (0.03 * (1 + fault)));
        }
    }

    // V(x) = ρI/(2π√(x² + h²)); two stakes a spacing apart show its difference. Loops leak some milliamperes; soils of 20 to 500 Ω·m.
    [Theory]
    [InlineData(20, 1)]
    [InlineData(100, 1)]
    [InlineData(100, 2)]
    [InlineData(500, 1)]
    public void A_leak_shows_in_the_ground_as_far_as_a_point_source_does(double soilOhmMetres, double spacingMetres)
    {
        const double Depth = 0.05, Amperes = 9 / 800.0, Tellable = 1e-3;
        Yard yard = DiagnosisScene.Rectangle(200, 100);
        YardPhysics physics = new(yard with { Soil = yard.Soil with { ResistivityOhmMetres = soilOhmMetres } });
        const double Leak = 100;
        double Potential(double x) => soilOhmMetres * Amperes / (2 * Math.PI * Math.Sqrt((x * x) + (Depth * Depth)));
        double Between(double x) => Potential(x - (spacingMetres / 2)) - Potential(x + (spacingMetres / 2));

        // The farthest place at which half of all people see something, by both routes; 6 %: half a spacing at the place itself.
        double physical = Farthest(x => Between(x) >= Tellable), believed = Farthest(x => 1 - Probability(GradientOutcome.Nothing, Leak - x) >= 0.5);
        Assert.Equal(physical, believed, 0.5 + (0.06 * physical));

        // Where it shows clearly, the way it points is the sign of the difference.
        foreach (double metres in (double[])[2, 3, 4, -2, -3, -4])
        {
            bool ahead = Between(Math.Abs(metres)) * Math.Sign(metres) > 0;
            double right = Probability(ahead ? GradientOutcome.Ahead : GradientOutcome.Behind, Leak - metres), wrong = Probability(ahead ? GradientOutcome.Behind : GradientOutcome.Ahead, Leak - metres);
            Assert.True(right > 5 * wrong, $"{metres} m: {right} against {wrong}");
        }

        // Over the leak the poles are of one sign: nobody is sent away from it.
        Assert.True(Probability(GradientOutcome.Here, Leak) > 0.8);

        double Probability(GradientOutcome outcome, double at) =>
            EarthGradientTest.Probability(new(at, spacingMetres, outcome, null), new Place(PlaceKind.Joint, Leak, Leak), physics);

        static double Farthest(Func<double, bool> shows)
        {
            double farthest = 0;
            for (double x = 1.5; x < 60; x += 0.1)
            {
                farthest = shows(x) ? x : farthest;
            }

            return farthest;
        }
    }

    [Fact]
    public void Outcomes_of_a_gradient_add_up_to_one()
    {
        YardPhysics physics = new(DiagnosisScene.Rectangle(60, 40));
        foreach (double at in (double[])[3, 49, 50, 50.4, 55, 120, 190])
        {
            Assert.Equal(1, Enum.GetValues<GradientOutcome>().Sum(outcome => EarthGradientTest.Probability(new(at, 1, outcome, null), new Place(PlaceKind.Joint, 50, 50), physics)), 1e-9);
        }
    }

    private static Network Metered(List<Element> parts, string from, string to)
    {
        parts.Add(new Element.CurrentSource("meter", to, from, 1));
        return Of(parts, to);
    }
}
