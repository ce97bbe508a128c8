using Microsoft.Extensions.Logging;
using Orleans;
using Valvewright.Store;

namespace Valvewright.Server.Jobs;

/// <summary>The silo of a server: it starts when the server listens, which does not wait for it.</summary>
internal sealed partial class SiloOfServer(SiteStore store, IClock clock, SiloOptions options, ILogger<SiloOfServer> log) : IAsyncDisposable
{
    private readonly CancellationTokenSource closing = new();
    private readonly TaskCompletionSource<WorkSilo> silo = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private Task starting = Task.CompletedTask;

    /// <summary>The grains, once the silo has started.</summary>
    public Task<IGrainFactory> Grains => silo.Task.ContinueWith(
        s => s.GetAwaiter().GetResult().Grains, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously,
        TaskScheduler.Default);

    /// <summary>Begins to start it.</summary>
    public void Begin() => starting = Task.Run(Start);

    public async ValueTask DisposeAsync()
    {
        await closing.CancelAsync();
        await starting;
        if (silo.Task.IsCompletedSuccessfully)
        {
            await silo.Task.Result.DisposeAsync();
        }

        closing.Dispose();
    }

    /// <summary>Tries until it has started: a database may be away for a while.</summary>
    private async Task Start()
    {
        while (!closing.IsCancellationRequested)
        {
            try
            {
                silo.SetResult(await WorkSilo.StartAsync(store, options, clock, closing.Token));
                return;
            }
#pragma warning disable CA1031 // The server serves without it; why is in the journal.
            catch (Exception reason)
#pragma warning restore CA1031
            {
                if (!closing.IsCancellationRequested)
                {
                    TellOfDelay(log, reason);
                }
            }

            await Task.Delay(TimeSpan.FromSeconds(5), closing.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        silo.TrySetCanceled();
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The silo did not start; it is tried again.")]
    private static partial void TellOfDelay(ILogger log, Exception reason);
}
