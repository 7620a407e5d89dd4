using System.Globalization;

namespace Swardloop.Storage;

/// <summary>Places in the watch list as texts: their order is the list's, and each is one yard's alone, so that the list can be read on from any of them.</summary>
public static class WatchOrder
{
    private const int Unknown = 9;

    /// <summary>A yard with a date, or one after which nothing is told apart.</summary>
    /// <param name="rank">0 to 8; smaller stands first.</param>
    /// <param name="day">The day; null stands after all days.</param>
    /// <param name="yard">The yard.</param>
    public static string Of(int rank, DateOnly? day, Guid yard) =>
        string.Create(CultureInfo.InvariantCulture, $"{rank}{day?.ToString("yyyyMMdd", CultureInfo.InvariantCulture) ?? "99999999"}{yard:N}");

    /// <summary>A yard that was not computed yet.</summary>
    public static string NotYet(Guid yard) => Of(Unknown, null, yard);
}
