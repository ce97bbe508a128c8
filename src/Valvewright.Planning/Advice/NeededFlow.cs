using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;
using Valvewright.Planning.Hours;

namespace Valvewright.Planning;

/// <summary>When a plan made with more flow draws more than the supply gives now.</summary>
internal static class NeededFlow
{
    /// <summary>The change, with the times between which it is needed.</summary>
    public static MoreFlow Said(MoreFlow change, Site site, IReadOnlyList<ControllerPlan> plans, LocalDate firstDate)
    {
        double now = site.SupplyNamed(change.Supply).FlowLpm;
        if (Between(site, plans, now, firstDate) is not (int from, int to))
        {
            return change;
        }

        bool behind = plans.Any(p => new SiteClock(site.Zone(), site.ControllerNamed(p.Controller).Profile).SecondsBehind(
            firstDate, firstDate.PlusYears(1)).Count > 1);
        return change with { What = behind
            ? (Sentence)$"{change.What}, needed between {InWords.Time(site, from)} and {InWords.Time(site, to)} by the controllers' clocks"
            : (Sentence)$"{change.What}, needed between {InWords.Time(site, from)} and {InWords.Time(site, to)}" };
    }

    /// <summary>The first and the last second after midnight at which more is drawn on any date; null when it never is.</summary>
    private static (int From, int To)? Between(Site site, IReadOnlyList<ControllerPlan> plans, double lpm, LocalDate firstDate)
    {
        var programs = plans.SelectMany(c => c.Settings.Programs.Where(p => p.Days is not null)
            .Select(p => (Controller: site.ControllerNamed(c.Controller), Program: p))).ToArray();
        int? first = null, last = null;
        foreach (DateSet date in DateSets.Of([.. programs.Select(p => (p.Program.Days!, p.Controller.Profile, false))], firstDate))
        {
            List<(int At, double Change)> changes = [];
            foreach (var (controller, program) in programs.Where((_, i) => date.Has(i)))
            {
                foreach (LocalTime start in program.StartTimes)
                {
                    int at = (int)(start.NanosecondOfDay / NodaConstants.NanosecondsPerSecond) + (
                        controller.Profile.Pump?.LeadSeconds ?? 0);
                    foreach (var run in program.RunTimes.OrderBy(r => r.Station))
                    {
                        double flow = controller.ZoneAt(run.Station).Emission.FlowLpm;
                        changes.Add((at, flow));
                        changes.Add((at + run.Seconds, -flow));
                        at += run.Seconds + controller.Profile.PauseBetweenStationsSeconds;
                    }
                }
            }

            double drawn = 0;
            foreach ((int at, double change) in changes.OrderBy(c => c.At).ThenBy(c => c.Change))
            {
                if (drawn > lpm + 1e-6)
                {
                    last = Math.Max(last ?? at, at);
                }

                drawn += change;
                if (drawn > lpm + 1e-6)
                {
                    first = Math.Min(first ?? at, at);
                }
            }
        }

        return first is { } f && last is { } l ? (f, l) : null;
    }
}
