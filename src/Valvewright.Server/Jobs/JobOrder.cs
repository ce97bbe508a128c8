using Valvewright.Engine.Plans;
using Valvewright.Files.Plans;
using Valvewright.Records;
using Valvewright.Records.Jobs;
using Valvewright.Server.Problems;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Work.Search;
using Refusal = Valvewright.Server.Problems.Refusal;
using StandingPrograms = Valvewright.Work.StandingPrograms;

namespace Valvewright.Server.Jobs;

/// <summary>What a job was asked to do, and the versions of the records that it rests on: whoever does it, and however often, finds the
/// same.</summary>
/// <param name="Request">What is asked for.</param>
/// <param name="By">Who asked.</param>
/// <param name="Survey">The survey's version.</param>
/// <param name="Weather">The weather file; null where none was sent.</param>
/// <param name="Plan">The plan's version; null where none is named.</param>
internal sealed record JobOrder(JobRequest Request, string By, long Survey, WeatherValue? Weather, long? Plan)
{
    private const int UsualVisits = 4;

    /// <summary>What the records of a site say now.</summary>
    /// <exception cref="Refusal">There is no such plan.</exception>
    public static JobOrder Of(SiteStore store, Kept<SiteValue> site, JobRequest request, string by) => new(
        request, by, site.Version, store.Find<WeatherValue>(site.Id, Ids.WeatherOf(site.Id))?.Value,
        request is { Kind: not "plan", Plan: { } plan }
            ? (store.Find<PlanValue>(site.Id, plan) ?? throw Refusal.NotFound("plan")).Version : null);

    /// <summary>The work.</summary>
    /// <param name="store">Where the records are.</param>
    /// <param name="job">The id, site and moment of the job.</param>
    /// <exception cref="Refusal">The request can't be met; nothing was begun.</exception>
    /// <exception cref="Work.RefusalException">Something was not read, or is doubtful, or cannot be held.</exception>
    public Func<WorkProgress, CancellationToken, JobMade> WorkOn(SiteStore store, KeptJob job)
    {
        SiteValue value = At<SiteValue>(store, job.Site, Survey);
        SiteWork work = new(store, job, SiteReading.Survey(value.Survey).Site, Weather, By);
        SeasonWishes wishes = Request.Wishes ?? new SeasonWishes();
        int visits = Request.Visits ?? UsualVisits;
        if (Request.Kind == "plan")
        {
            return (progress, cancel) => work.MakePlan(Request.From, visits, wishes, progress, cancel);
        }

        if (Request is { Kind: "season", Plan: null })
        {
            return (progress, cancel) => work.PlanWithVisits(Request.From, visits, wishes, progress, cancel);
        }

        if (Request.Kind == "found")
        {
            StandingPrograms standing = Standing(store, work);
            return (progress, cancel) => work.ChangeFound(standing, Request.From, Request.Changes, progress, cancel);
        }

        Guid id = Request.Plan ?? throw Refusal.Wrong($"{"plan"}", "", "the id of a plan", "It does not say which plan is meant.");
        (Kept<PlanValue> plan, _) = PlanNamed(store, work, id);
        return Request.Kind == "proof"
            ? (progress, cancel) => work.Prove(plan, progress, cancel)
            : (progress, cancel) => work.FindVisits(plan, visits, wishes, progress, cancel);
    }

    private (Kept<PlanValue> Kept, SavedPlan Saved) PlanNamed(SiteStore store, SiteWork work, Guid id)
    {
        Kept<PlanValue> plan = new(work.SiteId, id, Plan!.Value, At<PlanValue>(store, id, Plan.Value), new Stamp(By, default));
        SavedPlan saved = Plans.PlanReading.Parse(plan.Value.Plan);
        Plans.PlanReading.Require(work.Site, saved);
        return (plan, saved);
    }

    /// <summary>The programs that the site has. What cannot be taken from readings is told before any work begins.</summary>
    private StandingPrograms Standing(SiteStore store, SiteWork work)
    {
        if (Request is { Read: null, Plan: null })
        {
            throw Refusal.Wrong($"{"read"}", "", "readings of the controllers, or the id of a plan",
                "It does not say which programs are there.");
        }

        Plan? others = Request.Plan is { } id ? PlanNamed(store, work, id).Saved.Plan : null;
        return Request.Read is { } reads ? work.AsRead(reads, others) : work.AsRead([], others) with { NotRead = [] };
    }

    /// <summary>What a record said in a version.</summary>
    private static T At<T>(SiteStore store, Guid record, long version) =>
        Json.Read<T>(store.EntryOf(record, version)?.After ?? throw Refusal.NotFound("record"))!;
}

/// <summary>What a job made.</summary>
/// <param name="Result">What it came to.</param>
/// <param name="Record">The record to keep with it; null for none.</param>
/// <param name="Otherwise">Why it failed where the record can't be kept.</param>
internal sealed record JobMade(object Result, Change? Record = null, Refusal? Otherwise = null);
