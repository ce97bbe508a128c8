using NodaTime;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>What becomes of each cycle on the ground: what is on the surface, what runs off, and whether the rules on depth
/// hold.</summary>
internal static class CycleCheck
{
    /// <summary>Depths below this are rounding of run times to whole seconds, not runoff.</summary>
    private const double ToleranceMm = 0.02;

    /// <summary>Checks all openings of one controller, by rising time.</summary>
    public static void Run(DateTimeZone zone, IReadOnlyList<Opening> openings, BreachList breaches)
    {
        SiteDays days = new(zone);
        foreach (IGrouping<Zone, Opening> station in openings.Where(o => o.Zone is not null).GroupBy(o => o.Zone!))
        {
            List<Cycle> cycles = [.. Cycle.Of(station.OrderBy(o => o.OpensUnix), new PondingGround(station.Key))];
            foreach (Cycle cycle in cycles)
            {
                Check(zone, cycle, breaches);
            }

            CheckDays(zone, days, cycles, breaches);
        }
    }

    private static void Check(DateTimeZone zone, Cycle cycle, BreachList breaches)
    {
        Zone ground = cycle.First.Zone!;
        if (cycle.RunoffMm <= ToleranceMm && cycle.DepthMm <= ground.LargestDepthPerCycleMm + ToleranceMm)
        {
            return;
        }

        LocalDateTime at = cycle.First.SiteTime(zone);
        string where = Whereabouts.Of(cycle.First);
        if (cycle.RunoffMm > ToleranceMm)
        {
            Sentence why = cycle.StandingBeforeMm > ToleranceMm
                ? (Sentence)"water runs off: it begins before the last cycle has soaked in"
                : (Sentence)$"water runs off: it runs {cycle.Seconds / 60.0:0.#} min, the ground takes {PondingGround.LongestCycleSeconds(ground) / 60.0:0.#} min";
            breaches.Add(BreachKind.RunsOff, where, why, at, new BreachFigure(BreachMeasure.DepthMm, cycle.RunoffMm, 0));
        }

        if (cycle.DepthMm > ground.LargestDepthPerCycleMm + ToleranceMm)
        {
            breaches.Add(BreachKind.DepthPerCycle, where, "too much in one cycle", at,
                new BreachFigure(BreachMeasure.DepthMm, cycle.DepthMm, ground.LargestDepthPerCycleMm));
        }
    }

    private static void CheckDays(DateTimeZone zone, SiteDays days, List<Cycle> cycles, BreachList breaches)
    {
        foreach (IGrouping<int, Cycle> day in cycles.GroupBy(c => days.Of(c.First.OpensUnix)))
        {
            Zone ground = day.First().First.Zone!;
            double depth = day.Sum(c => c.DepthMm);
            if (depth > ground.LargestDepthPerDayMm + ToleranceMm)
            {
                string where = $"{day.First().First.Controller.Name}, station {ground.Station} ({ground.Name})";
                breaches.Add(BreachKind.DepthPerDay, where, "too much on one day", day.First().First.SiteTime(zone),
                    new BreachFigure(BreachMeasure.DepthMm, depth, ground.LargestDepthPerDayMm));
            }
        }
    }
}
