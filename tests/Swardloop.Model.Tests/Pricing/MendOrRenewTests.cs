using Swardloop.Core.Conductors;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Pricing;

namespace Swardloop.Model.Tests.Pricing;

public sealed class MendOrRenewTests
{
    private static Yard Yard(params Joint[] joints) => new()
    {
        Name = "Priced",
        Lawn = new Lawn([new PlanPoint[] { new(0, 0), new(30, 0), new(30, 40), new(0, 40) }], []),
        Loop = new Loop
        {
            Path = new WirePath([new(15, 0), new(30, 0), new(30, 40), new(0, 40), new(0, 0), new(15, 0)]),
            Conductor = new Conductor { AreaSquareMetres = 1e-6 },
            Joints = joints,
        },
    };

    private static MendOrRenew Quote(Yard yard, int faults, double years, bool german = false) => MendOrRenew.Of(
        new ServiceCase { Yard = yard }, 50, 49.5, 50.5, new PriceSettings(), german ? PriceWords.German : PriceWords.English, faults, years);

    // Gamma(a, b) with 3 faults in 4 years is Gamma(a + 3, b + 4): the rule of conjugate priors, references section E.
    [Fact]
    public void Faults_move_the_rate_by_the_conjugate_rule()
    {
        FaultRate stated = FaultRate.Stated(Yard()), after = stated.After(3, 4);
        Assert.Equal((stated.Shape + 3, stated.Years + 4), (after.Shape, after.Years));
        Assert.Equal((FaultRate.StatedShape + 3) / (stated.Years + 4), after.PerYear, tolerance: 1e-12);
    }

    // Negative binomial: mean αt/β, variance αt/β·(1 + t/β).
    [Theory]
    [InlineData(2, 10, 5)]
    [InlineData(7.5, 3, 5)]
    public void Number_of_faults_has_the_moments_of_a_mixture(double shape, double years, double ahead)
    {
        IReadOnlyList<double> p = new FaultRate(shape, years).Faults(ahead);
        double mean = p.Select((share, n) => share * n).Sum(), square = p.Select((share, n) => share * n * n).Sum();
        Assert.Equal(1, p.Sum(), tolerance: 1e-8);
        Assert.Equal(shape * ahead / years, mean, tolerance: 1e-5);
        Assert.Equal(mean * (1 + (ahead / years)), square - (mean * mean), tolerance: 1e-3);
    }

    [Fact]
    public void First_fault_of_a_well_made_loop_is_mended() =>
        Assert.Equal(RepairWay.MendHere, Quote(Yard(new Joint(20, JointStyle.Gel)), 1, 8).Cheapest.Way);

    [Fact]
    public void Loop_that_fails_again_and_again_is_renewed() => Assert.Equal(RepairWay.RenewAll, Quote(Yard(new Joint(20, JointStyle.Gel)), 14, 2).Cheapest.Way);

    [Fact]
    public void Many_twisted_joints_are_remade_while_somebody_is_there()
    {
        Joint[] twisted = [.. Enumerable.Range(1, 9).Select(i => new Joint(12 * i, JointStyle.Twisted))];
        MendOrRenew quote = Quote(Yard(twisted), 3, 3);
        RepairOption mend = quote.Options[0], joints = quote.Options.First(option => option.Way == RepairWay.RemakeJoints);
        Assert.True(joints.Expected < mend.Expected);
        Assert.True(joints.FaultsPerYear < mend.FaultsPerYear / 2);
    }

    [Fact]
    public void Every_way_has_a_band_about_its_expectation_and_later_visits_are_in_it() =>
        Assert.All(Quote(Yard(new Joint(20, JointStyle.Twisted), new Joint(90, JointStyle.Clamp)), 2, 5).Options, option =>
        {
            Assert.InRange(option.Expected, option.Low, option.High);
            Assert.True(option.Now.Total > 45, "travel is paid");
        });

    [Fact]
    public void Reason_names_the_way_the_money_and_the_band()
    {
        MendOrRenew quote = Quote(Yard(new Joint(20, JointStyle.Gel)), 1, 8);
        string english = PriceWords.English.Why(quote), german = PriceWords.German.Why(Quote(Yard(new Joint(20, JointStyle.Gel)), 1, 8, german: true));
        Assert.Contains("mend here", english, StringComparison.Ordinal);
        Assert.Contains("hier reparieren", german, StringComparison.Ordinal);
        Assert.Contains("EUR", english, StringComparison.Ordinal);
    }

    [Fact]
    public void Owners_own_steps_cost_nothing_and_travel_is_paid_once()
    {
        ServiceCase served = new()
        {
            Yard = Yard(),
            Observations = [new Observation.StationLamp(LampState.Normal) { By = Person.Owner }, new Observation.MowerCheck(false), new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, null), new Observation.MowerCheck(true)],
        };
        IReadOnlyList<PriceLine> lines = StepLines.OfCase(served, PriceWords.English);
        Assert.Single(lines, line => line.Text == "Travel");
        Assert.Equal(5, lines.Count); // travel, check, terminals' time and parts, check
    }
}
