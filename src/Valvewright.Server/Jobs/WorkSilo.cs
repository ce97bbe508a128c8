using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Console;
using Orleans;
using Orleans.Configuration;
using Orleans.Connections.Security;
using Orleans.Hosting;
using Valvewright.Store;

namespace Valvewright.Server.Jobs;

/// <summary>How silos reach each other.</summary>
public sealed record SiloOptions
{
    /// <summary>The address that other silos reach this one at; this machine alone unless the person says otherwise.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>The certificate that all silos have in common, with its key: each shows it, and takes only who shows it. Needed for any
    /// address but this machine's own.</summary>
    public X509Certificate2? Certificate { get; init; }
}

/// <summary>
/// Does the long work of a store. A store in a file has one silo, which no other reaches; those of a store in PostgreSQL find each other
/// there, and share the work.
/// </summary>
public sealed class WorkSilo : IAsyncDisposable
{
    /// <summary>The first port that is tried: a silo that comes back takes the one of the silo that was lost, which is then known to be
    /// gone.</summary>
    private const int FirstPort = 15280;

    private const int Tries = 5;

    /// <summary>Seconds without an answer, and how often, until a silo is taken for lost.</summary>
    private const int ProbeSeconds = 3;

    private readonly IHost host;

    private WorkSilo(IHost host) => this.host = host;

    /// <summary>Where other silos reach it.</summary>
    public IPEndPoint Address { get; private init; } = null!;

    internal IGrainFactory Grains => host.Services.GetRequiredService<IGrainFactory>();

    /// <summary>Starts to work.</summary>
    /// <param name="store">The store; it is not closed by this.</param>
    /// <param name="options">How silos reach each other.</param>
    /// <param name="clock">What the time is; the system's when not given.</param>
    /// <param name="cancel">Gives up.</param>
    public static async Task<WorkSilo> StartAsync(
        SiteStore store, SiloOptions? options = null, IClock? clock = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        options ??= new SiloOptions();
        if (!IPAddress.IsLoopback(options.Address) && options.Certificate is null)
        {
            throw new ArgumentException("Silos that other machines reach have a certificate in common.", nameof(options));
        }

        for (int tried = 1;; tried++)
        {
            IPEndPoint address = new(options.Address, FreePort(options.Address, store.SharedDatabase is null ? 0 : FirstPort));
            IHost host = Build(store, options, address, clock ?? SystemClock.Instance);
            try
            {
                await host.StartAsync(cancel);
                WorkSilo silo = new(host) { Address = address };
                await silo.Grains.GetGrain<ISweepGrain>(0).Watch();
                await silo.Grains.GetGrain<Nights.INightGrain>(0).Watch();
                return silo;
            }
            catch (Exception reason) when (tried < Tries && Cause(reason) is SocketException or AddressInUseException)
            {
                // Another program took the port in this moment.
                host.Dispose();
            }
            catch
            {
                host.Dispose();
                throw;
            }
        }
    }

    /// <summary>Stops the work; what is not done is taken up by another silo, or when this one is back.</summary>
    public async ValueTask DisposeAsync()
    {
        await host.StopAsync();
        host.Dispose();
    }

    private static IHost Build(SiteStore store, SiloOptions options, IPEndPoint address, IClock clock)
    {
        HostApplicationBuilder builder = Host.CreateEmptyApplicationBuilder(new HostApplicationBuilderSettings
            { ApplicationName = "Valvewright.Work" });
        builder.Logging.AddSimpleConsole().SetMinimumLevel(LogLevel.Error);
        builder.Services.Configure<ConsoleLoggerOptions>(o => o.LogToStandardErrorThreshold = LogLevel.Trace);
        builder.Services.AddSingleton(store).AddSingleton(clock).AddSingleton<WorkBench>();
        builder.UseOrleans(silo =>
        {
            silo.Configure<EndpointOptions>(o => (o.AdvertisedIPAddress, o.SiloPort, o.GatewayPort) = (address.Address, address.Port, 0));
            silo.Configure<ReminderOptions>(o => o.MinimumReminderPeriod = SweepGrain.Period);
            if (store.SharedDatabase is not { } database)
            {
                silo.UseLocalhostClustering(address.Port, 0).UseInMemoryReminderService();
                // It is alone: whoever knocks is not one of its own.
                silo.Configure<SiloConnectionOptions>(o => o.ConfigureSiloInboundConnection(c => c.Use(_ => connection =>
                {
                    connection.Abort();
                    return Task.CompletedTask;
                })));
                return;
            }

            // Programs that only their own machine reaches are a group of their own.
            string group = IPAddress.IsLoopback(address.Address) ? Environment.MachineName : "";
            silo.Configure<ClusterOptions>(o => (o.ServiceId, o.ClusterId) = ("valvewright", $"valvewright {group}".Trim()));
            silo.Configure<ClusterMembershipOptions>(o =>
            {
                o.ProbeTimeout = TimeSpan.FromSeconds(ProbeSeconds);
                o.IAmAliveTablePublishTimeout = TimeSpan.FromSeconds(ProbeSeconds * 2);
            });
            silo.UseAdoNetClustering(o => (o.Invariant, o.ConnectionString) = ("Npgsql", database));
            silo.UseAdoNetReminderService(o => (o.Invariant, o.ConnectionString) = ("Npgsql", database));
            if (options.Certificate is { } certificate)
            {
                silo.UseTls(certificate, tls =>
                {
                    tls.ClientCertificateMode = tls.RemoteCertificateMode = RemoteCertificateMode.RequireCertificate;
                    tls.RemoteCertificateValidation = (shown, _, _) =>
                        shown.RawDataMemory.Span.SequenceEqual(certificate.RawDataMemory.Span);
                    tls.OnAuthenticateAsClient = (_, how) => how.TargetHost = "valvewright";
                });
            }
        });
        return builder.Build();
    }

    private static Exception Cause(Exception reason) => reason.InnerException is { } inner ? Cause(inner) : reason;

    /// <summary>The first port from one on that no program of this machine listens to; any where it is 0.</summary>
    private static int FreePort(IPAddress address, int from)
    {
        for (int port = from;; port++)
        {
            try
            {
                using TcpListener listener = new(address, port);
                listener.Start();
                return ((IPEndPoint)listener.LocalEndpoint).Port;
            }
            catch (SocketException reason) when (
                reason.SocketErrorCode == SocketError.AddressAlreadyInUse && from > 0 && port < IPEndPoint.MaxPort)
            {
                // The next one.
            }
        }
    }
}
