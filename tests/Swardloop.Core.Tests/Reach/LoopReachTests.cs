using CsCheck;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Reach;

public sealed class LoopReachTests
{
    private static readonly SignalBudget Budget = new(4581, 107, 0);
    private static readonly Gen<(double East, double North)> Sizes = Gen.Select(Gen.Double[3, 40], Gen.Double[3, 40]);

    // On a rectangle the weakest place is the centre, by symmetry; a grid of any phase must find it.
    [Fact]
    public void The_weakest_place_of_a_rectangle_is_its_centre() =>
        Gen.Select(Sizes, Gen.Double[0.2, 1.1]).Sample((size, cell) =>
        {
            LoopReach reach = new(Rectangle(size.East, size.North), cell);
            double centre = Math.Abs(reach.FieldPerAmpereAt(new(size.East / 2, size.North / 2)));

            // The field is level there: a centimetre costs far less than 1e-6 of it.
            Assert.Equal(centre, reach.Weakest.FieldPerAmpere, tolerance: 1e-6 * centre);
        }, iter: 10);

    // No place of the lawn is weaker than the weakest: tried at random places of an L with an island.
    [Fact]
    public void No_place_is_weaker_than_the_weakest()
    {
        LoopReach reach = new(LWithIsland());
        Gen.Select(Gen.Double[0, 24], Gen.Double[0, 17]).Select((x, y) => new PlanPoint(x, y)).Where(reach.Yard.Lawn.Contains)
            .Sample(place => Assert.True(reach.StrengthAt(place) >= reach.Weakest.FieldPerAmpere * (1 - 1e-9), $"{place}"), iter: 1000);
        Assert.True(reach.Yard.Lawn.Contains(reach.Weakest.Point));
    }

    // Second route: the share counted place by place on a grid of its own, with the rule as the model states it. The two grids
    // may differ by about a cell along the line between heard and silent.
    [Theory]
    [InlineData(20)]
    [InlineData(300)]
    [InlineData(900)]
    public void The_heard_share_equals_a_plain_count(double ohms)
    {
        LoopReach reach = new(LWithIsland(), 0.1);
        double required = Budget.RequiredFieldPerAmpere(ohms);
        int lawn = 0, heard = 0;
        for (double x = 0.035; x < 24; x += 0.07)
        {
            for (double y = 0.035; y < 17; y += 0.07)
            {
                PlanPoint place = new(x, y);
                if (reach.Yard.Lawn.Contains(place))
                {
                    lawn++;
                    heard += reach.StrengthAt(place) >= required ? 1 : 0;
                }
            }
        }

        Assert.Equal((double)heard / lawn, reach.HeardShare(required), tolerance: 0.005);
    }

    [Fact]
    public void Area_is_the_lawn_s() =>
        Assert.Equal(LWithIsland().Lawn.AreaSquareMetres, new LoopReach(LWithIsland(), 0.25).AreaSquareMetres, tolerance: 0.01 * 320);

    // Quantile and share are two readings of one table.
    [Fact]
    public void The_share_silent_just_above_a_quantile_is_the_quantile_s_share()
    {
        LoopReach reach = new(LWithIsland());
        Gen.Double[0.001, 0.999].Sample(share =>
        {
            double field = reach.FieldQuantile(share);
            Assert.True(1 - reach.HeardShare(field) <= share);
            Assert.True(1 - reach.HeardShare(field * (1 + 1e-9)) >= share - 1e-9);
        });
        Assert.Throws<ArgumentOutOfRangeException>(() => reach.FieldQuantile(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => reach.FieldQuantile(1.01));
    }

    // Ohms to spare, checked against the map itself: with a little less than that resistance 5 % and the weakest place are heard, with a little more not.
    [Fact]
    public void Ohms_to_spare_are_where_the_lawn_falls_silent()
    {
        LoopReach reach = new(LWithIsland());
        double weakest = Budget.OhmsToSpare(reach.Weakest.FieldPerAmpere, 2)!.Value, five = Budget.OhmsToSpare(reach.FieldQuantile(0.05), 2)!.Value;

        Assert.True(five >= weakest);
        Assert.Equal(1, reach.HeardShare(Budget.RequiredFieldPerAmpere(2 + weakest - 0.01)));
        Assert.True(reach.HeardShare(Budget.RequiredFieldPerAmpere(2 + weakest + 5)) < 1);
        Assert.True(reach.HeardShare(Budget.RequiredFieldPerAmpere(2 + five - 0.01)) >= 0.95);
        Assert.True(reach.HeardShare(Budget.RequiredFieldPerAmpere(2 + five + 0.01)) < 0.95);
    }

    // More resistance, less heard and less reach: monotone, whatever the lawn.
    [Fact]
    public void More_ohms_never_reach_farther()
    {
        LoopReach reach = new(LWithIsland());
        Gen.Select(Gen.Double[0, 3000], Gen.Double[0, 3000]).Sample((a, b) =>
        {
            (double less, double more) = (Budget.RequiredFieldPerAmpere(Math.Min(a, b)), Budget.RequiredFieldPerAmpere(Math.Max(a, b)));
            Assert.True(reach.HeardShare(less) >= reach.HeardShare(more));
            Assert.True(reach.Profile.At(less).Metres >= reach.Profile.At(more).Metres);
            Assert.True(reach.Profile.At(less).CoversEverything || !reach.Profile.At(more).CoversEverything);
        });
    }

    // Second route: walking inward from the middle of a long side of a rectangle, where reach is least. A tenth of the cell, as stated.
    [Fact]
    public void Reach_is_where_a_walk_inward_falls_silent() =>
        Gen.Select(Gen.Double[4, 20], Gen.Double[1.1, 3], Gen.Double[0.1, 0.9]).Sample((width, ratio, share) =>
        {
            LoopReach reach = new(Rectangle(width, width * ratio));
            double centre = reach.Weakest.FieldPerAmpere, beside = reach.StrengthAt(new(0.3, width * ratio / 2));
            double required = centre + (share * (beside - centre)), walk = 0.12;
            while (reach.StrengthAt(new(walk, width * ratio / 2)) >= required)
            {
                walk += 0.002;
            }

            Assert.Equal(walk, reach.Profile.At(required).Metres, tolerance: 0.1 * reach.CellMetres);
        }, iter: 10);

    // The run to the island is no wire to a mower: beside it the field is the loop's alone, and reach is not counted from it.
    [Fact]
    public void Reach_is_not_counted_from_the_cancelling_pair_of_a_run()
    {
        LoopReach reach = new(LWithIsland());
        double onTheRun = reach.StrengthAt(new(2.5, 2.5));

        Assert.Equal(Math.Abs(reach.FieldPerAmpereAt(new(2.5, 2.5))), onTheRun);
        Assert.Equal(onTheRun, reach.StrengthAt(new(2.45, 2.55)), tolerance: 0.03 * onTheRun);
        ReachDistance distance = reach.Profile.At(onTheRun * 1.02);
        Assert.False(distance.CoversEverything);

        // From the run it would be the width of the wire zone, 0.12 m.
        Assert.InRange(distance.Metres, 0.3, 2.6);
    }

    [Fact]
    public void Inside_is_inside_whichever_way_the_wire_was_laid()
    {
        Yard yard = LWithIsland();
        foreach (Yard one in new[] { yard, yard with { Loop = yard.Loop with { Path = yard.Loop.Path.Reversed() } } })
        {
            LoopReach reach = new(one);
            double required = Budget.RequiredFieldPerAmpere(50);
            Assert.Equal(HeardSide.Inside, reach.SideAt(new(3, 3), required));
            Assert.Equal(HeardSide.Outside, reach.SideAt(new(-0.5, 3), required));
            Assert.Equal(HeardSide.Outside, reach.SideAt(new(6, 6), required));
            Assert.Equal(HeardSide.Silent, reach.SideAt(new(300, 300), required));
        }
    }

    // Above the wire the vertical field turns over: no silence, but what is heard beside it.
    [Fact]
    public void At_the_wire_the_mower_hears_what_it_hears_beside_it()
    {
        LoopReach reach = new(Rectangle(10, 10));
        double beside = reach.StrengthAt(new(0.12, 5));

        Assert.Equal(beside, reach.StrengthAt(new(0.05, 5)), tolerance: 1e-12);
        Assert.Equal(beside, reach.StrengthAt(new(0, 5)), tolerance: 1e-12);
        Assert.True(Math.Abs(reach.FieldPerAmpereAt(new(0, 5))) < 0.1 * beside);
    }

    // An island laid the same way round as the lawn is heard as outside all about it: where its field meets the loop's, nothing is left.
    [Fact]
    public void An_island_laid_the_wrong_way_round_makes_a_silent_line()
    {
        LoopReach right = new(LWithIsland()), wrong = new(LWithIsland(wrongWay: true));

        Assert.True(wrong.Weakest.FieldPerAmpere < 1e-4 * right.Weakest.FieldPerAmpere);
        Assert.True(wrong.HeardShare(Budget.RequiredFieldPerAmpere(5)) < right.HeardShare(Budget.RequiredFieldPerAmpere(5)));
    }

    // At worst a neighbour takes its own field away; the closed form with divided strengths must agree with the rule as the model writes it.
    [Fact]
    public void A_neighbour_of_the_same_coding_takes_away_its_field_at_worst()
    {
        NeighbourLoop neighbour = new(new([new(11, 0), new(21, 0), new(21, 10), new(11, 10), new(11, 0)]), SameCoding: true, Ohms: 5);
        Yard yard = Rectangle(10, 10) with { Neighbours = [neighbour] };
        LoopReach alone = new(yard), against = new(yard, againstNeighbours: true);
        LoopReach other = new(yard with { Loop = yard.Loop with { Path = neighbour.Path } });

        Gen.Select(Gen.Double[0.2, 9.8], Gen.Double[0.2, 9.8], Gen.Double[0, 2000]).Sample((x, y, ohms) =>
        {
            PlanPoint place = new(x, y);
            double left = (alone.StrengthAt(place) / Budget.ImpedanceOhms(ohms)) - (Math.Abs(other.FieldPerAmpereAt(place)) / Budget.ImpedanceOhms(5));
            double margin = against.StrengthAt(place) - Budget.RequiredFieldPerAmpere(ohms);
            Assert.True(Math.Abs(margin) < 1e-12 || left >= 1 / Budget.ReachConstantOhmMetres == margin >= 0);
        });
        Assert.True(against.HeardShare(Budget.RequiredFieldPerAmpere(200)) < alone.HeardShare(Budget.RequiredFieldPerAmpere(200)));
        Assert.Equal(alone.Weakest, new LoopReach(yard with { Neighbours = [neighbour with { SameCoding = false }] }, againstNeighbours: true).Weakest);
    }

    // Small and large lawns get maps of like size, so that neither is coarse nor slow.
    [Theory]
    [InlineData(1)]
    [InlineData(20)]
    [InlineData(400)]
    public void The_map_fits_the_size_of_the_lawn(double size)
    {
        double cells = size * size / Math.Pow(LoopReach.DefaultCellMetres(Rectangle(size, size).Lawn), 2);
        Assert.InRange(cells, 2_499, 40_001);
    }

    [Fact]
    public void Cancelling_ends_the_work()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => new LoopReach(LWithIsland(), cancellation: source.Token));
    }

    private static Yard Rectangle(double east, double north) => Of([new(0, 0), new(east, 0), new(east, north), new(0, north)], [], null);

    private static Yard LWithIsland(bool wrongWay = false)
    {
        PlanPoint[] lawn = [new(0, 0), new(24, 0), new(24, 9), new(15, 9), new(15, 17), new(0, 17)];
        PlanPoint[] island = [new(5, 5), new(5, 7), new(7, 7), new(7, 5)];

        // Out along a run from the corner, round the island clockwise, back along the run.
        PlanPoint[] round = wrongWay ? [.. island.Reverse(), island[^1]] : [.. island, island[0]];
        return Of(lawn, [island], [lawn[0], round[0], .. round[1..], lawn[0], .. lawn[1..], lawn[0]]);
    }

    private static Yard Of(PlanPoint[] lawn, PlanPoint[][] holes, PlanPoint[]? wire) => new()
    {
        Name = "Trial yard",
        Lawn = new Lawn([lawn], holes),
        Loop = new Loop { Path = new WirePath(wire ?? [.. lawn, lawn[0]]), Conductor = new Conductor { AreaSquareMetres = 0.75e-6 } },
    };
}
