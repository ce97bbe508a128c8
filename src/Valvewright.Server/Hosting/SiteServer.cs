using System.IO.Compression;
using System.Net;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Server.Archives;
using Valvewright.Server.Fleets;
using Valvewright.Server.Jobs;
using Valvewright.Server.Pages;
using Valvewright.Server.People;
using Valvewright.Server.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Sites;
using Valvewright.Server.Visits;
using Valvewright.Store;

namespace Valvewright.Server.Hosting;

/// <summary>The server: the store behind an HTTP API (docs/api.md).</summary>
public sealed class SiteServer : IAsyncDisposable
{
    private const int LargestHeadersBytes = 16 * 1024;
    private const int LargestLineBytes = 4 * 1024;
    private const int MostConnections = 2000;

    /// <summary>So long a request's headers may take to come: half-sent requests keep no one else out for longer.</summary>
    private static readonly TimeSpan LongestHeaders = TimeSpan.FromSeconds(5);

    private readonly WebApplication app;
    private readonly SiteStore store;

    private readonly string? people;

    private SiteServer(WebApplication app, SiteStore store, string? people)
    {
        this.app = app;
        this.store = store;
        this.people = people;
    }

    /// <summary>Where it listens, once started.</summary>
    public Uri Address { get; private set; } = new("http://localhost");

    /// <summary>Who does its long work, once the silo has started.</summary>
    internal Task<Orleans.IGrainFactory> Grains => app.Services.GetRequiredService<SiloOfServer>().Grains;

    /// <summary>Opens the store and starts to listen.</summary>
    /// <param name="options">Which store, and where to listen.</param>
    /// <param name="clock">What the time is; the system's when not given.</param>
    /// <param name="cancel">Gives up.</param>
    /// <exception cref="Store.Files.StoreException">The store can't be opened.</exception>
    /// <exception cref="IOException">The address is taken, or there is no page in the folder that was named.</exception>
    public static async Task<SiteServer> StartAsync(ServerOptions options, IClock? clock = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (options.IsOpen || (options.SignIn && options.Code is not null))
        {
            throw new ArgumentException("Where other machines reach a server, it asks for a code or for a sign-in, not both.",
                nameof(options));
        }

        SiteStore store = SiteStore.Open(options.Store);
        try
        {
            SiteServer server = new(Build(options, store, clock ?? SystemClock.Instance), store,
                options.SignIn ? options.PeopleBy : null);
            await server.app.StartAsync(cancel);
            server.Address = new Uri(
                server.app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
            server.app.Services.GetRequiredService<SiloOfServer>().Begin();
            return server;
        }
        catch
        {
            store.Dispose();
            throw;
        }
    }

    /// <summary>Stops jobs, finishes requests, closes the store.</summary>
    public async ValueTask DisposeAsync()
    {
        await app.DisposeAsync();
        if (people is not null)
        {
            People.PeopleFile.Release(people);
        }

        store.Dispose();
    }

    private static WebApplication Build(ServerOptions options, SiteStore store, IClock clock)
    {
        PageFolder? page = options.Page is null ? null : PageFolder.Read(options.Page);
        // Nothing comes from the environment or the folder that it happens to be started in.
        WebApplicationBuilder builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions { ApplicationName = "Valvewright.Server" });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = Requests.Body.LargestJsonBytes;
            kestrel.Limits.MaxRequestHeadersTotalSize = LargestHeadersBytes;
            kestrel.Limits.MaxRequestLineSize = LargestLineBytes;
            kestrel.Limits.MaxConcurrentConnections = MostConnections;
            kestrel.Limits.RequestHeadersTimeout = LongestHeaders;
            kestrel.Listen(new IPEndPoint(options.Address, options.Port), listen =>
            {
                if (options.Certificate is { } certificate)
                {
                    listen.UseHttps(certificate);
                }
            });
        });
        if (options.Certificate is not null)
        {
            builder.WebHost.UseKestrelHttpsConfiguration();
        }

        builder.Logging.AddSimpleConsole().SetMinimumLevel(LogLevel.Warning).AddFilter("Microsoft.AspNetCore.Diagnostics", LogLevel.None)
            .AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Error)
            .AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        builder.Services.AddRouting().AddProblemDetails().AddSingleton(store).AddSingleton(clock).AddSingleton<JobBoard>()
            .AddSingleton(options.Silo).AddSingleton<SiloOfServer>();
        Pairing.SharedCode shared = new(options.Code, clock);
        builder.Services.AddSingleton(options).AddSingleton(shared).AddSingleton<CardEndpoints>();
        builder.Services.Configure<Microsoft.AspNetCore.Routing.RouteHandlerOptions>(o => o.ThrowOnBadRequest = true);
        builder.Services.ConfigureHttpJsonOptions(o =>
        {
            foreach (var converter in Json.Options.Converters)
            {
                o.SerializerOptions.Converters.Add(converter);
            }
        });
        builder.Services.AddOpenApi(Description.Of);
        if (options.SignIn)
        {
            builder.Services.AddPeople(options.PeopleBy, options.IsSecure, options.TriesAMinute);
        }

        AddEndpoints(builder.Services);
        builder.Services.AddSingleton<HealthEndpoints>().AddHealthChecks().AddCheck<HealthEndpoints>("store");
        // What is packed here is packed for this machine's own browser or a proxy; the answers hold no secret that their size could tell.
        builder.Services.AddResponseCompression(o =>
        {
            o.EnableForHttps = true;
            o.MimeTypes = ["application/json", ProblemWriter.MediaType, "application/yaml", "text/plain", "text/csv", "text/calendar",
                "image/svg+xml"];
        });
        builder.Services.Configure<BrotliCompressionProviderOptions>(o => o.Level = CompressionLevel.Optimal);
        WebApplication app = builder.Build();
        app.UseForwardedHeaders(PeopleServices.Proxies(options.Proxies));
        app.UseResponseCompression();
        Guard guard = new(options);
        app.UseExceptionHandler(new ExceptionHandlerOptions { ExceptionHandler = ProblemWriter.Explain });
        app.UseStatusCodePages(ProblemWriter.Explain);
        app.UseRouting();
        app.Use(next => http => guard.Pass(http, next));
        app.Use(next => http => shared.Pass(http, next));
        if (options.SignIn)
        {
            Rights rights = app.Services.GetRequiredService<Rights>();
            app.UseRateLimiter();
            app.Use(next => http => rights.Pass(http, next));
            People.Forms.SignInForms.Map(app);
            People.Forms.AccountForms.Map(app);
        }

        PageServing serving = new(page);
        app.Use(next => http => serving.Pass(http, next));
        app.MapOpenApi(Description.Address);
        foreach (IEndpoints endpoints in app.Services.GetServices<IEndpoints>())
        {
            endpoints.Map(app);
        }

        return app;
    }

    private static void AddEndpoints(IServiceCollection services) => services
        .AddSingleton<IEndpoints, SiteEndpoints>().AddSingleton<IEndpoints, WeatherEndpoints>().AddSingleton<IEndpoints, HistoryEndpoints>()
        .AddSingleton<IEndpoints, CarryEndpoints>().AddSingleton<IEndpoints, AskingEndpoints>()
        .AddSingleton<IEndpoints, PlanEndpoints>().AddSingleton<IEndpoints>(
            s => s.GetRequiredService<CardEndpoints>()).AddSingleton<IEndpoints, Pairing.ReadEndpoints>()
                .AddSingleton<IEndpoints, TimelineEndpoints>()
        .AddSingleton<IEndpoints, ReadingEndpoints>().AddSingleton<IEndpoints, VisitEndpoints>().AddSingleton<IEndpoints,
            PhotoEndpoints>().AddSingleton<IEndpoints, TraceEndpoints>()
        .AddSingleton<IEndpoints, JobEndpoints>().AddSingleton<IEndpoints, ArchiveEndpoints>().AddSingleton<IEndpoints, FleetEndpoints>()
        .AddSingleton<IEndpoints, Nights.FeedEndpoints>()
        .AddSingleton<IEndpoints>(s => s.GetRequiredService<HealthEndpoints>());
}
