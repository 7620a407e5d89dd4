using System.Runtime.CompilerServices;

namespace Swardloop.Core;

/// <summary>Argument checks, written so that NaN fails every one of them.</summary>
internal static class Guard
{
    public static void Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, value, "Needs a finite number.");
        }
    }

    public static void Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value > 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(name, value, "Needs a finite number above zero.");
        }
    }

    public static void NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(value >= 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(name, value, "Needs a finite number, zero or more.");
        }
    }

    public static void Finite(Geometry.Vec3 value, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (!(double.IsFinite(value.X) && double.IsFinite(value.Y) && double.IsFinite(value.Z)))
        {
            throw new ArgumentOutOfRangeException(name, value, "Needs finite coordinates.");
        }
    }
}
