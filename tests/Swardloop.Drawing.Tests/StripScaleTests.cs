using CsCheck;

namespace Swardloop.Drawing.Tests;

public class StripScaleTests
{
    [Fact]
    public void A_place_comes_back_from_the_strip() => Gen.Select(Gen.Double[1, 3000], Gen.Double[200, 2000], Gen.Double[0, 1]).Sample((length, width, share) =>
    {
        StripScale scale = new(length, width, 18);
        Assert.Equal(share * length, scale.MetresAt(scale.At(share * length)), 1e-6 * length);
    });

    [Fact]
    public void Marks_are_round_and_apart() => Gen.Select(Gen.Double[1, 3000], Gen.Double[250, 2000]).Sample((length, width) =>
    {
        StripScale scale = new(length, width, 18);
        double[] marks = [.. scale.Marks(56)];
        Assert.Equal(0, marks[0]);
        Assert.All(marks.Zip(marks.Skip(1)), pair => Assert.True(scale.At(pair.Second) - scale.At(pair.First) >= 56 - 1e-6));
    });

    [Fact]
    public void Labels_do_not_run_into_each_other()
    {
        IReadOnlyList<(double X, string Text)> kept = StripScale.Apart([(100, "edging"), (120, "drive"), (300, "tree")], 7);
        Assert.Equal(["edging", "tree"], kept.Select(label => label.Text));
    }
}
