using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Swardloop.Core.Fields;

/// <summary>The one field kernel: many places on a west–east line against all pieces of a level wire.</summary>
/// <remarks>
/// Symbols are those of <see cref="SegmentField"/>. On one line the northward and upward parts of all products are constants, worked out once per
/// piece and line. What is left per piece and place is one square root (neighbouring pieces share a corner and its distance), half a division and
/// some twenty multiplications and additions: two terms are brought over one denominator, n1/e1 + n2/e2 = (n1 e2 + n2 e1)/(e1 e2), because
/// division and square root share the processor's slowest unit.
/// The two forms of the denominator (see <see cref="SegmentField"/>) are both built from d1 d2 + |r1·r2|, which never cancels, and
/// chosen by the sign of r1·r2 without a branch. Denominators lie within the fourth power of the distances, products of two within the
/// eighth: no overflow below 1e38 m, no underflow above 1e-38 m.
/// </remarks>
internal static class RowKernel
{
    /// <summary>Constants of one piece on one line.</summary>
    /// <param name="EndEast">Easting of the piece's end.</param>
    /// <param name="EndSquare">Square of the end's distance from the line, height included.</param>
    /// <param name="CrossHere">(r1×r2)z is <c>CrossHere − CrossSlope·x1</c>.</param>
    /// <param name="CrossSlope">Northing gained along the piece.</param>
    /// <param name="Dot">North and up part of r1·r2.</param>
    /// <param name="LevelSquare">Square of the level part of r1×r2: (height × length)².</param>
    [StructLayout(LayoutKind.Sequential)]
    internal readonly record struct Piece(
        double EndEast, double EndSquare, double CrossHere, double CrossSlope, double Dot, double LevelSquare);

    /// <summary>Fills a row with the vertical field for one ampere (1/m).</summary>
    /// <param name="cornersEast">Eastings of the wire's corners, at least two.</param>
    /// <param name="cornersNorth">Their northings.</param>
    /// <param name="squaredHeight">Square of the height of the line over the wire, above zero.</param>
    /// <param name="north">Northing of the line.</param>
    /// <param name="east">Eastings of the places.</param>
    /// <param name="field">Receives the field at each.</param>
    public static void Fill(
        ReadOnlySpan<double> cornersEast, ReadOnlySpan<double> cornersNorth, double squaredHeight, double north, ReadOnlySpan<double> east, Span<double> field)
    {
        if (LaneChoice.IsOneByOne(east.Length, cornersEast.Length))
        {
            Fill<OneLane>(cornersEast, cornersNorth, squaredHeight, north, east, field);
        }
        else if (LaneChoice.IsWide)
        {
            Fill<WideLanes>(cornersEast, cornersNorth, squaredHeight, north, east, field);
        }
        else
        {
            Fill<PortableLanes>(cornersEast, cornersNorth, squaredHeight, north, east, field);
        }
    }

    internal static void Fill<T>(
        ReadOnlySpan<double> cornersEast, ReadOnlySpan<double> cornersNorth, double squaredHeight, double north, ReadOnlySpan<double> east, Span<double> field)
        where T : struct, ILanes<T>
    {
        const int OnStack = 64;
        int count = cornersEast.Length - 1;
        Span<Piece> pieces = count <= OnStack ? stackalloc Piece[OnStack] : new Piece[count];
        pieces = pieces[..count];
        for (int k = 0; k < count; k++)
        {
            double north1 = north - cornersNorth[k], north2 = north - cornersNorth[k + 1];
            double alongEast = cornersEast[k + 1] - cornersEast[k], alongNorth = cornersNorth[k + 1] - cornersNorth[k];
            pieces[k] = new(
                cornersEast[k + 1],
                (north2 * north2) + squaredHeight,
                alongEast * north1,
                alongNorth,
                (north1 * north2) + squaredHeight,
                ((alongEast * alongEast) + (alongNorth * alongNorth)) * squaredHeight);
        }

        double firstNorth = north - cornersNorth[0], firstSquare = (firstNorth * firstNorth) + squaredHeight;
        int i = 0;
        for (; i + T.Count <= east.Length; i += T.Count)
        {
            Sum(T.Load(east[i..]), cornersEast[0], firstSquare, pieces).Store(field[i..]);
        }

        if (i < east.Length)
        {
            // The last few places ride in a full set of lanes, so that they meet the very same operations.
            Span<double> padded = stackalloc double[T.Count];
            padded.Fill(east[i]);
            east[i..].CopyTo(padded);
            Sum(T.Load(padded), cornersEast[0], firstSquare, pieces).Store(padded);
            padded[..(east.Length - i)].CopyTo(field[i..]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Sum<T>(T east, double firstEast, double firstSquare, ReadOnlySpan<Piece> pieces)
        where T : struct, ILanes<T>
    {
        T x1 = east - T.All(firstEast), d1 = T.SquareRoot((x1 * x1) + T.All(firstSquare)), sum = T.All(0);
        int k = 0;
        for (; k + 2 <= pieces.Length; k += 2)
        {
            Term(east, pieces[k], ref x1, ref d1, out T above, out T below);
            Term(east, pieces[k + 1], ref x1, ref d1, out T nextAbove, out T nextBelow);
            sum += ((above * nextBelow) + (nextAbove * below)) / (below * nextBelow);
        }

        if (k < pieces.Length)
        {
            Term(east, pieces[k], ref x1, ref d1, out T above, out T below);
            sum += above / below;
        }

        return sum * T.All(1 / (4 * Math.PI));
    }

    // One piece's field, times 4π, as a fraction. Moves x1 and d1 on to the piece's end. A piece of no length gives zero over something sound.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Term<T>(T east, in Piece piece, ref T x1, ref T d1, out T above, out T below)
        where T : struct, ILanes<T>
    {
        T x2 = east - T.All(piece.EndEast), d2 = T.SquareRoot((x2 * x2) + T.All(piece.EndSquare));
        T cross = T.All(piece.CrossHere) - (T.All(piece.CrossSlope) * x1);
        T dot = (x1 * x2) + T.All(piece.Dot);
        T product = d1 * d2;
        T sound = product + T.Abs(dot);
        T square = (cross * cross) + T.All(piece.LevelSquare);
        above = cross * (d1 + d2) * T.WhereNegative(dot, sound, T.All(1));
        below = product * T.WhereNegative(dot, square, sound);
        (x1, d1) = (x2, d2);
    }
}
