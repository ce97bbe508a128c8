using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Tests;

/// <summary>
/// What a gardener would object to in a plan that breaks no rule. The habits are those of the trade (rule of thumb): sprinklers before
/// sunrise, a watering's cycles one after the other, start times that can be read back over the telephone.
/// </summary>
internal static class KeyedByHand
{
    private const int Day = 86_400;
    private static readonly LocalTime TwoInTheMorning = new(2, 0), HalfPastSeven = new(7, 30);

    /// <summary>Every objection, in words.</summary>
    public static List<string> Objections(Site site, Plan plan) =>
        [.. from controller in site.Controllers
            from program in plan.For(controller.Name).Settings.Programs
            from objection in Objections(site, controller, program).Distinct()
            select $"{controller.Name} {program.Letter}: {objection}"];

    private static IEnumerable<string> Objections(Site site, SiteController controller, Program program)
    {
        Zone[] zones = [.. program.RunTimes.Select(r => controller.ZoneAt(r.Station))];
        bool seedbed = zones.Any(z => z.Planting.Stage == PlantStage.NewlySeeded);
        foreach (LocalTime start in program.StartTimes.Where(s => s.Minute % Math.Max(5, controller.Profile.StartStepMinutes) != 0))
        {
            yield return $"starts at {start}";
        }

        foreach (RunTime run in program.RunTimes
            .Where(r => r.Seconds > 3600 && 300 % controller.Profile.RunTimeStepSeconds == 0 && r.Seconds % 300 != 0))
        {
            yield return $"station {run.Station} runs {run.Seconds / 60.0} min";
        }

        if (seedbed)
        {
            if (zones.Any(z => z.Planting.Stage != PlantStage.NewlySeeded && IsOverhead(z)))
            {
                yield return "an established lawn is watered with a seedbed";
            }

            yield break;
        }

        int total = program.RunTimes.Sum(r => r.Seconds);
        int soak = zones.Max(z => CycleAndSoak.Of(z).SoakSeconds);
        long[] starts = [.. program.StartTimes.Order().Select(s => s.NanosecondOfDay / NodaConstants.NanosecondsPerSecond)];
        if (starts[^1] - starts[0] > (starts.Length - 1) * (total + soak) + 3600)
        {
            yield return $"its cycles of a date lie apart: {string.Join(' ', program.StartTimes)}";
        }

        int[] behind = controller.Profile.ClockKnowsDaylightSaving || site.TimeZone is "America/Phoenix" or "Asia/Baku" ? [0] : [0, 3600];
        foreach (long start in starts)
        {
            long at = start + (controller.Profile.Pump?.LeadSeconds ?? 0);
            foreach (RunTime run in program.RunTimes)
            {
                bool early = behind.All(b => Watch(at + b) >= TwoInTheMorning && Watch(at + b + run.Seconds - 1) < HalfPastSeven
                    && at + b + run.Seconds <= Day);
                if (IsOverhead(controller.ZoneAt(run.Station)) && !early)
                {
                    yield return $"sprinklers of station {run.Station} run from {Watch(at)} by the clock, {behind[^1] / 3600} h behind in summer";
                }

                at += run.Seconds + controller.Profile.PauseBetweenStationsSeconds;
            }
        }
    }

    private static bool IsOverhead(Zone zone) => zone.Emission.Kind is not (EmissionKind.Drip or EmissionKind.Bubbler);

    private static LocalTime Watch(long seconds) => LocalTime.FromSecondsSinceMidnight((int)((seconds % Day + Day) % Day));
}
