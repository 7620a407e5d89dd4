using System.Text.Json.Nodes;
using SkiaSharp;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Owners;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Changes;

/// <summary>Makes changes as a page would.</summary>
internal static class Made
{
    public static JsonObject YardFile { get; } = JsonNode.Parse(File.ReadAllText(Repository.At("examples/sorrel-corner.yard.json")))!.AsObject();

    public static Change Change(RecordKind kind, Guid record, JsonObject set, params (string Field, Guid[] Ids)[] seen)
    {
        using JsonDocument document = JsonDocument.Parse(set.ToJsonString());
        return new(
            Guid.CreateVersion7(), kind, record,
            document.RootElement.EnumerateObject().ToDictionary(field => field.Name, field => field.Value.Clone()),
            seen.ToDictionary(one => one.Field, one => (IReadOnlyList<Guid>)one.Ids),
            new DateTimeOffset(2026, 5, 14, 9, 30, 0, TimeSpan.FromHours(2)));
    }

    public static Change Owner(Guid id, string name = "Tamsin Brook") => Change(RecordKind.Owner, id, new() { ["name"] = name, ["phone"] = "01632 960 123" });

    public static Change Yard(Guid id, Guid? owner = null)
    {
        JsonObject set = new() { ["name"] = "Sorrel Corner", ["file"] = YardFile.DeepClone(), ["address"] = "3 Mill Lane" };
        if (owner is { } whose)
        {
            set["owner"] = whose.ToString();
        }

        return Change(RecordKind.Yard, id, set);
    }

    public static Change Case(Guid id, Guid yard) =>
        Change(RecordKind.Case, id, new() { ["yard"] = yard.ToString(), ["complaint"] = "stops in the middle", ["state"] = "open" });

    public static Change Observation(Guid id, Guid yard, Guid? @case, string reading)
    {
        JsonObject set = new() { ["yard"] = yard.ToString(), ["reading"] = JsonNode.Parse(reading) };
        if (@case is { } of)
        {
            set["case"] = of.ToString();
        }

        return Change(RecordKind.Observation, id, set);
    }

    /// <summary>Makes an owner's link and gives its address.</summary>
    public static async Task<string> LinkAsync(this HttpClient client, Guid yard, Guid @case, Guid? link = null)
    {
        OwnerAddress address = OwnerAddress.Make(link ?? Guid.CreateVersion7(), System.Security.Cryptography.RandomNumberGenerator.GetBytes(OwnerAddress.SecretBytes));
        await client.KeepAsync(Change(RecordKind.OwnerLink, address.Link, new()
        {
            ["case"] = @case.ToString(),
            ["yard"] = yard.ToString(),
            ["secretHash"] = address.SecretHash,
            ["expiresAt"] = DateTimeOffset.UtcNow.AddDays(7).ToString("O"),
        }));
        return $"/o/{address.ToPath()}";
    }

    /// <summary>A picture of a lawn with a white disc; noise makes one that takes as many bytes as a photo does.</summary>
    public static byte[] Picture(SKEncodedImageFormat format = SKEncodedImageFormat.Jpeg, int width = 64, int height = 48, int? noise = null)
    {
        using SKBitmap bitmap = new(width, height);
        using SKCanvas canvas = new(bitmap);
        canvas.Clear(SKColors.SeaGreen);
        using SKPaint paint = new() { Color = SKColors.White };
        canvas.DrawCircle(width / 2f, height / 2f, height / 3f, paint);
        if (noise is { } seed)
        {
            using SKShader grain = SKShader.CreatePerlinNoiseTurbulence(0.3f, 0.3f, 4, seed);
            using SKPaint rough = new() { Shader = grain };
            canvas.DrawPaint(rough);
        }

        using SKData data = bitmap.Encode(format, 90);
        return data.ToArray();
    }

    /// <summary>Hands in the picture of a photo record.</summary>
    public static async Task<HttpResponseMessage> PutPhotoAsync(this HttpClient client, Guid photo, byte[]? picture = null, Uri? server = null)
    {
        using ByteArrayContent body = new(picture ?? Picture());
        body.Headers.ContentType = new("image/jpeg");
        string call = $"/api/photos/{photo}";
        return await client.PutAsync(server is null ? new Uri(call, UriKind.Relative) : new Uri(server, call), body);
    }

    public static async Task<IReadOnlyList<ChangeResult>> SendAsync(this HttpClient client, params Change[] changes)
    {
        HttpResponseMessage answer = await client.PostAsync("/api/changes", Served.Json(new ChangeBatch(changes), WorkshopJson.Default.ChangeBatch));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ChangeResults))!.Results;
    }

    public static async Task KeepAsync(this HttpClient client, params Change[] changes) =>
        Assert.All(await client.SendAsync(changes), result => Assert.True(result.Status == ChangeStatus.Kept, string.Join("; ", result.Problems)));

    public static async Task<RecordPage> PageAsync(this HttpClient client, long since = 0, int limit = 2000) =>
        (await client.GetFromJsonAsync($"/api/records?since={since}&limit={limit}", WorkshopJson.Default.RecordPage))!;
}
