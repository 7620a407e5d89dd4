using CsCheck;
using Swardloop.Core.Forecasting;

namespace Swardloop.Core.Tests.Forecasting;

public sealed class StraightLineTests
{
    // NIST Statistical Reference Datasets, Norris (36 points). Data from memory; that the certified values come out to ten digits confirms them.
    private static readonly double[] NorrisX =
    [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
        556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];

    private static readonly double[] NorrisY =
    [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
        557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];

    // Montgomery and Runger, Applied Statistics and Probability for Engineers, table 11-1: oxygen purity. Data from memory, their sums agree.
    private static readonly double[] OxygenX =
        [0.99, 1.02, 1.15, 1.29, 1.46, 1.36, 0.87, 1.23, 1.55, 1.40, 1.19, 1.15, 0.98, 1.01, 1.11, 1.20, 1.26, 1.32, 1.43, 0.95];

    private static readonly double[] OxygenY =
        [90.01, 89.05, 91.43, 93.74, 96.73, 94.45, 87.59, 91.77, 99.42, 93.65, 93.54, 92.52, 90.56, 89.54, 89.85, 90.39, 93.25, 93.41, 94.98, 87.33];

    // Certified values of NIST StRD Norris. Tolerance: ten of the eleven digits and more that NIST asks of sound code.
    [Fact]
    public void Norris_comes_out_as_certified()
    {
        StraightLine line = StraightLine.Fit(NorrisX, NorrisY);
        Close(-0.262323073774029, line.Intercept);
        Close(1.00211681802045, line.Slope);
        Close(0.884796396144373, line.ResidualDeviation);
        Close(0.232818234301152, line.InterceptError);
        Close(0.429796848199937e-3, line.SlopeError);
    }

    // Certified values of NIST StRD NoInt1: x = 60 … 70, y = 130 … 140, no intercept.
    [Fact]
    public void Line_through_the_origin_comes_out_as_certified()
    {
        StraightLine line = StraightLine.FitThroughOrigin([.. Enumerable.Range(60, 11)], [.. Enumerable.Range(130, 11)]);
        Close(2.07438016528926, line.Slope);
        Close(3.56753034006338, line.ResidualDeviation);
        Assert.Equal(0, line.Intercept);
    }

    // Printed there: 95 % of the mean at 1.00 from 88.486 to 89.975, 95 % of a new point from 86.830 to 91.632; Student's 2.101 for 18 degrees of freedom.
    // Tolerance: the last printed digit.
    [Fact]
    public void Prediction_interval_is_the_textbooks()
    {
        StraightLine line = StraightLine.Fit(OxygenX, OxygenY);
        const double Student = 2.101;
        Assert.Equal(89.231, line.At(1), tolerance: 1e-3);
        Assert.Equal(88.486, line.At(1) - (Student * line.MeanError(1)!.Value), tolerance: 2e-3);
        Assert.Equal(91.632, line.At(1) + (Student * line.PredictionError(1)!.Value), tolerance: 2e-3);
    }

    [Fact]
    public void Weight_of_two_is_the_point_twice() =>
        Gen.Double[-10, 10].Array[6].Sample(y =>
        {
            double[] x = [0, 1, 2, 3, 4, 5];
            StraightLine weighed = StraightLine.Fit(x, y, [1, 2, 1, 1, 1, 1]), twice = StraightLine.Fit([.. x, 1], [.. y, y[1]]);
            Assert.Equal(twice.Slope, weighed.Slope, tolerance: 1e-9);
            Assert.Equal(twice.Intercept, weighed.Intercept, tolerance: 1e-9);
        });

    [Fact]
    public void Points_at_one_place_are_refused() => Assert.Throws<ArgumentException>(() => StraightLine.Fit([1, 1, 1], [1, 2, 3]));

    [Fact]
    public void Two_points_leave_nothing_to_tell_an_error_from() => Assert.Null(StraightLine.Fit([0, 1], [2, 5]).SlopeError);

    private static void Close(double certified, double? got) => Assert.Equal(certified, got!.Value, tolerance: 1e-10 * Math.Abs(certified));
}
