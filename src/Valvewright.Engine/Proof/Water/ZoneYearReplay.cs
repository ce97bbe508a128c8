using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.Water;

/// <summary>One zone through one stretch of weather, spot by spot; a seedbed by the hour, all else by the day.</summary>
internal sealed class ZoneYearReplay
{
    private ZoneYearReplay(Climate climate, int spots)
    {
        Year = climate.First.Year;
        Days = climate.Days;
        Scores = new SwatScore[spots];
        StressDays = new double[spots];
        DrainageMm = new double[spots];
    }

    public int Year { get; }

    public int Days { get; }

    public double AppliedMm { get; private init; }

    public double RunoffMm { get; private init; }

    public double LeastMm { get; private init; }

    public double RainMm { get; private init; }

    public double RainRunoffMm { get; private init; }

    /// <summary>By spot: demand met and water lost, as the SWAT protocol counts them.</summary>
    public SwatScore[] Scores { get; }

    /// <summary>By spot: days past allowed depletion, weighted by depth.</summary>
    public double[] StressDays { get; }

    /// <summary>By spot: what drained below the root zone.</summary>
    public double[] DrainageMm { get; }

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
        ZoneYearReplay replay = new(climate, zone.Emission.Spots.Share.Count)
        {
            AppliedMm = applied.Sum(),
            RunoffMm = ranOff.Sum(),
            LeastMm = LeastPossibleWater.Of(zone, days).TotalMm,
            RainMm = climate.RainMm.Sum(),
            RainRunoffMm = climate.RainMm.Sum() - days.RainInMm.Sum(),
        };
        for (int spot = 0; spot < replay.Scores.Length; spot++)
        {
            replay.Scores[spot] = SwatProtocol.Score(zone, spot, days, applied, ranOff);
            replay.Follow(zone, spot, days, applied, ranOff);
        }

        return replay;
    }

    /// <summary>The steps of a zone through a stretch of weather, with the gross depth that falls in each and what runs off of it.</summary>
    public static (ZoneDays Days, double[] AppliedMm, double[] RunoffMm) Watering(Site site, Zone zone, Climate climate, IReadOnlyList<Opening> openings)
    {
        double clockHours = Seedbed.ClockHoursOf(site);
        ZoneDays days = Seedbed.IsOne(zone) ? Seedbed.HoursOf(zone, site.Place, clockHours, climate) : ZoneDays.Of(zone, climate);
        (double[] applied, double[] runoff) = days.StepsPerDay == 1
            ? ByStep(zone, days, openings, ByDate(site.Zone(), climate))
            : ByStep(zone, days, openings, ByHour(clockHours, climate));
        return (days, applied, runoff);
    }

    private void Follow(Zone zone, int spot, ZoneDays days, double[] applied, double[] runoff)
    {
        SpotStore store = new(RootZone.Of(zone), depletionMm: 0);
        double part = zone.Emission.Spots.Share[spot] * (1 - zone.Emission.ApplicationLossFraction);
        for (int step = 0; step < applied.Length; step++)
        {
            double sunkIn = applied[step] - (runoff.Length == 0 ? 0 : runoff[step]);
            store.Step(days.RainInMm[step] + (sunkIn * part), days.WantedMm[step]);
        }

        StressDays[spot] = store.StressSteps / days.StepsPerDay;
        DrainageMm[spot] = store.DrainageMm;
    }

    /// <summary>Gross depth by step, and what runs off of it. A cycle counts in the step in which it begins.</summary>
    private static (double[] AppliedMm, double[] RunoffMm) ByStep(Zone zone, ZoneDays days, IReadOnlyList<Opening> openings, Func<long, int> stepOf)
    {
        double[] applied = new double[days.Steps];
        double[] runoff = new double[days.Steps];
        foreach (Cycle cycle in Cycle.Of(openings.Where(o => ReferenceEquals(o.Zone, zone)).OrderBy(o => o.OpensUnix), new PondingGround(zone)))
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
    private static Func<long, int> ByDate(DateTimeZone zone, Climate climate) =>
        unix => climate.DayOf(Instant.FromUnixTimeSeconds(unix).InZone(zone).Date);

    /// <summary>The hour of a climate by standard time, as the sun goes.</summary>
    private static Func<long, int> ByHour(double clockHours, Climate climate)
    {
        long first = climate.First.AtMidnight().InUtc().ToInstant().ToUnixTimeSeconds() - (long)(clockHours * 3600);
        return unix => (int)Math.Floor((unix - first) / 3600.0);
    }
}
