using Swardloop.Server.Serving;

namespace Swardloop.Server.Tests.Serving;

/// <summary>Empty places for workshops.</summary>
internal static class TestPlaces
{
    /// <summary>A folder of its own; the operating system's temporary folder is cleared by whoever clears it.</summary>
    public static WorkshopPlace Sqlite(bool isDemo = false) => new(Directory.CreateTempSubdirectory("swardloop-test-").FullName, null, isDemo);
}
