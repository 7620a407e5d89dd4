using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Serving;

namespace Swardloop.Server.Tests.Changes;

public sealed class SqliteWorkshopTests : WorkshopTests
{
    private protected override Task<WorkshopPlace> PlaceAsync() => Task.FromResult(TestPlaces.Sqlite());
}
