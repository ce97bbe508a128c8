using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;
using Valvewright.Planning.Programs;

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
    private const int MostProgramTrials = 40;

    public static SupplyOutcome Plan(
        Site site, string supply, IReadOnlyList<Climate> training, PlannerOptions options, LocalDate firstDate, Action<string> say, CancellationToken cancel)
    {
        say("What each zone needs");
        ControllerCase[] controllers = [.. site.Controllers
            .Where(c => c.Supply == supply && c.Zones.Count > 0)
            .Select(c => new ControllerCase(site, c, training, options, firstDate))];
        cancel.ThrowIfCancellationRequested();
        ProgramModel model = new(controllers);
        HoursSearch hours = new(controllers, options, firstDate, Dawn.SecondsAfterMidnight(site, firstDate.Year));
        double effort = 0;
        for (int trial = 1; trial <= MostProgramTrials; trial++)
        {
            say("Programs");
            ProgramSearch? programs = ProgramSearch.Run(model, options, options.EffortSeconds, cancel);
            if (programs is null)
            {
                return Nothing(PlanStatus.Impossible, effort + hours.Effort, trial);
            }

            effort += programs.Effort;
            say("Dates and start times");
            if (hours.Find(programs.Programs, options.EffortSeconds, cancel) is { } timed)
            {
                return Planned(controllers, programs, timed, effort + hours.Effort, trial);
            }

            model.Forbid(Culprits(hours, programs.Programs, options, cancel));
        }

        return Nothing(PlanStatus.NotFound, effort + hours.Effort, MostProgramTrials);
    }

    /// <summary>Programs that cannot be timed even without the others: one controller's, if one is enough, or all.</summary>
    private static List<ProgramDraft> Culprits(HoursSearch hours, List<ProgramDraft> programs, PlannerOptions options, CancellationToken cancel)
    {
        List<ProgramDraft> culprits = programs;
        foreach (ProgramDraft program in programs)
        {
            List<ProgramDraft> fewer = [.. culprits.Where(p => p != program)];
            if (fewer.Count > 0 && hours.Find(fewer, options.EffortSeconds / 8, cancel) is null)
            {
                culprits = fewer;
            }
        }

        return culprits;
    }

    private static SupplyOutcome Nothing(PlanStatus status, double effort, int trials) => new(status, null, [], [], [], effort, trials);

    private static SupplyOutcome Planned(ControllerCase[] controllers, ProgramSearch programs, TimedPlan timed, double effort, int trials)
    {
        List<ControllerPlan> plans = [];
        List<ZoneChosen> zones = [];
        for (int c = 0; c < controllers.Length; c++)
        {
            plans.Add(WriteUp.ControllerPlan(controllers[c], c, timed, zones));
        }

        AimReached[] levels =
        [
            new("stress beyond the tolerated", "spot-days a year", programs.Stress.Value / 100.0, programs.Stress.Bound / 100.0),
            new("water", "litres a year", programs.Water.Value, programs.Water.Bound),
            new("settings", "settings to key in", programs.Settings.Value, programs.Settings.Bound),
            new("span of watering around dawn", "minutes", timed.SpanSeconds / 60.0, timed.BoundSeconds / 60.0),
        ];
        bool proven = programs.Stress.IsProven && programs.Water.IsProven && programs.Settings.IsProven && timed.IsProven;
        return new SupplyOutcome(proven ? PlanStatus.Proven : PlanStatus.WithinGap, plans, levels, zones, [], effort, trials);
    }
}
