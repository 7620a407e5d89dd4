using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Processes;

[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class DiskTests
{
    /// <summary>No file may grow beyond 1 MiB, as on a full disk: then a plain word, and whatever was kept before is there when there is room again.</summary>
    [Fact]
    public async Task A_full_disk_is_said_plainly_and_loses_nothing()
    {
        string folder = TestPlaces.Sqlite().Folder;
        using HttpClient client = new(new SocketsHttpHandler { CookieContainer = new() });
        using (ServerProcess server = await ServerProcess.StartAsync(folder, isNew: true))
        {
            HttpResponseMessage made = await Served.SignUpAsync(client, server.Code, server.Address);
            Assert.Equal(HttpStatusCode.OK, made.StatusCode);
        }

        List<Guid> kept = [];
        ProblemReply? full = null;
        // The signal that goes with the limit is ignored, so that the write fails instead; the runtime's own large mappings need no limit.
        using (ServerProcess server = await ServerProcess.StartAsync(
            folder, before: "trap '' XFSZ; export DOTNET_EnableWriteXorExecute=0 DOTNET_EnableDiagnostics=0; ulimit -f 2048;"))
        {
            for (int i = 0; full is null && i < 2000; i++)
            {
                Change change = Made.Yard(Guid.CreateVersion7());
                HttpResponseMessage answer = await client.PostAsync(
                    new Uri(server.Address, "/api/changes"), Served.Json(new ChangeBatch([change]), WorkshopJson.Default.ChangeBatch));
                if (answer.IsSuccessStatusCode)
                {
                    kept.Add(change.Record);
                }
                else
                {
                    Assert.Equal(HttpStatusCode.InsufficientStorage, answer.StatusCode);
                    full = await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ProblemReply);
                }
            }

            Assert.Contains("full", full?.Detail, StringComparison.Ordinal);
            Assert.Equal(HttpStatusCode.OK, (await client.GetAsync(new Uri(server.Address, "/api/bench"))).StatusCode);
        }

        Assert.NotEmpty(kept);
        using ServerProcess roomy = await ServerProcess.StartAsync(folder);
        RecordPage page = (await client.GetFromJsonAsync(new Uri(roomy.Address, "/api/records?limit=2000"), WorkshopJson.Default.RecordPage))!;
        Assert.Equal(kept, page.Records.Select(record => record.Id));
    }

    [Fact]
    public async Task A_folder_that_may_only_be_read_is_refused_in_one_line()
    {
        string folder = TestPlaces.Sqlite().Folder;
        File.SetUnixFileMode(folder, UnixFileMode.UserRead | UnixFileMode.UserExecute | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
        // The almighty may write everywhere; they try it without that right, and still themselves: others may not even enter the folders above a clone.
        string before = Environment.UserName == "root" ? "LAUNCHER='setpriv --bounding-set=-dac_override,-dac_read_search --inh-caps=-dac_override,-dac_read_search';" : "";
        (int exitCode, string error) = await ServerProcess.RunAsync(folder, before);
        Assert.Equal(2, exitCode);
        Assert.Contains("may only be read", Assert.Single(error.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_occupied_address_and_a_second_server_on_a_folder_are_refused_in_one_line()
    {
        string folder = TestPlaces.Sqlite().Folder;
        using ServerProcess server = await ServerProcess.StartAsync(folder, isNew: true);
        (int exitCode, string error) = await ServerProcess.RunAsync(folder);
        Assert.Equal(2, exitCode);
        Assert.Contains("another server", Assert.Single(error.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);

        using MemoryStream input = new(), output = new(), complaint = new();
        int occupied = Cli.Shell.Run(
            ["serve", "--urls", server.Address.ToString(), "--data", TestPlaces.Sqlite().Folder], new Cli.Terminal(() => input, () => output, () => complaint),
            Swardloop.Server.Serving.ServerCommands.Find);
        Assert.Equal(2, occupied);
        Assert.Contains("cannot listen", System.Text.Encoding.UTF8.GetString(complaint.ToArray()), StringComparison.Ordinal);
    }
}
