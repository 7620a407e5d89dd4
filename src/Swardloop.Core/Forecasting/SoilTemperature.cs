namespace Swardloop.Core.Forecasting;

/// <summary>How warm the ground at a buried wire is on a day of the year, where nobody measured it.</summary>
/// <remarks>The yearly wave of Kusuda and Achenbach, ASHRAE Transactions 71 (1965) 61: mean − swing·e^(−z/d)·cos(2π(day − coldest)/365 − z/d), d = √(365α/π).
/// Formula from memory. Mean and swing by latitude are a rough line through lowland climates, from memory, no source: hence the deviation of 4 K.</remarks>
public static class SoilTemperature
{
    /// <summary>One standard deviation of <see cref="ByDateCelsius"/> (K): climates of one latitude, and one day's weather. Common practice, no source.</summary>
    public const double DeviationKelvin = 4;

    /// <summary>One standard deviation of a temperature that somebody measured beside the wire (K). Common practice, no source.</summary>
    public const double MeasuredDeviationKelvin = 1.5;

    /// <summary>Latitude that stands in where a yard has none (°): the middle of the lands this tool was made for. Uncertain by as much again.</summary>
    public const double StandInLatitudeDegrees = 50;

    /// <summary>One standard deviation without a latitude (K).</summary>
    public const double NowhereDeviationKelvin = 6;

    private const double ColdestDay = 25, DaysPerYear = Forecaster.DaysPerYear, DiffusivitySquareMetresPerDay = 0.05;

    // Latitude (°), yearly mean (°C), half of the yearly swing (K) of monthly means at the surface.
    private static readonly (double Latitude, double Mean, double Swing)[] Climates =
        [(0, 26, 1), (15, 26, 3), (25, 23, 6), (35, 17, 9), (45, 12, 9.5), (52, 10, 8.5), (60, 6.5, 9), (70, 0, 9)];

    /// <summary>The expected temperature (°C).</summary>
    /// <param name="date">The day.</param>
    /// <param name="latitudeDegrees">Latitude, north positive, −90 to 90; south of the equator the year is turned by half.</param>
    /// <param name="depthMetres">Depth of the wire (m), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static double ByDateCelsius(DateOnly date, double latitudeDegrees, double depthMetres)
    {
        Guard.NotNegative(90 - Math.Abs(latitudeDegrees), nameof(latitudeDegrees));
        Guard.NotNegative(depthMetres);
        (double mean, double swing) = At(Math.Abs(latitudeDegrees));
        double depthShare = depthMetres / Math.Sqrt(DaysPerYear * DiffusivitySquareMetresPerDay / Math.PI);
        double day = date.DayOfYear - ColdestDay + (latitudeDegrees < 0 ? DaysPerYear / 2 : 0);
        return mean - (swing * Math.Exp(-depthShare) * Math.Cos((2 * Math.PI * day / DaysPerYear) - depthShare));
    }

    private static (double Mean, double Swing) At(double latitude)
    {
        for (int i = 1; i < Climates.Length; i++)
        {
            if (latitude <= Climates[i].Latitude)
            {
                double share = (latitude - Climates[i - 1].Latitude) / (Climates[i].Latitude - Climates[i - 1].Latitude);
                return (Climates[i - 1].Mean + (share * (Climates[i].Mean - Climates[i - 1].Mean)), Climates[i - 1].Swing + (share * (Climates[i].Swing - Climates[i - 1].Swing)));
            }
        }

        return (Climates[^1].Mean, Climates[^1].Swing);
    }
}
