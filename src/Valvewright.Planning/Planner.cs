using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;
using Valvewright.Planning.Programs;
using Valvewright.Planning.Season;

namespace Valvewright.Planning;

/// <summary>Chooses the programs of all controllers of a site.</summary>
public static class Planner
{
    /// <summary>Plans every supply of the site, independent ones at the same time.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="training">Years of climate to plan with, one each; held-back years are left for the proof.</param>
    /// <param name="options">Measures and limits; null for the defaults.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <exception cref="ArgumentException">No training year is given.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static PlanResult Plan(
        Site site, ListOf<Climate> training, PlannerOptions? options = null, IProgress<PlanProgress>? progress = null,
            CancellationToken cancel = default) =>
        Plan(site, training, new YearsOfZones(training), options, progress, cancel);

    /// <summary>The same with the zones' years known already.</summary>
    internal static PlanResult Plan(
        Site site, ListOf<Climate> training, YearsOfZones known, PlannerOptions? options, IProgress<PlanProgress>? progress,
            CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(training);
        if (training.Count == 0)
        {
            throw new ArgumentException("At least one year of climate is needed to plan with.", nameof(training));
        }

        options ??= new PlannerOptions();
        LocalDate firstDate = options.InForceFrom ?? new LocalDate(training.Max(t => t.Last).Year + 1, 1, 1);
        ListOf<Obstacle> impossible = TooMuchFlow.Of(site);
        if (impossible.Count > 0)
        {
            return new PlanResult(null, new PlanReport(PlanStatus.Impossible, [], [], 0, 0), impossible);
        }

        string[] supplies = [.. site.Controllers.Where(c => c.Zones.Count > 0).Select(c => c.Supply).Distinct()];
        SupplyOutcome[] outcomes = new SupplyOutcome[supplies.Length];
        SupplyProgress steps = new(supplies.Length, progress);
        Parallel.For(0, supplies.Length,
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancel }, s =>
        {
            outcomes[s] = SupplyPlanner
                .Plan(site, supplies[s], training, known, options, firstDate, step => steps.Begin(s, supplies[s], step), cancel);
            steps.Begin(s, supplies[s], PlanStep.Done);
        });
        return Together(site, outcomes);
    }

    private static PlanResult Together(Site site, SupplyOutcome[] outcomes)
    {
        PlanStatus status = outcomes.Length == 0 ? PlanStatus.Proven : outcomes.Max(o => o.Status);
        bool planned = outcomes.All(o => o.Controllers is not null);
        Plan? plan = planned
            ? new Plan(site.Name, [.. site.Controllers.Select(c =>
                outcomes.SelectMany(o => o.Controllers!).FirstOrDefault(p => p.Controller == c.Name)
                    ?? new ControllerPlan(c.Name, new Settings([]), []))])
            : null;
        ListOf<AimReached> levels = planned ? [.. outcomes.SelectMany(o => o.Levels).GroupBy(l => (l.Aim, l.Unit)).Select(g =>
            new AimReached(g.Key.Aim, g.Key.Unit, g.Sum(l => l.Value), g.Sum(l => l.Bound)))] : [];
        PlanReport report = new(
            status, levels, [.. outcomes.SelectMany(o => o.Zones)], outcomes.Sum(o => o.Effort), outcomes.Sum(o => o.ProgramsTried));
        return new PlanResult(plan, report, [.. outcomes.SelectMany(o => o.Obstacles)]);
    }
}
