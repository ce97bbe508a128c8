using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.Water;

/// <summary>One zone through one stretch of weather; a seedbed by the hour, all else by the day.</summary>
/// <param name="Climate">The stretch.</param>
/// <param name="Column">The low quarter.</param>
/// <param name="DriestUseMet">The part of its use that the driest spot has met.</param>
/// <param name="Score">The low quarter as the SWAT protocol counts.</param>
/// <param name="Minimum">Minimum water.</param>
internal sealed record ZoneYearReplay(Climate Climate, ZoneOutcome Column, double DriestUseMet, SwatScore Score, MinimumWater Minimum)
{
    /// <summary>Replays it.</summary>
    /// <param name="site">The site.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="climate">The stretch of weather.</param>
    /// <param name="openings">What the zone's controller does in it, other zones' openings included.</param>
    /// <param name="neverRunsOff">Takes irrigation to be split so that none runs off.</param>
    public static ZoneYearReplay Of(Site site, Zone zone, Climate climate, IReadOnlyList<Opening> openings, bool neverRunsOff)
    {
        (ZoneDays days, double[] applied, double[] runoff) = Watering(site, zone, climate, openings);
        double[] ranOff = neverRunsOff ? [] : runoff;
        double driest = LowQuarter.ShareOf(zone.Emission.Spots.Share.Min(), zone.SoilEvening);
        return new ZoneYearReplay(
            climate,
            ZoneReplay.Run(zone, days, applied, ranOff, zone.LowQuarterShare),
            ZoneReplay.Run(zone, days, applied, ranOff, driest).UseMet,
            SwatProtocol.Score(zone, days, applied, ranOff),
            MinimumWater.Of(zone, days));
    }

    /// <summary>The steps of a zone through a stretch of weather, with the gross depth that falls in each and what runs off of
    /// it.</summary>
    public static (ZoneDays Days, double[] AppliedMm, double[] RunoffMm) Watering(
        Site site, Zone zone, Climate climate, IReadOnlyList<Opening> openings)
    {
        double clockHours = Seedbed.ClockHoursOf(site);
        ZoneDays days = Seedbed.IsOne(zone) ? Seedbed.HoursOf(zone, site.Place, clockHours, climate) : ZoneDays.Of(zone, climate);
        (double[] applied, double[] runoff) = days.StepsPerDay == 1
            ? ByStep(zone, days, openings, ByDate(RulesNowInForce.Of(site.Zone()), days))
            : ByStep(zone, days, openings, ByHour(clockHours, climate));
        return (days, applied, runoff);
    }

    /// <summary>Gross depth by step, and what runs off of it. A cycle counts in the step in which it begins.</summary>
    private static (double[] AppliedMm, double[] RunoffMm) ByStep(
        Zone zone, ZoneDays days, IReadOnlyList<Opening> openings, Func<long, int> stepOf)
    {
        double[] applied = new double[days.Steps];
        double[] runoff = new double[days.Steps];
        foreach (Cycle cycle in Cycle
            .Of(openings.Where(o => ReferenceEquals(o.Zone, zone)).OrderBy(o => o.OpensUnix), new PondingGround(zone)))
        {
            int step = stepOf(cycle.First.OpensUnix);
            if (step >= 0 && step < applied.Length)
            {
                applied[step] += cycle.DepthMm;
                runoff[step] += cycle.RunoffMm;
            }
        }

        return (applied, runoff);
    }

    /// <summary>The day of a climate by the date that people live by.</summary>
    private static Func<long, int> ByDate(DateTimeZone zone, ZoneDays days) =>
        unix => days.Lead + days.Climate.DayOf(Instant.FromUnixTimeSeconds(unix).InZone(zone).Date);

    /// <summary>The hour of a climate by standard time, as the sun goes.</summary>
    private static Func<long, int> ByHour(double clockHours, Climate climate)
    {
        long first = climate.First.AtMidnight().InUtc().ToInstant().ToUnixTimeSeconds() - (long)(clockHours * 3600);
        return unix => (int)Math.Floor((unix - first) / 3600.0);
    }
}
