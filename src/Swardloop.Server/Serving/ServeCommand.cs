using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Swardloop.Cli;
using Swardloop.Storage;

namespace Swardloop.Server.Serving;

/// <summary><c>swardloop serve</c>: the workshop's web app, until it is told to stop.</summary>
internal sealed class ServeCommand : ICommand
{
    /// <summary>Where it listens when nothing else is asked: this machine only.</summary>
    public const string DefaultUrls = "http://127.0.0.1:5080";

    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.Serve;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        ServeAsync(call).GetAwaiter().GetResult();
        return new Ended();
    }

    private static async Task ServeAsync(Invocation call)
    {
        string urls = call.Value("--urls") ?? DefaultUrls;
        foreach (string url in urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            try
            {
                _ = BindingAddress.Parse(url);
            }
            catch (FormatException)
            {
                throw call.Wrong("--urls", $"{SafeText.Quoted(url)} is no address", $"such as {DefaultUrls}");
            }
        }

        IPAddress[] proxies = Proxies(call);
        WorkshopPlace place = WorkshopPlace.Of(call);
        IDatabaseEngine engine = place.Engine();
        using FolderLock? alone = place.ConnectionString is null ? FolderLock.Take(place.Folder) : null;
        WorkshopMark mark = await place.OpenAsync(engine, CancellationToken.None);
        await using WebApplication app = WorkshopApp.Build(engine, mark, urls, proxies: proxies);
        try
        {
            await app.StartAsync();
        }
        catch (Exception fault) when (fault is IOException or System.Net.Sockets.SocketException or InvalidOperationException)
        {
            await app.StopAsync(); // what runs in the background has begun already
            throw call.Wrong("--urls", $"cannot listen on {urls}: {fault.Message.TrimEnd('.')}", "an address of this machine that is free");
        }

        using (TextWriter text = Terminal.TextOnto(call.Terminal.Output))
        {
            string addresses = string.Join(" and ", app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses);
            text.WriteLine($"Swardloop{(mark.IsDemo ? ", the demo workshop," : "")} is at {addresses} (data: {engine.Place})");
            if (mark.FirstAccountCode is { } code)
            {
                text.WriteLine($"There is no account yet. Open the page and make the first one with this code: {code}");
            }
        }

        await app.WaitForShutdownAsync();
    }

    private static IPAddress[] Proxies(Invocation call)
    {
        List<IPAddress> proxies = [];
        foreach (string text in (call.Value("--behind-proxy") ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            proxies.Add(IPAddress.TryParse(text, out IPAddress? address)
                ? address
                : throw call.Wrong("--behind-proxy", $"{SafeText.Quoted(text)} is no IP address", "an address such as 127.0.0.1; several with commas between"));
        }

        return [.. proxies];
    }

    private sealed class Ended : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteEndObject();
        }
    }
}
