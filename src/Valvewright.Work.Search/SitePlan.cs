using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Weather;
using Valvewright.Planning;
using Valvewright.Planning.Programs;
using Valvewright.Planning.Season;

namespace Valvewright.Work.Search;

/// <summary>A plan to be made.</summary>
/// <param name="Years">The site and its years.</param>
/// <param name="From">First date on which the plan is in force.</param>
/// <param name="Season">How its visits are to be planned; null for one percent all season.</param>
/// <param name="HasCurve">Whether to find out what fewer and more visits are worth.</param>
public sealed record PlanRequest(SiteYears Years, LocalDate From, SeasonOptions? Season, bool HasCurve);

/// <summary>Visits to be found.</summary>
/// <param name="Years">The site and its years.</param>
/// <param name="From">First date on which the plan is in force.</param>
/// <param name="Programs">The programs that stay; null: they are chosen together with the visits.</param>
/// <param name="Season">How the visits are to be planned.</param>
/// <param name="HasCurve">Whether to find out what fewer and more visits are worth.</param>
public sealed record VisitRequest(SiteYears Years, LocalDate From, Plan? Programs, SeasonOptions Season, bool HasCurve);

/// <summary>Receives what is being done, and how much is done, 0 to 1.</summary>
public delegate void WorkProgress(Sentence step, double done);

/// <summary>A site's plan with its visits and its proof, or what is in the way of one.</summary>
/// <param name="Years">The site and its years.</param>
/// <param name="From">First date on which the plan is in force.</param>
/// <param name="Search">How the programs were found, or what is in the way; null where they were given.</param>
/// <param name="Rounds">Programs and season, round by round, where they were chosen together.</param>
public sealed record SitePlan(SiteYears Years, LocalDate From, PlanResult? Search, ListOf<SeasonRound> Rounds)
{
    /// <summary>Standard deviations kept in hand where a season planned with one fails its proof.</summary>
    private static readonly double[] MorePrudent = [1.25, 1.5, 2, 3];

    /// <summary>The same where programs have to be chosen again.</summary>
    private static readonly double[] ProgramsMorePrudent = [2, 3];

    /// <summary>What a highest percent of 100 may cost, over the cost without it.</summary>
    private const double DearestRound = 1.01;

    /// <summary>Parts of a tank and of a pump's starts to count on: less where start times leave less than the dates promised.</summary>
    private static readonly double[] SharesOfStorage = [1, 0.8, 0.6, 0.4];

    /// <summary>The plan, with its visits where it has any; null where there is none.</summary>
    public Plan? Plan { get; private init; }

    /// <summary>The visits of the year; null without a plan, or where none were asked for or nothing grows that lasts.</summary>
    public SeasonPlan? Season { get; private init; }

    /// <summary>What a visit is worth; null unless asked for.</summary>
    public VisitCurve? Curve { get; private init; }

    /// <summary>The proof; null without a plan.</summary>
    public ProofReport? Proof { get; private init; }

    /// <summary>Plans a site, with visits where they are asked for and something grows that lasts.</summary>
    /// <exception cref="RefusalException">The limits on visits cannot be met.</exception>
    public static SitePlan Of(PlanRequest request, WorkProgress progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        request = request with { Years = request.Years.AsOf(request.From) };
        return WithinStorage(request.Years.Site, share => Once(request, share, progress, cancel));
    }

    /// <summary>
    /// The first plan whose proof finds that tanks and pumps serve it; where none does, one made without regard to them, whose proof says
    /// what they lack.
    /// </summary>
    private static SitePlan WithinStorage(Site site, Func<double, SitePlan> plan)
    {
        if (!site.Supplies.Any(s => s.Tank is not null || s.Pump is not null)) return plan(1);
        foreach (double share in SharesOfStorage)
        {
            // With less to count on there is no plan either.
            if (plan(share) is not { Plan: not null } found) break;
            if (!found.BreaksStorage) return found;
        }

        return plan(0);
    }

    private bool BreaksStorage =>
        Proof?.Breaches.Any(b => b.Kind is BreachKind.TankRunsShort or BreachKind.PumpStartsTooOften) == true;

    private static SitePlan Once(PlanRequest request, double share, WorkProgress progress, CancellationToken cancel)
    {
        if (request.Season is { } options)
        {
            return Served(options, wanted =>
            {
                SitePlan both = Together(request.Years, request.From, wanted, share, progress, cancel);
                return both.Season is { } season ? both.WithVisits(both.Plan!, season, wanted, request.HasCurve, progress, cancel)
                    : both.Proven(progress, cancel);
            });
        }

        PlanResult result = Planner.Plan(
            request.Years.Site, request.Years.Training, new PlannerOptions { InForceFrom = request.From, StorageShare = share },
            new Steps(progress), cancel);
        return new SitePlan(request.Years, request.From, result, []) { Plan = result.Plan }.Proven(progress, cancel);
    }

    /// <summary>Finds the visits of a year.</summary>
    /// <exception cref="RefusalException">The limits on visits cannot be met, or nothing grows that lasts.</exception>
    public static SitePlan Of(VisitRequest request, WorkProgress progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        request = request with { Years = request.Years.AsOf(request.From) };
        return request.Programs is { } kept
            ? new SitePlan(request.Years, request.From, null, []) { Plan = kept }
                .WithVisits(kept, null, request.Season, request.HasCurve, progress, cancel)
            : WithinStorage(request.Years.Site, share => Served(request.Season, wanted =>
            {
                SitePlan both = Together(request.Years, request.From, wanted, share, progress, cancel);
                return both.Plan is { } programs
                    ? both.WithVisits(programs, both.Season, wanted, request.HasCurve, progress, cancel) : both;
            }));
    }

    /// <summary>Where no season of the programs serves every zone in years that were not planned with, programs are chosen with more in
    /// hand as well.</summary>
    private static SitePlan Served(SeasonOptions options, Func<SeasonOptions, SitePlan> plan)
    {
        SitePlan made = plan(options);
        foreach (double prudence in options.Goal is null or Goal.Weigh ? ProgramsMorePrudent : [])
        {
            if (made.Proof?.Verdict.ZonesServed != false) break;
            SitePlan careful = plan(options with { Prudence = prudence });
            made = careful.Proof?.Verdict.ZonesServed == true ? careful : made;
        }

        return made;
    }

    private static SitePlan Together(
        SiteYears years, LocalDate from, SeasonOptions season, double share, WorkProgress progress, CancellationToken cancel)
    {
        VisitSearch.RequireWholeYears(years.Training);
        PlanAndSeasonResult Find(Site site) => VisitSearch.Refused(() => PlanAndSeason.Of(
            site, years.Training, new PlannerOptions { InForceFrom = from, StorageShare = share }, season,
                new Steps((step, done) => progress(step, done / 2)), cancel));

        // A controller with a seedbed is programmed for the lawn that it becomes; at sowing it gets programs for the seedbed, where there
        // is room for them.
        Site lawns = SeedbedVisits.AsLawns(years.Site);
        if (lawns != years.Site && Find(lawns) is { Plan.Plan: { } plan, Season: { } found } asLawns
            && SeedbedPrograms.With(years.Site, found.ApplyTo(plan), years.Training, from) is { } sown)
        {
            return new SitePlan(years, from, asLawns.Plan, asLawns.Rounds) { Plan = sown, Season = found };
        }

        PlanAndSeasonResult both = Find(years.Site);
        return new SitePlan(years, from, both.Plan, both.Rounds) { Plan = both.Plan.Plan, Season = both.Season };
    }

    private SitePlan WithVisits(
        Plan programs, SeasonPlan? found, SeasonOptions options, bool hasCurve, WorkProgress progress, CancellationToken cancel)
    {
        VisitSearch.RequireWholeYears(Years.Training);
        progress("Looking for the visits, and for what fewer or more are worth", 0.5);
        VisitSearch visits = new(Years, programs, options);
        ListOf<SeasonPlan>? seasons = hasCurve ? visits.UpToTwelve(cancel) : null;
        SitePlan kept = Visited(programs, found ?? visits.Wanted(seasons, cancel));
        double prudence = options.Prudence;

        // Years that were not planned with may be drier than those known: a season that leaves a zone short there keeps more in hand.
        foreach (double more in options.Goal is null or Goal.Weigh ? MorePrudent : [])
        {
            if (kept.Proof!.Verdict.ZonesServed)
            {
                break;
            }

            SitePlan careful = Visited(
                programs, new VisitSearch(Years, programs, options with { Prudence = more }).Wanted(null, cancel));
            (kept, prudence) = careful.Proof!.Verdict.ZonesServed ? (careful, more) : (kept, prudence);
        }

        // You read 100% as "all of it": run times are for the year's highest percent, where that costs next to nothing.
        if (Search is not null && RunTimeTuning.WithHighestAtFull(Years.Site, programs, kept.Season!) is var full && full != programs)
        {
            SitePlan round = Visited(full, new VisitSearch(Years, full, options with { Prudence = prudence }).Wanted(null, cancel));
            bool isServed = round.Proof!.Verdict.ZonesServed || !kept.Proof!.Verdict.ZonesServed;
            kept = isServed && round.Season!.CostLitres <= kept.Season!.CostLitres * DearestRound ? round : kept;
        }

        return kept;

        SitePlan Visited(Plan set, SeasonPlan season) => (this with
        {
            Plan = SeedbedVisits.Keep(
                Years.Site, season.ApplyTo(set), name => SeedbedVisits.ProgramsIn(Years.Site, set, name)),
            Season = season,
            Curve = seasons is null ? null : VisitCurve.Of(seasons),
        }).Proven(progress, cancel);
    }

    private SitePlan Proven(WorkProgress progress, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (Plan is null)
        {
            return this;
        }

        progress("Proving", 0.9);
        ProofReport proof = PlanProof.Of(new ProofRequest(Years, Plan, From));
        cancel.ThrowIfCancellationRequested();
        return this with { Proof = proof };
    }

    private sealed class Steps(WorkProgress progress) : IProgress<PlanProgress>
    {
        public void Report(PlanProgress value) => progress($"Planning {value.Supply}: {(Sentence)value.Step}", 0.1 + (0.7 * value.Done));
    }
}
