using Swardloop.Core.Conductors;
using Swardloop.Core.Forecasting;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Forecasting;

/// <summary>Loops that corrode, told apart from the forecast's own model: a straight line, a parabola, or steps of even sizes; meters that err evenly within their
/// limits; one reading in thirty wrong.</summary>
internal static class SimulatedLoops
{
    public static readonly Yard Yard = new()
    {
        Name = "Simulated",
        Lawn = new Lawn([new PlanPoint[] { new(0, 0), new(20, 0), new(20, 30), new(0, 30) }], []),
        Loop = new Loop
        {
            Path = new WirePath([new(10, 0), new(20, 0), new(20, 30), new(0, 30), new(0, 0), new(10, 0)]),
            Conductor = new Conductor { AreaSquareMetres = 1e-6 },
        },
    };

    public sealed record Simulated(IReadOnlyList<LoopRecord> Records, double LimitOhms, double LostAfterYears);

    public static readonly DateOnly Start = new(2020, 4, 6);

    /// <summary>One loop whose limit is not reached at its last reading.</summary>
    public static Simulated Draw(string kind, Random random, int fewest, int most)
    {
        while (true)
        {
            double limit = 4 + (15 * Math.Pow(5, random.NextDouble()));
            Func<double, double> level = Path(kind, random);
            int count = random.Next(fewest, most + 1);
            List<LoopRecord> records = [];
            double years = 0;
            for (int i = 0; i < count; i++)
            {
                records.Add(Read(level(years), Start.AddDays((int)(years * 365.2425)), random));
                years += 0.3 + (0.4 * random.NextDouble());
            }

            double last = (records[^1].At.DayNumber - Start.DayNumber) / 365.2425;
            if (level(last) < limit)
            {
                return new(records, limit, Passes(level, limit, last));
            }
        }
    }

    private static double Passes(Func<double, double> level, double limit, double from)
    {
        double to = from + 100;
        if (level(to) < limit)
        {
            return double.PositiveInfinity;
        }

        for (int i = 0; i < 60; i++)
        {
            double middle = (from + to) / 2;
            (from, to) = level(middle) < limit ? (middle, to) : (from, middle);
        }

        return to;
    }

    private static Func<double, double> Path(string kind, Random random)
    {
        double level = 1.8 + (3 * random.NextDouble());
        switch (kind)
        {
            case "linear":
                double rate = Between(0.4, 10);
                return years => level + (rate * years);
            case "accelerating":
                double slope = Between(0.3, 4), bend = Between(0.1, 1.5);
                return years => level + (slope * years) + (bend * years * years);
            case "stepwise":
                double perYear = Between(0.4, 3), size = Between(0.8, 8), time = 0, sum = level;
                List<(double At, double Level)> steps = [];
                while (time < 101)
                {
                    time -= Math.Log(1 - random.NextDouble()) / perYear;
                    sum += size * (0.2 + (1.6 * random.NextDouble()));
                    steps.Add((time, sum));
                }

                return years => steps.FindLastIndex(step => step.At <= years) is >= 0 and int i ? steps[i].Level : level;
            default:
                throw new ArgumentOutOfRangeException(nameof(kind), kind, "linear, accelerating or stepwise");
        }

        double Between(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
    }

    private static LoopRecord Read(double ohmsAt20C, DateOnly at, Random random)
    {
        // The loop's copper is 100 m of 1 mm²; what exceeds it does not follow the temperature.
        double celsius = 4 + (16 * random.NextDouble()), truth = celsius + (1.5 * Normal(random));
        double shown = ohmsAt20C + (1.76 * 0.00393 * (truth - 20)) + (0.03 * Math.Max(0, ohmsAt20C - 1.8) * Normal(random)) + 0.2 + (0.1 * Normal(random));
        shown += ((0.008 * shown) + 0.3) * ((2 * random.NextDouble()) - 1);
        if (random.NextDouble() < 1.0 / 30)
        {
            shown = 2 * shown * random.NextDouble();
        }

        return new(at, Math.Max(0, Math.Round(shown, 1))) { TemperatureCelsius = Math.Round(celsius) };
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
