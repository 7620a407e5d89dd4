namespace Swardloop.Drawing;

/// <summary>The scale of the slider of extra ohms: even steps of ohms near zero, even steps of factors far from it, so that one slider serves a
/// joint of 2 Ω and a wire all but broken.</summary>
/// <param name="MostOhms">Upper end (Ω), above zero.</param>
public readonly record struct OhmScale(double MostOhms)
{
    /// <summary>Steps of the slider.</summary>
    public const int Steps = 1000;

    private const double EvenOhms = 10;

    /// <summary>The scale that has room for all of these, and for what a healthy loop gains unnoticed.</summary>
    /// <param name="ohms">Extra ohms that must find room; negative ones find it at zero.</param>
    public static OhmScale For(IEnumerable<double> ohms)
    {
        double most = Math.Min(1.25 * ohms.Where(double.IsFinite).Append(80).Max(), 100_000);
        double power = Math.Pow(10, Math.Floor(Math.Log10(most)));
        return new(new[] { 1.0, 1.5, 2, 3, 5, 7.5, 10 }.Select(step => step * power).First(round => round >= most * (1 - 1e-9)));
    }

    /// <summary>Step of the slider, 0 to <see cref="Steps"/>, for so many extra ohms; beyond an end, that end.</summary>
    public double StepOf(double extraOhms) =>
        Steps * Math.Log(1 + (Math.Clamp(extraOhms, 0, MostOhms) / EvenOhms)) / Math.Log(1 + (MostOhms / EvenOhms));

    /// <summary>Extra ohms at a step of the slider, rounded as a person would say them: tenths below 10 Ω, whole ohms below 1000 Ω, tens beyond.</summary>
    public double OhmsAt(double step)
    {
        double ohms = EvenOhms * (Math.Exp(Math.Clamp(step / Steps, 0, 1) * Math.Log(1 + (MostOhms / EvenOhms))) - 1);
        return ohms switch
        {
            < 10 => Math.Round(ohms, 1),
            < 1000 => Math.Round(ohms),
            _ => Math.Round(ohms / 10) * 10,
        };
    }
}
