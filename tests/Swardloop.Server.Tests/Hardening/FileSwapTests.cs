using Microsoft.Data.Sqlite;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Somebody puts a copy in the place of the database while the server runs.</summary>
public sealed class FileSwapTests
{
    [Fact]
    public async Task A_copy_renamed_over_the_database_under_the_server_is_refused_and_nothing_answered_as_kept_is_lost()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        string file = Path.Combine(place.Folder, SqliteEngine.FileName), copy = Path.Combine(place.Folder, "copy.db");
        await using (Served served = await Served.StartAsync(place))
        {
            using HttpClient desk = await served.AsAsync(Role.Desk);
            await desk.KeepAsync(Made.Owner(Guid.CreateVersion7()), Made.Owner(Guid.CreateVersion7()));
            await using (SqliteConnection connection = new($"Data Source={file};Pooling=False"))
            {
                await connection.OpenAsync(TestContext.Current.CancellationToken);
                await using SqliteCommand command = connection.CreateCommand();
                command.CommandText = $"VACUUM INTO '{copy}'";
                await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
            }

            await desk.KeepAsync(Made.Owner(Guid.CreateVersion7()));
            File.Move(copy, file, overwrite: true);
            for (int i = 0; i < 5; i++)
            {
                HttpResponseMessage answer = await desk.PostAsync(
                    "/api/changes", Served.Json(new ChangeBatch([Made.Owner(Guid.CreateVersion7())]), WorkshopJson.Default.ChangeBatch));
                Assert.Equal(HttpStatusCode.InsufficientStorage, answer.StatusCode);
                Assert.Contains("in the place of the database", (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ProblemReply))!.Detail, StringComparison.Ordinal);
            }
        }

        // Everything answered as kept is in the rescued file.
        string rescued = Assert.Single(Directory.GetFiles(place.Folder, "workshop.rescued-*.db"));
        await using (SqliteConnection connection = new($"Data Source={rescued};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "SELECT COUNT(*) FROM Records";
            Assert.Equal(3L, await command.ExecuteScalarAsync(TestContext.Current.CancellationToken));
        }

        await using (Served again = await Served.StartAsync(place))
        {
            // The copy is what it was, and a new start works with it.
            using HttpClient desk = await again.AsAsync(Role.Desk);
            Assert.Equal(2, (await desk.PageAsync()).Records.Count);
            await desk.KeepAsync(Made.Owner(Guid.CreateVersion7()));
        }
    }
}
