using Swardloop.Client.Device;
using Swardloop.Client.Wording;
using Swardloop.Drawing;

namespace Swardloop.Client.Yards;

/// <summary>The device's position, as the drawing board asks for it.</summary>
public static class Here
{
    /// <summary>Asks once, when called.</summary>
    public static Func<Task<HerePosition>> Of(ThisDevice device, Texts texts) => async () =>
    {
        DevicePosition position = await device.Page.PositionAsync().ConfigureAwait(true);
        return new(position.LatitudeDegrees, position.LongitudeDegrees, position.AccuracyMetres, position.Fault is { } fault ? texts.NoPositionOnPlan(fault) : null);
    };
}
