using Swardloop.Core.Forecasting;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Forecasting;

public sealed class ForecasterTests
{
    private static readonly Yard Yard = SimulatedLoops.Yard with { Datum = new(52, 7) };

    private static LoopRecord[] Rising(int count, double perYear, double from = 3) =>
        [.. Enumerable.Range(0, count).Select(i => new LoopRecord(SimulatedLoops.Start.AddDays(183 * i), from + 0.2 + (perYear * i * 183 / 365.2425)) { TemperatureCelsius = 20 })];

    private static ReceptionForecast Forecast(IReadOnlyList<LoopRecord> records, double limit = 20, double deviation = 0) =>
        Forecaster.Of(Yard, records, limit, 1.2 * limit, deviation, ForecastPrior.Stated);

    private static double Years(DateOnly? day) => (day!.Value.DayNumber - SimulatedLoops.Start.DayNumber) / 365.2425;

    // 3 Ω and 2 Ω a year more: 20 Ω after 8.5 years, 24 Ω after 10.5.
    [Fact]
    public void Even_growth_is_carried_on()
    {
        ReceptionForecast forecast = Forecast(Rising(11, 2));
        Assert.InRange(Years(forecast.WeakestLost.Median), 7.9, 8.9);
        Assert.InRange(Years(forecast.FivePercentLost.Median), 9.5, 11);
        Assert.InRange(8.5, Years(forecast.WeakestLost.Low), Years(forecast.WeakestLost.High));
        Assert.InRange(forecast.GrowthOhmsPerYear.Median, 1.8, 2.3);
        Assert.All(forecast.Readings, reading => Assert.True(reading.Used));
    }

    [Fact]
    public void One_bad_reading_is_named_and_hardly_moves_the_date()
    {
        LoopRecord[] records = Rising(9, 2);
        DateOnly? without = Forecast(records).WeakestLost.Median;
        records[5] = records[5] with { Ohms = 31 };
        ReceptionForecast forecast = Forecast(records);
        Assert.Equal((ForecastNote.OddReading, 5), Assert.Single(forecast.Notes));
        Assert.False(forecast.Readings[5].Used);
        Assert.InRange(Math.Abs(forecast.WeakestLost.Median!.Value.DayNumber - without!.Value.DayNumber), 0, 120);
    }

    [Fact]
    public void What_was_read_before_a_mend_does_not_count()
    {
        LoopRecord[] after = [.. Rising(6, 1).Select(record => record with { At = record.At.AddDays(2000) })];
        ReceptionForecast forecast = Forecast([.. Rising(8, 4), .. after]);
        Assert.Contains((ForecastNote.Mended, 8), forecast.Notes);
        Assert.All(forecast.Readings.Take(8), reading => Assert.False(reading.Used));
        Assert.Equal(Forecast(after).WeakestLost, forecast.WeakestLost);
    }

    // The fall is too small to be taken for a mend by itself: 3 Ω, with readings that rise by 4 Ω a year.
    [Theory]
    [InlineData(LoopBeginning.Accepted, ForecastNote.Accepted)]
    [InlineData(LoopBeginning.Mended, ForecastNote.MendRecorded)]
    public void What_was_read_before_a_signed_acceptance_or_a_mend_that_was_written_down_does_not_count(LoopBeginning begins, ForecastNote note)
    {
        LoopRecord[] after = [.. Rising(5, 1, from: 12).Select(record => record with { At = record.At.AddDays(1000) })];
        LoopRecord[] before = Rising(5, 4);
        after[0] = after[0] with { Begins = begins };
        ReceptionForecast forecast = Forecast([.. before, .. after]);
        Assert.Contains((note, 5), forecast.Notes);
        Assert.All(forecast.Readings.Take(5), reading => Assert.False(reading.Used));
        Assert.Equal(Forecast(after).WeakestLost, forecast.WeakestLost);
        Assert.NotEqual(Forecast([.. before, .. after.Select(record => record with { Begins = LoopBeginning.None })]).GrowthOhmsPerYear, forecast.GrowthOhmsPerYear);
    }

    // 100 m of 1 mm² copper and sound terminals: about 1.8 Ω at 20 °C.
    [Theory]
    [InlineData(1.95, AcceptanceVerdict.Within)]
    [InlineData(9, AcceptanceVerdict.Above)]
    [InlineData(0.7, AcceptanceVerdict.Below)]
    public void A_reading_is_judged_beside_the_band_of_a_sound_loop(double shown, AcceptanceVerdict expected) =>
        Assert.Equal(expected, Acceptance.Judge(Yard, new(SimulatedLoops.Start, shown) { TemperatureCelsius = 20 }).Verdict);

    [Fact]
    public void Loop_that_does_not_grow_is_not_lost_within_twenty_years()
    {
        ReceptionForecast forecast = Forecast(Rising(14, 0));
        Assert.Null(forecast.WeakestLost.High);
        Assert.Null(forecast.WeakestLost.Median);
    }

    [Fact]
    public void Loop_past_its_limit_is_lost_already()
    {
        ReceptionForecast forecast = Forecast(Rising(10, 5), limit: 15);
        Assert.Contains((ForecastNote.AlreadyLost, null), forecast.Notes);
        Assert.InRange(Years(forecast.WeakestLost.Median), 2, 2.8);
    }

    [Fact]
    public void Layout_that_no_loop_could_serve_is_said()
    {
        ReceptionForecast forecast = Forecaster.Of(Yard, Rising(4, 1), null, 30, 0, ForecastPrior.Stated);
        Assert.Contains((ForecastNote.Layout, null), forecast.Notes);
        Assert.Equal(SimulatedLoops.Start, forecast.WeakestLost.High);
    }

    [Fact]
    public void Wet_ground_is_told_apart()
    {
        LoopRecord[] records = Rising(12, 2);
        LoopRecord[] wet = [.. records.Select((record, i) => i % 3 == 1 ? record with { Ohms = record.Ohms - 1.1, Wet = true } : record)];
        ReceptionForecast forecast = Forecast(wet);
        Assert.Contains((ForecastNote.WetApart, null), forecast.Notes);
        Assert.InRange(forecast.WetExcess!.Value.Ohms, -1.3, -0.5);
        Assert.InRange(Years(forecast.WeakestLost.Median) - Years(Forecast(records).WeakestLost.Median), -0.5, 0.5);
    }

    [Fact]
    public void Order_of_the_readings_does_not_matter()
    {
        LoopRecord[] records = Rising(7, 2);
        ReceptionForecast there = Forecast(records), back = Forecast([.. records.Reverse()]);
        Assert.Equal((there.WeakestLost, there.LevelOhms, there.GrowthOhmsPerYear), (back.WeakestLost, back.LevelOhms, back.GrowthOhmsPerYear));
    }

    [Fact]
    public void Uncertain_station_and_mower_widen_the_band()
    {
        ReceptionForecast forecast = Forecast(Rising(11, 2), deviation: 4);
        Assert.True(forecast.WeakestLostAllowing.Low < forecast.WeakestLost.Low);
        Assert.True(forecast.WeakestLostAllowing.High is null || forecast.WeakestLostAllowing.High > forecast.WeakestLost.High);
    }

    // Only copper follows the temperature: 100 m of 1 mm² measure 1.76 Ω at 20 °C, about 0.07 Ω less at 10 °C, whatever a bad joint adds.
    [Theory]
    [InlineData(1.9)]
    [InlineData(60)]
    public void Only_the_sound_wire_follows_the_temperature(double shown)
    {
        ReadingAt20C cold = Forecaster.At20C(Yard, new(SimulatedLoops.Start, shown) { TemperatureCelsius = 10 });
        Assert.InRange(cold.OhmsAt20C - (shown - 0.2), 0.06, 0.08);
    }

    [Fact]
    public void Reading_of_a_moved_wire_does_not_count()
    {
        LoopRecord[] records = Rising(6, 2);
        records[2] = records[2] with { Moved = true, Ohms = 12 };
        Assert.Contains((ForecastNote.Moved, 2), Forecast(records).Notes);
    }

    [Fact]
    public void Single_reading_gives_a_band_and_says_what_it_rests_on() =>
        Assert.Contains((ForecastNote.FewReadings, null), Forecast(Rising(1, 1)).Notes);

    [Theory]
    [InlineData(52, 1, 7, -2, 6)]
    [InlineData(52, 7, 25, 14, 22)]
    [InlineData(-38, 1, 25, 18, 28)]
    [InlineData(0, 4, 1, 24, 28)]
    public void Ground_follows_month_and_latitude(double latitude, int month, int day, double least, double most) =>
        Assert.InRange(SoilTemperature.ByDateCelsius(new(2026, month, day), latitude, 0.05), least, most);

    [Fact]
    public void Workshops_yards_move_the_prior_no_further_than_their_number_allows()
    {
        ForecastPrior none = ForecastPrior.Stated.LearnedFrom([]), many = ForecastPrior.Stated.LearnedFrom([.. Enumerable.Repeat(8.0, 990)]);
        Assert.Equal(ForecastPrior.Stated.MedianOhmsPerYear, none.MedianOhmsPerYear, tolerance: 1e-12);
        Assert.InRange(many.MedianOhmsPerYear, 7.8, 8);
        Assert.InRange(ForecastPrior.Stated.LearnedFrom([8]).MedianOhmsPerYear, 2, 2.4);
    }
}
