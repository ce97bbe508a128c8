using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Valvewright.EmptyPage;

WebAssemblyHostBuilder builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<Nothing>("#app");
await builder.Build().RunAsync();
