using System.Text;
using Swardloop.Cli;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Input;

public sealed class AdviceTests
{
    [Theory]
    [InlineData("thimble-court")]
    [InlineData("sorrel-corner")]
    [InlineData("marram-reach")]
    public async Task The_server_gives_the_command_lines_bytes(string name)
    {
        System.Text.Json.Nodes.JsonNode file = System.Text.Json.Nodes.JsonNode.Parse(await File.ReadAllTextAsync(Repository.At($"examples/{name}.case.json")))!;
        file["yard"] = System.Text.Json.Nodes.JsonNode.Parse(await File.ReadAllTextAsync(Repository.At($"examples/{file["yard"]}")));
        byte[] bytes = Encoding.UTF8.GetBytes(file.ToJsonString());
        using MemoryStream input = new(bytes), output = new(), error = new();
        Assert.Equal(0, Shell.Run(["advise", "-", "--json"], new Terminal(() => input, () => output, () => error)));

        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient reader = await served.AsAsync(Role.Reader);
        HttpResponseMessage answer = await reader.PostAsync("/api/advice", Served.Json(file.ToJsonString()));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(output.ToArray(), await answer.Content.ReadAsByteArrayAsync());
    }
}
