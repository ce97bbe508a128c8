using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Season;

/// <summary>One controller of a season: the percents its visits may leave, and its zones.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Percents">Rising; 0 stands for off and comes first.</param>
/// <param name="Zones">Its zones that last.</param>
internal sealed record SeasonController(SiteController Controller, int[] Percents, PlannedZone[] Zones);

/// <summary>A season as the search sees it.</summary>
/// <param name="Dates">Indexes of possible days, rising. The last one's setting holds over the new year until the first.</param>
/// <param name="Percents">By controller and visit, indexes of its percents.</param>
internal sealed record Schedule(int[] Dates, int[][] Percents)
{
    public Schedule With(int controller, int[] percents) =>
        this with { Percents = [.. Percents.Select((p, c) => c == controller ? percents : p)] };
}

/// <summary>A season's whole problem as numbers: controllers, years and possible days.</summary>
internal sealed class SeasonProblem
{
    private const int Full = 100;
    private const int RoundPercents = 5;

    private SeasonProblem(
        Site site, Plan plan, SeasonOptions options, VisitDays days, SeasonController[] controllers, IReadOnlyList<Climate> years)
    {
        (Site, Plan, Options, Days, Controllers, YearCount) = (site, plan, options, days, controllers, years.Count);
        DayIndex = [.. years.Select(y => IndexesOf(days, y))];
    }

    public Site Site { get; }

    /// <summary>The programs; the visits that it carries do not matter.</summary>
    public Plan Plan { get; }

    public SeasonOptions Options { get; }

    public VisitDays Days { get; }

    public SeasonController[] Controllers { get; }

    public int YearCount { get; }

    /// <summary>Area of all zones.</summary>
    public double AreaM2 => Controllers.Sum(c => c.Zones.Sum(z => z.Zone.AreaM2));

    /// <summary>Use that the zones want in a mean year, L.</summary>
    public double DemandLitres => Controllers.Sum(c => c.Zones.Sum(z => z.Zone.AreaM2 * z.Years.Average(y => y.DemandMm)));

    /// <summary>By year: the day of the year's record on which each possible day lies.</summary>
    public int[][] DayIndex { get; }

    /// <exception cref="ArgumentException">The years do not begin where the hemisphere's years begin, or are not whole.</exception>
    public static SeasonProblem Of(
        Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only, YearsOfZones known)
    {
        if (years.Count == 0)
        {
            throw new ArgumentException("A season needs at least one year of weather.");
        }

        VisitDays days = VisitDays.Of(options, site.Place.LatitudeDeg < 0);
        foreach (Climate year in years)
        {
            if (year.First.Month != days.YearBegins.Month || year.First.Day != 1 || year.Days is < 365 or > 366)
            {
                throw new ArgumentException(
                    $"A year of record runs {year.First:uuuu-MM-dd} to {year.Last:uuuu-MM-dd}; a whole year from 1 {days.YearBegins:MMMM} is needed.");
            }
        }

        double weight = options.Goal is Goal.Weigh weigh ? weigh.Weight : site.UnmetUseWeight;
        SeasonController[] controllers =
        [
            .. site.Controllers.Where(c => only is null || only.Contains(c.Name)).Select(c =>
            {
                PlannedZone[] zones = [.. c.Zones.Where(z => z.Lasts)
                    .Select(z => new PlannedZone(z, c.Profile, [plan.For(c.Name).Settings.Programs], known.Of(z), weight))];
                return new SeasonController(c, PercentsOf(c, zones), zones);
            }),
        ];
        return new SeasonProblem(site, plan, options, days, controllers, years);
    }

    /// <summary>Whether a percent (by index, 0 is off) may be set at a visit on a possible day: at the winter shutdown only off.</summary>
    public bool Allows(int day, int percent) => percent == 0 || day != Days.ShutdownIndex;

    /// <summary>The percent of each controller, visit by visit.</summary>
    public ListOf<ControllerSeason> PercentsOf(Schedule schedule) =>
        Controllers.Select((c, i) =>
            new ControllerSeason(c.Controller.Name, schedule.Percents[i].Select(p => c.Percents[p]).ToListOf())).ToListOf();

    /// <summary>Off, 100 %, and every percent of the profile below at which each zone still gets a useful depth from a run that is long
    /// enough.</summary>
    private static int[] PercentsOf(SiteController controller, PlannedZone[] zones)
    {
        bool Serves(int percent) => zones.All(z => z.RunSeconds() == 0 || UsefulDepth.Serves(z.Zone, z.DepthMm(percent), z.Cycles())
            || (!UsefulDepth.Serves(z.Zone, z.DepthMm(Full), z.Cycles()) && percent >= Full / 2));
        int[] settings = [.. controller.Profile.Percent.Settings().Where(p => p is > 0 and < Full)];

        // Percents that are easy to read and to key, where the profile takes them.
        int[] round = [.. settings.Where(p => p % RoundPercents == 0)];
        return [0, .. (round.Length > 0 ? round : settings).Where(Serves).Append(Full).Distinct().Order()];
    }

    private static int[] IndexesOf(VisitDays days, Climate year)
    {
        int[] indexes = new int[days.Count];
        for (int i = 0; i < indexes.Length; i++)
        {
            LocalDate date = days.YearBegins.PlusDays(days.Offsets[i]);
            AnnualDate annual = new(date.Month, date.Day);
            indexes[i] = year.DayOf(annual.InYear(year.First.Year + date.Year - days.YearBegins.Year));
        }

        return indexes;
    }
}

/// <summary>The years of record as each zone feels them, worked out once for a whole planning.</summary>
internal sealed class YearsOfZones(IReadOnlyList<Climate> years)
{
    private readonly System.Collections.Concurrent.ConcurrentDictionary<Zone, ZoneDays[]> known = new();

    public ZoneDays[] Of(Zone zone) => known.GetOrAdd(zone with { Station = 0 }, z => [.. years.Select(y => ZoneDays.Of(z, y))]);
}
