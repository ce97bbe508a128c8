using Google.OrTools.Sat;
using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning;

/// <summary>
/// What is in the way of a supply's plan, and the smallest changes that free it. A change is first tried for whether it frees the supply at
/// all, the sizes of those that come in steps narrowed; then the site is planned with it in earnest, and only what has a plan is advised.
/// </summary>
/// <param name="site">The survey.</param>
/// <param name="supply">The supply that cannot be planned.</param>
/// <param name="controllers">Its controllers.</param>
/// <param name="status">How far it is proven that there is no plan.</param>
/// <param name="options">As the plan was asked for.</param>
/// <param name="planWith">Plans a supply of a changed site.</param>
/// <param name="firstDate">From which intervals count.</param>
/// <param name="cancel">Stops the search.</param>
internal sealed class AdviceSearch(
    Site site, string supply, ControllerCase[] controllers, PlanStatus status, PlannerOptions options,
        Func<Site, string, PlannerOptions, SupplyOutcome> planWith,
    LocalDate firstDate, CancellationToken cancel)
{
    /// <summary>A size that the quick trial takes for enough and planning in earnest does not is grown so often.</summary>
    private const int MostGrown = 4;

    private readonly PlannerOptions whether = options with
        { EffortSeconds = options.EffortSeconds / 24, MostProgramTrials = 3, OnlyWhether = true };
    private readonly WaterSupply own = site.SupplyNamed(supply);

    public List<Obstacle> Find(Action<PlanStep> begin)
    {
        begin(PlanStep.Obstacles);
        SteppedChanges stepped = new(site, supply, controllers);
        int minutes = Missing(Limit.Hours, m => m.ExtraSeconds) is { } seconds ? (seconds + 59) / 60 : 0;
        int flowTenths = Missing(Limit.Flow, m => m.ExtraFlowTenths) ?? 0;
        Narrowed hours = new(), flow = new(), less = new();
        begin(PlanStep.Changes);
        Func<SiteChange?>[] searches =
        [
            () => own.Permitted.Hours.Count == 0 ? null
                : Smallest(stepped.Hours, 1 + (Math.Max(1, minutes) - 1) / SteppedChanges.MinutesStep, stepped.MostHourSteps, hours),
            () => Smallest(stepped.Flow, stepped.FlowStepsOf(flowTenths / 10.0), stepped.MostFlowSteps, flow) is MoreFlow more
                ? NeededFlow.Said(more, site, InEarnest(more)!, firstDate) : null,
            () => Smallest(stepped.LessAsked, 1, SteppedChanges.MostLessSteps, less),
            .. SingleChanges.Of(site, supply, controllers)
                .Select(change => new Func<SiteChange?>(() => Frees(change, out _) && InEarnest(change) is not null ? change : null)),
        ];
        List<SiteChange> freed = [.. searches.AsParallel().AsOrdered().WithDegreeOfParallelism(Environment.ProcessorCount).WithCancellation(
            cancel).Select(search => search()).OfType<SiteChange>()];
        int tooFew = Math.Max(minutes, hours.ProvenTooFew * SteppedChanges.MinutesStep);
        ObstacleWords words = new(site, supply, controllers);
        return [new Obstacle(supply, words.Of(tooFew, flowTenths / 10.0, status, freed),
            [.. freed.OrderBy(f => f.Size).ThenBy(f => f.What.Text, StringComparer.Ordinal)])];
    }

    /// <summary>Whether planning with the change finds anything at all; a failure may be proven.</summary>
    private bool Frees(SiteChange change, out bool isProof)
    {
        SupplyOutcome[] outcomes = [.. Outcomes(change, whether)];
        isProof = outcomes[^1].Status == PlanStatus.Impossible;
        return outcomes[^1].Controllers is not null;
    }

    /// <summary>The plan with the change, asked for as the site's own was; null when there is none.</summary>
    private IReadOnlyList<ControllerPlan>? InEarnest(SiteChange change)
    {
        SupplyOutcome[] outcomes = [.. Outcomes(change, options)];
        return outcomes[^1].Controllers is null ? null : outcomes[0].Controllers;
    }

    /// <summary>Plans the supply itself, and the other supply that a station is moved to; ends with the first that has no plan.</summary>
    private IEnumerable<SupplyOutcome> Outcomes(SiteChange change, PlannerOptions how)
    {
        cancel.ThrowIfCancellationRequested();
        Site changed = change.ApplyTo(site);
        string[] touched = [supply, .. change is MovedStation move ? [site.ControllerNamed(move.To).Supply] : Array.Empty<string>()];
        foreach (string one in touched.Distinct())
        {
            SupplyOutcome outcome = planWith(changed, one, how);
            yield return outcome;
            if (outcome.Controllers is null)
            {
                yield break;
            }
        }
    }

    /// <summary>The least by which a limit is missed when all the others hold; null where it alone would not help.</summary>
    private int? Missing(Limit limit, Func<ProgramModel, IntVar> extra)
    {
        ProgramModel model = new(controllers, copies: 1, withLesser: true, limit);
        if (controllers.Sum(c => c.Zones.Count) > model.Takings.Select(t => (t.Facility.Controller, t.Zone)).Distinct().Count())
        {
            return null;
        }

        model.Model.Minimize(extra(model));
        CpSolver solver = Solving.Solver(options.EffortSeconds / 24);
        return solver.Run(model.Model, cancel).IsFeasible() ? (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6) : null;
    }

    /// <summary>Doubles a size from the least that could do until it frees the plan, narrows it down, and plans with it in
    /// earnest.</summary>
    private SiteChange? Smallest(Func<int, SiteChange> change, int from, int most, Narrowed narrowed)
    {
        if (from > most || !Frees(change(most), out _))
        {
            return null;
        }

        int low = from - 1, high = Math.Min(from, most);
        while (high < most && !Frees(change(high), out bool isProof))
        {
            narrowed.Failed(high, isProof);
            low = high;
            high = Math.Min(most, high * 2);
        }

        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (Frees(change(middle), out bool isProof))
            {
                high = middle;
            }
            else
            {
                narrowed.Failed(middle, isProof);
                low = middle;
            }
        }

        for (int grown = 0; grown < MostGrown && high <= most; grown++, high++)
        {
            if (InEarnest(change(high)) is not null)
            {
                return change(high);
            }
        }

        return InEarnest(change(most)) is not null ? change(most) : null;
    }

    /// <summary>What a search for the smallest size has shown besides.</summary>
    private sealed class Narrowed
    {
        /// <summary>The largest size proven to be too small.</summary>
        public int ProvenTooFew { get; private set; }

        public void Failed(int size, bool isProof) => ProvenTooFew = isProof ? Math.Max(ProvenTooFew, size) : ProvenTooFew;
    }
}
