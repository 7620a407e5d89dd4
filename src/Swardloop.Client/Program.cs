using Microsoft.AspNetCore.Components.Web;
using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Swardloop.Client;
using Swardloop.Client.Cases;
using Swardloop.Client.Device;
using Swardloop.Client.Wording;
using Swardloop.Drawing;

WebAssemblyHostBuilder builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.RootComponents.Add<HeadOutlet>("head::after");
#pragma warning disable CA1416 // This program runs in a browser and nowhere else.
BrowserPage page = new();
#pragma warning restore CA1416
#pragma warning disable CA2000 // One client for the life of the page.
WorkshopServer server = new(new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) }, TimeProvider.System);
#pragma warning restore CA2000
Speech speech = new(page);
speech.Start();
builder.Services.AddSingleton<IDevicePage>(page);
builder.Services.AddSingleton(server);
builder.Services.AddSingleton(speech);
builder.Services.AddSingleton(TimeProvider.System);
builder.Services.AddSingleton<ThisDevice>();
builder.Services.AddScoped<Engine>();
builder.Services.AddScoped<AdviceSource>();
await builder.Build().RunAsync();
