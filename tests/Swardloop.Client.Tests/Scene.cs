using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Client.Cases;
using Swardloop.Client.Device;
using Swardloop.Client.Wording;
using Swardloop.Drawing;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests;

/// <summary>A page on a device in memory, talking to a server in memory.</summary>
internal sealed class Scene : IDisposable
{
    public Scene(FakeWorkshop? workshop = null, MemoryPage? page = null, TimeProvider? clock = null)
    {
        Clock = clock ?? TimeProvider.System;
        Workshop = workshop ?? new();
        Page = page ?? new();
        Browser = new();
        Browser.JSInterop.Mode = JSRuntimeMode.Loose;
        Speech speech = new(Page);
        speech.Start();
        Device = new(Page, new(new HttpClient(Workshop, disposeHandler: false) { BaseAddress = new("http://workshop.example/") }, Clock), Clock);
        Browser.Services.AddSingleton<IDevicePage>(Page);
        Browser.Services.AddSingleton(speech);
        Browser.Services.AddSingleton(Device);
        // Given as it is: the container of these tests cannot end what ends asynchronously, and here there is no worker to end.
        Browser.Services.AddSingleton(new Engine(Browser.JSInterop.JSRuntime));
        Browser.Services.AddSingleton<AdviceSource>();
        Speech = speech;
    }

    public TimeProvider Clock { get; }

    public FakeWorkshop Workshop { get; }

    public MemoryPage Page { get; }

    public BunitContext Browser { get; }

    public ThisDevice Device { get; }

    public Speech Speech { get; }

    /// <summary>Starts the device and waits until it has met the server.</summary>
    public async Task StartAsync()
    {
        await OnPageAsync(Device.StartAsync);
        if (!Workshop.IsOutOfReach)
        {
            await UntilAsync(() => Device.IsComplete && Device.Bench is not null);
        }
    }

    /// <summary>Does something on the page's turn: a browser has one thread, and nothing of the page is made for two.</summary>
    public Task OnPageAsync(Func<Task> doing) => Browser.Renderer.Dispatcher.InvokeAsync(doing);

    /// <summary>Makes a change as the page does.</summary>
    public Task ChangeAsync(Guid id, RecordKind kind, params (string, System.Text.Json.JsonElement?)[] set) => OnPageAsync(() => Device.ChangeAsync(id, kind, set));

    /// <summary>Waits for something that the device does by itself.</summary>
    public async Task UntilAsync(Func<bool> happened)
    {
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(30));
        while (!await Browser.Renderer.Dispatcher.InvokeAsync(happened))
        {
            TaskCompletionSource news = new(TaskCreationOptions.RunContinuationsAsynchronously);
            void Heard() => news.TrySetResult();
            Device.Changed += Heard;
            try
            {
                if (!await Browser.Renderer.Dispatcher.InvokeAsync(happened))
                {
                    await Task.WhenAny(news.Task, Task.Delay(200, patience.Token));
                    patience.Token.ThrowIfCancellationRequested();
                }
            }
            finally
            {
                Device.Changed -= Heard;
            }
        }
    }

    /// <summary>A yard of the examples, kept on the device.</summary>
    public async Task<Guid> AddYardAsync(string example, string name)
    {
        Guid id = Device.Replica.NewId(Device.Now);
        await ChangeAsync(id, RecordKind.Yard, ("name", Json.Text(name)), ("file", Json.Parse(File.ReadAllBytes(Example(example)))));
        return id;
    }

    /// <summary>A case with what was seen.</summary>
    public async Task<Guid> AddCaseAsync(Guid yard, params string[] readings)
    {
        Guid id = Device.Replica.NewId(Device.Now);
        await ChangeAsync(id, RecordKind.Case, ("yard", Json.Text(yard.ToString())), ("state", Json.Text("open")), ("complaint", Json.Text("stops in the middle")));
        foreach (string reading in readings)
        {
            await OnPageAsync(() => Device.KeepAsync([CaseView.Observe(Device.Replica, yard, id, Json.Parse(reading), null, Device.Now)]));
        }

        return id;
    }

    /// <summary>A file of the repository's examples.</summary>
    public static string Example(string name)
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Swardloop.slnx")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return Path.Combine(folder ?? throw new InvalidOperationException("The repository is not above the tests."), "examples", name);
    }

    public void Dispose()
    {
        Browser.Dispose();
        Device.Dispose();
    }
}
