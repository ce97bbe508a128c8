using System.Text.Json;
using Orleans;
using Orleans.Concurrency;
using Orleans.Placement;
using Valvewright.Records.Jobs;
using Valvewright.Server.Problems;
using Valvewright.Store;
using Valvewright.Store.Files;
using Refusal = Valvewright.Server.Problems.Refusal;

namespace Valvewright.Server.Jobs;

/// <inheritdoc cref="IJobGrain"/>
[KeepAlive, Reentrant, ActivationCountBasedPlacement]
internal sealed class JobGrain(SiteStore store, IClock clock, WorkBench bench) : Grain, IJobGrain, IDisposable
{
    /// <summary>A job that ended so many programs is not tried again.</summary>
    private const int MostBegun = 20;

    /// <summary>How long the work may take to notice that it is to stop.</summary>
    private static readonly TimeSpan LongestStop = TimeSpan.FromSeconds(25);

    private readonly CancellationTokenSource stop = new();
    private readonly TaskCompletionSource ended = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private volatile JobStep step = new(false, "Waiting", 0);
    private volatile bool isStopped;
    private Task work = Task.CompletedTask;

    public override Task OnActivateAsync(CancellationToken cancellationToken)
    {
        Guid id = this.GetPrimaryKey();
        work = Task.Factory.StartNew(() => Run(id), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        _ = LeaveAtEnd();
        return Task.CompletedTask;
    }

    public override Task OnDeactivateAsync(DeactivationReason reason, CancellationToken cancellationToken)
    {
        stop.Cancel();
        return work.WaitAsync(LongestStop, CancellationToken.None);
    }

    public void Dispose() => stop.Dispose();

    public Task<JobStep> Look() => Task.FromResult(step);

    public Task Ended(TimeSpan longest) => Task.WhenAny(ended.Task, Task.Delay(longest));

    public async Task Stop()
    {
        isStopped = true;
        await stop.CancelAsync();
        // A job that waits for its turn ends at once; one that is being done when it notices.
    }

    private async Task LeaveAtEnd()
    {
        await work.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ContinueOnCapturedContext);
        ended.TrySetResult();
        DeactivateOnIdle();
    }

    /// <summary>Does the job and writes what came of it. What the database or the end of this program cut short stays open, and is taken
    /// up again.</summary>
    private void Run(Guid id)
    {
        KeptJob? job = null;
        bool mine = false;
        try
        {
            bench.Turn.Wait(stop.Token);
            mine = true;
            if ((job = store.BeginJob(id)) is null)
            {
                return;
            }

            if (job.Begun > MostBegun)
            {
                End(job with { State = JobState.Failed, Problem = Told(null) });
                return;
            }

            step = new JobStep(true, "Beginning", 0);
            JobMade made = JsonSerializer.Deserialize<JobOrder>(job.Request, Json.Compact)!.WorkOn(store, job)(
                (what, done) => step = new JobStep(true, what, Math.Clamp(done, 0, 1)), stop.Token);
            Change? record = made.Record is { } change
                ? change with { Stamp = change.Stamp with { At = clock.GetCurrentInstant() } } : null;
            string result = JsonSerializer.Serialize(made.Result, made.Result.GetType(), Json.Options);
            if (End(job with { State = JobState.Done, Result = result }, record) == JobWriting.NotKept)
            {
                throw made.Otherwise!;
            }
        }
        catch (OperationCanceledException) when (isStopped)
        {
            Guarded(() => End((job ?? store.Job(id)!) with { State = JobState.Stopped }));
        }
        catch (OperationCanceledException)
        {
            // This program ends: another takes the job up, or this one when it is back.
        }
        catch (Exception reason) when (job is null || DatabaseLoss.Caused(reason))
        {
            // The same.
        }
#pragma warning disable CA1031 // The last place that can turn an exception into a problem.
        catch (Exception reason)
#pragma warning restore CA1031
        {
            Guarded(() => End(job! with { State = JobState.Failed, Problem = Told(reason) }));
        }
        finally
        {
            if (mine)
            {
                bench.Turn.Release();
            }
        }
    }

    private JobWriting End(KeptJob job, Change? record = null) =>
        store.EndJob(job with { Ended = clock.GetCurrentInstant() }, record);

    private static void Guarded(Action write)
    {
        try
        {
            write();
        }
        catch (Exception reason) when (DatabaseLoss.Caused(reason))
        {
            // The job stays open.
        }
    }

    private static string Told(Exception? reason) => Json.Write(ProblemWriter.ViewOf(reason));
}
