using System.Globalization;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Changes;

/// <summary>
/// What settings of a controller cost in a mean year by the measure of the season: water, weighed unmet use, and what zones lack of the use
/// they must have met.
/// </summary>
/// <remarks>Visits that set percents hold as they are; what a zone costs under the same waterings is worked out once.</remarks>
internal sealed class ChangeCosts
{
    private const int Full = 100;
    private const int StepsAtMost = 4096;

    private readonly Site site;
    private readonly Plan found;
    private readonly ZoneYears[][] zones;
    private readonly Dictionary<string, SeasonTotals> known = new(StringComparer.Ordinal);

    public ChangeCosts(Site site, Plan found, YearsOfZones years)
    {
        (this.site, this.found) = (site, found);
        zones = [.. site.Controllers
            .Select(c => c.Zones.Where(z => z.Lasts).Select(z => new ZoneYears(z, years.Of(z), site.UnmetUseWeight)).ToArray())];
    }

    /// <summary>All of a controller's zones.</summary>
    public SeasonTotals Of(int controller, Settings settings) =>
        zones[controller].Aggregate(default(SeasonTotals), (sum, z) => sum
            + Price(controller, z, [WateringsOf(controller, z.Zone, settings)])[0]);

    /// <summary>Works out what a station would cost under each of many settings that differ in its depths alone.</summary>
    public void Prepare(int controller, int station, IEnumerable<Settings> settings)
    {
        if (Array.Find(zones[controller], z => z.Zone.Station == station) is { } zone)
        {
            Price(controller, zone, [.. settings.Select(s => WateringsOf(controller, zone.Zone, s))]);
        }
    }

    /// <summary>Zones that get water in amounts not worth giving.</summary>
    public int Useless(int controller, Settings settings) => zones[controller].Count(z =>
        settings.Programs.Any(p => DepthMm(controller, z.Zone, p, settings.PercentAdjust) is > 0 and var depth
            && !UsefulDepth.Serves(z.Zone, depth, p.StartTimes.Count)));

    private double DepthMm(int controller, Zone zone, Program program, int percent)
    {
        int run = program.RunTimes.FirstOrDefault(r => r.Station == zone.Station).Seconds;
        return run == 0 ? 0 : (double)Emulator.PercentOf(run, percent,
            site.Controllers[controller].Profile.Rounding) * program.StartTimes.Count / 3600 * zone.Emission.PrecipitationRateMmPerHour;
    }

    /// <summary>The programs that water a zone; with visits at 100 %, as visits set the percent.</summary>
    private ZoneWaterings WateringsOf(int controller, Zone zone, Settings settings)
    {
        int percent = found.Controllers[controller].Visits.Count > 0 ? Full : settings.PercentAdjust;
        return new ZoneWaterings([.. settings.Programs
            .Where(p => p.Days is not (null or DaysOfWeek { Days.Count: 0 } or EveryNDays { Days: < 1 }))
            .Select(p => (Days: p.Days!, DepthMm: DepthMm(controller, zone, p, percent)))
            .Where(w => w.DepthMm > 0)]);
    }

    private SeasonTotals[] Price(int controller, ZoneYears zone, ZoneWaterings[] waterings)
    {
        string place = string.Create(CultureInfo.InvariantCulture, $"{controller}/{zone.Zone.Station}");
        string[] keys = [.. waterings.Select(w => place + w.Key)];
        int[] missing = [.. Enumerable.Range(0, keys.Length).Where(i => !known.ContainsKey(keys[i])).GroupBy(i => keys[i])
            .Select(g => g.First())];
        foreach (IGrouping<string, int> alike in missing.GroupBy(i => waterings[i].Rules))
        {
            int[] members = [.. alike];
            bool one = waterings[members[0]].Parts.Length == 1;
            if (one)
            {
                foreach (int[] chunk in members.Chunk(StepsAtMost))
                {
                    double[][] shares = SharesOf(controller, zone, waterings[chunk[0]], whole: true);
                    SeasonTotals[] totals = zone.Totals(shares, [.. chunk.Select(i => waterings[i].Parts[0].DepthMm)]);
                    for (int i = 0; i < chunk.Length; i++)
                    {
                        known[keys[chunk[i]]] = totals[i];
                    }
                }
            }
            else
            {
                foreach (int i in members)
                {
                    known[keys[i]] = zone.Totals(SharesOf(controller, zone, waterings[i], whole: false), [1])[0];
                }
            }
        }

        return [.. keys.Select(k => known[k])];
    }

    private double[][] SharesOf(int controller, ZoneYears zone, ZoneWaterings waterings, bool whole)
    {
        Profile profile = site.Controllers[controller].Profile;
        ControllerPlan own = found.Controllers[controller];
        return zone.Replay.SharesOf(date =>
        {
            double depth = waterings.Parts.Sum(p => p.Days.WatersOn(date, profile) ? whole ? 1 : p.DepthMm : 0);
            return depth == 0 || own.Visits.Count == 0 ? depth : depth * Spell.Of(own, date, date).First().Percent / Full;
        });
    }
}

/// <summary>The programs that water a zone: on which dates, and how much on each.</summary>
internal sealed record ZoneWaterings((DayRule Days, double DepthMm)[] Parts)
{
    /// <summary>The rules alone.</summary>
    public string Rules => Parts.Length == 1 ? RuleKey(Parts[0].Days) : Key;

    /// <summary>Tells waterings apart.</summary>
    public string Key { get; } = string
        .Concat(Parts.Select(p => string.Create(CultureInfo.InvariantCulture, $"|{RuleKey(p.Days)}:{p.DepthMm:R}")));

    private static string RuleKey(DayRule days) => days switch
    {
        DaysOfWeek week => "w" + string.Concat(week.Days.Order().Select(d => (int)d)),
        EveryNDays every => string.Create(CultureInfo.InvariantCulture,
            $"n{every.Days}from{Period.DaysBetween(new LocalDate(2000, 1, 1), every.Anchor) % every.Days}"),
        _ => days.Kind.ToString(),
    };
}

/// <summary>A zone with its years, ready to be replayed.</summary>
internal sealed class ZoneYears
{
    private readonly QualityGoal goal;
    private readonly double demandMm;
    private readonly double weight;

    public ZoneYears(Zone zone, ZoneDays[] years, double unmetUseWeight)
    {
        (Zone, Replay, goal, demandMm) = (zone, new CandidateReplay(zone, years), QualityGoal.Of(zone.Quality),
            years.Average(y => y.DemandMm));
        weight = unmetUseWeight * goal.WeightFactor;
    }

    public Zone Zone { get; }

    public CandidateReplay Replay { get; }

    /// <summary>Liters of a mean year for each gross depth of a whole share.</summary>
    public SeasonTotals[] Totals(double[][] shares, double[] depthsMm)
    {
        int years = Replay.Years;
        double[,] unmet = new double[years, depthsMm.Length];
        Replay.Run(shares, depthsMm, unmet);
        double waterings = Enumerable.Range(0, years).Average(y => shares[y].AsSpan(Replay.DaysOf(y).Lead).ToArray().Sum());
        double mostUnmet = SeasonTotals.MostUnmet(goal.LeastUseMet, demandMm);
        SeasonTotals[] totals = new SeasonTotals[depthsMm.Length];
        double[] unmetByYear = new double[years];
        for (int d = 0; d < depthsMm.Length; d++)
        {
            for (int y = 0; y < years; y++)
            {
                unmetByYear[y] = unmet[y, d];
            }

            totals[d] = SeasonTotals.Of(Zone.AreaM2, weight, mostUnmet, waterings * depthsMm[d], unmetByYear, prudence: 1);
        }

        return totals;
    }
}
