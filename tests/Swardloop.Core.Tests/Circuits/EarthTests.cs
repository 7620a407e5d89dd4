using CsCheck;
using Swardloop.Core.Circuits;
using Swardloop.Core.Circuits.Earth;

namespace Swardloop.Core.Tests.Circuits;

public sealed class EarthTests
{
    private const double Foot = 0.3048, Inch = 0.0254;

    // References C2. First row: MIL-HDBK-419A vol. 2, section 1.2.2.2, reads 32 Ω off a chart, hence 1 %; the second's sum is Dwight's formula.
    // Anodes: MIL-HDBK-1004/10 and UFC 3-570-02N, two to three digits printed, hence 1 %; the second names no diameter: 2 in is the one its K of
    // 0.0234 belongs to. Last two: the formula by other hands, five digits.
    [Theory]
    [InlineData(100, 10 * Foot, 0.75 * Inch, 32, 0.01)]
    [InlineData(100, 10 * Foot, 0.75 * Inch, 32.137, 1e-4)]
    [InlineData(20, 84 * Inch, 10 * Inch, 4.77, 0.01)]
    [InlineData(2.5, 5 * Foot, 2 * Inch, 1.17, 0.01)]
    [InlineData(100, 3, 0.016, 33.493, 0.002)]
    [InlineData(100, 2.4, 0.016, 40.386, 0.002)]
    public void Rod_has_its_published_resistance(double soil, double length, double diameter, double expectedOhms, double tolerance) =>
        Assert.Equal(expectedOhms, EarthContact.RodOhms(soil, length, diameter), tolerance * expectedOhms);

    // References C2, computed there from the formulas to four digits.
    [Fact]
    public void Hemisphere_and_sphere_have_their_reference_resistance()
    {
        Assert.Equal(3183, EarthContact.HemisphereOhms(100, 0.005), 0.001 * 3183);
        Assert.Equal(1671, EarthContact.SphereOhms(100, 0.005, 0.05), 0.001 * 1671);
    }

    // References C2, closed form; tolerances as stated there: 0.1 to 0.2 %, 5 % for the shortest, where sound formulas differ.
    [Theory]
    [InlineData(10, 0.005, 0.5, 14.941, 0.001)]
    [InlineData(1, 0.0006, 0.05, 146.51, 0.002)]
    [InlineData(0.1, 0.0006, 0.05, 840.7, 0.002)]
    [InlineData(0.02, 0.0006, 0.05, 2649, 0.05)]
    public void Bare_wire_has_its_reference_resistance(double length, double radius, double depth, double expectedOhms, double tolerance) =>
        Assert.Equal(expectedOhms, EarthContact.WireOhms(100, length, radius, depth), tolerance * expectedOhms);

    // Second route, for long pieces only: Dwight's series of 1936 (references C2). It is the rows' 'series' column that is met here.
    [Theory]
    [InlineData(10, 0.005, 0.5, 14.940, true)]
    [InlineData(1, 0.0006, 0.05, 146.50, true)]
    [InlineData(0.1, 0.0006, 0.05, 840.9, true)]
    [InlineData(0.02, 0.0006, 0.05, 15569, false)]
    public void Dwights_series_agrees_for_long_pieces_and_fails_for_short_ones(
        double length, double radius, double depth, double seriesOhms, bool agrees)
    {
        double half = length / 2, s = 2 * depth;
        double series = 100 / (4 * Math.PI * half) * (Math.Log(4 * half / radius) + Math.Log(4 * half / s) - 2
            + (s / (2 * half)) - (s * s / (16 * half * half)) + (Math.Pow(s, 4) / (512 * Math.Pow(half, 4))));

        Assert.Equal(seriesOhms, series, 1e-4 * seriesOhms);
        Assert.Equal(agrees, Math.Abs(EarthContact.WireOhms(100, length, radius, depth) / series - 1) < 0.002);
    }

    // A patch of a few radii: equipotential moment-method run 3209 Ω, mean-potential form 3332 Ω (references C2, traps).
    [Fact]
    public void A_patch_of_a_few_radii_is_right_to_four_percent()
    {
        double ohms = EarthContact.WireOhms(85, 0.010, 0.0007, 0.060);
        Assert.Equal(3332, ohms, tolerance: 1);
        Assert.Equal(3209, ohms, 0.04 * 3209);
    }

    // Second route: the double integral behind the closed form, summed over 1000 × 1000 cells. Depth 10⁹ m leaves the surface out but for 1/(2h).
    // The sum's own error falls with the cells squared: below 1e-5 here.
    [Theory]
    [InlineData(0.5, 0.08)]
    [InlineData(0.02, 0.1)]
    public void Wire_formula_is_the_mean_of_one_over_distance(double length, double spacing)
    {
        const int Cells = 1000;
        double sum = 0;
        for (int gap = -Cells + 1; gap < Cells; gap++)
        {
            double along = gap * length / Cells;
            sum += (Cells - Math.Abs(gap)) / Math.Sqrt((along * along) + (spacing * spacing));
        }

        double mean = sum / Cells / Cells;
        Assert.Equal(mean, EarthContact.WireOhms(4 * Math.PI, length, spacing, 1e9) - (1 / 2e9), 1e-4 * mean);
    }

    [Fact]
    public void Default_stake_is_a_short_rod_in_garden_soil() =>
        Assert.Equal(WiringPractice.StakeOhms, EarthContact.RodOhms(100, 0.3, 0.008), tolerance: 2);

    // References C3: ρI/(2π√(x²+h²)) to six digits.
    [Theory]
    [InlineData(0, 318.31)]
    [InlineData(0.1, 142.353)]
    [InlineData(0.25, 62.4257)]
    [InlineData(0.5, 31.673)]
    [InlineData(1, 15.8956)]
    [InlineData(2, 7.95526)]
    [InlineData(5, 3.18294)]
    public void Potential_over_a_leak_matches_the_reference(double distance, double expectedMillivolts) =>
        Assert.Equal(expectedMillivolts * 1e-3, EarthSurvey.SurfaceVolts(100, 1e-3, 0.05, distance), 1e-4 * expectedMillivolts * 1e-3);

    [Theory]
    [InlineData(0.1, 127.899)]
    [InlineData(0.5, 21.0686)]
    public void One_metre_step_matches_the_reference(double from, double expectedMillivolts) =>
        Assert.Equal(expectedMillivolts * 1e-3, EarthSurvey.StepVolts(100, 1e-3, 0.05, from, 1), 1e-4 * expectedMillivolts * 1e-3);

    // Cable practice, references C3: no reading with the fault midway.
    [Fact]
    public void Probes_even_over_the_leak_read_nothing() =>
        Gen.Select(Gen.Double[0.02, 1], Gen.Double[0.1, 3]).Sample(
            (depth, step) => EarthSurvey.StepVolts(100, 1e-3, depth, -step / 2, step) == 0);

    // Steepest at x = h/√2 with ρI/(2πh²)·2/(3√3) (references C3, calculus). Central difference of 1e-5 m: error about 1e-8, relative.
    [Fact]
    public void Potential_is_steepest_at_the_depth_over_root_two()
    {
        const double Depth = 0.05, Half = 5e-6;
        double Slope(double x) => EarthSurvey.StepVolts(100, 1e-3, Depth, x - Half, 2 * Half) / (2 * Half);
        double expected = 100 * 1e-3 / (2 * Math.PI * Depth * Depth) * 2 / (3 * Math.Sqrt(3)), steepest = Depth / Math.Sqrt(2);

        Assert.Equal(expected, Slope(steepest), 1e-6 * expected);
        Assert.True(Slope(steepest * 0.99) < Slope(steepest) && Slope(steepest * 1.01) < Slope(steepest));
    }

    // References C3: MIL-HDBK-419A vol. 2 prints 7662 Ω·cm for 20 ft and 2 Ω (its own 610 cm and 6.28: 0.1 %).
    [Theory]
    [InlineData(6.10, 2, 0, 76.62, 1e-3)]
    [InlineData(1, 10, 0, 62.832, 1e-4)]
    [InlineData(1, 10, 0.2, 66.972, 1e-4)]
    public void Four_probes_give_the_reference_resistivity(double spacing, double ohms, double depth, double expected, double tolerance) =>
        Assert.Equal(expected, EarthSurvey.WennerOhmMetres(spacing, ohms, depth), tolerance * expected);

    [Fact]
    public void Values_outside_their_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => EarthContact.HemisphereOhms(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => EarthContact.SphereOhms(100, 0.1, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => EarthContact.RodOhms(100, 0.01, 0.016));
        Assert.Throws<ArgumentOutOfRangeException>(() => EarthContact.WireOhms(100, 0, 0.001, 0.05));
        Assert.Throws<ArgumentOutOfRangeException>(() => EarthSurvey.WennerOhmMetres(1, 10, double.PositiveInfinity));
    }
}
