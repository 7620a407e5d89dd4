using System.Text.Json.Nodes;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Device;

/// <content>Practice yards, and sheets.</content>
public sealed partial class WorkshopServer
{
    public Task<IReadOnlyList<PracticeEntry>> PracticeAsync() => GetAsync("api/practice", Json.IReadOnlyListPracticeEntry);

    public Task<PracticeState> BeginPracticeAsync(PracticeLevel level) => SendAsync(HttpMethod.Post, "api/practice", new NewPractice(level), Json.NewPractice, Json.PracticeState);

    public Task<PracticeState> PracticeAsync(Guid id, string language) => GetAsync($"api/practice/{id}?language={language}", Json.PracticeState);

    public Task<PracticeState> DoInPracticeAsync(Guid id, int after, JsonObject step, string language) =>
        SendAsync(HttpMethod.Post, $"api/practice/{id}/steps?language={language}", new PracticeStep(after, step), Json.PracticeStep, Json.PracticeState);

    public Task<PracticeState> EndPracticeAsync(Guid id, string language) => PostAsync($"api/practice/{id}/end?language={language}", Json.PracticeState);

    /// <summary>A sheet as a message.</summary>
    public async Task<string> SheetTextAsync(string address)
    {
        using HttpResponseMessage answer = await AnswerAsync(new(HttpMethod.Get, address)).ConfigureAwait(true);
        return await answer.Content.ReadAsStringAsync().ConfigureAwait(true);
    }

    /// <summary>Plays one step more of the advice's way.</summary>
    public Task<PracticeWay> PlayEngineAsync(Guid id, string language) => PostAsync($"api/practice/{id}/engine?language={language}", Json.PracticeWay);
}
