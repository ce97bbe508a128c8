using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using NodaTime;
using Valvewright.App;
using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;

WebAssemblyHostBuilder builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#app");
builder.Services.AddScoped(_ => new HttpClient { BaseAddress = new Uri(builder.HostEnvironment.BaseAddress) });
builder.Services.AddSingleton<IClock>(SystemClock.Instance);
builder.Services.AddScoped<Device>();
builder.Services.AddScoped<Preferences>();
builder.Services.AddScoped<PageWords>();
builder.Services.AddScoped<ServerLink>();
builder.Services.AddScoped<DeviceShelf>();
builder.Services.AddScoped<SiteShelf>();
builder.Services.AddScoped<Unsent>();
builder.Services.AddScoped<Valvewright.App.Pages.Needs.NeedsWork>();
builder.Services.AddScoped<Valvewright.App.Pages.Survey.SurveyDrafts>();
builder.Services.AddScoped<Valvewright.App.Pages.Visits.VisitDrafts>();

WebAssemblyHost host = builder.Build();
await host.Services.GetRequiredService<Preferences>().LoadAsync();
await host.Services.GetRequiredService<Unsent>().LoadAsync();
await host.RunAsync();
