using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

/// <summary>Checks the second route itself, then the field of many pieces against it.</summary>
public sealed class EllipticCircleTests
{
    // Field in μ0 I/(πR), coordinates over R: Schilling et al., Computer Physics Communications 2023, 108692, test data. Tolerance 1e-10 of the larger
    // component, as the references state: the closed form subtracts two integrals far from the loop.
    [Theory]
    [InlineData(0.5, 0, 0, 1.9566162791192362)]
    [InlineData(0.9, 0, 0, 6.1668265935874440)]
    [InlineData(0.5, 0.1, 0.19291288350785717, 1.8928279545271279)]
    [InlineData(0.9, 0.1, 2.5662737306307948, 3.4364241833932618)]
    [InlineData(1.0, 0.1, 4.9335525883116714, 0.84408088845009872)]
    [InlineData(1.1, 0.1, 2.3309692400168238, -1.6648947522472948)]
    [InlineData(2.0, 0.1, 0.02501945166318908, -0.13276306699971294)]
    [InlineData(0.5, 1, 0.19719668372724077, 0.47386390185509639)]
    [InlineData(2.0, 1, 0.10105567754719230, -0.015775737072612209)]
    [InlineData(10, 10, 0.00041585951521319681, 0.00014052829602938463)]
    public void Published_circle_values_are_met_by_closed_form_and_by_pieces(double rho, double z, double radial, double vertical)
    {
        (double gotRadial, double gotVertical) = EllipticCircle.FieldPerAmpere(1, rho, z);
        double scale = Math.Max(Math.Abs(radial), Math.Abs(vertical));
        Assert.Equal(radial, Math.PI * gotRadial, tolerance: 1e-10 * scale);
        Assert.Equal(vertical, Math.PI * gotVertical, tolerance: 1e-10 * scale);

        // 4,000 pieces of equal area; the error goes with the fourth power of a side over the distance, (0.0016/0.1)⁴ at the nearest point.
        if (z > 0)
        {
            double pieces = new PolylineField(EllipticCircle.Polygon(new(0, 0), 1, 4000), z).VerticalFieldPerAmpere(new(rho, 0));
            Assert.Equal(vertical, Math.PI * pieces, tolerance: 7e-8 * scale);
        }
    }

    // References B2, circle of 10 m, printed to 12 figures: tolerance 1e-9 as stated there.
    [Theory]
    [InlineData(0, 0, 0, 62.8318530718)]
    [InlineData(0, 5, 0, 44.9588142787)]
    [InlineData(9, 0.2, 39.9322372006, 238.349947532)]
    [InlineData(11, 0.2, 36.207198402, -151.525206042)]
    public void Worked_circle_values_are_met(double rho, double z, double radialNanotesla, double verticalNanotesla)
    {
        (double radial, double vertical) = EllipticCircle.FieldPerAmpere(10, rho, z);
        double tesla = PhysicalConstants.VacuumPermeability * 1e9;
        Assert.Equal(radialNanotesla, tesla * radial, tolerance: 1e-9 * Math.Abs(verticalNanotesla));
        Assert.Equal(verticalNanotesla, tesla * vertical, tolerance: 1e-9 * Math.Abs(verticalNanotesla));
    }

    // A polygon of the circle's area errs as the fourth power of its side: its field tends to the circle's, by no tuning.
    [Fact]
    public void Twice_the_pieces_leave_a_sixteenth_of_the_error()
    {
        double exact = EllipticCircle.FieldPerAmpere(10, 7, 0.12).Vertical;
        double coarse = Error(200), fine = Error(400);
        Assert.InRange(coarse / fine, 15.8, 16.2);

        double Error(int sides) =>
            new PolylineField(EllipticCircle.Polygon(new(3, -2), 10, sides), 0.12).VerticalFieldPerAmpere(new PlanPoint(3, 5)) - exact;
    }
}
