using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Swardloop.Drawing;
using Swardloop.Drawing.Host;

WebAssemblyHostBuilder builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddScoped<Engine>();
await builder.Build().RunAsync();
