namespace Swardloop.Core.Forecasting;

/// <summary>Loop resistances at 20 °C from which on a yard loses reception, station and mower as filed.</summary>
/// <param name="WeakestOhms">Of the weakest spot (Ω); null when no loop, however good, is heard there.</param>
/// <param name="FivePercentOhms">Of 5 % of the lawn (Ω); null likewise.</param>
/// <param name="DeviationOhms">One standard deviation of both (Ω): what is not known of station and mower.</param>
public readonly record struct ReceptionLimits(double? WeakestOhms, double? FivePercentOhms, double DeviationOhms);
