using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

public sealed class SegmentFieldTests
{
    // Straight segment from z = 0 to 1, field in μ0 I/(4πL): Schilling et al., Computer Physics Communications 2023, 108692, test data.
    // Tolerance: references B3 ask for 1e-10; the last two rows are those where the subtractive textbook form loses its digits.
    [Theory]
    [InlineData(0.1, 0.5, 19.611613513818402)]
    [InlineData(1, 0.5, 0.89442719099991588)]
    [InlineData(0.1, 0, 9.9503719020998908)]
    [InlineData(0.01, 0.1, 199.49754675299315)]
    [InlineData(0.01, 0.99, 170.70557698875119)]
    [InlineData(0.01, -1, 0.0037496484682589954)]
    [InlineData(0.01, -10, 8.6776740634314097e-6)]
    public void Published_segment_values_are_met(double rho, double z, double expected)
    {
        Vec3 field = SegmentField.FieldPerAmpere(Vec3.Zero, new(0, 0, 1), new(rho, 0, z))!.Value;

        Assert.Equal(expected, 4 * Math.PI * field.Y, tolerance: 1e-13 * expected);
        Assert.Equal(0, field.X);
        Assert.Equal(0, field.Z);
    }
}
