using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof;

/// <summary>Follows every spot of every zone under a plan through years of weather.</summary>
internal static class WaterReplay
{
    /// <summary>Replays a plan.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its plan; a controller without one gets no water.</param>
    /// <param name="years">Stretches of weather, usually a year each; every one starts with full root zones.</param>
    /// <param name="neverRunsOff">Takes irrigation to be split so that none runs off.</param>
    public static ListOf<ZoneProof> Run(Site site, Plan plan, IReadOnlyList<Climate> years, bool neverRunsOff = false)
    {
        DateTimeZone zone = site.Zone();
        List<ZoneProof> zones = [];
        foreach (SiteController controller in site.Controllers)
        {
            ControllerPlan? own = plan.Controllers.FirstOrDefault(c => c.Controller == controller.Name);
            IReadOnlyList<Opening>[] openings = [.. years.Select(y => own is null ? [] : Watered.Of(zone, controller, own, y.First.PlusDays(-1), y.Last).Openings)];
            zones.AddRange(controller.Zones.Select(z => Replay(zone, controller, z, years, openings, neverRunsOff)));
        }

        return zones.ToListOf();
    }

    private static ZoneProof Replay(DateTimeZone siteZone, SiteController controller, Zone zone, IReadOnlyList<Climate> years, IReadOnlyList<Opening>[] openings, bool neverRunsOff)
    {
        SpotShares spots = zone.Emission.Spots;
        SpotSums[] sums = new SpotSums[spots.Share.Count];
        List<ZoneYear> byYear = [];
        double applied = 0, runoff = 0, least = 0, rain = 0, rainRunoff = 0, drainage = 0;
        for (int year = 0; year < years.Count; year++)
        {
            Climate climate = years[year];
            (double[] appliedMm, double[] runoffMm) = ByDay(siteZone, zone, climate, openings[year]);
            double[] ranOff = neverRunsOff ? [] : runoffMm;
            double leastNow = LeastPossibleWater.Of(zone, climate).TotalMm;
            SpotSums[] now = new SpotSums[sums.Length];
            for (int spot = 0; spot < sums.Length; spot++)
            {
                ZoneOutcome outcome = ZoneReplay.Run(Alone(zone, spots.Share[spot]), climate, appliedMm, ranOff);
                now[spot] = new SpotSums(outcome.DemandMm, outcome.UseMm, outcome.StressDays);
                sums[spot] += now[spot];
                drainage += spots.Weight[spot] * outcome.DrainageMm;
                rainRunoff += spots.Weight[spot] * outcome.RainRunoffMm;
            }

            applied += appliedMm.Sum();
            runoff += ranOff.Sum();
            rain += climate.RainMm.Sum();
            least += leastNow;
            byYear.Add(new ZoneYear(
                climate.First.Year, appliedMm.Sum(), leastNow, SpotSums.Mean(now, spots, s => s.Adequacy), now.Min(s => s.Adequacy),
                SpotSums.Mean(now, spots, s => s.Stress), now.Max(s => s.Stress)));
        }

        double n = years.Count;
        double demand = SpotSums.Mean(sums, spots, s => s.Demand);
        return new ZoneProof
        {
            Controller = controller.Name,
            Station = zone.Station,
            Zone = zone.Name,
            AreaM2 = zone.AreaM2,
            AppliedMm = applied / n,
            LeastMm = least / n,
            Adequacy = SpotSums.Mean(sums, spots, s => s.Adequacy),
            WorstSpotAdequacy = sums.Min(s => s.Adequacy),
            Excess = 0,
            StressDays = SpotSums.Mean(sums, spots, s => s.Stress) / n,
            WorstSpotStressDays = sums.Max(s => s.Stress) / n,
            RunoffMm = runoff / n,
            DrainageMm = drainage / n,
            RainMm = rain / n,
            RainRunoffMm = rainRunoff / n,
            DemandMm = demand / n,
            Years = byYear.ToListOf(),
        };
    }

    /// <summary>Gross depth by day, and what runs off of it; an opening counts on the date on which it opens, in the time people live by.</summary>
    private static (double[] AppliedMm, double[] RunoffMm) ByDay(DateTimeZone siteZone, Zone zone, Climate climate, IReadOnlyList<Opening> openings)
    {
        double[] applied = new double[climate.Days];
        double[] runoff = new double[climate.Days];
        foreach (Cycle cycle in Cycle.Of(openings.Where(o => ReferenceEquals(o.Zone, zone)).OrderBy(o => o.OpensUnix), new PondingGround(zone)))
        {
            int day = climate.DayOf(cycle.First.SiteTime(siteZone).Date);
            if (day >= 0 && day < applied.Length)
            {
                applied[day] += cycle.DepthMm;
                runoff[day] += cycle.RunoffMm;
            }
        }

        return (applied, runoff);
    }

    private static Zone Alone(Zone zone, double share) =>
        zone with { Emission = zone.Emission with { Spots = new SpotShares([share], [1.0], zone.Emission.Spots.Origin) } };
}
