using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Planning;
using Valvewright.Records.Jobs;
using Valvewright.Records;
using Valvewright.Server.Problems;
using Valvewright.Server.Sites;
using Valvewright.Store;

namespace Valvewright.Server.Jobs;

/// <summary>The long work on one site, as the survey stood when it was asked for.</summary>
internal sealed class SiteWork(SiteStore store, IClock clock, Guid siteId, Site site, Stamp stamp)
{
    public Guid SiteId => siteId;

    public Site Site => site;

    public PlanMade MakePlan(LocalDate? from, JobProgress progress, CancellationToken cancel)
    {
        progress("Reading the weather", 0.02);
        var years = SiteReading.Years(store, siteId, site);
        cancel.ThrowIfCancellationRequested();
        LocalDate first = from ?? clock.GetCurrentInstant().InZone(site.Zone()).Date;
        progress("Working out what each zone needs", 0.05);
        ListOf<ZoneNeed> needs = ZoneNeeds.OfAll(site, years.Training);
        cancel.ThrowIfCancellationRequested();
        PlanResult result = Planner.Plan(site, years.Training, new PlannerOptions { InForceFrom = first }, new Steps(progress), cancel);
        if (result.Plan is not { } plan)
        {
            return new PlanMade(null, years.Explanation, needs, Report(result), Obstacles(result), null);
        }

        cancel.ThrowIfCancellationRequested();
        progress("Proving", 0.85);
        ProofReport proof = Proofs.Replay(site, plan, years.HeldBack, new ProofOptions(first, years.Training));
        cancel.ThrowIfCancellationRequested();
        Guid id = Keep(SavedPlan.Of(site, plan, first), proof);
        return new PlanMade(id, years.Explanation, needs, Report(result), Obstacles(result), proof.Verdict);
    }

    public PlanProven Prove(Kept<PlanValue> kept, JobProgress progress, CancellationToken cancel)
    {
        progress("Reading the weather", 0.05);
        var years = SiteReading.Years(store, siteId, site);
        cancel.ThrowIfCancellationRequested();
        progress("Proving", 0.2);
        SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
        ProofReport proof = Proofs.Replay(site, saved.Plan, years.HeldBack, new ProofOptions(saved.From, years.Training));
        cancel.ThrowIfCancellationRequested();
        Answer<PlanValue> answer = store.Put(siteId, kept.Id, kept.Value with { Proof = Json.Write(proof) }, kept.Version, Now());
        return answer.IsKept
            ? new PlanProven(kept.Id, answer.Record!.Version, !saved.IsFor(site), years.Explanation, proof.Verdict)
            : throw new Refusal(StatusCodes.Status412PreconditionFailed, "changed-since", "The plan was changed while it was proven. The proof was not stored.");
    }

    public VisitsFound FindVisits(Kept<PlanValue> kept, int visits, JobProgress progress, CancellationToken cancel)
    {
        progress("Reading the weather", 0.05);
        var years = SiteReading.Years(store, siteId, site);
        cancel.ThrowIfCancellationRequested();
        progress($"Looking for {visits} visits a year", 0.1);
        SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
        SeasonPlan season;
        try
        {
            season = SeasonPlanner.Curve(site, saved.Plan, years.Training, new SeasonOptions { Visits = visits }, [visits], null, cancel)[0];
        }
        catch (ArgumentException reason)
        {
            throw new Refusal(StatusCodes.Status422UnprocessableEntity, "no-season", reason.Message);
        }

        Plan with = season.ApplyTo(saved.Plan);
        progress("Proving", 0.8);
        ProofReport proof = Proofs.Replay(site, with, years.HeldBack, new ProofOptions(saved.From, years.Training));
        cancel.ThrowIfCancellationRequested();
        return new VisitsFound(Keep(SavedPlan.Of(site, with, saved.From), proof), years.Explanation, season);
    }

    private static SearchReport Report(PlanResult result) => new(
        System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName($"{result.Report.Status}"), result.Report.Levels.Select(l => new AimView(l.Aim, l.Unit, l.Value, l.Bound, l.Gap)).ToListOf(),
        result.Report.EffortSeconds, result.Report.Programs, result.Report.Gap);

    private static ListOf<ObstacleView> Obstacles(PlanResult result) => result.Obstacles.Select(o => new ObstacleView(o.Where, o.What, o.Advice.Select(a => a.What).ToListOf())).ToListOf();

    private Guid Keep(SavedPlan saved, ProofReport proof)
    {
        Guid id = Ids.New();
        Answer<PlanValue> answer = store.Put(siteId, id, new PlanValue(saved.Survey, saved.From, PlanFiles.Write(saved), Json.Write(proof)), null, Now());
        return answer.IsKept ? id : throw new Refusal(StatusCodes.Status409Conflict, "changed-since", "The site was removed meanwhile. The plan was not stored.");
    }

    private Stamp Now() => stamp with { At = clock.GetCurrentInstant() };

    private sealed class Steps(JobProgress progress) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value) => progress($"Planning {value.Supply}: {value.Step}", 0.1 + (0.7 * value.Done));
    }
}
