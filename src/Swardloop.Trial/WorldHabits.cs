namespace Swardloop.Trial;

/// <summary>One yard's draw from its style's bands: how its world behaves, hidden from whoever is on trial.</summary>
internal sealed record WorldHabits
{
    /// <summary>Chances, each 0 to 1.</summary>
    public required double ToneRight { get; init; }

    public required double FaultShows { get; init; }

    public required double LookFalseAlarm { get; init; }

    public required double OwnerRight { get; init; }

    public required double TechnicianRight { get; init; }

    public required double FlickerShows { get; init; }

    public required double PairCrossed { get; init; }

    public required double SoundCrossed { get; init; }

    public required double EitherEnds { get; init; }

    /// <summary>Shares, as standard deviations.</summary>
    public required double Drift { get; init; }

    public required double CapacitanceError { get; init; }

    /// <summary>The technician's meter, percent of reading.</summary>
    public required double MeterPercent { get; init; }

    public required double FlickerOhms { get; init; }

    /// <summary>The station's true alarm threshold (Ω).</summary>
    public required double AlarmOhms { get; init; }

    public required double VelocityFactor { get; init; }

    public required double PlaceDeviationMetres { get; init; }

    /// <summary>True reach constant (Ω·m) and source resistance (Ω).</summary>
    public required double ReachConstantOhmMetres { get; init; }

    public required double SourceOhms { get; init; }

    /// <summary>True resistance of the wire per drawn metre (Ω/m): material, temperature and the length that is really there.</summary>
    public required double WireOhmsPerMetre { get; init; }

    /// <summary>True length over drawn length.</summary>
    public required double LengthFactor { get; init; }

    /// <summary>A healthy joint's resistance (Ω).</summary>
    public required double JointOhms { get; init; }

    /// <summary>Resistance of the whole sound wire to earth (Ω).</summary>
    public required double InsulationOhms { get; init; }

    public required double CapacitanceFaradPerMetre { get; init; }

    public required double SupplyNominalVolts { get; init; }

    public static WorldHabits Draw(WorldStyle style, Swardloop.Core.Yards.Yard yard, Chance chance)
    {
        double profile = chance.Uniform("profile deviation", style.ProfileDeviation);
        double wire = chance.Uniform("wire deviation", style.WireDeviation);
        double length = yard.Loop.LengthMetres;
        double lengthFactor = 1 + (Math.Clamp(chance.Normal("length"), -2, 2) * yard.Loop.LengthToleranceMetres / 2 / length);
        double celsius = yard.Soil.TemperatureCelsius + (4 * chance.Normal("temperature"));
        double area = yard.Loop.Conductor.AreaSquareMetres ?? throw new ArgumentException("The trial's wires are given by area.", nameof(yard));

        // Annealed copper, references A3.
        double nominal = 1.7241e-8 / area * (1 + (0.00393 * (celsius - 20)));
        return new()
        {
            ToneRight = chance.Uniform("tone right", style.ToneRight),
            FaultShows = chance.Uniform("fault shows", style.FaultShows),
            LookFalseAlarm = chance.Uniform("look false alarm", style.LookFalseAlarm),
            OwnerRight = chance.Uniform("owner right", style.OwnerRight),
            TechnicianRight = chance.Uniform("technician right", style.TechnicianRight),
            FlickerShows = chance.Uniform("flicker shows", style.FlickerShows),
            PairCrossed = chance.Uniform("pair crossed", style.PairCrossed),
            SoundCrossed = chance.Uniform("sound crossed", style.SoundCrossed),
            EitherEnds = chance.Uniform("either ends", style.EitherEnds),
            Drift = chance.Uniform("drift", style.Drift),
            CapacitanceError = chance.Uniform("capacitance error", style.CapacitanceError),
            MeterPercent = Math.Round(chance.Uniform("meter percent", style.MeterPercent), 1),
            FlickerOhms = chance.LogUniform("flicker ohms", style.FlickerOhms.Low, style.FlickerOhms.High),
            AlarmOhms = yard.Station.LampAlarmOhms * Math.Exp(0.2 * chance.Normal("alarm")),
            VelocityFactor = chance.Uniform("velocity", style.VelocityFactor),
            PlaceDeviationMetres = chance.Uniform("place deviation", style.PlaceDeviation),
            ReachConstantOhmMetres = yard.Mower.ReachConstantOhmMetres * Math.Exp(profile * Math.Clamp(chance.Normal("reach"), -2, 2)),
            SourceOhms = yard.Station.SourceOhms * Math.Exp(profile * Math.Clamp(chance.Normal("source"), -2, 2)),
            WireOhmsPerMetre = nominal * (1 + (wire * Math.Clamp(chance.Normal("wire"), -2, 2))) * lengthFactor,
            LengthFactor = lengthFactor,
            JointOhms = chance.LogUniform("joint ohms", 0.003, 0.04),
            InsulationOhms = chance.LogUniform("insulation", 1e6, 3e7) * 100 / length,
            CapacitanceFaradPerMetre = yard.Loop.CapacitanceFaradPerMetre * Math.Exp(0.12 * chance.Normal("capacitance")),
            SupplyNominalVolts = chance.Pick("nominal volts", [(24.0, 2), (28.0, 1), (32.0, 1)]),
        };
    }
}
