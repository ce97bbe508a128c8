using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.Water;

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
            zones.AddRange(controller.Zones.Select(z => Replay(site, controller, z, years, openings, neverRunsOff)));
        }

        return zones.ToListOf();
    }

    private static ZoneProof Replay(Site site, SiteController controller, Zone zone, IReadOnlyList<Climate> years, IReadOnlyList<Opening>[] openings, bool neverRunsOff)
    {
        List<ZoneYearReplay> replays = [];
        foreach (Climate stretch in Seedbed.IsOne(zone) ? Seedbed.WindowsOf(zone, years) : years)
        {
            int year = Enumerable.Range(0, years.Count).First(y => years[y].First <= stretch.First && stretch.Last <= years[y].Last);
            replays.Add(ZoneYearReplay.Of(site, zone, stretch, openings[year], neverRunsOff));
        }

        double n = Math.Max(1, replays.Count);
        SwatScore[] spots = [.. Enumerable.Range(0, zone.Emission.Spots.Share.Count).Select(s => replays.Aggregate(default(SwatScore), (sum, r) => sum + r.Scores[s]))];
        double[] stress = [.. Enumerable.Range(0, spots.Length).Select(s => replays.Sum(r => r.StressDays[s]) / n)];
        return new ZoneProof
        {
            Controller = controller.Name,
            Station = zone.Station,
            Zone = zone.Name,
            AreaM2 = zone.AreaM2,
            DaysAYear = replays.Sum(r => r.Days) / n,
            AppliedMm = replays.Sum(r => r.AppliedMm) / n,
            LeastMm = replays.Sum(r => r.LeastMm) / n,
            Adequacy = Mean(zone, s => spots[s].Adequacy),
            WorstSpotAdequacy = spots.Min(s => s.Adequacy),
            Excess = Mean(zone, s => spots[s].Excess),
            StressDays = Mean(zone, s => stress[s]),
            WorstSpotStressDays = stress.Max(),
            RunoffMm = replays.Sum(r => r.RunoffMm) / n,
            DrainageMm = replays.Sum(r => Mean(zone, s => r.DrainageMm[s])) / n,
            RainMm = replays.Sum(r => r.RainMm) / n,
            RainRunoffMm = replays.Sum(r => r.RainRunoffMm) / n,
            DemandMm = replays.Sum(r => r.Scores[0].UseMm) / n,
            Years = replays.Select(r => new ZoneYear(
                r.Year, r.AppliedMm, r.LeastMm, Mean(zone, s => r.Scores[s].Adequacy), r.Scores.Min(s => s.Adequacy), Mean(zone, s => r.StressDays[s]), r.StressDays.Max())).ToListOf(),
        };
    }

    /// <summary>Mean over the spots by area.</summary>
    private static double Mean(Zone zone, Func<int, double> ofSpot) =>
        Enumerable.Range(0, zone.Emission.Spots.Weight.Count).Sum(s => zone.Emission.Spots.Weight[s] * ofSpot(s));
}
