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

    /// <param name="visits">Visits a year, 0 to 12; with none the programs stay as they are keyed in.</param>
    public PlanMade MakePlan(LocalDate? from, int visits, SeasonWishes wishes, JobProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        LocalDate first = from ?? Today();
        progress("Working out what each zone needs", 0.05);
        ListOf<ZoneNeed> needs = ZoneNeeds.OfAll(site, years.Training);
        cancel.ThrowIfCancellationRequested();
        PlanAndSeasonResult both = visits == 0
            ? new PlanAndSeasonResult(Planner.Plan(site, years.Training, new PlannerOptions { InForceFrom = first }, new Steps(progress), cancel), null, [])
            : WithVisits(years, first, visits, wishes, progress, cancel);
        PlanMade made = new(null, years.Explanation, needs, Report(both.Plan), Obstacles(both.Plan), null);
        if (both.Plan.Plan is not { } plan)
        {
            return made;
        }

        if (both.Season is not null)
        {
            VisitsFound visited = Visited(years, plan, both.Season, first, wishes.ToOptions(visits, first.Year), progress, cancel);
            return made with { Plan = visited.Plan, Verdict = visited.Verdict, Season = visited.Season };
        }

        cancel.ThrowIfCancellationRequested();
        progress("Proving", 0.85);
        ProofReport proof = Proofs.Replay(site, plan, years.HeldBack, new ProofOptions(first, years.Training));
        cancel.ThrowIfCancellationRequested();
        return made with { Plan = Keep(SavedPlan.Of(site, plan, first), proof), Verdict = proof.Verdict };
    }

    public PlanProven Prove(Kept<PlanValue> kept, JobProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        progress("Proving", 0.2);
        SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
        ProofReport proof = Proofs.Replay(site, saved.Plan, years.HeldBack, new ProofOptions(saved.From, years.Training));
        cancel.ThrowIfCancellationRequested();
        Answer<PlanValue> answer = store.Put(siteId, kept.Id, kept.Value with { Proof = Json.Write(proof) }, kept.Version, Now());
        return answer.IsKept
            ? new PlanProven(kept.Id, answer.Record!.Version, !saved.IsFor(site), years.Explanation, proof.Verdict)
            : throw new Refusal(StatusCodes.Status412PreconditionFailed, "changed-since", "The plan was changed while it was proven. The proof was not stored.");
    }

    public VisitsFound FindVisits(Kept<PlanValue> kept, int visits, SeasonWishes wishes, JobProgress progress, CancellationToken cancel)
    {
        SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
        return Visited(Years(progress, cancel), saved.Plan, null, saved.From, wishes.ToOptions(visits, saved.From.Year), progress, cancel);
    }

    public VisitsFound PlanWithVisits(LocalDate? from, int visits, SeasonWishes wishes, JobProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        LocalDate first = from ?? Today();
        PlanAndSeasonResult both = WithVisits(years, first, visits, wishes, progress, cancel);
        return both.Plan.Plan is { } programs
            ? Visited(years, programs, both.Season, first, wishes.ToOptions(visits, first.Year), progress, cancel)
            : new VisitsFound(null, years.Explanation, null, Obstacles(both.Plan), null);
    }

    private PlanAndSeasonResult WithVisits(SiteYears years, LocalDate first, int visits, SeasonWishes wishes, JobProgress progress, CancellationToken cancel)
    {
        SeasonSearch.RequireWholeYears(years.Training);
        return SeasonSearch.Told(() => PlanAndSeason.Of(
            site, years.Training, new PlannerOptions { InForceFrom = first }, wishes.ToOptions(visits, first.Year), new Steps((step, done) => progress(step, done / 2)), cancel));
    }

    private VisitsFound Visited(SiteYears years, Plan programs, SeasonPlan? found, LocalDate from, SeasonOptions options, JobProgress progress, CancellationToken cancel)
    {
        SeasonSearch.RequireWholeYears(years.Training);
        progress("Looking for the visits, and for what fewer or more are worth", 0.5);
        ListOf<SeasonPlan> seasons = SeasonSearch.UpToTwelve(site, programs, years.Training, options, cancel);
        SeasonPlan season = found ?? SeasonSearch.Wanted(site, programs, years.Training, options, seasons);
        cancel.ThrowIfCancellationRequested();
        Plan with = SeedbedVisits.Keep(site, season.ApplyTo(programs));
        progress("Proving", 0.9);
        ProofReport proof = Proofs.Replay(site, with, years.HeldBack, SeasonSearch.ProofOptions(site, with, from, years.Training));
        cancel.ThrowIfCancellationRequested();
        SeasonKept kept = new(years.Explanation, season, VisitCurve.Of(seasons), YearOfWater.Of(site, with, years.Training)) { YearsSaid = SentenceParts.Of(years.Explanation) };
        return new VisitsFound(Keep(SavedPlan.Of(site, with, from), proof, kept), years.Explanation, season, [], proof.Verdict);
    }

    private SiteYears Years(JobProgress progress, CancellationToken cancel)
    {
        progress("Reading the weather", 0.02);
        SiteYears years = SiteReading.Years(store, siteId, site);
        cancel.ThrowIfCancellationRequested();
        return years;
    }

    private LocalDate Today() => clock.GetCurrentInstant().InZone(site.Zone()).Date;

    private static SearchReport Report(PlanResult result) => new(
        System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName($"{result.Report.Status}"), result.Report.Levels.Select(l => new AimView(l.Aim, l.Unit, l.Value, l.Bound, l.Gap)).ToListOf(),
        result.Report.EffortSeconds, result.Report.Programs, result.Report.Gap);

    private static ListOf<ObstacleView> Obstacles(PlanResult result) => result.Obstacles.Select(o => new ObstacleView(o.Where, o.What, o.Advice.Select(a => a.What).ToListOf())
    {
        Said = SentenceParts.Of(o.What),
        Changes = o.Advice.Select(AdviceTold.Of).ToListOf(),
    }).ToListOf();

    private Guid Keep(SavedPlan saved, ProofReport proof, SeasonKept? season = null)
    {
        Guid id = Ids.New();
        Answer<PlanValue> answer = store.Put(siteId, id, new PlanValue(saved.Survey, saved.From, PlanFiles.Write(saved), Json.Write(proof), season is null ? null : Json.Write(season)), null, Now());
        return answer.IsKept ? id : throw new Refusal(StatusCodes.Status409Conflict, "changed-since", "The site was removed meanwhile. The plan was not stored.");
    }

    private Stamp Now() => stamp with { At = clock.GetCurrentInstant() };

    private sealed class Steps(JobProgress progress) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value) => progress($"Planning {value.Supply}: {value.Step}", 0.1 + (0.7 * value.Done));
    }
}
