using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;
using Valvewright.Planning.Programs;
using Valvewright.Planning.Season;

namespace Valvewright.Planning;

/// <summary>What planning one supply came to.</summary>
internal sealed record SupplyOutcome(
    PlanStatus Status, IReadOnlyList<ControllerPlan>? Controllers, IReadOnlyList<AimReached> Levels, IReadOnlyList<ZoneChosen> Zones,
    IReadOnlyList<Obstacle> Obstacles, double Effort, int ProgramsTried);

/// <summary>
/// Plans the controllers of one supply: the best programs first, then dates and start times for them; where there are none, the
/// programs that cannot be timed together are ruled out and the next best are tried. The first that can be timed are the best of all.
/// </summary>
internal static class SupplyPlanner
{
    /// <summary>Plans a supply, or says what is in the way.</summary>
    public static SupplyOutcome Plan(
        Site site, string supply, IReadOnlyList<Climate> training, YearsOfZones known, PlannerOptions options, LocalDate firstDate,
            Action<PlanStep> begin, CancellationToken cancel)
    {
        ZoneMemory memory = new(training, known);
        if (site.SupplyNamed(supply).Permitted.IsInDoubt
            && Attempt(site, supply, memory, options with { BothReadings = true }, firstDate, begin, cancel, withLesser: false).Outcome is
                { Controllers: not null } either)
        {
            return either;
        }

        (SupplyOutcome outcome, ControllerCase[] controllers) = Attempt(site, supply, memory, options, firstDate, begin, cancel);
        if (outcome.Controllers is not null)
        {
            return outcome;
        }

        AdviceSearch advice = new(
            site, supply, controllers, outcome.Status, options, (changed, touched, how) =>
                Attempt(changed, touched, memory, how, firstDate, _ => { }, cancel).Outcome, firstDate, cancel);
        return outcome with { Obstacles = advice.Find(begin) };
    }

    private static (SupplyOutcome Outcome, ControllerCase[] Controllers) Attempt(
        Site site, string supply, ZoneMemory memory, PlannerOptions options, LocalDate firstDate, Action<PlanStep> begin,
            CancellationToken cancel, bool withLesser = true)
    {
        begin(PlanStep.Needs);
        SiteController[] own = [.. site.Controllers.Where(c => c.Supply == supply && c.Zones.Count > 0)];
        ControllerCase[] controllers = new ControllerCase[own.Length];
        Parallel.For(0, own.Length,
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancel }, c =>
        {
            controllers[c] = new ControllerCase(site, own[c], options, firstDate, memory);
            _ = controllers[c].Zones.Sum(z => z.Choices.Count);
        });
        (own, controllers) = (
            [.. own.Where((_, c) => controllers[c].Zones.Count > 0)], [.. controllers.Where(c => c.Zones.Count > 0)]);
        if (controllers.Length == 0) return (new SupplyOutcome(PlanStatus.Proven, [], [], [], [], 0, 0), controllers);
        HoursSearch hours = new(controllers, [.. own.Select(c => EarlyHours.Of(site, c.Profile, firstDate))], options, firstDate);
        Trials trials = new(controllers, hours, options, begin, cancel);
        SupplyOutcome? best = options.OnlyWhether ? null : trials.Run(withLesser: false);
        return (best is null || withLesser && best.Controllers is null ? trials.Run(withLesser: true) : best, controllers);
    }
}
