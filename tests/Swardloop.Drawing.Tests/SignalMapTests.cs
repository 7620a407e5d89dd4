using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing.Tests;

public class SignalMapTests
{
    public static TheoryData<string> Names => [.. Examples.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void Map_agrees_with_the_reach_it_was_made_of(string name)
    {
        Yard yard = Examples.Yard(name).Yard;
        SignalMap map = SignalMap.Of(yard, cancellation: Examples.Soon);
        LoopReach reach = new(yard, cancellation: Examples.Soon);
        foreach (double extra in (double[])[0, 20, 100, 400])
        {
            // Shares are kept to a thousandth; the map is a little coarser than the reach's own, which shows most where the field is level.
            Assert.Equal(reach.HeardShare(map.RequiredFieldPerAmpere(extra)), map.HeardShare(extra), 0.012);
        }

        Assert.Equal(reach.Weakest.FieldPerAmpere, map.Weakest.FieldPerAmpere, 1e-6 * reach.Weakest.FieldPerAmpere);
        PlanPoint middle = reach.Weakest.Point;
        Assert.Equal(reach.StrengthAt(middle), map.StrengthAt(middle)!.Value, 0.01 * reach.StrengthAt(middle));
    }

    [Fact]
    public void Spare_ohms_are_where_the_margin_ends()
    {
        SignalMap map = SignalMap.Of(Examples.Yard("marram-reach").Yard, places: 5000, cancellation: Examples.Soon);
        Assert.Equal(0, map.WeakestDecibels(map.SpareAtWeakestOhms!.Value), 1e-9);
        Assert.Equal(0.95, map.HeardShare(map.SpareAtFivePercentOhms!.Value), 0.002);
        Assert.Equal(1, map.HeardShare(0));
    }

    [Fact]
    public void Map_comes_back_from_its_bytes()
    {
        SignalMap map = SignalMap.Of(Examples.Yard("sorrel-corner").Yard, places: 2000, cancellation: Examples.Soon);
        SignalMap back = SignalMap.FromBytes(map.ToBytes());
        Assert.Equal(map.Grid, back.Grid);
        Assert.True(map.Strength.SequenceEqual(back.Strength));
        Assert.Equal(map.Weakest, back.Weakest);
        Assert.Equal(map.Signal, back.Signal);
        Assert.Equal(map.HeardShare(300), back.HeardShare(300));
        Assert.Equal(map.ToBytes(), back.ToBytes());
    }

    [Fact]
    public void Bytes_that_are_cut_off_or_foreign_are_refused()
    {
        byte[] bytes = SignalMap.Of(Examples.Yard("thimble-court").Yard, places: 200, cancellation: Examples.Soon).ToBytes();
        Assert.Throws<ArgumentException>(() => SignalMap.FromBytes(bytes.AsSpan(..^1)));
        Assert.Throws<ArgumentException>(() => SignalMap.FromBytes(bytes.AsSpan(..40)));
        bytes[0] = 9;
        Assert.Throws<ArgumentException>(() => SignalMap.FromBytes(bytes));
    }

    [Fact]
    public void Progress_rises_to_one()
    {
        List<double> seen = [];
        _ = SignalMap.Of(Examples.Yard("thimble-court").Yard, 500, new Heard(seen), Examples.Soon);
        Assert.Equal(1, seen[^1]);
        Assert.Equal(seen.Order(), seen);
    }

    private sealed class Heard(List<double> seen) : IProgress<double>
    {
        public void Report(double value) => seen.Add(value);
    }
}
