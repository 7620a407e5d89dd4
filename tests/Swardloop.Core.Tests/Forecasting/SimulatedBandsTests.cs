using Swardloop.Core.Forecasting;

namespace Swardloop.Core.Tests.Forecasting;

/// <summary>Do the dates' bands hold nine times in ten on loops that another program corrodes? Numbers are fixed by the seed.</summary>
/// <remarks>In the suite 120 loops of a kind (one standard error 2.7 %), judged together, and each within three of those errors; with SWARDLOOP_LONG=1 2000 of a kind (0.7 %).</remarks>
public sealed class SimulatedBandsTests
{
    private static readonly string[] Kinds = ["linear", "accelerating", "stepwise"];
    private static readonly bool Long = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1";

    [Fact]
    public void Bands_hold_nine_times_in_ten()
    {
        double[] held = [.. Kinds.Select(kind => Held(kind, 5, 14, Long ? 2000 : 120).Held)];
        Assert.InRange(held.Average(), 0.87, 0.93);
        Assert.All(held, share => Assert.InRange(share, Long ? 0.87 : 0.82, Long ? 0.97 : 0.98));
    }

    [Fact]
    public void Bands_of_few_readings_stay_wide_and_hold()
    {
        (double Held, double Ratio)[] few = [.. Kinds.Select(kind => Held(kind, 3, 4, Long ? 2000 : 80))], many = [.. Kinds.Select(kind => Held(kind, 9, 14, 30))];
        Assert.InRange(few.Average(kind => kind.Held), 0.87, 0.97);
        Assert.All(few.Zip(many), pair => Assert.InRange(pair.First.Ratio, 1.3 * pair.Second.Ratio, 100));
    }

    /// <summary>Share of bands that hold the truth, and the geometric mean of latest over earliest time.</summary>
    private static (double Held, double Ratio) Held(string kind, int fewest, int most, int loops)
    {
        Random random = new(20_261_129);
        int held = 0;
        double logs = 0;
        for (int i = 0; i < loops; i++)
        {
            SimulatedLoops.Simulated loop = SimulatedLoops.Draw(kind, random, fewest, most);
            LossDate band = Forecaster.Of(SimulatedLoops.Yard, loop.Records, loop.LimitOhms, loop.LimitOhms, 0, ForecastPrior.Stated).WeakestLost;
            double horizon = Years(loop.Records[^1].At)!.Value + ReceptionForecast.HorizonYears;
            double low = Years(band.Low) ?? horizon, high = Years(band.High) ?? horizon;
            held += loop.LostAfterYears > horizon ? (band.High is null ? 1 : 0) : loop.LostAfterYears >= low && (band.High is null || loop.LostAfterYears <= high) ? 1 : 0;
            logs += Math.Log(high / Math.Max(low, 0.1));
        }

        return ((double)held / loops, Math.Exp(logs / loops));
    }

    private static double? Years(DateOnly? day) => day is { } one ? (one.DayNumber - SimulatedLoops.Start.DayNumber) / 365.2425 : null;
}
