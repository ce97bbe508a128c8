using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Season;
using Valvewright.Files.Plans;
using Valvewright.Planning;
using Valvewright.Planning.Changes;
using Valvewright.Records;
using Valvewright.Records.Jobs;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Work.Search;
using Refusal = Valvewright.Server.Problems.Refusal;
using SiteYears = Valvewright.Work.SiteYears;

namespace Valvewright.Server.Jobs;

/// <summary>The long work on one site, as survey and weather were when it was asked for: the room of the work does it, and says what is
/// to be kept. It writes nothing, and finds the same each time.</summary>
/// <param name="store">Where the records are.</param>
/// <param name="job">The id, site and moment of the job; a plan that it makes has its id.</param>
/// <param name="site">The survey.</param>
/// <param name="weather">The weather file; null where none was sent.</param>
/// <param name="by">Who asked.</param>
internal sealed class SiteWork(SiteStore store, KeptJob job, Site site, WeatherValue? weather, string by)
{
    public Guid SiteId => job.Site;

    public Site Site => site;

    /// <param name="visits">Visits a year, 0 to 12; with none the programs stay as they are set.</param>
    public JobMade MakePlan(LocalDate? from, int visits, SeasonWishes wishes, WorkProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        LocalDate first = from ?? Today();
        progress("Working out what each zone needs", 0.05);
        ListOf<ZoneNeed> needs = years.Needs();
        cancel.ThrowIfCancellationRequested();
        SeasonOptions? season = visits == 0 ? null : wishes.ToOptions(visits, first.Year);
        SitePlan made = SitePlan.Of(new PlanRequest(years, first, season, HasCurve: season is not null), progress, cancel);
        return Kept(made, new PlanMade(
            IdOf(made), years.Split.Explanation, needs, Report(made.Search!), Obstacles(made.Search!), made.Proof?.Verdict)
            { Season = made.Season });
    }

    public JobMade Prove(Kept<PlanValue> kept, WorkProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        progress("Proving", 0.2);
        SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
        ProofReport proof = Work.PlanProof.Of(new Work.ProofRequest(years, saved.Plan, saved.From));
        cancel.ThrowIfCancellationRequested();
        PlanValue value = kept.Value with { Proof = Json.Write(proof) };
        // A plan that has this proof already stays as it is, in its version.
        long version = value == kept.Value ? kept.Version : kept.Version + 1;
        return new JobMade(
            new PlanProven(kept.Id, version, !saved.IsFor(site), years.Split.Explanation, proof.Verdict),
            new Change(SiteId, kept.Id, RecordKind.Plan, value, kept.Version, Stamp()),
            new Refusal(StatusCodes.Status412PreconditionFailed, "changed-since",
                "The plan was changed while it was proven. The proof was not stored."));
    }

    public JobMade FindVisits(Kept<PlanValue> kept, int visits, SeasonWishes wishes, WorkProgress progress, CancellationToken cancel)
    {
        SavedPlan saved = Plans.PlanReading.Parse(kept.Value.Plan);
        SiteYears years = Years(progress, cancel);
        return Found(SitePlan.Of(
            new VisitRequest(years, saved.From, saved.Plan, wishes.ToOptions(visits, saved.From.Year), HasCurve: true), progress, cancel));
    }

    public JobMade PlanWithVisits(LocalDate? from, int visits, SeasonWishes wishes, WorkProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        LocalDate first = from ?? Today();
        return Found(SitePlan
            .Of(new VisitRequest(years, first, null, wishes.ToOptions(visits, first.Year), HasCurve: true), progress, cancel));
    }

    /// <summary>The programs that readings give.</summary>
    /// <exception cref="Refusal">A controller is not of this site.</exception>
    /// <exception cref="Work.RefusalException">Something was not read, or is doubtful, or cannot be held.</exception>
    public Work.StandingPrograms AsRead(ListOf<FoundReading> reads, Plan? others)
    {
        LocalDate today = Today();
        return Work.StandingPrograms.Of(site, reads.Select(One).ToListOf(), others, today);

        Work.ControllerRead One(FoundReading read)
        {
            SiteController controller = site.Controllers.FirstOrDefault(c => c.Name == read.Controller) ?? throw Refusal.Wrong(
                $"{"read"}", $"{read.Controller}", $"{string.Join(", ", site.Controllers.Select(c => c.Name))}",
                "The site has no such controller.");
            ReadText text = ReadingText.Parse(read.Text, controller.Profile, site.Clock, SiteNames.Of(site, controller));
            LocalDateTime at = text.Reading.ReadAt ?? (read.ReadOn ?? today).AtMidnight();
            return new Work.ControllerRead(controller.Name, controller, text with { Reading = text.Reading with { ReadAt = at } });
        }
    }

    /// <summary>Proves the programs that the site has, and looks for the best within so many changes; nothing is stored.</summary>
    public JobMade ChangeFound(
        Work.StandingPrograms standing, LocalDate? from, int? changes, WorkProgress progress, CancellationToken cancel)
    {
        SiteYears years = Years(progress, cancel);
        LocalDate first = from ?? Today();
        ProgramsFromFound made = ProgramsFromFound.Of(new ChangeRequest(years, first, standing.Plan, changes), progress, cancel);
        return new JobMade(new ProgramsFound(
            years.Split.Explanation, first, standing.NotRead, standing.Assumed.Select(SentenceParts.Of).ToListOf(),
            StepOf(made.Search?.Found ?? made.Chosen!, made.Search), made.FoundProof.Verdict,
            (made.Search?.Steps ?? []).Select(s => StepOf(s, made.Search)).ToListOf(),
            made.Search?.Replanned is { } replanned ? StepOf(replanned, made.Search) : null, made.Chosen?.Changes.Count,
            made.Proof?.Verdict));
    }

    private static FoundStep StepOf(ChangedPrograms some, ProgramChanges? search) => new(
        some.Changes.Select(c => new FoundChange(c.Controller, c.Change)).ToListOf(), some.Plan,
        search is null ? null : some.WaterLitres / 1000, search is null ? null : some.UnmetLitres / 1000, search?.PartOf(some),
        some.KeepsRules);

    private JobMade Found(SitePlan made) => Kept(made, new VisitsFound(
        IdOf(made), made.Years.Split.Explanation, made.Season, made.Plan is null ? Obstacles(made.Search!) : [], made.Proof?.Verdict));

    private SiteYears Years(WorkProgress progress, CancellationToken cancel)
    {
        progress("Reading the weather", 0.02);
        SiteYears years = SiteReading.Years(store, site, weather);
        cancel.ThrowIfCancellationRequested();
        return years;
    }

    private LocalDate Today() => job.Asked.InZone(site.Zone()).Date;

    private static SearchReport Report(PlanResult result) => new(
        System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName($"{result.Report.Status}"),
            result.Report.Levels.Select(l => new AimView(l.Aim, l.Unit, l.Value, l.Bound, l.Gap)).ToListOf(),
        result.Report.EffortSeconds, result.Report.Programs, result.Report.Gap);

    private static ListOf<ObstacleView> Obstacles(PlanResult result) =>
        result.Obstacles.Select(o => new ObstacleView(o.Where, o.What, o.Advice.Select(a => a.What.Text).ToListOf())
    {
        Said = SentenceParts.Of(o.What),
        Changes = o.Advice.Select(AdviceTold.Of).ToListOf(),
    }).ToListOf();

    private Guid? IdOf(SitePlan made) => made is { Plan: not null, Proof: not null } ? job.Id : null;

    /// <summary>What is to be kept: a plan with its proof and its season, where there is one.</summary>
    private JobMade Kept(SitePlan made, object result)
    {
        if (made is not { Plan: { } plan, Proof: { } proof })
        {
            return new JobMade(result);
        }

        string? season = made is { Season: { } found, Curve: { } curve }
            ? Json.Write(new SeasonKept(
                made.Years.Split.Explanation, found, curve, YearOfWater.Of(made.Years.Site, plan, made.Years.Training))
                { YearsSaid = SentenceParts.Of(made.Years.Split.Explanation) })
            : null;
        SavedPlan saved = SavedPlan.Of(site, plan, made.From);
        PlanValue value = new(saved.Survey, saved.From, PlanFiles.Write(saved), Json.Write(proof), season);
        return new JobMade(result, new Change(SiteId, job.Id, RecordKind.Plan, value, null, Stamp()), new Refusal(
            StatusCodes.Status409Conflict, "changed-since", "The site was removed meanwhile. The plan was not stored."));
    }

    /// <summary>Who asked; when it is kept is said by who keeps it.</summary>
    private Stamp Stamp() => new(by, job.Asked);
}
