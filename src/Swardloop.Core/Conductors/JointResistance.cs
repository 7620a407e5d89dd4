using Swardloop.Core.Yards;

namespace Swardloop.Core.Conductors;

/// <summary>What a healthy splice measures.</summary>
public static class JointResistance
{
    /// <summary>Ohms of one healthy joint, by style: milliohms all, so that joints matter to a loop only when they are sick.
    /// Common practice, no source.</summary>
    public static ResistanceBand HealthyOhms(JointStyle style) => style switch
    {
        JointStyle.Soldered => new(0.0002, 0.0005, 0.002),
        JointStyle.Crimped => new(0.0003, 0.001, 0.004),
        JointStyle.Gel => new(0.001, 0.003, 0.010),
        JointStyle.Clamp => new(0.001, 0.005, 0.020),
        JointStyle.Twisted => new(0.002, 0.010, 0.050),
        _ => new(0.0005, 0.005, 0.030),
    };

    /// <summary>Ohms of one healthy terminal at the station, a clamp. Common practice, no source.</summary>
    public static ResistanceBand HealthyTerminalOhms => HealthyOhms(JointStyle.Clamp);
}
