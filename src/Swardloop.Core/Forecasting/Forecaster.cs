using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Forecasting;

/// <summary>Forecasts when a yard loses reception. The model: docs/decisions/0100.</summary>
public static class Forecaster
{
    internal const double DaysPerYear = 365.2425;

    private const double SmallShare = 0.05;

    /// <summary>A reading is said to be odd when it is likelier wrong, or of another state, than not.</summary>
    private const double OddFrom = 0.5;

    /// <summary>Mended: two readings on either side of a fall by so many standard deviations and so many ohms.</summary>
    private const double FallDeviations = 4, FallOhms = 1;

    private const int FutureTimes = 48;

    /// <summary>Forecasts.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="records">Readings, one or more, in any order.</param>
    /// <param name="prior">What is believed before they speak; null: <see cref="ForecastPrior.Stated"/>.</param>
    /// <param name="reach">The yard's reach where it was computed already; else it is computed.</param>
    /// <exception cref="ArgumentException">No reading.</exception>
    public static ReceptionForecast Of(Yard yard, IReadOnlyList<LoopRecord> records, ForecastPrior? prior = null, LoopReach? reach = null)
    {
        ReceptionLimits limits = LimitsOf(yard, reach ?? new LoopReach(yard));
        return Of(yard, records, limits.WeakestOhms, limits.FivePercentOhms, limits.DeviationOhms, prior ?? ForecastPrior.Stated);
    }

    /// <summary>At which loop a yard loses reception.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="reach">Its reach.</param>
    public static ReceptionLimits LimitsOf(Yard yard, LoopReach reach)
    {
        SignalBudget signal = SignalBudget.Of(yard, LoopBudget.For(yard).InductanceHenry);
        double weakest = reach.Weakest.FieldPerAmpere, small = reach.FieldQuantile(SmallShare);

        // The limit holds at the ground's temperature; readings are compared at 20 °C, and only the sound wire changes in between.
        double warmer = SoundWireAt20C(yard) * (1 - MaterialData.TemperatureFactor(yard.Loop.Conductor.Material, yard.Soil.TemperatureCelsius));
        return new(signal.LimitOhms(weakest) + warmer, signal.LimitOhms(small) + warmer, LimitDeviation(yard, signal, weakest));
    }

    /// <summary>Forecasts with limits known beforehand.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="records">Readings, one or more, in any order.</param>
    /// <param name="weakestLimitOhms">The loop at which the weakest spot falls silent (Ω, 20 °C); null: none is good enough.</param>
    /// <param name="fivePercentLimitOhms">The same for 5 % of the lawn (Ω).</param>
    /// <param name="limitDeviationOhms">One standard deviation of the limits (Ω), 0 or more.</param>
    /// <param name="prior">What is believed before the readings speak.</param>
    /// <exception cref="ArgumentException">No reading.</exception>
    public static ReceptionForecast Of(
        Yard yard, IReadOnlyList<LoopRecord> records, double? weakestLimitOhms, double? fivePercentLimitOhms, double limitDeviationOhms, ForecastPrior prior)
    {
        Guard.NotNegative(limitDeviationOhms);
        if (records.Count == 0)
        {
            throw new ArgumentException("Needs a reading or more.", nameof(records));
        }

        List<(ForecastNote, int?)> notes = [];
        ReadingAt20C[] readings = [.. records.OrderBy(record => record.At).Select(record => At20C(yard, record))];
        Sort(readings, notes);
        int[] used = [.. Enumerable.Range(0, readings.Length).Where(i => readings[i].Used)];
        if (used.Length == 0)
        {
            // Nothing but moved wires: better than nothing.
            used = [readings.Length - 1];
            readings[^1] = readings[^1] with { Used = true };
        }

        double sound = SoundAt20C(yard);
        WetSplit wet = WetSplit.Of([.. used.Select(i => readings[i])], sound);
        DateOnly start = readings[used[0]].Record.At;
        Series series = new(
            [.. used.Select(i => (readings[i].Record.At.DayNumber - start.DayNumber) / DaysPerYear)], wet.Ohms, wet.Deviations, sound, prior.OddReadingProbability);
        Growth growth = Growth.Of(series, prior);
        double[] odd = growth.OddProbabilities();
        for (int i = 0; i < used.Length; i++)
        {
            bool isOdd = odd[i] >= OddFrom;
            readings[used[i]] = readings[used[i]] with { OddProbability = odd[i], Used = !isOdd };
            if (isOdd)
            {
                notes.Add((ForecastNote.OddReading, used[i]));
            }
        }

        double horizon = series.Years[^1] + ReceptionForecast.HorizonYears;
        LossDate[] exact = growth.LossDates([weakestLimitOhms ?? double.NegativeInfinity, fivePercentLimitOhms ?? double.NegativeInfinity], 0, start, horizon, FutureTimes);
        LossDate[] allowing = limitDeviationOhms > 0
            ? growth.LossDates([weakestLimitOhms ?? double.NegativeInfinity, fivePercentLimitOhms ?? double.NegativeInfinity], limitDeviationOhms, start, horizon, FutureTimes)
            : exact;
        (double, double, double) level = growth.LevelOhms();
        AddNotes(notes, yard, readings, used.Length, weakestLimitOhms, level, sound, wet);
        return new()
        {
            Readings = readings,
            WeakestLimitOhms = weakestLimitOhms,
            FivePercentLimitOhms = fivePercentLimitOhms,
            LimitDeviationOhms = limitDeviationOhms,
            WeakestLost = exact[0],
            FivePercentLost = exact[1],
            WeakestLostAllowing = allowing[0],
            FivePercentLostAllowing = allowing[1],
            LevelOhms = level,
            GrowthOhmsPerYear = growth.OhmsPerYear(),
            StepwiseProbability = growth.StepwiseProbability,
            WetExcess = wet.Excess,
            Notes = notes,
        };
    }

    /// <summary>Takes a reading to 20 °C.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="record">The reading.</param>
    public static ReadingAt20C At20C(Yard yard, LoopRecord record)
    {
        double celsius = record.TemperatureCelsius
            ?? SoilTemperature.ByDateCelsius(record.At, yard.Datum?.LatitudeDegrees ?? SoilTemperature.StandInLatitudeDegrees, yard.Loop.DepthMetres);
        double kelvin = record.TemperatureCelsius is not null ? SoilTemperature.MeasuredDeviationKelvin
            : yard.Datum is null ? SoilTemperature.NowhereDeviationKelvin : SoilTemperature.DeviationKelvin;
        if (record.TemperatureCelsius is null && record.Frost)
        {
            celsius = Math.Min(0, celsius);
        }

        double factor = MaterialData.TemperatureFactor(yard.Loop.Conductor.Material, celsius);
        double loop = Math.Max(0, record.Ohms - record.LeadOhms), wire = Math.Min(SoundWireAt20C(yard) * factor, loop);
        const double LeadDeviation = 0.1;
        double meter = record.Meter.LimitOhms(record.Ohms) / Math.Sqrt(3);
        double byTemperature = wire / factor * MaterialData.TemperatureCoefficientPerKelvin(yard.Loop.Conductor.Material) * kelvin;
        return new()
        {
            Record = record,
            OhmsAt20C = loop + (wire / factor) - wire,
            DeviationOhms = Math.Sqrt((meter * meter) + (LeadDeviation * LeadDeviation) + (byTemperature * byTemperature)),
            TemperatureCelsius = celsius,
        };
    }

    private static double SoundWireAt20C(Yard yard) =>
        yard.Loop.LengthMetres * (yard.Loop.ConductorIsKnown ? ConductorResistance.OhmsPerMetre(yard.Loop.Conductor, 20).Mean : UnknownConductor.Moments(20).Mean);

    /// <summary>What a loop measures with nothing wrong, 20 °C (Ω), by its nominal values.</summary>
    /// <param name="yard">The yard.</param>
    public static double SoundAt20C(Yard yard) =>
        SoundWireAt20C(yard) + (2 * JointResistance.HealthyTerminalOhms.Mean) + yard.Loop.Joints.Sum(joint => JointResistance.HealthyOhms(joint.Style).Mean);

    /// <summary>One standard deviation of a limit, to first order in reach constant and source.</summary>
    private static double LimitDeviation(Yard yard, SignalBudget signal, double fieldPerAmpere)
    {
        double most = signal.ReachConstantOhmMetres * Math.Abs(fieldPerAmpere);
        if (!(most > signal.ReactanceOhms))
        {
            return 0;
        }

        double byReach = most * most / Math.Sqrt((most - signal.ReactanceOhms) * (most + signal.ReactanceOhms)) * yard.Mower.ReachRelativeDeviation;
        double bySource = signal.SourceOhms * yard.Station.SourceRelativeDeviation;
        return Math.Sqrt((byReach * byReach) + (bySource * bySource));
    }

    /// <summary>Leaves out what is not of the loop as it lies now: readings of a moved wire, and all before a mend or an acceptance.</summary>
    private static void Sort(ReadingAt20C[] readings, List<(ForecastNote, int?)> notes)
    {
        int begins = Array.FindLastIndex(readings, reading => reading.Record.Begins != LoopBeginning.None);
        if (begins > 0 || (begins == 0 && readings[0].Record.Begins == LoopBeginning.Accepted))
        {
            notes.Add((readings[begins].Record.Begins == LoopBeginning.Accepted ? ForecastNote.Accepted : ForecastNote.MendRecorded, begins));
            for (int i = 0; i < begins; i++)
            {
                readings[i] = readings[i] with { Used = false };
            }
        }

        for (int i = 0; i < readings.Length; i++)
        {
            if (readings[i].Used && readings[i].Record.Moved)
            {
                readings[i] = readings[i] with { Used = false };
                notes.Add((ForecastNote.Moved, i));
            }
        }

        int[] rest = [.. Enumerable.Range(0, readings.Length).Where(i => readings[i].Used)];
        for (int k = rest.Length - 2; k >= 1; k--)
        {
            double before = rest[Math.Max(0, k - 2)..k].Min(i => readings[i].OhmsAt20C), after = Math.Max(readings[rest[k]].OhmsAt20C, readings[rest[k + 1]].OhmsAt20C);
            double deviation = Math.Max(readings[rest[k]].DeviationOhms, readings[rest[k - 1]].DeviationOhms) + (Series.WanderShare * before);
            if (before - after > FallOhms + (FallDeviations * Math.Sqrt(2) * deviation))
            {
                notes.Add((ForecastNote.Mended, rest[k]));
                foreach (int i in rest[..k])
                {
                    readings[i] = readings[i] with { Used = false };
                }

                return;
            }
        }
    }

    private static void AddNotes(
        List<(ForecastNote, int?)> notes, Yard yard, ReadingAt20C[] readings, int used, double? limit, (double Low, double Median, double High) level, double sound, WetSplit wet)
    {
        Add(used < 3, ForecastNote.FewReadings);
        Add(readings.Any(reading => !reading.TemperatureMeasured), ForecastNote.TemperatureByDate);
        Add(yard.Datum is null && readings.Any(reading => !reading.TemperatureMeasured), ForecastNote.NoLatitude);
        Add(wet.Excess is not null, ForecastNote.WetApart);
        Add(limit is null || limit <= sound, ForecastNote.Layout);
        Add(limit > sound && level.Median >= limit, ForecastNote.AlreadyLost);
        Add(!yard.Loop.ConductorIsKnown, ForecastNote.ConductorUnknown);
        Add(level.High < LoopBudget.For(yard).ExpectedOhms.Low, ForecastNote.BelowSound);

        void Add(bool holds, ForecastNote note)
        {
            if (holds)
            {
                notes.Add((note, null));
            }
        }
    }
}
