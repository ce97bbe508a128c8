using System.Text.Json;
using Valvewright.Records.Jobs;
using Valvewright.Records;
using Valvewright.Server.Problems;
using Valvewright.Work.Search;

namespace Valvewright.Server.Jobs;

/// <summary>Long work, one job after another; it goes on while no one looks, and is gone with the server. What it makes is in the
/// store.</summary>
internal sealed class JobBoard(IClock clock) : IDisposable
{
    private const int MostWaiting = 16;
    private const int MostRemembered = 200;

    /// <summary>One site's jobs leave room for those of others.</summary>
    private const int MostOfASite = 4;


    private readonly Lock gate = new();
    private readonly List<Entry> entries = [];
    private readonly SemaphoreSlim turn = new(1);
    private readonly CancellationTokenSource closing = new();

    /// <summary>Adds a job.</summary>
    /// <param name="site">The site that it works on.</param>
    /// <param name="kind">What it does.</param>
    /// <param name="work">Does it; what it returns is the result.</param>
    /// <exception cref="Refusal">Too many are waiting.</exception>
    public JobView Add(Guid site, string kind, Func<WorkProgress, CancellationToken, object> work)
    {
        Entry entry;
        lock (gate)
        {
            if (entries.Count(e => e.View.Ended is null) >= MostWaiting)
            {
                throw new Refusal(StatusCodes.Status503ServiceUnavailable, "too-many",
                    "Too many jobs are waiting; ask again when some are done.");
            }

            if (entries.Count(e => e.View.Ended is null && e.View.Site == site) >= MostOfASite)
            {
                throw new Refusal(StatusCodes.Status503ServiceUnavailable, "too-many",
                    "Jobs of this site are waiting already; ask again when they are done, or stop them.");
            }

            entry = new Entry(new JobView(Ids.New(), site, kind, JobState.Waiting, "Waiting", 0, clock.GetCurrentInstant(), null, null,
                null), CancellationTokenSource.CreateLinkedTokenSource(closing.Token));
            entries.Add(entry);
            while (entries.Count > MostRemembered && entries.FindIndex(e => e.View.Ended is not null) is var oldest and >= 0)
            {
                entries.RemoveAt(oldest);
            }
        }

        entry.Work = Task.Factory
            .StartNew(() => Run(entry, work), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        return entry.View;
    }

    /// <summary>All jobs that are remembered, the latest first.</summary>
    public ListOf<JobView> All()
    {
        lock (gate)
        {
            return entries.Select(e => e.View with { Result = null }).Reverse().ToListOf();
        }
    }

    /// <summary>A job; null where there is none, or it is forgotten.</summary>
    public JobView? Find(Guid id)
    {
        lock (gate)
        {
            return entries.Find(e => e.View.Id == id)?.View;
        }
    }

    /// <summary>Waits for the end of a job, but not longer than said, and not at all where there is none.</summary>
    public async Task Ended(Guid id, TimeSpan longest, CancellationToken gone)
    {
        Task? end;
        lock (gate)
        {
            end = entries.Find(e => e.View.Id == id)?.End.Task;
        }

        await (end ?? Task.CompletedTask).WaitAsync(longest, gone).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    /// <summary>Stops a job; one that has ended stays as it is.</summary>
    public JobView? Stop(Guid id)
    {
        Entry? entry;
        lock (gate)
        {
            entry = entries.Find(e => e.View.Id == id);
        }

        entry?.Stop.Cancel();
        return entry?.View;
    }

    /// <summary>Stops all and waits for them, so that none writes into a closed store.</summary>
    public void Dispose()
    {
        closing.Cancel();
        Task[] open;
        lock (gate)
        {
            open = [.. entries.Select(e => e.Work).OfType<Task>()];
        }

        Task.WaitAll(open, TimeSpan.FromSeconds(30));
        closing.Dispose();
        turn.Dispose();
    }

    private void Run(Entry entry, Func<WorkProgress, CancellationToken, object> work)
    {
        bool mine = false;
        try
        {
            turn.Wait(entry.Stop.Token);
            mine = true;
            Set(entry, v => v with { State = JobState.Running, Step = "Beginning" });
            object result = work((step, done) => Set(entry, v => v with { Step = step, Done = Math.Clamp(done, 0, 1) }), entry.Stop.Token);
            JsonElement element = JsonSerializer.SerializeToElement(result, result.GetType(), Json.Options);
            Set(entry, v => v with { State = JobState.Done, Step = "Done", Done = 1, Ended = clock.GetCurrentInstant(), Result = element });
        }
        catch (OperationCanceledException)
        {
            Set(entry, v => v with { State = JobState.Stopped, Step = "Stopped", Ended = clock.GetCurrentInstant() });
        }
#pragma warning disable CA1031 // The last place that can turn an exception into a problem.
        catch (Exception reason)
#pragma warning restore CA1031
        {
            Set(entry, v => v with
                { State = JobState.Failed, Step = "Failed", Ended = clock.GetCurrentInstant(), Problem = ProblemWriter.ViewOf(reason) });
        }
        finally
        {
            if (mine)
            {
                turn.Release();
            }
        }
    }

    private void Set(Entry entry, Func<JobView, JobView> change)
    {
        lock (gate)
        {
            entry.View = change(entry.View);
        }

        if (entry.View.Ended is not null)
        {
            entry.End.TrySetResult();
        }
    }

    private sealed class Entry(JobView view, CancellationTokenSource stop)
    {
        public JobView View { get; set; } = view;

        public CancellationTokenSource Stop { get; } = stop;

        public Task? Work { get; set; }

        public TaskCompletionSource End { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
