using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Swardloop.Bench.Field;

/// <summary>What this machine can do of just the formula's unavoidable work: for each piece and place one square root, one division and fourteen
/// multiplications and additions, all in registers, nothing loaded, nothing waiting for anything else.</summary>
internal static class Limit
{
    /// <summary>Pieces × places worked off per call and lane; any number will do.</summary>
    public const int Rounds = 400_000;

    /// <summary>Does the work of 4 × <see cref="Rounds"/> pieces on as many places as there are lanes.</summary>
    /// <returns>Number of pieces × places done; the sum is returned so that nothing can be left out.</returns>
    public static (long Terms, double Sum) Run() => Vector512.IsHardwareAccelerated ? Run512() : Run256();

    // Four chains of their own keep the divider busy: it is what bounds the formula, the rest fits beside it.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static (long Terms, double Sum) Run512()
    {
        Vector512<double> a = Vector512.Create(1.1), b = Vector512.Create(1.2), c = Vector512.Create(1.3), d = Vector512.Create(1.4);
        Vector512<double> step = Vector512.Create(1e-9), left = Vector512<double>.Zero, right = left;
        for (int i = 0; i < Rounds; i++)
        {
            left += Seven512(Vector512.Sqrt(a), step) / b;
            right += Seven512(Vector512.Sqrt(b), step) / c;
            left += Seven512(Vector512.Sqrt(c), step) / d;
            right += Seven512(Vector512.Sqrt(d), step) / a;
            (a, b, c, d) = (a + step, b + step, c + step, d + step);
        }

        return (4L * Rounds * Vector512<double>.Count, Vector512.Sum(left + right));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Seven512(Vector512<double> x, Vector512<double> k)
    {
        Vector512<double> p = (x * k) + x, q = (x * x) + k, r = (k * k) + x;
        return (p * q) + (r * x) + (((p * k) + q) * ((r * k) + k));
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static (long Terms, double Sum) Run256()
    {
        Vector256<double> a = Vector256.Create(1.1), b = Vector256.Create(1.2), c = Vector256.Create(1.3), d = Vector256.Create(1.4);
        Vector256<double> step = Vector256.Create(1e-9), left = Vector256<double>.Zero, right = left;
        for (int i = 0; i < Rounds; i++)
        {
            left += Seven256(Vector256.Sqrt(a), step) / b;
            right += Seven256(Vector256.Sqrt(b), step) / c;
            left += Seven256(Vector256.Sqrt(c), step) / d;
            right += Seven256(Vector256.Sqrt(d), step) / a;
            (a, b, c, d) = (a + step, b + step, c + step, d + step);
        }

        return (4L * Rounds * Vector256<double>.Count, Vector256.Sum(left + right));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Seven256(Vector256<double> x, Vector256<double> k)
    {
        Vector256<double> p = (x * k) + x, q = (x * x) + k, r = (k * k) + x;
        return (p * q) + (r * x) + (((p * k) + q) * ((r * k) + k));
    }
}
