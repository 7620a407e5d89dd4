using System.Globalization;

namespace Swardloop.Client.Device;

/// <summary>Where the device says it is, or why it does not.</summary>
/// <param name="LatitudeDegrees">WGS 84, north positive.</param>
/// <param name="LongitudeDegrees">East positive.</param>
/// <param name="AccuracyMetres">The place is within this of the truth, 95 times in 100 (m).</param>
/// <param name="Fault"><c>denied</c>, <c>absent</c> or <c>late</c>; null when it is known.</param>
public sealed record DevicePosition(double LatitudeDegrees, double LongitudeDegrees, double AccuracyMetres, string? Fault = null)
{
    /// <summary>Reads what the script says.</summary>
    public static DevicePosition Read(string said)
    {
        string[] parts = said.Split(' ');
        return parts.Length == 3 ? new(Number(parts[0]), Number(parts[1]), Number(parts[2])) : new(0, 0, 0, said);

        static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
    }
}
