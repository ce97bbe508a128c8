using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Controllers;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.Water;

/// <summary>Follows every zone under a plan through years of weather.</summary>
internal static class WaterReplay
{
    /// <summary>Replays a plan.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its plan; a controller without one gets no water.</param>
    /// <param name="years">Stretches of weather, usually a year each.</param>
    /// <param name="neverRunsOff">Takes irrigation to be split so that none runs off.</param>
    public static ListOf<ZoneProof> Run(Site site, Plan plan, IReadOnlyList<Climate> years, bool neverRunsOff = false)
    {
        DateTimeZone zone = RulesNowInForce.Of(site.Zone());
        List<ZoneProof> zones = [];
        foreach (SiteController controller in site.Controllers)
        {
            ControllerPlan? own = plan.Controllers.FirstOrDefault(c => c.Controller == controller.Name);
            IReadOnlyList<Opening>[] openings = [
                .. years.Select(y =>
                    own is null ? [] : Watered.Of(zone, controller, own, (y.Before ?? y).First.PlusDays(-1), y.Last).Openings)];
            zones.AddRange(controller.Zones.Select(z => Replay(site, controller, z, years, openings, neverRunsOff)));
        }

        return zones.ToListOf();
    }

    private static ZoneProof Replay(
        Site site, SiteController controller, Zone zone, IReadOnlyList<Climate> years, IReadOnlyList<Opening>[] openings, bool neverRunsOff)
    {
        List<ZoneYearReplay> replays = [];
        foreach (Climate stretch in Seedbed.IsOne(zone) ? Seedbed.WindowsOf(zone, years) : years)
        {
            int year = Enumerable.Range(0, years.Count).First(y => years[y].First <= stretch.First && stretch.Last <= years[y].Last);
            replays.Add(ZoneYearReplay.Of(site, zone, stretch, openings[year], neverRunsOff));
        }

        double n = Math.Max(1, replays.Count);
        double Mean(Func<ZoneYearReplay, double> of) => replays.Sum(of) / n;
        SwatScore score = replays.Aggregate(default(SwatScore), (sum, r) => sum + r.Score);
        double demand = Mean(r => r.Column.DemandMm), unmet = Mean(r => r.Column.UnmetMm);
        return new ZoneProof
        {
            Controller = controller.Name,
            Station = zone.Station,
            Zone = zone.Name,
            AreaM2 = zone.AreaM2,
            DaysAYear = Mean(r => r.Column.Days),
            AppliedMm = Mean(r => r.Column.AppliedMm),
            MinimumMm = Mean(r => r.Minimum.GrossMm),
            AuditorMm = Mean(r => r.Minimum.GrossMm) * LowQuarter.RunTimeMultiplier(LowQuarter.UniformityOf(zone.Emission.Spots)),
            DemandMm = demand,
            UnmetMm = unmet,
            UseMet = demand > 0 ? 1 - (unmet / demand) : 1,
            LeastUseMet = QualityGoal.Of(zone.Quality).LeastUseMet,
            DriestUseMet = demand > 0 ? replays.Sum(r => r.DriestUseMet * r.Column.DemandMm) / replays.Sum(r => r.Column.DemandMm) : 1,
            DryDays = Mean(r => r.Column.DryDays),
            LongestDryDays = replays.Count == 0 ? 0 : replays.Max(r => r.Column.LongestDryDays),
            Adequacy = score.Adequacy,
            Excess = score.Excess,
            RunoffMm = Mean(r => r.Column.RunoffMm),
            DrainageMm = Mean(r => r.Column.DrainageMm),
            LeafLossMm = Mean(r => r.Column.LeafLossMm),
            RainMm = Mean(r => r.Climate.RainMm.Sum()),
            RainInMm = Mean(r => r.Column.RainInMm),
            Uniformity = LowQuarter.UniformityOf(zone.Emission.Spots),
            Years = replays.Select(
                r => new ZoneYear(r.Climate.First.Year, r.Column.AppliedMm, r.Minimum.GrossMm, r.Column.UseMet,
                    r.Column.LongestDryDays)).ToListOf(),
        };
    }
}
