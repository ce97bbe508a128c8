using System.Text.Json;
using Valvewright.Records;
using Valvewright.Records.Jobs;
using Valvewright.Records.Views;
using Valvewright.Store;
using Refusal = Valvewright.Server.Problems.Refusal;

namespace Valvewright.Server.Jobs;

/// <summary>Long work as the API tells of it: kept in the store, done by the silo of this program or by another on the same
/// database.</summary>
internal sealed class JobBoard(SiteStore store, SiloOfServer silo, IClock clock)
{
    /// <summary>One site's jobs leave room for those of others.</summary>
    private static readonly JobLimits Limits = new(MostOpen: 16, MostOpenOfASite: 4, MostKept: 200);

    /// <summary>How long an answer about the step of a job is waited for.</summary>
    private static readonly TimeSpan LongestLook = TimeSpan.FromSeconds(3);

    /// <summary>Adds a job.</summary>
    /// <exception cref="Refusal">Too many are waiting, or the request can't be met.</exception>
    public JobView Add(Kept<SiteValue> site, JobRequest request, Stamp stamp)
    {
        JobOrder order = JobOrder.Of(store, site, request, stamp.By);
        KeptJob job = new(Ids.New(), site.Id, request.Kind, JsonSerializer.Serialize(order, Json.Compact), stamp.At);
        // What can't be met is told at once.
        order.WorkOn(store, job);
        JobTaking taking = store.AddJob(job, Limits);
        if (taking != JobTaking.Taken)
        {
            throw new Refusal(StatusCodes.Status503ServiceUnavailable, "too-many", taking == JobTaking.TooMany
                ? "Too many jobs are waiting; ask again when some are done."
                : "Jobs of this site are waiting already; ask again when they are done, or stop them.");
        }

        // Where this call is lost, the sweep takes the job up.
        _ = OfGrain(job.Id, async grain => await grain.Look(), Timeout.InfiniteTimeSpan, CancellationToken.None);
        return View(job, null);
    }

    /// <summary>Jobs that are remembered, of the sites that are seen, the latest first.</summary>
    public async Task<ListOf<JobView>> All(Func<Guid, bool> sees) =>
        (await Task.WhenAll(store.Jobs().Where(j => sees(j.Site)).ToArray().Select(Looked))).ToListOf();

    /// <summary>A job; null where there is none, or it is forgotten.</summary>
    public async Task<JobView?> Find(Guid id) => store.Job(id) is { } job ? await Looked(job) : null;

    /// <summary>Waits for the end of a job, but not longer than said.</summary>
    public async Task Ended(Guid id, TimeSpan longest, CancellationToken gone)
    {
        if (store.Job(id) is { Ended: null })
        {
            await OfGrain(id, async grain =>
            {
                await grain.Ended(longest);
                return null;
            }, longest, gone);
        }
    }

    /// <summary>Stops a job; one that has ended stays as it is.</summary>
    public async Task<JobView?> Stop(Guid id)
    {
        bool isHeard = false;
        await OfGrain(id, async grain =>
        {
            await grain.Stop();
            isHeard = true;
            return null;
        }, LongestLook, CancellationToken.None);
        if (!isHeard && store.Job(id) is { } job)
        {
            // Its silo is lost, or about to be: what it may still find is dropped.
            store.EndJob(job with { State = JobState.Stopped, Ended = clock.GetCurrentInstant() });
        }

        return await Find(id);
    }

    private async Task<JobView> Looked(KeptJob job) => View(job, job.Ended is not null ? null
        : await OfGrain(job.Id, async grain => await grain.Look(), LongestLook, CancellationToken.None));

    /// <summary>What the grain of a job answers; null where it does not in time.</summary>
    private async Task<JobStep?> OfGrain(Guid id, Func<IJobGrain, Task<JobStep?>> ask, TimeSpan longest, CancellationToken gone)
    {
        try
        {
            return await Asked().WaitAsync(longest, gone);
        }
#pragma warning disable CA1031 // A silo that has just gone, or a database: the job is kept, and taken up again.
        catch (Exception)
#pragma warning restore CA1031
        {
            return null;
        }

        async Task<JobStep?> Asked() => await ask((await silo.Grains).GetGrain<IJobGrain>(id));
    }

    private static JobView View(KeptJob job, JobStep? step) => new(
        job.Id, job.Site, job.Kind, job.Ended is null && step is { IsRunning: true } ? JobState.Running : job.State,
        job.Ended is null ? step?.Step ?? "Waiting" : $"{job.State}", job.State == JobState.Done ? 1 : step?.Done ?? 0,
        job.Asked, job.Ended,
        job.Result is null ? null : JsonSerializer.Deserialize<JsonElement>(job.Result),
        job.Problem is null ? null : Json.Read<ProblemDocument>(job.Problem));
}
