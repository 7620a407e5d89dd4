using System.Runtime.Intrinsics;

namespace Swardloop.Core.Fields;

/// <summary>How many doubles are worked on at once. Any choice gives the same bits; it is a matter of speed only.</summary>
/// <remarks>Code for several lanes is never compiled ahead, as machines differ in them. A program that answers one small question and ends would
/// wait for the compiler longer than for the answer; a server or a large map gains from it at once.</remarks>
internal static class LaneChoice
{
    // About what takes as long one by one as compiling does.
    private const long WorthCompiling = 1_000_000;

    private static long _done;

    /// <summary>Whether the processor has registers for <see cref="WideLanes"/>.</summary>
    public static bool IsWide { get; } = Vector512.IsHardwareAccelerated;

    /// <summary>Whether work goes one by one: single places always, the rest until this process has done so much of it that compiling pays.</summary>
    /// <param name="places">Places to work on.</param>
    /// <param name="pieces">Pieces of wire for each.</param>
    public static bool IsOneByOne(int places, int pieces)
    {
        if (places == 1)
        {
            return true;
        }

        if (_done < WorthCompiling)
        {
            _done += (long)places * pieces; // threads may lose each other's share here, which only puts the change off a little
            return true;
        }

        return false;
    }
}
