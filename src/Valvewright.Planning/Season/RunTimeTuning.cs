using Valvewright.Engine.Needs;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Season;

/// <summary>Sets run times for the percents that a season uses, so that zones that share a percent each get what suits them and the year's
/// highest percent is 100.</summary>
/// <remarks>Run times only get shorter: hours and flow that carried the planned ones carry these.</remarks>
public static class RunTimeTuning
{
    private const int Full = 100;
    private const int Candidates = 32;

    /// <summary>The shortest run time that is tried, over the planned one.</summary>
    private const double LeastPart = 0.3;

    /// <summary>The plan with run times tuned to a season.</summary>
    internal static Plan Of(
        Site site, Plan plan, IReadOnlyList<Climate> years, SeasonPlan season, IReadOnlyList<string>? only, YearsOfZones known)
    {
        SeasonProblem problem = SeasonProblem.Of(site, plan, years, season.Options, only, known);
        ScheduleReplay replay = new(problem);
        int[] dates = [.. season.Dates.Select(d => Enumerable.Range(0, problem.Days.Count).First(i => problem.Days.DateOf(i) == d))];
        Dictionary<(string Controller, int Station), int> seconds = [];
        foreach (SeasonController controller in problem.Controllers)
        {
            int[] percents = [.. season.Controllers.Single(s => s.Controller == controller.Controller.Name).Percents];
            int highest = percents.Max();
            if (highest == 0)
            {
                continue;
            }

            // Percents as they will be once the highest is 100; a season chosen again sets them exactly.
            int[] on = [.. percents.Where(p => p > 0)];
            foreach (PlannedZone zone in controller.Zones.Where(z => z.RunSeconds() > 0))
            {
                int[] tried = Tried(zone, controller.Controller.Profile.RunTimeStepSeconds, on.Min(), highest);
                SeasonTotals[] totals = replay.Of([zone], dates, tried, (z, run, visit) => z.DepthOfRunMm(run, percents[visit]));
                int best = Enumerable.Range(0, tried.Length)
                    .MinBy(i => totals[i].Water + totals[i].Weighed + (SeasonTotals.ShortWeight * totals[i].Short));
                double atFull = tried[best] * (highest / (double)Full);
                seconds[(controller.Controller.Name, zone.Zone.Station)] = Math
                    .Min(zone.RunSeconds(), Choices.RoundTimes.Up(atFull, controller.Controller.Profile.RunTimeStepSeconds));
            }
        }

        return WithRunTimes(plan, (controller, run) => seconds.GetValueOrDefault((controller, run.Station), run.Seconds));
    }

    /// <summary>The plan with run times shortened so that a season's highest percent becomes 100; the same plan where it is 100 or
    /// more.</summary>
    public static Plan WithHighestAtFull(Site site, Plan plan, SeasonPlan season)
    {
        Dictionary<string, int> highest = season.Controllers.Where(c => c.Percents.Max() is > 0 and < Full)
            .ToDictionary(c => c.Controller, c => c.Percents.Max());
        return highest.Count == 0 ? plan : WithRunTimes(plan, (name, run) => highest.TryGetValue(name, out int percent)
            ? Math.Min(run.Seconds, Choices.RoundTimes.Up(
                run.Seconds * percent / (double)Full, site.ControllerNamed(name).Profile.RunTimeStepSeconds))
            : run.Seconds);
    }

    private static Plan WithRunTimes(Plan plan, Func<string, RunTime, int> secondsOf) => plan with
    {
        Controllers = plan.Controllers.Select(c => c with
        {
            Settings = c.Settings with
            {
                Programs = c.Settings.Programs.Select(p => p with
                {
                    RunTimes = p.RunTimes.Select(r => r with { Seconds = secondsOf(c.Controller, r) }).ToListOf(),
                }).ToListOf(),
            },
        }).ToListOf(),
    };

    /// <summary>Run times from a part of the planned one up to it, none of them useless at the lowest percent.</summary>
    private static int[] Tried(PlannedZone zone, int step, int lowest, int highest)
    {
        int planned = zone.RunSeconds();
        bool Serves(int run) => UsefulDepth.Serves(zone.Zone, zone.DepthOfRunMm(run, lowest), zone.Cycles());
        bool must = Serves(planned);

        // At percents below 100 all year, run times above the planned one come back under it once the highest percent is 100.
        double most = planned * Math.Max(1, (double)Full / highest);
        int[] all = [.. Enumerable.Range(0, Candidates)
            .Select(i => (int)Math.Round(most * (LeastPart + ((1 - LeastPart) * i / (Candidates - 1))) / step) * step)
            .Where(r => r > 0 && (must ? Serves(r) : r * lowest / Full >= Math.Min(UsefulDepth.LeastRunSeconds(zone.Zone), planned)))
            .Distinct()];
        return all.Length > 0 ? all : [planned];
    }
}
