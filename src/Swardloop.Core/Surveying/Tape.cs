namespace Swardloop.Core.Surveying;

/// <summary>One distance taped between two points, in the plane.</summary>
/// <param name="From">Name of one end.</param>
/// <param name="To">Name of the other.</param>
/// <param name="Metres">What the tape read (m), above zero.</param>
/// <param name="DeviationMetres">One standard deviation of that (m), above zero; see <see cref="DefaultDeviationMetres"/>.</param>
/// <param name="Side">Where <paramref name="To"/> lies, seen along the line from the station of its first tape to the station of its second,
/// in the order in which they were noted; null where it is not said.</param>
public sealed record Tape(string From, string To, double Metres, double DeviationMetres, TapeSide? Side = null)
{
    /// <summary>One standard deviation of a tape across grass when nothing else is said (m): 0.02 m and 0.2 % of the length. Common practice, no source.</summary>
    /// <param name="metres">What the tape read (m), zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static double DefaultDeviationMetres(double metres)
    {
        Guard.NotNegative(metres);
        return 0.02 + (0.002 * metres);
    }
}
