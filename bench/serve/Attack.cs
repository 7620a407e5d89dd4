using System.Buffers.Binary;
using System.Diagnostics;
using System.Globalization;
using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Owners;
using Swardloop.Workshop.Records;

namespace Swardloop.Bench.Serve;

/// <summary>Readers of the bench list while pictures made to harm arrive, a dozen at once, one dozen after the other; the server is a process of its own.</summary>
internal static class Attack
{
    private const int AtOnce = 12, Connections = 8, ReadsPerSecond = 100, ClaimedPixels = 7700, OpenedPixels = 4890;

    private static readonly TimeSpan Window = TimeSpan.FromSeconds(15);

    /// <summary>Runs it on a folder with a workshop that has no account yet.</summary>
    /// <returns>0 when the promises are kept, else 1.</returns>
    public static async Task<int> RunAsync(string folder, string examples)
    {
        using Process server = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "swardloop-server.dll"), "serve", "--urls", "http://127.0.0.1:0", "--data", folder])
        {
            RedirectStandardOutput = true,
        }) ?? throw new InvalidOperationException("The server does not start.");
        try
        {
            string first = await server.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("The server does not start.");
            string second = await server.StandardOutput.ReadLineAsync() ?? "";
            Uri address = new(first.Split(' ').Single(word => word.StartsWith("http://", StringComparison.Ordinal)));
            (string cookie, HttpClient client) = await SignUpAsync(address, second.Split("code: ")[^1]);
            using HttpClient signedIn = client;
            (string link, Guid photo) = await OpenDoorsAsync(client, examples);

            byte[] claiming = Png(ClaimedPixels, isWhole: false), opening = Png(OpenedPixels, isWhole: true);
            Load list = new(address, "/api/bench", cookie);
            await list.MeasureAsync(Connections, TimeSpan.FromSeconds(5));
            Console.WriteLine($"Workshop of {BusyWorkshop.Yards:N0} yards and {BusyWorkshop.Cases:N0} cases; the server is a process of its own. {ReadsPerSecond} reads of the bench list a second for {Window.TotalSeconds:F0} s,");
            Console.WriteLine($"from the moment each was due to its last byte, over {Connections} connections; meanwhile {AtOnce} pictures at once, again and again.");
            Console.WriteLine();
            double quiet = await LineAsync("nobody attacks", null);
            double byDesk = await LineAsync($"{claiming.Length} bytes claim {ClaimedPixels:N0} x {ClaimedPixels:N0}, by an account", async () => (await PutAsync(client, photo, claiming)).StatusCode is HttpStatusCode.UnsupportedMediaType or HttpStatusCode.ServiceUnavailable);
            double byLink = await LineAsync("the same, by an owner's link", async () => !await SendAsync(client, link, claiming));
            double opened = await LineAsync($"{opening.Length:N0} bytes open to {OpenedPixels:N0} x {OpenedPixels:N0}, by an account", async () => (await PutAsync(client, photo, opening)).StatusCode is HttpStatusCode.NoContent or HttpStatusCode.ServiceUnavailable);
            double memory = PeakMegabytes(server.Id), worst = Math.Max(byDesk, byLink);
            Console.WriteLine();
            Console.WriteLine($"p99 under the {claiming.Length}-byte attack: {worst:F1} ms (less than 100 ms promised), {worst / quiet:F1} times the quiet one; under pictures that do open {opened:F1} ms, {opened / quiet:F1} times");
            Console.WriteLine($"peak memory of the server: {memory:F0} MB (less than 700 MB promised)");
            bool isMet = worst < 100 && memory < 700;
            Console.WriteLine(isMet ? "Promises kept." : "PROMISES NOT KEPT.");
            return isMet ? 0 : 1;

            async Task<double> LineAsync(string what, Func<Task<bool>>? send)
            {
                using CancellationTokenSource end = new();
                int sent = 0;
                Task attack = send is null ? Task.CompletedTask : Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => Task.Run(async () =>
                {
                    while (!end.IsCancellationRequested)
                    {
                        if (!await send())
                        {
                            throw new InvalidOperationException($"{what}: not answered as it should be");
                        }

                        Interlocked.Increment(ref sent);
                        await Task.Delay(TimeSpan.FromMilliseconds(100));
                    }
                })));
                double[] waits = await list.PacedAsync(Connections, ReadsPerSecond, Window);
                await end.CancelAsync();
                await attack;
                Array.Sort(waits);
                double p99 = waits[waits.Length * 99 / 100];
                Console.WriteLine($"{what,-62} median {waits[waits.Length / 2],7:F2} ms, p99 {p99,7:F1} ms, longest {waits[^1],7:F1} ms, {sent,5} pictures, peak {PeakMegabytes(server.Id),4:F0} MB");
                return p99;
            }
        }
        finally
        {
            server.Kill();
            await server.WaitForExitAsync();
        }
    }

    private static async Task<(string Cookie, HttpClient Client)> SignUpAsync(Uri address, string code)
    {
        HttpClient client = new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false, MaxConnectionsPerServer = 2 * AtOnce }, disposeHandler: true) { BaseAddress = address };
        using StringContent who = Json(JsonSerializer.Serialize(new FirstAccount(code, "Robin Thimble", "robin@swardloop.example", "otters like brambles"), WorkshopJson.Default.FirstAccount));
        using HttpResponseMessage made = await client.PostAsync(new Uri("/api/first-account", UriKind.Relative), who);
        made.EnsureSuccessStatusCode();
        string cookie = made.Headers.GetValues("Set-Cookie").First().Split(';')[0];
        client.DefaultRequestHeaders.Add("Cookie", cookie);
        return (cookie, client);
    }

    /// <summary>A photo's record and an owner's link.</summary>
    private static async Task<(string Link, Guid Photo)> OpenDoorsAsync(HttpClient client, string examples)
    {
        JsonElement file = JsonDocument.Parse(await File.ReadAllTextAsync(Path.Combine(examples, "sorrel-corner.yard.json"))).RootElement;
        Guid yard = Guid.CreateVersion7(), @case = Guid.CreateVersion7(), photo = Guid.CreateVersion7();
        OwnerAddress address = OwnerAddress.Make(Guid.CreateVersion7(), RandomNumberGenerator.GetBytes(OwnerAddress.SecretBytes));
        ChangeBatch batch = new([
            BusyWorkshop.Change(RecordKind.Yard, yard, new { name = "Thimble Dell", file }),
            BusyWorkshop.Change(RecordKind.Case, @case, new { yard, complaint = "stops", state = "open" }),
            BusyWorkshop.Change(RecordKind.Photo, photo, new { of = yard }),
            BusyWorkshop.Change(RecordKind.OwnerLink, address.Link, new { @case, yard, secretHash = address.SecretHash, expiresAt = DateTimeOffset.UtcNow.AddDays(7).ToString("O", CultureInfo.InvariantCulture) }),
        ]);
        using StringContent body = Json(JsonSerializer.Serialize(batch, WorkshopJson.Default.ChangeBatch));
        using HttpResponseMessage kept = await client.PostAsync(new Uri("/api/changes", UriKind.Relative), body);
        ChangeResults results = JsonSerializer.Deserialize(await kept.Content.ReadAsByteArrayAsync(), WorkshopJson.Default.ChangeResults)!;
        return results.Results.All(result => result.Status == ChangeStatus.Kept)
            ? ($"/o/{address.ToPath()}/photo", photo)
            : throw new InvalidOperationException(string.Join("; ", results.Results.SelectMany(result => result.Problems)));
    }

    private static async Task<HttpResponseMessage> PutAsync(HttpClient client, Guid photo, byte[] picture)
    {
        using ByteArrayContent body = new(picture);
        body.Headers.ContentType = new("image/png");
        return await client.PutAsync(new Uri($"/api/photos/{photo}", UriKind.Relative), body);
    }

    // True when it was taken. A link may only be asked so often a minute; what is beyond is turned away, as it would be for an attacker.
    private static async Task<bool> SendAsync(HttpClient client, string link, byte[] picture)
    {
        using MultipartFormDataContent form = new() { { new StringContent(Guid.CreateVersion7().ToString()), "once" } };
        ByteArrayContent photo = new(picture);
        photo.Headers.ContentType = new MediaTypeHeaderValue("image/png");
        form.Add(photo, "photo", "p.png");
        using HttpResponseMessage answer = await client.PostAsync(new Uri(link, UriKind.Relative), form);
        return answer.Headers.Location?.ToString().Contains("news=photo", StringComparison.Ordinal) == true;
    }

    private static StringContent Json(string json) => new(json, Encoding.UTF8, "application/json");

    private static double PeakMegabytes(int process) => double.Parse(
        File.ReadLines($"/proc/{process}/status").Single(line => line.StartsWith("VmHWM:", StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2], CultureInfo.InvariantCulture) / 1024;

    /// <summary>A square picture of one grey; or only its head and 8 bytes of data, 65 bytes in all.</summary>
    private static byte[] Png(int side, bool isWhole)
    {
        using MemoryStream png = new();
        png.Write([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
        byte[] head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, side);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), side);
        head[8] = 8; // bits of a grey
        Part(png, "IHDR", head);
        using MemoryStream data = new();
        using (ZLibStream zip = new(data, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            byte[] row = new byte[side + 1];
            for (int i = 0; i < side && isWhole; i++)
            {
                zip.Write(row);
            }
        }

        Part(png, "IDAT", isWhole ? data.ToArray() : [0x78, 0x9c, 0x63, 0, 0, 0, 1, 0]);
        Part(png, "IEND", []);
        return png.ToArray();
    }

    private static void Part(MemoryStream png, string type, byte[] data)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        png.Write(number);
        byte[] part = [.. Encoding.ASCII.GetBytes(type), .. data];
        png.Write(part);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc32Of(part));
        png.Write(number);
    }

    private static uint Crc32Of(byte[] bytes)
    {
        uint crc = uint.MaxValue;
        foreach (byte one in bytes)
        {
            crc ^= one;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? 0xedb88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        return ~crc;
    }
}
