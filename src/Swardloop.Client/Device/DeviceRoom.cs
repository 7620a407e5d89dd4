namespace Swardloop.Client.Device;

/// <summary>Room in the browser's store.</summary>
/// <param name="UsedBytes">Bytes used; −1 when the browser does not say.</param>
/// <param name="MostBytes">Bytes there may be; −1 when the browser does not say.</param>
/// <param name="IsLasting">Whether the browser promised to keep it.</param>
public readonly record struct DeviceRoom(double UsedBytes, double MostBytes, bool IsLasting)
{
    // A day's entries are some hundred kilobytes, a dozen photos some megabytes: this much is a day's work.
    private const double DaysWorkBytes = 20e6;

    /// <summary>Whether the browser says how much there is.</summary>
    public bool IsKnown => UsedBytes >= 0 && MostBytes > 0;

    /// <summary>Whether less is left than a day's work may take.</summary>
    public bool IsNearlyFull => IsKnown && MostBytes - UsedBytes < DaysWorkBytes;
}
